"""What the code asks of wall bracing, one file a subject."""
