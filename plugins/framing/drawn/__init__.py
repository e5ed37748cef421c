"""The members of a house as the engineering takes them: their loads, the way down, their wood, their design, their remedies."""
