"""Reading what goes between a motor and the frame: [[motor_spacer]], [[motor_damper]]."""

from __future__ import annotations

import math

from isolator.design import MotorSpacer
from isolator.design.axes import AXES, Triple
from isolator.design.damper import MotorDamper
from isolator.design.faceplates import FRAME_SIZES
from isolator.design.sheet import DamperTable, SpacerTable
from isolator.design.write import angle, length
from isolator.reading.table import Table

STEEPEST = math.radians(5.0)
"""Largest angle of a wedge [rad]; a shaft that tilts so far is past any mending."""
VECTOR = 0.01
"""How far a direction's length may be from 1, and its part along the shaft from 0."""


def read_spacer(table: SpacerTable) -> MotorSpacer:
    """Return one motor's spacers; what is wrong becomes faults."""
    spacer = table.whole(MotorSpacer, frame_size=_read_frame_size)
    judge_below(table, "bore", spacer.bore, "outer", spacer.outer)
    return spacer


def read_damper(table: DamperTable) -> MotorDamper:
    """Return one motor's damper; what is wrong becomes faults."""
    table.check("shape", "axis")
    damper = table.whole(
        MotorDamper, frame_size=_read_frame_size, points=_read_points, pull=_read_pull
    )
    _judge_rubber(table, damper)
    _judge_wedge(table, damper)
    judge_below(table, "bore", damper.bore, "outer", damper.outer)
    return damper


def judge_below(table: Table, key: str, value: float, over: str, limit: float) -> None:
    """Note a fault where `value` [m] is not below `limit` [m]; NaN was noted already."""
    if math.isnan(value) or math.isnan(limit) or value < limit:
        return
    table.fault(
        key, length(value), f"less than {over}, {length(limit)}", f"lower it or raise {over}"
    )


def _read_frame_size(table: SpacerTable | DamperTable) -> int:
    if table.frame_size not in FRAME_SIZES and table.clean("frame_size"):
        sizes = ", ".join(map(str, FRAME_SIZES))
        table.fault("frame_size", str(table.frame_size), f"one of {sizes}", "write it bare, as 17")
    return table.frame_size


def _read_points(table: DamperTable) -> int:
    if table.points == 0:
        table.fault(
            "points",
            "0",
            "1 or -1",
            "1 where the shaft points along its axis, -1 where it points against it",
        )
    return table.points


def _read_pull(table: DamperTable) -> Triple:
    x, y, z = pull = table.pull
    if any(map(math.isnan, pull)) or not table.clean("axis"):
        return pull
    if abs(math.hypot(*pull) - 1.0) > VECTOR or abs(pull[AXES.index(table.axis)]) > VECTOR:
        table.fault(
            "pull",
            f"[{x:g}, {y:g}, {z:g}]",
            f"a vector of length 1 across the shaft, which runs along {table.axis}",
            "write the way the belts leave the pulley",
        )
    return pull


def _judge_rubber(table: DamperTable, damper: MotorDamper) -> None:
    """Refuse a ring without rubber, pads over the shaft and a ring with a pads' circle."""
    if not table.clean("shape"):
        return
    if damper.shape == "ring":
        judge_below(table, "second", damper.second, "first", damper.first)
        if damper.circle > 0.0:
            table.fault(
                "circle",
                length(damper.circle),
                "0 mm for a ring",
                'set it to "0 mm", or the shape to "pads"',
            )
    elif damper.circle <= damper.second / 2.0:
        table.fault(
            "circle",
            length(damper.circle),
            f"more than half of second, {length(damper.second / 2.0)}",
            "it is the distance from the shaft to the middle of a pad",
        )


def _judge_wedge(table: DamperTable, damper: MotorDamper) -> None:
    if damper.wedge_angle > STEEPEST:
        table.fault(
            "wedge_angle",
            angle(damper.wedge_angle),
            f"no more than {angle(STEEPEST)}",
            "a damper that tilts so far needs stiffer or wider rubber",
        )
    elif damper.wedge_angle > 0.0 and damper.wedge == 0.0:
        table.fault(
            "wedge_angle",
            angle(damper.wedge_angle),
            "0 deg where there is no wedge",
            'give wedge a thickness, or set the angle to "0 deg"',
        )
