"""How a change in what is heard is told: in whole dB(A), louder or quieter, with its band."""

from __future__ import annotations

import math
from collections.abc import Sequence

from isolator.design.phrases import speed_text
from isolator.report.sentences.desks import desk_words
from isolator.report.sentences.listed import listed
from isolator.vibration.band import Band
from isolator.vibration.heard import UNCHANGED, holds_least
from isolator.vibration.results import Evaluation, Heard, Speed

UNIT = "dB(A)"
SAME = "about the same"
"""What is said of a change that rounds to nothing."""


def change(value: Band) -> str:
    """Return how much louder or quieter, nominal and band.

    >>> change(Band(low=-10.2, nominal=-7.1, high=-3.8))
    '7 dB(A) quieter (4 to 10)'
    >>> change(Band(low=-4.0, nominal=0.2, high=2.0))
    'about the same (4 dB(A) quieter to 2 louder)'
    >>> change(Band(low=-4.0, nominal=-2.0, high=1.0))
    '2 dB(A) quieter (4 quieter to 1 louder)'
    """
    lead, ends = change_parts(value)
    return f"{lead} ({ends})" if ends else lead


def change_parts(value: Band) -> tuple[str, str]:
    """Return the same in its two parts: nominal, and the ends of the band ("" without a width).

    >>> change_parts(Band(low=-10.2, nominal=-7.1, high=-3.8))
    ('7 dB(A) quieter', '4 to 10')
    """
    low, mid, high = (round(each) for each in (value.low, value.nominal, value.high))
    lead = SAME if mid == 0 else f"{abs(mid)} {UNIT} {_side(mid)}"
    if low == mid == high:
        return lead, ""
    if mid and low * high >= 0:
        near, far = sorted((abs(low), abs(high)))
        return lead, f"{near} to {far}"
    return lead, f"{_end(low, UNIT if mid == 0 else '')} to {_end(high, '')}"


def range_words(changes: Sequence[Band]) -> str:
    """Return the nominal changes at several speeds, from the least to the most.

    >>> most, least = (Band(low=n - 2.0, nominal=n, high=n + 2.0) for n in (-7.2, -4.4))
    >>> range_words([most, least]), range_words([least])
    ('4 to 7 dB(A) quieter', '4 dB(A) quieter')
    """
    ends = sorted(round(each.nominal) for each in changes)
    low, high = ends[0], ends[-1]
    if low == high == 0:
        return SAME
    if low < 0 < high:
        return f"{-low} {UNIT} quieter to {high} louder"
    near, far = sorted((abs(low), abs(high)))
    span = f"{near}" if near == far else f"{near} to {far}"
    return f"{span} {UNIT} {_side(low if low < 0 else high)}"


def _side(value: float) -> str:
    return "quieter" if value < 0 else "louder"


def _end(value: int, unit: str) -> str:
    amount = f"{abs(value)} {unit}" if unit else f"{abs(value)}"
    return "the same" if value == 0 else f"{amount} {_side(value)}"


def cell(speed: Speed) -> str:
    """Return the change at one speed for a table, a dash where nothing drives a belt."""
    return "–" if speed.heard is None else change(speed.heard.desk)


def where_words(found: Evaluation) -> str:
    """Return on what and against what it is told: "on your mdf desk, against rubber bumpers"."""
    on = f"on {desk_words(found.desk)}" if found.desk else "on a hard floor"
    return f"{on}, against {found.baseline}"


def alone_words(found: Evaluation) -> str:
    """Return why nothing is told of louder or quieter; empty where it is."""
    return "" if found.baseline else "these are the feet there now: nothing to compare with"


def short_where(found: Evaluation) -> str:
    """Return the same without the sizes of what it is told against."""
    return ", ".join(where_words(found).split(", ")[:2])


def gain_words(found: Evaluation) -> list[str]:
    """Tell how it is heard at every speed asked about, and what feet leave as it is."""
    alone = alone_words(found)
    if alone:
        return [f"{alone[:1].upper()}{alone[1:]}."]
    told = [(speed, cell(speed)) for speed in found.speeds if speed.heard is not None]
    if not told:
        return []
    alike = {words for _, words in told}
    if len(alike) == 1 and len(told) > 1:
        each = f"{alike.pop()} at {listed([speed_text(speed.speed) for speed, _ in told])}"
    else:
        each = "; ".join(f"{speed_text(speed.speed)}: {words}" for speed, words in told)
    return [f"Heard {where_words(found)}: {each}.", _frame_words(found)]


def damped(found: Evaluation) -> bool:
    """Return whether motors stand on dampers: less goes straight into the frame than before."""
    return any(each.heard is not None and each.heard.frame != UNCHANGED for each in found.speeds)


def _frame_words(found: Evaluation) -> str:
    """Return what the motors send straight into the frame: as before, or less on dampers."""
    told = [
        f"{speed_text(speed.speed)}: {change(speed.heard.frame)}"
        for speed in found.speeds
        if speed.heard is not None and speed.heard.frame != UNCHANGED
    ]
    if not told:
        return (
            "What the motors send straight into the frame stays as it is, so the whole lies "
            "between no change and that."
        )
    return (
        f"Straight into the frame, on the dampers: {'; '.join(told)}. The whole lies between the "
        "two ways."
    )


def works_words(found: Evaluation) -> str:
    """Return from which speed on it is quieter by what is asked.

    Empty where nothing is heard, or where the fastest speed falls short: slower ones may not.
    """
    if found.heard_over is None or found.works_from is None:
        return ""
    if found.works_from <= float(found.heard_over.speed[0]):
        return "at every speed"
    return f"from {speed_text(found.works_from)} on"


def works_sentence(found: Evaluation, least: float) -> str:
    """Return the same as a sentence; `least` [dB(A)] is what is asked."""
    if found.heard_over is None:
        return ""
    by = "Quieter than before" if round(least) == 0 else f"At least {least:.0f} {UNIT} quieter"
    if found.works_from is None:
        return f"Not {by[0].lower()}{by[1:]} at the fastest speed looked at, over the whole band."
    return f"{by} {works_words(found)}, over the whole band."


def louder_at(found: Evaluation, least: float) -> list[str]:
    """Return the speeds asked about at which it is not quieter by `least` [dB(A)]."""
    told = [speed for speed in found.speeds if speed.heard is not None]
    short = [each for each in told if not holds_least(_loud(each.heard), least)]
    return [speed_text(each.speed) for each in short]


def _loud(heard: Heard | None) -> float:
    return -math.inf if heard is None else heard.desk.high
