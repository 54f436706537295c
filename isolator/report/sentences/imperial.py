"""Inches, pounds and their like beside metric figures, in square brackets as drawings have them."""

from __future__ import annotations

import math
import re

_UNITS: dict[str, tuple[float, str]] = {
    "mm/s": (1 / 25.4, "in/s"),
    "mm": (1 / 25.4, "in"),
    "m": (1 / 0.3048, "ft"),
    "kg": (1 / 0.45359237, "lb"),
    "g": (1 / 28.349523125, "oz"),
    "N": (1 / 4.4482216152605, "lbf"),
}
"""What a metric unit counts in the other; exact by definition (inch, pound, standard gravity)."""
_BLANK = "[ \u00a0]"
_NUMBER = rf"\d+(?:{_BLANK}\d{{3}})*(?:\.\d+)?"
_SIDES, _LIST = " × | x | to ", ", | and "
_FIGURE = re.compile(
    "|".join(
        rf"(?<![\w.])({_NUMBER}(?:(?:{between}){_NUMBER})*){_BLANK}({units})(?![\w/²³·^*])"
        # speeds alone are told as lists; elsewhere the number before a comma is of something else
        for between, units in ((f"{_SIDES}|{_LIST}", "mm/s"), (_SIDES, "|".join(_UNITS)))
    )
)
LEAST_DIGITS = 2


def with_imperial(text: str) -> str:
    """Return text with the other unit behind every metric figure.

    >>> with_imperial("sway 0.45 mm, pads 22 × 33 × 12 mm")
    'sway 0.45 mm [0.018 in], pads 22 × 33 × 12 mm [0.87 × 1.3 × 0.47 in]'
    >>> with_imperial("60, 150 mm/s, 11.8 kg, screw M3 × 12 mm")
    '60, 150 mm/s [2.4, 5.9 in/s], 11.8 kg [26.0 lb], screw M3 × 12 mm [0.47 in]'
    >>> with_imperial("rubber, Shore 00 50, 12 mm; of 0.3 mm: 6, 1 mm: 13")
    'rubber, Shore 00 50, 12 mm [0.47 in]; of 0.3 mm [0.012 in]: 6, 1 mm [0.039 in]: 13'
    >>> with_imperial("5 mm/m, 30 kg/m³, 3.1 N/mm")
    '5 mm/m, 30 kg/m³, 3.1 N/mm'
    """
    return _FIGURE.sub(_beside, text)


def _beside(found: re.Match[str]) -> str:
    figures, metric = (part for part in found.groups() if part is not None)
    factor, unit = _UNITS[metric]
    other = re.sub(_NUMBER, lambda number: _converted(number[0], factor), figures)
    return f"{found[0]} [{other} {unit}]"


def _converted(typed: str, factor: float) -> str:
    """Return a number in the other unit, to as many digits as it has, two at least."""
    value = float(re.sub(_BLANK, "", typed)) * factor
    if value == 0:
        return "0"
    digits = max(len(re.sub(rf"\.|{_BLANK}", "", typed).strip("0")), LEAST_DIGITS)
    places = min(digits, 3) - 1 - math.floor(math.log10(value))
    return f"{round(value, places):.{max(places, 0)}f}"
