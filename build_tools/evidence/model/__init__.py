"""How samples become one answer, however few they are."""
