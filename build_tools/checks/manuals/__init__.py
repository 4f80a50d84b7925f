"""Rules explained: their manuals, read from docstrings or kept for what only the numbers show."""
