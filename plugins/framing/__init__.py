"""Framing: spans, beams, headers, columns and ties, with their own engineering."""
