"""Judging a motor's pulley, and which way the belts pull on its shaft."""

from __future__ import annotations

import math

from isolator.design.axes import AXES, Axis, Triple
from isolator.reading.table import Table
from isolator.reading.units import format_quantity

LEAST_PULL = 1e-9
"""Part of a direction that counts as none."""


def judge_pulley(table: Table, length: float, **places: float) -> None:
    """Refuse set screws or a belt beside a pulley of some `length` [m]; `places` [m] by key."""
    for name, value in places.items():
        if value > length:
            table.fault(
                name,
                format_quantity(value, "mm"),
                f"a place on the pulley, 0 mm to {format_quantity(length, 'mm')}",
                "it is counted from the pulley's end at the motor",
            )


def read_pull(table: Table, told: Triple | None, axis: Axis, position: Triple) -> Triple:
    """Return the unit vector of the belts' pull on a shaft along `axis`, across it.

    Where nothing is `told` it points from the motor at `position` [m] to the printer's middle, at
    the motor's own height.
    """
    along = AXES.index(axis)
    if told is None:
        return _assume_pull(table, along, position)
    if any(map(math.isnan, told)):
        return (1.0, 0.0, 0.0)
    across = [0.0 if i == along else told[i] for i in range(3)]
    if math.hypot(*across) <= LEAST_PULL:
        x, y, z = told
        table.fault(
            "pull",
            f"[{x:g}, {y:g}, {z:g}]",
            f"a direction across the shaft, which runs along {axis}",
            f"write the way the belts leave the pulley, such as {_shown(_beside(along))}",
        )
        return _beside(along)
    if abs(told[along]) > LEAST_PULL:
        table.warn("pull", f"its part along the shaft ({axis}) is left out")
    return _unit(across)


def _assume_pull(table: Table, along: int, position: Triple) -> Triple:
    inwards = [0.0 if i in (along, 2) else -position[i] for i in range(3)]
    if math.hypot(*inwards) > 1e-6:
        pull, why = _unit(inwards), "towards the printer's middle; estimated"
    else:  # in the middle, or its place is at fault
        pull, why = _beside(along), "the motor is in the middle; estimated, say which way"
    table.notes.assume(table.path("pull"), _shown(pull), why)
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
