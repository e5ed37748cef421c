"""What is missing, asked so that a person can answer."""
