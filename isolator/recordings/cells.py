"""What one cell of a text file is: a number, a date, a time of day, nothing, or words."""

from __future__ import annotations

import re

NUMBER, DATE, CLOCK, EMPTY, WORDS = "number", "date", "clock", "empty", "words"
_NUMBER = re.compile(r"[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?")
_DATE = re.compile(r"\d{4}-\d\d-\d\d(?:[T ]\d\d:\d\d:\d\d(?:[.,]\d+)?(?:Z|[+-]\d\d:?\d\d)?)?")
_CLOCK = re.compile(r"\d{1,2}:\d\d:\d\d(?:[.,]\d+)?")
_NOTHING = {"", "nan", "null", "none", "na", "n/a", "-"}


def kind_of(cell: str, comma: bool) -> str:
    """Return what `cell` is; `comma` says how decimals are written.

    >>> [kind_of(cell, comma=False) for cell in ("-1.5e3", "2026-03-07T10:11:12.5Z", "0,5")]
    ['number', 'date', 'words']
    """
    if _NUMBER.fullmatch(cell.replace(",", ".") if comma else cell):
        return NUMBER
    if _DATE.fullmatch(cell):
        return DATE
    if _CLOCK.fullmatch(cell):
        return CLOCK
    return EMPTY if cell.casefold() in _NOTHING else WORDS
