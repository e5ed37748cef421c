"""A run over one project, over many, or over the small ones of a case."""
