"""What of structure is calculated, what is read in tables, and what is for the engineer: ``precheck calculated``."""
