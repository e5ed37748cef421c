"""Lines of what works take in framing, decks, loads and roof framing."""

from precheck_plugins.framing.lines import decks, loads, openings, roof_framing, spaces, walls

LINES = (openings, walls, spaces, decks, roof_framing, loads)
