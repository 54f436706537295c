"""Draws the parts of a design; reads the design and nothing else of the project."""
