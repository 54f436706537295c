"""Sizes of paper that templates and drawings are laid out on [m]."""

from __future__ import annotations

PAPERS = {"a4": (0.210, 0.297), "letter": (0.2159, 0.2794)}
"""Width and height, upright: ISO 216, and 8½ by 11 inches."""
