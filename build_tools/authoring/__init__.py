"""Help for authors: records from other programs' exports, and drafts of entries with what is still to be written marked ``TODO``."""

#: Stands where an author must still write; the check refuses it (rule ``draft-finished``).
TODO = "TODO"
