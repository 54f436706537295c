"""What goes into a step of assembly: printed parts by their role, bought things, how many."""

from __future__ import annotations

import math

from isolator.design import Foot
from isolator.workshop.foot_hardware import foot_rows

Feet = tuple[Foot, ...]
"""Feet that differ by their pads alone."""


def fixed_part(foot: Foot) -> str:
    """Return the role of the part that is fixed to the frame."""
    return mounted(foot)[0]


def mounted(foot: Foot) -> tuple[str, ...]:
    """Return the roles of the bodies that hang from the frame one under the other."""
    if not foot.build.soft_body:
        return (foot.build.top,)
    return ("mount", "foot") if foot.mounted else ("foot",)


def taken(feet: Feet, *starts: str) -> tuple[str, ...]:
    """Return the bought things of these feet whose names begin with `starts`, or all, counted."""
    return tuple(
        f"{quantity} × {item}" if unit == "pieces" else f"{_whole(quantity)} cm² of {item}"
        for item, quantity, unit, _ in foot_rows(feet, None)
        if not starts or item.startswith(starts)
    )


def _whole(area: str) -> int:
    """Return an area upwards in whole cm², as the shopping list does."""
    return math.ceil(float(area) - 1e-6)


def printed(feet: Feet, roles: tuple[str, ...]) -> tuple[str, ...]:
    """Return the printed parts and pads of these roles, counted."""
    count = sum(len(foot.positions) for foot in feet)
    words = {"foot": "printed foot", "pad": feet[0].build.pad}
    return tuple(f"{count} × {words.get(role, role)}" for role in roles)
