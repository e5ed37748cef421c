"""What the code asks of alarms, one file a subject."""
