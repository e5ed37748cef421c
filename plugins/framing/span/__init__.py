"""The command ``precheck span``."""
