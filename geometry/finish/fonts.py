"""Fonts of PDF drawings: the usual one, and others of this machine for letters that it lacks."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

USUAL = "DejaVu Sans"
"""The plotting library brings it along."""
BOXES = ("last resort", "fallback")
"""In the name of a font that has a box for every letter."""


def families(text: str) -> list[str]:
    """Return the families that a text is written with: the usual one, then those it lacks."""
    return [USUAL, *_needed(_exotic(text))[0]]


def lacking(text: str) -> str:
    """Return the letters of a text that no font of this machine has, each once."""
    return _needed(_exotic(text))[1]


def _exotic(text: str) -> str:
    return "".join(sorted({sign for sign in text if not sign.isascii() and sign.isprintable()}))


@cache
def _needed(letters: str) -> tuple[tuple[str, ...], str]:
    """Return families beside the usual one that have more of `letters`, and what is left."""
    left = frozenset(letters)
    if not left:
        return (), ""
    found: list[str] = []
    for family, path in _plain_fonts():
        more = left & _letters(path)
        if more and family != USUAL:
            found.append(family)
        left -= more
        if not left:
            break
    return tuple(found), "".join(sorted(left))


def _plain_fonts() -> Iterator[tuple[str, str]]:
    """Yield family and file of every upright font of usual weight, the usual one first."""
    from matplotlib.font_manager import FontProperties, findfont, fontManager

    yield USUAL, findfont(FontProperties(family=[USUAL]))
    for font in sorted(fontManager.ttflist, key=lambda each: (each.name, each.fname)):
        if any(word in font.name.casefold() for word in BOXES):
            continue
        if font.style == "normal" and font.weight in (400, "normal", "regular", "book"):
            yield font.name, font.fname


@cache
def _letters(path: str) -> frozenset[str]:
    """Return the letters that a font's file has; none where it cannot be read."""
    from matplotlib.ft2font import FT2Font

    try:
        return frozenset(map(chr, FT2Font(path).get_charmap()))
    except (OSError, RuntimeError):
        return frozenset()
