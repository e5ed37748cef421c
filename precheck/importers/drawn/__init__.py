"""Drawn plans: rooms, doors and windows recognized from lines, arcs and texts, whatever the file they are drawn in.

A reader of a form fills a `DrawnSheet` (`sheet.py`); everything after that knows nothing of the form.
"""
