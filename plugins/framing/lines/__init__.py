"""Lines of what works take in framing, decks, loads and roof framing."""

from precheck_plugins.framing.lines import decks, loads, openings, roof_framing, spaces, stairs, walls

LINES = (openings, walls, spaces, stairs, decks, roof_framing, loads)
