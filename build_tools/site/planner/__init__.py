"""The coach's working pages: what stands on them without scripts, and the scripts and data that work them."""
