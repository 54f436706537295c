"""What is told of test moves: the head of their file, what to do with them, what was left out."""

from __future__ import annotations

import math
import textwrap
from collections.abc import Sequence
from dataclasses import dataclass

from isolator.measuring.moves import HOLD, JOG, LIFT, MARKS, SHORTEST, TRAVEL, Bed
from isolator.reading.notes import Assumed
from isolator.recordings.schedule import Schedule
from isolator.report.sentences.listed import listed
from isolator.report.sentences.numbers import number, readable

WIDTH = 90
"""Letters of a line at the head of the file."""
SLOWER = "take slower speeds, or a brief with the true print.bed and motion.acceleration"


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """What is said of a set of test moves."""

    name: str  # of the printer
    layout: str
    acceleration: float  # [m/s²]
    bed: Bed
    middle: bool  # the bed's middle is X0 Y0, not its corner
    speeds: Sequence[float]  # [m/s]
    directions: Sequence[float]  # [°]
    schedule: Schedule
    left_out: Sequence[str] = ()


def head_lines(told: Told) -> list[str]:
    """Return what stands at the head of the file, for somebody who reads it before running it."""
    wide, deep = (number(1e3 * side) for side in told.bed.size)
    zero = "the middle" if told.middle else "the front left corner"
    moves = "The bed itself moves: clear the way before and behind it. "
    paragraphs = (
        f"Test moves for {told.name}: the tool goes to and fro over the empty bed, nothing else. "
        "Nothing is heated, nothing is extruded, no setting of the printer is changed.",
        "Before you run it: take prints and clips off the bed, run it cold, stay by the printer, "
        f"keep a hand near its switch. {moves if told.layout == 'moving-bed' else ''}"
        f"It homes first, then goes to Z {readable(LIFT, 'm')}. "
        "At the end it lets the motors go: an axis that does not hold by itself may sink.",
        f"It takes the bed for {wide} x {deep} mm with {zero} at X0 Y0, and keeps "
        f"{readable(told.bed.margin, 'm')} off its edges. If that is not your bed, do not run it: "
        "mend print.bed in the brief.",
        f"{len(told.schedule.steps)} steps: {_speeds(told.speeds)}, each along "
        f"{_degrees(told.directions)} from X towards Y; {minutes(told.schedule)} in all. Times "
        f"count on ramps of {number(1e3 * told.acceleration)} mm/s² up and down: set the printer "
        "to that acceleration, and no limit of speed below the fastest step. `isolator compare` "
        "finds how far its clock is off.",
        f"{_marks(told)[0].upper()}{_marks(told)[1:]}.",
        "Record from before the start to the end, the phone or sensor in one place, the room "
        "quiet, fans as they always are, automatic gain off if it can be.",
    )
    lines: list[str] = []
    for each in paragraphs:
        lines += ["", *textwrap.wrap(_ascii(each), WIDTH, break_long_words=False)]
    return lines[1:]


def told_lines(told: Told, files: Sequence[str]) -> list[str]:
    """Return what a terminal is told."""
    return [
        f"{len(told.schedule.steps)} steps, {_speeds(told.speeds)}, along "
        f"{_degrees(told.directions)}: {minutes(told.schedule)}, nothing heated",
        _marks(told),
        *(f"check: {line}" for line in told.left_out),
        "read the head of the file before you run it; stay by the printer",
        *files,
    ]


def _marks(told: Told) -> str:
    """Return how fast the moves go that are no steps."""
    fast, slow = number(1e3 * max(told.speeds)), number(1e3 * TRAVEL)
    return (
        f"besides: {MARKS} marks for the recording at either end, strokes of "
        f"{number(1e3 * JOG)} mm at up to {fast} mm/s; from step to step it goes at {slow} mm/s"
    )


def minutes(schedule: Schedule) -> str:
    """Return how long the moves take, homing aside."""
    whole = math.ceil(schedule.length / 60.0 - 1e-9)
    return f"{whole} minute{'' if whole == 1 else 's'}"


def too_fast(speed: float, direction: float, steady: float) -> tuple[str, str, str]:
    """Return what was found, what is wanted and how to mend it, of a speed the bed is too small
    for."""
    where = f"{readable(speed, 'm/s')} along {number(direction)}°"
    got = f"{where}, which the bed has no room to reach"
    if steady > 0.0:
        got = f"{where}, which the bed holds for {number(steady, 2)} s alone"
    return got, f"{number(SHORTEST, 2)} s of constant speed or more", SLOWER


def left_out(speed: float, direction: float, steady: float) -> str:
    """Return what is said of a speed of the brief that is not moved at."""
    got, wanted, _ = too_fast(speed, direction, steady)
    return f"left out: {got}; {wanted} is needed"


def assumed(each: Assumed) -> str:
    """Return what is said of a key that the moves rest on and that the brief is silent on."""
    return f"{each.key}: {each.value} is assumed; tell yours in the brief before you run the moves"


def seconds(hold: float) -> str:
    """Return a time of one step."""
    return f"{number(hold)} s"


def hold_advice() -> str:
    """Return how long a step is best held."""
    return f"{seconds(HOLD)} tell a change of a decibel"


def short_hold(hold: float) -> str:
    """Return what is said of steps shorter than usual."""
    return (
        f"steps of {number(hold)} s leave wide bands; {number(HOLD)} s or more tell a change of "
        "a decibel"
    )


def _speeds(speeds: Sequence[float]) -> str:
    told = [number(1e3 * speed) for speed in speeds]
    return f"{listed(told)} mm/s"


def _degrees(directions: Sequence[float]) -> str:
    return listed([f"{number(each)}°" for each in directions])


def _ascii(text: str) -> str:
    """Return a text that any printer's reader takes."""
    plain = text.replace("°", " deg").replace("²", "^2")
    return plain.encode("ascii", "replace").decode().replace("?", "_")
