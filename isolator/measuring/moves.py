"""Test moves: strokes to and fro at stepped speeds along a few lines, with pauses that mark them.

Ramps are straight: each move speeds up and slows down at one acceleration and stops at its ends.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

from isolator.measuring.steps import GUARD, LEAST
from isolator.recordings.schedule import Schedule, Span, Step

DIRECTIONS = (0.0, 45.0, 90.0, 30.0)
"""Of the lines [°] from x: along both axes, the diagonal, and one on which no belt stands still and
no two run alike, whichever way they are laid."""
HOLD = 5.0
"""Constant speed of one step [s]: some 8 averages of a second each with Hann windows."""
SPARE = 1.25
"""For a clock that is off, and a place that is found a little beside."""
SHORTEST = SPARE * (2.0 * GUARD + LEAST)
"""Of a stroke's constant speed [s]: what is left out at its ends, and needed between."""
MARGIN = 0.015
"""Left free along every edge of the bed at least [m]; common practice, no source."""
LIFT = 0.010
"""Of the tool over the bed [m]."""
LIFT_SPEED = 0.005
TRAVEL = 0.040
"""Between steps [m/s]: slow, so that it cannot be taken for a step."""
JOG = 0.030
"""Length of a mark's strokes [m], where the bed is that long."""
MARK = (4.0, 0.8, 1.6, 3.0)
"""Pauses round the marks at the begin [s]; at the end turned round."""
MARKS = len(MARK) - 1
PAUSES = (1.0, 1.7, 1.2, 2.1, 1.4)
"""Pauses behind steps [s], in turn: no two neighbours alike, so that no shift looks the same."""
BETWEEN = 3.0
"""Pause before another direction [s]."""
GRID = 1e-6
"""Places are whole micrometres [m]: what the file says is what is timed."""


class Point(NamedTuple):
    """A place on the bed [m]."""

    x: float
    y: float


class Move(NamedTuple):
    """A straight move to a point at a speed [m/s]."""

    to: Point
    speed: float


class Pause(NamedTuple):
    """Nothing moves [s]."""

    seconds: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Bed:
    """Where the tool may go."""

    size: tuple[float, float]  # [m]
    zero: Point  # where the bed's front left corner lies [m]
    margin: float  # left free along every edge [m]

    @property
    def middle(self) -> Point:
        """Return the middle of the bed."""
        return Point(self.zero.x + self.size[0] / 2.0, self.zero.y + self.size[1] / 2.0)

    def longest(self, direction_deg: float) -> float:
        """Return the longest line through the middle in a direction [m], within the margins."""
        angle = math.radians(direction_deg)
        inner = [side - 2.0 * self.margin for side in self.size]
        shares = abs(math.cos(angle)), abs(math.sin(angle))
        return min(side / share for side, share in zip(inner, shares, strict=True) if share > 1e-9)


@dataclass(frozen=True, slots=True, kw_only=True)
class Moves:
    """All that the printer is told behind homing, and when it does it."""

    begin: Point  # where it goes before time begins
    commands: tuple[Move | Pause, ...]
    schedule: Schedule


def plan_moves(
    bed: Bed,
    acceleration: float,
    speeds: Sequence[float],
    directions: Sequence[float] = DIRECTIONS,
    hold: float = HOLD,
) -> Moves:
    """Return the test moves at `speeds` [m/s] along `directions` [°], constant for `hold` [s] each.

    Raises ValueError for a speed that `steady` leaves no stretch.
    """
    first = _line(bed, acceleration, speeds[0], directions[0], hold)
    track = _Track(first.ends[0], acceleration)
    for pause in MARK[:-1]:
        track.pause(pause)
        track.mark(bed, max(speeds), directions[0])
    track.pause(MARK[-1])
    count = 0
    for number, direction in enumerate(directions):
        if number:
            track.pause(BETWEEN)
        for speed in speeds:
            line = _line(bed, acceleration, speed, direction, hold)
            track.go(line.ends[0], TRAVEL)
            track.step(line, speed, direction)
            track.pause(PAUSES[count % len(PAUSES)])
            count += 1
    for pause in MARK[:0:-1]:
        track.pause(pause)
        track.mark(bed, max(speeds), directions[-1])
    track.pause(MARK[0])
    return Moves(begin=first.ends[0], commands=tuple(track.commands), schedule=track.schedule())


