"""Reading a motor's shaft: its pulley, and which way the belts pull on it."""

from __future__ import annotations

import math
from typing import NamedTuple

from isolator.design.axes import AXES, Axis, Triple
from isolator.reading.table import Section
from isolator.reading.units import format_quantity

HALF_TURN = math.pi
USUAL_WRAP = (math.radians(60.0), math.radians(220.0))
LEAST_PULL = 1e-9
"""Part of a direction that counts as none."""


class Pulley(NamedTuple):
    """Where pulley, set screws and belt sit on a shaft [m], and how far the belt wraps [rad]."""

    standoff: float
    length: float
    set_screw: float
    belt_offset: float
    wrap: float


def read_pulley(section: Section) -> Pulley:
    """Return a motor's pulley; set screws and belt must lie on it."""
    why = "hub towards the motor; estimated, measure it"
    pulley = Pulley(
        standoff=section.quantity(
            "pulley_standoff",
            "m",
            0.006,
            "estimated; measure it",
            sign="not negative",
            usual=(0.0, 0.02),
        ),
        length=section.quantity(
            "pulley_length", "m", 0.016, "estimated; measure it", usual=(0.006, 0.03)
        ),
        set_screw=section.quantity("set_screw", "m", 0.0035, why, sign="not negative"),
        belt_offset=section.quantity("belt_offset", "m", 0.0115, why, sign="not negative"),
        wrap=section.quantity("wrap", "rad", HALF_TURN, "half a turn; estimated", usual=USUAL_WRAP),
    )
    for name, value in (("set_screw", pulley.set_screw), ("belt_offset", pulley.belt_offset)):
        if value > pulley.length:
            section.notes.fault(
                section.path(name),
                format_quantity(value, "mm"),
                f"a place on the pulley, 0 mm to {format_quantity(pulley.length, 'mm')}",
                "it is counted from the pulley's end at the motor",
            )
    return pulley


def read_pull(section: Section, axis: Axis, position: Triple) -> Triple:
    """Return the unit vector of the belts' pull on a shaft along `axis`, across it.

    Where the brief is silent it points from the motor at `position` [m] to the printer's middle,
    at the motor's own height.
    """
    along = AXES.index(axis)
    if not section.has("pull"):
        return _assume_pull(section, along, position)
    x, y, z = told = section.numbers("pull", 3, within=(-1e6, 1e6))
    if any(map(math.isnan, told)):
        return (1.0, 0.0, 0.0)
    across = [0.0 if i == along else told[i] for i in range(3)]
    if math.hypot(*across) <= LEAST_PULL:
        section.notes.fault(
            section.path("pull"),
            f"[{x:g}, {y:g}, {z:g}]",
            f"a direction across the shaft, which runs along {axis}",
            f"write the way the belts leave the pulley, such as {_shown(_beside(along))}",
        )
        return _beside(along)
    if abs(told[along]) > LEAST_PULL:
        section.notes.warn(section.path("pull"), f"its part along the shaft ({axis}) is left out")
    return _unit(across)


def _assume_pull(section: Section, along: int, position: Triple) -> Triple:
    inwards = [0.0 if i in (along, 2) else -position[i] for i in range(3)]
    if math.hypot(*inwards) > 1e-6:
        pull, why = _unit(inwards), "towards the printer's middle; estimated"
    else:  # in the middle, or its place is at fault
        pull, why = _beside(along), "the motor is in the middle; estimated, say which way"
    section.notes.assume(section.path("pull"), _shown(pull), why)
    return pull


def _beside(along: int) -> Triple:
    """Return a level direction across axis number `along`."""
    return (0.0, 1.0, 0.0) if along == 0 else (1.0, 0.0, 0.0)


def _shown(vector: Triple) -> str:
    return f"[{', '.join(f'{each + 0.0:.3g}' for each in vector)}]"


def _unit(vector: list[float]) -> Triple:
    size = math.hypot(*vector)
    x, y, z = (round(each / size, 12) + 0.0 for each in vector)  # + 0.0 turns -0.0 into 0.0
    return (x, y, z)
