"""Help for authors: records from other programs' exports, drafts of entries, and what a machine can mend."""
