"""Warnings that a command adds to those of the brief."""

from __future__ import annotations

from pathlib import Path

MOVED = "they stand at other places than the brief says: design again"


def checked(file: Path | None) -> str:
    """Return whose feet are checked: those of a design `file`, else the brief's last design."""
    return f"checked are the feet of {file or 'the last design of this brief'}"


def cannot_draw(error: Exception) -> str:
    """Return that the nearest feet are such as cannot be drawn."""
    return f"the nearest feet cannot be drawn: {error}"
