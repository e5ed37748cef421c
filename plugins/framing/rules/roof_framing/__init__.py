"""What the code asks of the frame of a roof."""
