"""One rule a module. The docstring of each is its manual, and its examples run as tests."""
