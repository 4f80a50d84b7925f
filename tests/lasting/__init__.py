"""Whether the handbook outlives its packages: the site by the oldest that are allowed, and by the fork of its page generator."""