def steady(bed: Bed, acceleration: float, speed: float, direction_deg: float) -> float:
    """Return how long the longest stroke keeps its speed [s]; negative where it never gets there.

    >>> bed = Bed(size=(0.2, 0.2), zero=Point(0.0, 0.0), margin=0.02)
    >>> round(steady(bed, 2.5, 0.1, 0.0), 3)
    1.56
    """
    return (bed.longest(direction_deg) - speed**2 / acceleration) / speed


class _Line(NamedTuple):
    ends: tuple[Point, Point]
    strokes: int


def _line(bed: Bed, acceleration: float, speed: float, direction: float, hold: float) -> _Line:
    """Return the ends of a step's strokes, and how many there are: an even number."""
    room = steady(bed, acceleration, speed, direction)
    if room < SHORTEST:
        raise ValueError(f"{speed} m/s leaves {room} s of constant speed")
    strokes = 2 * max(1, math.ceil(hold / (2.0 * room) - 1e-9))
    # no shorter than what can be told apart, where the hold asked for is short
    each = min(max(hold / strokes, SHORTEST), room)
    half = (each * speed + speed**2 / acceleration) / 2.0
    angle = math.radians(direction)
    x, y = half * math.cos(angle), half * math.sin(angle)
    middle = bed.middle
    ends = (_whole(middle.x - x, middle.y - y), _whole(middle.x + x, middle.y + y))
    return _Line(ends, strokes)


def _whole(x: float, y: float) -> Point:
    return Point(round(x / GRID) * GRID, round(y / GRID) * GRID)


@dataclass(slots=True)
class _Track:
    """Moves made one after another, and the clock."""

    at: Point
    acceleration: float
    clock: float = 0.0
    commands: list[Move | Pause] = field(default_factory=list)
    steps: list[Step] = field(default_factory=list)
    pauses: list[Span] = field(default_factory=list)
    moves: list[Span] = field(default_factory=list)

    def pause(self, seconds: float) -> None:
        """Wait; behind another pause, that one becomes longer."""
        begin, long = self.clock, seconds
        if self.commands and isinstance(self.commands[-1], Pause):
            before = self.pauses.pop()
            begin, long = before.start, before.length + seconds
            self.commands.pop()
        self.commands.append(Pause(long))
        self.clock += seconds
        self.pauses.append(Span(start=begin, end=self.clock))

    def go(self, to: Point, speed: float) -> None:
        """Move from step to step."""
        if to != self.at:
            start = self.clock
            self._move(to, speed)
            self.moves.append(Span(start=start, end=self.clock))

    def mark(self, bed: Bed, speed: float, direction: float) -> None:
        """Go a short way to and fro, through the middle of a line, and come back."""
        angle, home, start = math.radians(direction), self.at, self.clock
        far = min(JOG, bed.longest(direction) / 2.0 + math.dist(home, bed.middle))
        away = _whole(home.x + far * math.cos(angle), home.y + far * math.sin(angle))
        for to in (away, home, away, home):
            self._move(to, speed)
        self.moves.append(Span(start=start, end=self.clock))

    def step(self, line: _Line, speed: float, direction: float) -> None:
        """Go to and fro along a line."""
        start, strokes = self.clock, []
        for number in range(line.strokes):
            begin = self.clock
            self._move(line.ends[1 - number % 2], speed)
            ramp = speed / self.acceleration
            strokes.append(Span(start=begin + ramp, end=self.clock - ramp))
        self.steps.append(
            Step(
                start=start,
                end=self.clock,
                speed=speed,
                direction_deg=direction,
                strokes=tuple(strokes),
            )
        )

    def _move(self, to: Point, speed: float) -> None:
        self.commands.append(Move(to, speed))
        self.clock += move_time(math.dist(self.at, to), speed, self.acceleration)
        self.at = to

    def schedule(self) -> Schedule:
        """Return what moved when."""
        return Schedule(
            steps=tuple(self.steps),
            pauses=tuple(self.pauses),
            moves=tuple(self.moves),
            length=self.clock,
        )


def move_time(length: float, speed: float, acceleration: float) -> float:
    """Return how long a move takes from rest to rest [s], with straight ramps.

    >>> move_time(0.1, 0.05, 2.5), round(move_time(0.0004, 0.05, 2.5), 6)
    (2.02, 0.025298)
    """
    if length < speed**2 / acceleration:
        return 2.0 * math.sqrt(length / acceleration)
    return length / speed + speed / acceleration
