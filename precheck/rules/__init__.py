"""A requirement in Python, and the plugins that offer it."""
