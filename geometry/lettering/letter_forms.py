"""Letters as strokes of one width: their centre lines on a grid.

Six steps high, round corners cut off at one step. Every line is a chain of points "x,y"; lines that
meet share a point, or one ends on the other.
"""

from __future__ import annotations

import re
import unicodedata

Polyline = tuple[tuple[float, float], ...]

HIGH = 6.0
"""Height of every letter's centre lines in steps."""
SPACE = 3.2
"""Width of a space in steps."""

_FORMS = {
    "A": "0,0 0,4.4 1.2,6 2.8,6 4,4.4 4,0|0,2 4,2",
    "B": "0,0 0,6 3,6 4,5 4,4 3,3 0,3|3,3 4,2 4,1 3,0 0,0",
    "C": "3.8,6 1,6 0,5 0,1 1,0 3.8,0",
    "D": "0,0 0,6 3,6 4,5 4,1 3,0 0,0",
    "E": "3.8,6 0,6 0,0 3.8,0|0,3 3.2,3",
    "F": "3.8,6 0,6 0,0|0,3 3.2,3",
    "G": "3.8,6 1,6 0,5 0,1 1,0 3,0 4,1 4,3 2.9,3",
    "H": "0,0 0,6|4,0 4,6|0,3 4,3",
    "I": "0,0 0,6",
    "J": "3.4,6 3.4,1 2.4,0 1,0 0,1 0,1.4",
    "K": "0,0 0,6|4,6 0,3 4,0",
    "L": "0,6 0,0 3.6,0",
    "M": "0,0 0,6 3.3,2.2 6.6,6 6.6,0",
    "N": "0,0 0,6 4.6,0 4.6,6",
    "O": "1,0 3.4,0 4.4,1 4.4,5 3.4,6 1,6 0,5 0,1 1,0",
    "P": "0,0 0,6 3,6 4,5 4,3.7 3,2.7 0,2.7",
    "Q": "1,1.2 3.4,1.2 4.4,2.2 4.4,5 3.4,6 1,6 0,5 0,2.2 1,1.2|2.9,1.2 2.9,0",
    "R": "0,0 0,6 3,6 4,5 4,4 3,3 0,3|3,3 4,0",
    "S": "3.8,6 1,6 0,5 0,4 1,3 3,3 4,2 4,1 3,0 .2,0",
    "T": "0,6 4.2,6|2.1,6 2.1,0",
    "U": "0,6 0,1 1,0 3,0 4,1 4,6",
    "V": "0,6 2.2,0 4.4,6",
    "W": "0,6 0,0 3.3,3.8 6.6,0 6.6,6",
    "X": "0,0 2.1,3 4.2,6|0,6 2.1,3 4.2,0",
    "Y": "0,6 2.1,3 4.2,6|2.1,3 2.1,0",
    "Z": "0,6 4,6 0,0 4,0",
    "0": "1,0 2.6,0 3.6,1 3.6,5 2.6,6 1,6 0,5 0,1 1,0",
    "1": "0,4.2 2.2,6 2.2,0",
    "2": ".2,6 3,6 4,5 4,4 0,0 4,0",
    "3": "0,6 3,6 4,5 4,4 3,3 4,2 4,1 3,0 0,0|1,3 3,3",
    "4": "0,6 0,2 4.2,2|3.2,4 3.2,2 3.2,0",
    "5": "3.8,6 0,6 0,3.4 3,3.4 4,2.4 4,1 3,0 .2,0",
    "6": "3.6,6 1,6 0,5 0,1 1,0 3,0 4,1 4,2.4 3,3.4 0,3.4",
    "7": "0,6 4,6 1.4,0",
    "8": "1,3 0,4 0,5 1,6 3,6 4,5 4,4 3,3 4,2 4,1 3,0 1,0 0,1 0,2 1,3 3,3",
    "9": ".4,0 3,0 4,1 4,5 3,6 1,6 0,5 0,3.6 1,2.6 4,2.6",
    "-": "0,3 2,3",
    "+": "0,3 1.6,3 3.2,3|1.6,1.2 1.6,3 1.6,4.8",
    "/": "0,0 2.6,6",
    "×": "0,1.2 1.6,3 3.2,4.8|0,4.8 1.6,3 3.2,1.2",
    ".": "0,0 0,.1",
}


def engravable(text: str) -> str:
    """Return a text in the letters there are: upper case, marks left off, the rest as spaces.

    An x between two numbers is a sign of multiplication.

    >>> engravable("Füße, 31 x 46 mm")
    'FUSSE 31 × 46 MM'
    """
    text = re.sub(r"(?<=\d)(\s*)[xX](\s*)(?=\d)", r"\1×\2", text)
    text = re.sub("[‐‑‒–—−]", "-", text)
    plain = unicodedata.normalize("NFD", text.upper())
    plain = "".join(sign for sign in plain if not unicodedata.combining(sign))
    return " ".join("".join(sign if sign in _FORMS else " " for sign in plain).split())


def centre_lines(letter: str) -> tuple[Polyline, ...]:
    """Return the centre lines of one letter in steps; a KeyError where there is no such letter."""
    return tuple(
        tuple((float(x), float(y)) for x, y in (point.split(",") for point in chain.split()))
        for chain in _FORMS[letter].split("|")
    )


def width(letter: str) -> float:
    """Return the width of a letter's centre lines in steps."""
    return max(x for line in centre_lines(letter) for x, _ in line)
