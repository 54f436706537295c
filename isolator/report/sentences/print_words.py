"""Whether prints get worse, in words and numbers."""

from __future__ import annotations

from isolator.design.phrases import millimetres
from isolator.vibration.results import Evaluation

SEEN = (0.02e-3, 0.05e-3)
"""From which to which step a ripple shows on a wall [m]; convention, no source."""


def as_told(shows: float) -> float:
    """Return a ripple [m] in whole hundredths of a millimetre: verdicts go by what is told."""
    return round(shows * 1e5) * 1e-5


def seen(shows: float) -> int:
    """Return whether a ripple [m] is not seen (0), barely (1) or plainly (2)."""
    return sum(as_told(shows) > limit - 1e-9 for limit in SEEN)


_VERDICTS = ("prints do not get worse", "a keen eye may see ripples", "walls may show ripples")


def print_verdict(found: Evaluation) -> str:
    """Return whether prints get worse, in one clause; empty without belts."""
    return "" if found.prints is None else _VERDICTS[seen(found.prints.shows)]


BOTH = "nozzle and print "


def shows_words(found: Evaluation) -> str:
    """Return what of the sway shows in a print, in one clause; empty without belts."""
    prints = found.prints
    if prints is None:
        return ""
    told = as_told(prints.shows)
    moved = millimetres(told, 2) if told else "less than 0.01 mm"
    return f"{BOTH}shift {moved} against each other"


def print_words(found: Evaluation) -> list[str]:
    """Return what of the sway shows in a print, and what would lessen it; nothing without belts."""
    prints = found.prints
    if prints is None:
        return []
    low, high = SEEN
    shown = shows_words(found)
    told = (
        f"{shown[:1].upper()}{shown[1:]}, as belts give when the frame sways at "
        f"{prints.frequency:.0f} Hz. Ripples begin to show on a wall at {low * 1e3:g} to "
        f"{high * 1e3:g} mm (convention): {print_verdict(found)}."
    )
    less = (
        f"A fifth less acceleration leaves {millimetres(prints.less_acceleration, 2)} of sway, a "
        f"fifth less speed {millimetres(prints.slower, 2)}, feet a quarter stiffer "
        f"{millimetres(prints.stiffer, 2)}."
    )
    return [told, less]
