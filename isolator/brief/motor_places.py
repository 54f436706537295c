"""Where the motors of a layout usually sit, for briefs that do not say."""

from __future__ import annotations

from typing import NamedTuple

from isolator.brief.motor import Drives
from isolator.design.axes import Axis, Triple
from isolator.physics.drive.stepper import Layout


class Place(NamedTuple):
    """Where a motor of a layout usually sits, as shares of half width, half depth and height."""

    name: str
    drives: Drives
    axis: Axis
    share: Triple


_PLACES: dict[Layout, tuple[Place, ...]] = {
    "crossed-belt": (
        Place("left", "both", "z", (-0.8, 0.8, 0.88)),
        Place("right", "both", "z", (0.8, 0.8, 0.88)),
    ),
    "motor-per-axis": (
        Place("x", "x", "z", (-0.8, 0.0, 0.88)),
        Place("y", "y", "x", (0.8, 0.8, 0.84)),
    ),
    "moving-bed": (Place("x", "x", "y", (-0.8, 0.1, 0.5)), Place("y", "y", "x", (0.1, 0.8, 0.12))),
}


def usual_places(layout: Layout) -> tuple[Place, ...]:
    """Return where the motors of a layout usually sit."""
    return _PLACES[layout]


def by_axis(places: tuple[Place, ...]) -> bool:
    """Return whether each motor has an axis of its own."""
    return len({each.drives for each in places}) == len(places)
