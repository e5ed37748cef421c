"""Permits: what needs one, which ones the work at hand takes, and what follows once one is issued."""
