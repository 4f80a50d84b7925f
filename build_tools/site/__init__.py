"""How it reads: page models, templates and two adapters (MkDocs plugin, folder of Markdown)."""
