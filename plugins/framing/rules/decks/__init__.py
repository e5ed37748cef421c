"""What the code asks of decks where they meet the house, and of what they bring to it."""
