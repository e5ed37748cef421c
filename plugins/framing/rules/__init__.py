"""What the code asks of framing, one file a subject."""
