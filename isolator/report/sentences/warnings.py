"""Warnings that a command adds to those of the brief."""

from __future__ import annotations

MOVED = "they stand at other places than the brief says: design again"


def cannot_draw(error: Exception) -> str:
    """Return that the nearest feet are such as cannot be drawn."""
    return f"the nearest feet cannot be drawn: {error}"
