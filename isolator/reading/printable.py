"""Text that a terminal only shows."""

from __future__ import annotations


def printable(text: str) -> str:
    """Return `text` with every character that a terminal would act on replaced."""
    return "".join(sign if sign.isprintable() else "\N{REPLACEMENT CHARACTER}" for sign in text)
