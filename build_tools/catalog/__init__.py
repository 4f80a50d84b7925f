"""What was written: typed entries, YAML with line and column, bibliography."""
