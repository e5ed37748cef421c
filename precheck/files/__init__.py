"""What people write: read, typed, and written back with its place; and what it does not say.

Nothing is gathered here, so that who wants to know what is missing does not load the reading of files.
"""
