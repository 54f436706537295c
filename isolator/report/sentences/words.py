"""Words of the trade that a report cannot do without, each explained where it first stands."""

from __future__ import annotations

from collections.abc import Mapping

MODE = (
    "A mode is a way in which the printer swings on its feet by itself once it is pushed, so many "
    "times a second: sideways (sway), up and down (bounce), turning (twist) or tilting (rocking). "
    "What shakes it slower than a mode passes the feet, near a mode it grows, well above it little "
    "gets through."
)
TRANSMISSIBILITY = (
    "Transmissibility (T) is the share of a push that gets through the feet to the desk, against "
    "feet bolted down. Above the line at 1 the feet make a tone worse, below it they keep it back: "
    "half gets through at −6 dB, a tenth at −20 dB. The rows below are the tones of each speed, "
    "for moves along an axis."
)
TONES = (
    "dB of vibration kept back, nominal and (low to high); a minus is a tone made worse. T is the "
    "transmissibility, the share that gets through. Hz are those of a move along an axis; "
    '"mean" is the mean energy over all directions of a move; the worst direction is counted from '
    "the x axis."
)
HARDNESS: Mapping[str, str] = {
    "Shore": "Shore is a scale of hardness: 00 for soft gels, A for tyres.",
    "IRHD": "IRHD tells how hard rubber is, much as Shore A does.",
}
WORDS: Mapping[str, str] = {
    "band": "where nine of ten printers like yours lie, as material, frame and weights differ",
    "mode": "a way in which the printer swings on its feet by itself once pushed",
    "transmissibility": "the share of a push that gets through the feet, against feet bolted down",
    "dB": "vibration against vibration: 6 dB less is half, 20 dB less a tenth",
    "dB(A)": "sound as the ear weighs it: 10 dB(A) less sounds about half as loud",
    "Shore, IRHD": "how hard rubber is; Shore 00 is the scale of soft gels, Shore A that of tyres",
    "damping ratio": "how soon a swing dies away: at 0.1 in four swings, at 0.3 in little over one",
    "drone": "tones that a motor makes once an electrical cycle or more often",
}
"""A short meaning of each word."""


def hardness(text: str) -> str:
    """Return what a scale of hardness in a text means; empty where it names none."""
    return next((meaning for scale, meaning in HARDNESS.items() if scale in text), "")
