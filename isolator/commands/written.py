"""What this run has written so far: what is said of it when something goes wrong later."""

from __future__ import annotations

WRITTEN: list[str] = []
"""Folders and files that stand complete in their place."""
