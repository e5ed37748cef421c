"""The recipes that reproduce the printed span tables."""
