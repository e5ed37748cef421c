"""What the code asks of foundations, one file a subject."""
