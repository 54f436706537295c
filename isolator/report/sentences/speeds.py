"""What is told of print speeds: verdicts, the tone that is cut least, speeds to avoid."""

from __future__ import annotations

import math
from collections.abc import Sequence

from isolator.report.sentences.desks import desk_words as desk_words
from isolator.report.sentences.heard_words import change
from isolator.report.sentences.numbers import number
from isolator.vibration.results import AvoidRange, Line, Speed

WORSE_DB = -1.0  # a tone is called worse from here on: below every mode all feet add a little
NEAR = 2e-3  # speeds to avoid that lie closer are told as one [m/s]

VERDICTS: dict[str, tuple[str, str]] = {
    "quiet": ("●", "quieter"),
    "neutral": ("■", "little change"),
    "amplified": ("▲", "louder"),
}


def reason(speed: Speed) -> str:
    """Return why a speed has its verdict."""
    line = speed.decided_by
    if line is None:
        return "no motor drives a belt"
    most = f"the {line.source} line at {number(line.frequency)} Hz is heard most"
    return most if speed.heard is None else f"{change(speed.heard.desk)}; {most}"


def direction(line: Line) -> str:
    """Return the direction that a line is told for.

    A motor's line is a mean over directions unless one was asked for; a fan has none.
    """
    if line.direction_deg is not None:
        return f"{line.direction_deg:.3g}°"
    return "–" if line.worst is None else "mean"


def worst_words(line: Line) -> str:
    """Return the direction in which a line is cut least, with the loss there; "–" for a fan."""
    worst = line.worst
    if worst is None:
        return "–"
    gain = worst.insertion_loss.nominal
    if round(gain) == 0:
        return f"no change at {worst.direction_deg:.0f}°"
    return f"{abs(gain):.0f} dB {'more' if gain < 0 else 'less'} at {worst.direction_deg:.0f}°"


def share_words(speed: Speed) -> str:
    """Return over which share of directions a judged tone is amplified; empty where it is none."""
    if speed.amplified_share <= 0.0:
        return ""
    return (
        f"in {share(speed.amplified_share)} of the directions of a move a drone tone is made worse"
    )


def share(value: float) -> str:
    """Return a share in per cent, never rounded to nothing or all.

    >>> share(0.0004), share(0.093), share(0.9999)
    ('under 1 %', '9 %', 'over 99 %')
    """
    if value < 0.01:
        return "under 1 %"
    return "over 99 %" if 0.99 < value < 1.0 else f"{100 * value:.0f} %"


def merged(avoid: Sequence[AvoidRange]) -> list[tuple[float, float, list[str]]]:
    """Return speeds to avoid [m/s] with overlapping ranges joined, and why, in order of speed."""
    joined: list[tuple[float, float, list[str]]] = []
    for one in sorted(avoid, key=lambda item: (item.low, item.high)):
        why = f"{one.source} meets {one.mode}"
        if joined and one.low <= joined[-1][1]:
            low, high, reasons = joined[-1]
            joined[-1] = (low, max(high, one.high), [*reasons, why])
        else:
            joined.append((one.low, one.high, [why]))
    return joined


def avoid_words(avoid: Sequence[AvoidRange]) -> list[str]:
    """Return the joined speeds to avoid as text, such as "22 to 34 mm/s".

    What lies less than 2 mm/s apart is told as one: nobody sets a speed between.
    """
    joined: list[tuple[float, float]] = []
    for low, high, _ in merged(avoid):
        if joined and low - joined[-1][1] < NEAR:
            low, high = joined[-1][0], max(high, joined.pop()[1])
        joined.append((low, high))
    return [span(low, high) for low, high in joined]


def spans(avoid: Sequence[AvoidRange]) -> str:
    """Return the joined speeds to avoid in one phrase, such as "5 to 13 and 30 to 31 mm/s"."""
    return " and ".join(avoid_words(avoid)).replace(f"{_UNIT} and", " and")


def span(low: float, high: float) -> str:
    """Return a range of speeds [m/s] in whole mm/s, rounded outwards.

    >>> span(0.0205, 0.0301), span(0.007, 0.007)
    ('20 to 31 mm/s', '7 mm/s')
    """
    first, last = math.floor(low * 1e3 + 1e-9), math.ceil(high * 1e3 - 1e-9)
    return f"{first}{_UNIT}" if first == last else f"{first} to {last}{_UNIT}"


_UNIT = " mm/s"
