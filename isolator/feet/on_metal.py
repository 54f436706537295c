"""Whether the frame has metal over every screw and every glued face of a foot, where it has it."""

from __future__ import annotations

import math
from typing import NamedTuple

import numpy as np

from isolator.brief.metal import Strip, metal_under, rail_lines
from isolator.design.axes import Pair
from isolator.feet.sized import SizedBatch
from isolator.feet.task import FeetTask
from isolator.physics.arrays import Array
from isolator.vibration.band import Figures

SLOT_PLAY = 0.5e-3
"""By how much a slot's screw may be off the slot's middle [m]; common practice, no source."""


class _Held(NamedTuple):
    """What of a foot has to lie under metal: round `points` from its middle, so far [m]."""

    points: tuple[Pair, ...]
    half: tuple[Array, Array]  # along x and y (n,)


def metal_left(of: SizedBatch) -> Array:
    """Return the metal left beyond screws or glued faces (n,) [m], of the foot with the least.

    Below 0 so much is missing. Infinite under a slab, and for what is pressed into a tube, onto a
    rod or screwed into the end of a profile.
    """
    held = _held(of)
    if held is None:
        return np.full(len(of.batch), np.inf)
    places = [(float(x), float(y)) for x, y in of.batch.positions]
    # freed of binary dust, so that a face as wide as its rail lies on it
    left = np.array([_margin(of.task, held, place) for place in places]).min(axis=0)
    return np.asarray(np.round(left, 9))


def _held(of: SizedBatch) -> _Held | None:
    task, batch = of.task, of.batch
    kind, feet = task.fastening, task.feet
    if task.slab is not None or kind.pressed or kind.driven:
        return None
    if kind.where == "face":
        beside = of.width - np.maximum(*batch.widths)
        along, across = batch.widths
        return _Held(((0.0, 0.0),), ((along + beside) / 2.0, (across + beside) / 2.0))
    screw = np.full(len(batch), task.thread / 2.0)
    return _Held(feet.holes or ((0.0, 0.0),), (screw, screw))


def _margin(task: FeetTask, held: _Held, place: Pair) -> Array:
    """Return the metal left (n,) [m] round one foot's screws, or round its face."""
    if task.fastening.slot is not None:
        off = min(abs(line - place[_across(task)]) for line in rail_lines(task.feet, task.frame))
        return np.full_like(held.half[0], SLOT_PLAY - off)
    strips = metal_under(task.feet, task.frame)
    inside = [[_inside(strip, held, place, at) for strip in strips] for at in held.points]
    return np.asarray(np.array(inside).max(axis=1).min(axis=0))


def _inside(strip: Strip, held: _Held, place: Pair, point: Pair) -> Array:
    x, y = place[0] + point[0], place[1] + point[1]
    wide, deep = held.half
    beside = min(x - strip.left, strip.right - x) - wide
    return np.minimum(beside, min(y - strip.front, strip.back - y) - deep)


def _across(task: FeetTask) -> int:
    return 1 if task.feet.slot_along == "x" else 0


def off_metal(of: SizedBatch) -> tuple[str, Figures]:
    """Return which advice mends the foot that has least metal, and what it speaks of [mm].

    The nearest place where all of it would lie under metal; else how wide a foot may be there.
    """
    task, held = of.task, _held(of)
    assert held is not None
    places = [(float(x), float(y)) for x, y in of.batch.positions]
    left = [float(_margin(task, held, place)[0]) for place in places]
    worst = int(np.argmin(left))
    x, y = places[worst]
    told = {"x_mm": x, "y_mm": y, "over_mm": -left[worst]}
    found = [to for to in _roomy(task, held, (x, y)) if not math.isnan(to[0] + to[1])]
    if not found:
        strips = metal_under(task.feet, task.frame)
        told["room_mm"] = max(min(s.right - s.left, s.back - s.front) for s in strips)
    else:
        told["to_x_mm"], told["to_y_mm"] = min(found, key=lambda to: math.dist(to, (x, y)))
    remedy = "off the metal" if found else "wider than the metal"
    return remedy, tuple((name, round(value * 1e3, 1)) for name, value in told.items())


def _roomy(task: FeetTask, held: _Held, place: Pair) -> list[Pair]:
    """Return the nearest place on every strip at which a foot lies under its metal."""
    if task.fastening.slot is not None:
        lines = rail_lines(task.feet, task.frame)
        return [(place[0], at) if _across(task) else (at, place[1]) for at in lines]
    wide, deep = (float(each[0]) for each in held.half)
    return [
        (
            _clamped(place[0], [p[0] for p in held.points], strip.left + wide, strip.right - wide),
            _clamped(place[1], [p[1] for p in held.points], strip.front + deep, strip.back - deep),
        )
        for strip in metal_under(task.feet, task.frame)
    ]


def _clamped(at: float, points: list[float], low: float, high: float) -> float:
    """Return the place nearest to `at` with all points between two ends, NaN where none is."""
    low, high = low - min(points), high - max(points)
    return min(max(at, low), high) if low <= high + 1e-12 else math.nan
