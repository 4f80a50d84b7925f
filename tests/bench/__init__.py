"""How fast the handbook is, as ratios measured in one run: ``make bench``."""
