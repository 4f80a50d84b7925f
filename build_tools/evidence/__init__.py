"""What the numbers say: contrasts as studies report them, and the sentences composed from them.

Nothing here knows of pages, YAML or MkDocs. ``conclude.conclude`` is the one
entry point for whatever renders.
"""
