"""What to do about it: from what the catalog says to numbers of a training plan."""
