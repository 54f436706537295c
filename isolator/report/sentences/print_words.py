"""Whether prints get worse, in words and numbers."""

from __future__ import annotations

from isolator.design.phrases import millimetres
from isolator.vibration.results import Evaluation

SEEN = (0.02e-3, 0.05e-3)
"""From which to which step a ripple shows on a wall [m]; convention, no source."""


def print_words(found: Evaluation) -> list[str]:
    """Return what of the sway shows in a print, and what would lessen it; nothing without belts."""
    prints = found.prints
    if prints is None:
        return []
    low, high = SEEN
    if prints.shows < low:
        verdict = "prints do not get worse"
    elif prints.shows < high:
        verdict = "a keen eye may see it"
    else:
        verdict = "it may show on walls"
    told = (
        f"About {millimetres(prints.shows, 3)} of that shows between tool and bed, as belts give "
        f"when the frame sways at {prints.frequency:.0f} Hz; ripples show on a wall from "
        f"{low * 1e3:g} to {high * 1e3:g} mm (convention): {verdict}."
    )
    less = (
        f"A fifth less acceleration: {millimetres(prints.less_acceleration, 2)} of sway; a fifth "
        f"slower: {millimetres(prints.slower, 2)}; feet a quarter stiffer: "
        f"{millimetres(prints.stiffer, 2)}."
    )
    return [told, less]
