"""Pages on the evidence as a whole: what is taught and tested, and what is not known."""
