"""What a client gets: cue sheets, handouts, kept pages, codes."""
