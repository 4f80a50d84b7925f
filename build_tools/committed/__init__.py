"""Files that the build writes and people review: conclusions and addresses."""
