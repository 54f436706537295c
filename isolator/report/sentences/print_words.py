"""Whether prints get worse, in words and numbers."""

from __future__ import annotations

from isolator.design.phrases import millimetres
from isolator.vibration.results import Evaluation

SEEN = (0.02e-3, 0.05e-3)
"""From which to which step a ripple shows on a wall [m]; convention, no source."""


def _verdict(shows: float) -> str:
    """Return what a ripple [m] does to a print."""
    low, high = SEEN
    if shows < low:
        return "prints do not get worse"
    return "a keen eye may see it" if shows < high else "it may show on walls"


def shows_words(found: Evaluation) -> str:
    """Return what of the sway shows in a print, in one clause; empty without belts."""
    prints = found.prints
    if prints is None:
        return ""
    least = 0.005e-3
    told = "less than 0.01 mm" if prints.shows < least else millimetres(prints.shows, 2)
    return f"between nozzle and print {told} is left: {_verdict(prints.shows)}"


def print_words(found: Evaluation) -> list[str]:
    """Return what of the sway shows in a print, and what would lessen it; nothing without belts."""
    prints = found.prints
    if prints is None:
        return []
    low, high = SEEN
    shown, _, verdict = shows_words(found).partition(": ")
    told = (
        f"{shown[:1].upper()}{shown[1:]}, as belts give when the frame sways at "
        f"{prints.frequency:.0f} Hz. Ripples show on a wall from {low * 1e3:g} to {high * 1e3:g} "
        f"mm (convention): {verdict}."
    )
    less = (
        f"A fifth less acceleration leaves {millimetres(prints.less_acceleration, 2)} of sway, a "
        f"fifth less speed {millimetres(prints.slower, 2)}, feet a quarter stiffer "
        f"{millimetres(prints.stiffer, 2)}."
    )
    return [told, less]
