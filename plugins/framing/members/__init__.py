"""A member of known size under known loads: what is asked of it over what it can take."""
