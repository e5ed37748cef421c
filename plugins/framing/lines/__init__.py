"""Lines of what works take in framing, decks, loads and roof framing."""
