"""Decibels in words: how loud a change of level sounds."""

from __future__ import annotations

import math

DOUBLE = 10.0
"""What is louder by so much [dB] sounds twice as loud; ISO 532-1, above 40 phon, from memory."""
_WORDS = (
    (0.2, "about a fifth as loud"),
    (0.25, "about a quarter as loud"),
    (1 / 3, "about a third as loud"),
    (0.5, "about half as loud"),
    (2 / 3, "about two thirds as loud"),
    (0.8, "a little quieter"),
    (0.93, "hardly a difference"),
    (1.0, ""),
    (1.07, "hardly a difference"),
    (1.25, "a little louder"),
    (1.5, "about half as loud again"),
    (2.0, "about twice as loud"),
    (3.0, "about three times as loud"),
)
"""How loud it sounds against before, and the words for it; the nearest is taken."""


def ratio(change: float) -> float:
    """Return how loud it sounds against before, of a change in level [dB].

    >>> ratio(-10.0), ratio(20.0)
    (0.5, 4.0)
    """
    return float(2.0 ** (change / DOUBLE))


def loudness(change: float) -> str:
    """Return a change of level [dB] in words, as told in whole decibels; empty for none.

    >>> loudness(-9.3), loudness(-17.0), loudness(0.4), loudness(-30.0)
    ('about half as loud', 'about a third as loud', '', 'less than a fifth as loud')
    """
    sounds = ratio(round(change))
    if sounds < 0.17:
        return "less than a fifth as loud"
    if sounds > 3.6:
        return "more than three times as loud"
    return min(_WORDS, key=lambda row: abs(math.log(sounds / row[0])))[1]
