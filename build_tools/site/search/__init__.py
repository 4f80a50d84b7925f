"""The search: what has a name and where it stands, the words of every page, and both as small files that a page asks for by word."""
