"""The first screen of the report: is it quieter, do prints suffer, in few words."""

from __future__ import annotations

import math
from itertools import groupby

from isolator.report.findings import Findings
from isolator.report.sentences.listed import listed
from isolator.report.sentences.numbers import number, readable
from isolator.report.sentences.print_words import BOTH, print_verdict, seen, shows_words
from isolator.report.sentences.short_heard import FIRST_LAYERS, heard_words_of
from isolator.report.sentences.short_motors import ring_words
from isolator.report.sentences.speeds import merged, spans
from isolator.vibration.results import Evaluation, Mode, Speed

CALM = 0.1
"""A swing that is left with so much of its first height has died away; convention, no source."""


def heard_rows(found: Evaluation, most: int = 5) -> list[tuple[str, str, str]]:
    """Return speeds, how they are heard and their verdict; neighbours alike share a row.

    Of more than `most` rows the loudest stay, and one tells how many others there are.
    """
    groups = [
        list(alike) for _, alike in groupby(found.speeds, lambda s: (heard_words_of(s), s.verdict))
    ]
    loudest = sorted(range(len(groups)), key=lambda at: -_loud(groups[at][0]))
    kept = sorted(loudest[: most - 1] if len(groups) > most else loudest)
    rows = [
        (_named(groups[at]), heard_words_of(groups[at][0]), groups[at][0].verdict) for at in kept
    ]
    rest = len(found.speeds) - sum(len(groups[at]) for at in kept)
    if rest:
        rows.append((f"{rest} others", "quieter than these", "neutral"))
    return rows


def _loud(speed: Speed) -> float:
    return -math.inf if speed.heard is None else speed.heard.desk.nominal


def _named(alike: list[Speed]) -> str:
    values = [number(each.speed * 1e3) for each in alike]
    if len(values) > 3:
        return f"{len(values)} speeds from {values[0]} to {values[-1]} mm/s"
    head = ", ".join(values[:-1])
    return f"{head} and {values[-1]} mm/s" if head else f"{values[-1]} mm/s"


def avoid_sentence(found: Evaluation) -> str:
    """Return which speeds to avoid; empty where nothing is heard."""
    over = found.heard_over
    if over is None:
        return ""
    if not found.avoid:
        low, high = (number(float(speed) * 1e3) for speed in (over.speed[0], over.speed[-1]))
        return f"No speed to avoid: from {low} to {high} mm/s none is louder than before."
    first, last = FIRST_LAYERS
    near = any(low <= last and high >= first for low, high, _ in merged(found.avoid))
    layers = ", where first layers often are" if near else ""
    return f"Avoid {spans(found.avoid)}{layers}: may be louder than before."


def print_suffers(found: Evaluation) -> bool:
    """Return whether the sway may show on prints, or is over its limit."""
    shows = 0.0 if found.prints is None else found.prints.shows
    return seen(shows) > 1 or found.sway.worst > found.sway.limit


def print_heading(found: Evaluation) -> str:
    """Return whether prints get worse, as a heading."""
    if found.prints is None:
        return "Nothing moves on belts"
    told = print_verdict(found)
    over = "; more sway than you allow" if found.sway.worst > found.sway.limit else ""
    return f"{told[:1].upper()}{told[1:]}{over}"


def sway_sentence(found: Evaluation) -> str:
    """Return how far the frame sways, and what of that reaches the print."""
    sway = found.sway
    shows = shows_words(found).removeprefix(BOTH)
    return (
        f"At worst the printer sways {readable(sway.worst, 'm', 2)} at the tool's height (limit "
        f"{readable(sway.limit, 'm', 2)}). Nozzle and print sway together"
        f"{f' and {shows}' if shows else ''}."
    )


def ringing_sentence(found: Evaluation) -> str:
    """Return how the frame swings on after a push; empty where it has no mode."""
    modes = [mode for mode in found.modes if mode.frequency.nominal > 0]
    if not modes:
        return ""
    slowest = min(modes, key=lambda mode: mode.frequency.nominal)
    return (
        f"Pushed by hand it wobbles at {number(slowest.frequency.nominal, 2)} Hz and "
        f"{calm_words(slowest)}."
    )


def calm_words(mode: Mode) -> str:
    """Return after how long a mode has died away, rounded up to tenths of a second."""
    if mode.damping_ratio <= 0:
        return "goes on for long"
    # a viscous decay, ζ small: exp(−2πζft)
    rate = 2.0 * math.pi * mode.damping_ratio * mode.frequency.nominal
    return f"is calm again within {math.ceil(-10.0 * math.log(CALM) / rate) / 10.0:g} s"


def mount_sentences(findings: Findings) -> list[str]:
    """Return which motors get something under them."""
    told = []
    for kind, what in (("damper", "a rubber damper"), ("plate", "a plain plate")):
        motors = [motor for motor in findings.motors if motor.kind == kind]
        if motors:
            each = " each" if len(motors) > 1 else ""
            price = f" Price: {ring_words(motors)}." if kind == "damper" else ""
            names = listed([motor.name for motor in motors])
            told.append(f"Between motor and frame, {names}: {what}{each}.{price}")
    return told
