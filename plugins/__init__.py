"""The built-in plugins, one package a topic."""
