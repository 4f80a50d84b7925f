"""The MkDocs adapter, the only room that knows MkDocs: its events, what its settings must say, the virtual files, and a live preview."""
