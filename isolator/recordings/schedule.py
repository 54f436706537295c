"""The schedule of test moves: what moves when, by the file that is written beside them."""

from __future__ import annotations

import json
import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from pathlib import Path
from typing import Any

from isolator.reading.faults import Fault, InputError, refused
from isolator.reading.files import UnreadableError, read_file
from isolator.reading.notes import shown
from isolator.reading.printable import printable

LARGEST_FILE = 2_000_000
MOST_STEPS = 2000
LONGEST = 24 * 3600.0
"""Of test moves [s]: beyond it a time was mistyped."""
FASTEST = 10.0
WRITE_IT = "take the schedule.json that `isolator sweep` wrote"


@dataclass(frozen=True, slots=True, kw_only=True)
class Span:
    """From when to when [s]."""

    start: float
    end: float

    @property
    def length(self) -> float:
        """Return how long it lasts [s]."""
        return self.end - self.start


@dataclass(frozen=True, slots=True, kw_only=True)
class Step(Span):
    """Strokes to and fro at one speed along one line."""

    speed: float  # [m/s]
    direction_deg: float  # from x towards y
    strokes: tuple[Span, ...]  # their stretches of constant speed, to and fro in turn


@dataclass(frozen=True, slots=True, kw_only=True)
class Schedule:
    """What moves when [s], from the first pause behind homing on."""

    steps: tuple[Step, ...]
    pauses: tuple[Span, ...]  # nothing moves
    moves: tuple[Span, ...] = field(default=())  # marks, and ways from step to step
    length: float = 0.0


def read_schedule(path: Path) -> Schedule:
    """Return the schedule in a JSON file.

    Steps are all that has to be told. Where no strokes are, a step is one; where no pauses are,
    they are what lies between steps. Raises InputError with every fault.
    """
    file = printable(str(path))
    try:
        told = json.loads(read_file(path, LARGEST_FILE))
    except UnreadableError as error:
        raise refused(file, "", error.got, "a schedule", WRITE_IT) from None
    except (ValueError, RecursionError):
        raise refused(file, "", "what is no JSON", "a schedule", WRITE_IT) from None
    steps = told.get("steps") if isinstance(told, dict) else None
    if not isinstance(steps, list) or not steps:
        raise refused(file, "steps", "none", "a list of steps", WRITE_IT)
    if len(steps) > MOST_STEPS:
        most = f"at most {MOST_STEPS}"
        raise refused(file, "steps", f"{len(steps)} of them", most, WRITE_IT)
    reader = _Reader(file)
    read = tuple(reader.step(f"steps[{n}]", each) for n, each in enumerate(steps, 1))
    pauses = reader.spans("pauses", told.get("pauses"))
    moves = reader.spans("moves", told.get("moves"))
    reader.in_order("steps", read)
    reader.in_order("pauses", pauses)
    if reader.faults:
        raise InputError(reader.faults)
    pauses = pauses or tuple(
        Span(start=one.end, end=other.start)
        for one, other in pairwise(read)
        if other.start > one.end
    )
    ends = [each.end for each in (*read, *pauses, *moves)]
    return Schedule(steps=read, pauses=pauses, moves=moves, length=max(ends))


class _Reader:
    """Reads spans and steps, and notes what is wrong with them."""

    def __init__(self, file: str) -> None:
        self.file = file
        self.faults: list[Fault] = []

    def fault(self, key: str, got: str, wanted: str, advice: str = WRITE_IT) -> None:
        self.faults.append(
            Fault(file=self.file, key=key, got=got, wanted=wanted, suggestion=advice)
        )

    def number(self, where: str, told: Any, key: str, low: float, high: float) -> float:
        value = told.get(key) if isinstance(told, dict) else None
        # true is a whole number to the language
        if isinstance(value, int | float) and not isinstance(value, bool) and low <= value <= high:
            return float(value)
        got = "nothing" if value is None else shown(value)
        self.fault(f"{where}.{key}", got, f"a number from {low:g} to {high:g}")
        return math.nan

    def span(self, where: str, told: Any) -> Span:
        start = self.number(where, told, "start_s", 0.0, LONGEST)
        end = self.number(where, told, "end_s", 0.0, LONGEST)
        if end <= start:
            got = f"an end at {end:g} s, the start at {start:g} s"
            self.fault(where, got, "an end behind its start")
        return Span(start=start, end=end)

    def spans(self, where: str, told: Any) -> tuple[Span, ...]:
        if told is None:
            return ()
        if not isinstance(told, list) or len(told) > 10 * MOST_STEPS:
            self.fault(where, shown(told), "a list of spans")
            return ()
        return tuple(self.span(f"{where}[{n}]", each) for n, each in enumerate(told, 1))

    def step(self, where: str, told: Any) -> Step:
        span = self.span(where, told)
        strokes = self.spans(f"{where}.strokes", told.get("strokes")) if span.length > 0.0 else ()
        for number, stroke in enumerate(strokes, 1):
            if stroke.start < span.start or stroke.end > span.end:
                self.fault(f"{where}.strokes[{number}]", "it outside its step", "strokes within")
        return Step(
            start=span.start,
            end=span.end,
            speed=self.number(where, told, "speed_m_per_s", 1e-6, FASTEST),
            direction_deg=self.number(where, told, "direction_deg", -360.0, 360.0),
            strokes=strokes or (span,),
        )

    def in_order(self, where: str, spans: Sequence[Span]) -> None:
        for number, (one, other) in enumerate(pairwise(spans), 2):
            if other.start < one.end:
                got = f"a start at {other.start:g} s, before the one before ends"
                self.fault(f"{where}[{number}]", got, f"{where} one behind another")
