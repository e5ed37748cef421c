"""Slabs on ground: what the code asks of them, and good practice."""
