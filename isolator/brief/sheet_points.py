"""A stiffness as a data sheet tells it: as such, or by points of load and deflection."""

from __future__ import annotations

import math
from typing import NamedTuple

from isolator.reading.table import Table
from isolator.reading.units import format_quantity, shown_unit


class Direction(NamedTuple):
    """One direction: its keys, their units, an example, and the most that it can move."""

    key: str
    loads: str
    sags: str
    force: str  # unit of its loads
    way: str  # unit of its deflections
    example: str
    most: float


class Found(NamedTuple):
    """A stiffness, and how far its points lie off a straight line."""

    stiffness: float  # NaN where it is at fault
    bent: float = 0.0  # logarithm of the worst secant over it


def stiffness_of(table: Table, way: Direction) -> Found:
    """Return the stiffness in one direction; what is missing or contradicts itself is a fault.

    Of points it is the straight line through zero that fits them best, by least squares.
    """
    by_points = table.has(way.loads, way.sags)
    if by_points == table.has(way.key):
        table.fault(
            way.key,
            f"{way.key} beside {way.loads} and {way.sags}" if by_points else "nothing",
            f"either its stiffness, or {way.loads} and {way.sags}",
            "keep what the data sheet says"
            if by_points
            else f'add {way.key} = "{way.example}", from its data sheet',
        )
        return Found(math.nan)
    if not by_points:
        return Found(getattr(table, way.key))
    loads, sags = getattr(table, way.loads), getattr(table, way.sags)
    _judge(table, way, loads, sags)
    if not table.clean(way.loads, way.sags):
        return Found(math.nan)
    line = sum(f * x for f, x in zip(loads, sags, strict=True)) / sum(x * x for x in sags)
    secants = [f / x for f, x in zip(loads, sags, strict=True)]
    return Found(line, max(abs(math.log(each / line)) for each in secants))


def _judge(table: Table, way: Direction, loads: tuple[float, ...], sags: tuple[float, ...]) -> None:
    """Note points that are no curve, or that lie beyond what there is to move."""
    for name, other in ((way.loads, way.sags), (way.sags, way.loads)):
        if not table.has(name):
            table.fault(name, "nothing", f"one to each of {other}", f"add {name}, or leave both")
            return
    if len(loads) != len(sags) and table.clean(way.loads, way.sags):
        told = f"{len(loads)}, one to each of {way.loads}"
        table.fault(way.sags, f"{len(sags)} of them", told, "give both lists the same length")
    for name, points, unit in ((way.loads, loads, way.force), (way.sags, sags, way.way)):
        falls = [n for n in range(1, len(points)) if points[n] <= points[n - 1]]
        if falls and table.clean(name):
            unit = shown_unit(unit)
            table.fault(
                f"{name}[{falls[0] + 1}]",
                format_quantity(points[falls[0]], unit),
                f"more than {format_quantity(points[falls[0] - 1], unit)}",
                "list both from the smallest load up",
            )
    if sags and table.clean(way.sags) and sags[-1] >= way.most:
        unit = shown_unit(way.way)
        table.fault(
            f"{way.sags}[{len(sags)}]",
            format_quantity(sags[-1], unit),
            f"less than {format_quantity(way.most, unit, 3)}, which is all that its rubber allows",
            "check the unit",
        )
