"""References: BibTeX records read, typed, and formatted in the style of the list."""
