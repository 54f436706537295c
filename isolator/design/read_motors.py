"""Reading what goes between a motor and the frame: [[motor_spacer]], [[motor_damper]]."""

from __future__ import annotations

import math

from isolator.design import MotorSpacer
from isolator.design.axes import AXES, Axis, Triple
from isolator.design.damper import DAMPER_SHAPES, MotorDamper
from isolator.design.faceplates import FRAME_SIZES
from isolator.design.write import angle, length
from isolator.reading.table import Section

STEEPEST = math.radians(5.0)
"""Largest angle of a wedge [rad]; a shaft that tilts so far is past any mending."""
VECTOR = 0.01
"""How far a direction's length may be from 1, and its part along the shaft from 0."""


def read_spacer(table: Section) -> MotorSpacer:
    """Return one motor's spacers; what is wrong becomes faults."""
    spacer = MotorSpacer(
        name=table.text("name"),
        frame_size=_read_frame_size(table),
        height=table.quantity("height", "m", sign="not negative"),
        pulley_spacer=table.quantity("pulley_spacer", "m", sign="not negative"),
        bore=table.quantity("bore", "m"),
        outer=table.quantity("outer", "m"),
    )
    table.done()
    judge_below(table, "bore", spacer.bore, "outer", spacer.outer)
    return spacer


def read_damper(table: Section) -> MotorDamper:
    """Return one motor's damper; what is wrong becomes faults."""
    shape = table.choice("shape", DAMPER_SHAPES)
    axis: Axis = table.choice("axis", AXES)
    damper = MotorDamper(
        name=table.text("name"),
        frame_size=_read_frame_size(table),
        position=table.triple("position", "m"),
        axis=axis,
        points=_read_points(table),
        body=table.quantity("body", "m"),
        shaft=table.quantity("shaft", "m"),
        pull=_read_pull(table, axis),
        shape=shape,
        first=table.quantity("first", "m"),
        second=table.quantity("second", "m"),
        circle=table.quantity("circle", "m", sign="not negative"),
        rubber=table.quantity("rubber", "m"),
        material=table.text("material"),
        cast=table.flag("cast"),
        motor_plate=table.quantity("motor_plate", "m"),
        frame_plate=table.quantity("frame_plate", "m"),
        wedge=table.quantity("wedge", "m", sign="not negative"),
        wedge_angle=table.quantity("wedge_angle", "rad", sign="not negative"),
        bracket=table.quantity("bracket", "m"),
        travel=table.quantity("travel", "m", sign="not negative"),
        motor_screw=table.quantity("motor_screw", "m"),
        frame_screw=table.quantity("frame_screw", "m"),
        pulley_spacer=table.quantity("pulley_spacer", "m", sign="not negative"),
        bore=table.quantity("bore", "m"),
        outer=table.quantity("outer", "m"),
        filament=table.text("filament"),
    )
    table.done()
    _judge_rubber(table, damper)
    _judge_wedge(table, damper)
    judge_below(table, "bore", damper.bore, "outer", damper.outer)
    return damper


def judge_below(table: Section, key: str, value: float, over: str, limit: float) -> None:
    """Note a fault where `value` [m] is not below `limit` [m]; NaN was noted already."""
    if math.isnan(value) or math.isnan(limit) or value < limit:
        return
    table.notes.fault(
        table.path(key),
        length(value),
        f"less than {over}, {length(limit)}",
        f"lower it or raise {over}",
    )


def _read_frame_size(table: Section) -> int:
    size = table.integer("frame_size", None, within=(FRAME_SIZES[0], FRAME_SIZES[-1]))
    if size not in FRAME_SIZES and table.notes.clean(table.path("frame_size")):
        sizes = ", ".join(map(str, FRAME_SIZES))
        table.notes.fault(
            table.path("frame_size"), str(size), f"one of {sizes}", "write it bare, as 17"
        )
    return size


def _read_points(table: Section) -> int:
    points = table.integer("points", None, within=(-1, 1))
    if points == 0:
        table.notes.fault(
            table.path("points"),
            "0",
            "1 or -1",
            "1 where the shaft points along its axis, -1 where it points against it",
        )
    return points


def _read_pull(table: Section, axis: Axis) -> Triple:
    x, y, z = pull = table.numbers("pull", 3, within=(-1.0, 1.0))
    if any(map(math.isnan, pull)) or not table.notes.clean(table.path("axis")):
        return (x, y, z)
    if abs(math.hypot(*pull) - 1.0) > VECTOR or abs(pull[AXES.index(axis)]) > VECTOR:
        table.notes.fault(
            table.path("pull"),
            f"[{x:g}, {y:g}, {z:g}]",
            f"a vector of length 1 across the shaft, which runs along {axis}",
            "write the way the belts leave the pulley",
        )
    return (x, y, z)


def _judge_rubber(table: Section, damper: MotorDamper) -> None:
    """Refuse a ring without rubber, pads over the shaft and a ring with a pads' circle."""
    if not table.notes.clean(table.path("shape")):
        return
    if damper.shape == "ring":
        judge_below(table, "second", damper.second, "first", damper.first)
        if damper.circle > 0.0:
            table.notes.fault(
                table.path("circle"),
                length(damper.circle),
                "0 mm for a ring",
                'set it to "0 mm", or the shape to "pads"',
            )
    elif damper.circle <= damper.second / 2.0:
        table.notes.fault(
            table.path("circle"),
            length(damper.circle),
            f"more than half of second, {length(damper.second / 2.0)}",
            "it is the distance from the shaft to the middle of a pad",
        )


def _judge_wedge(table: Section, damper: MotorDamper) -> None:
    key = table.path("wedge_angle")
    if damper.wedge_angle > STEEPEST:
        table.notes.fault(
            key,
            angle(damper.wedge_angle),
            f"no more than {angle(STEEPEST)}",
            "a damper that tilts so far needs stiffer or wider rubber",
        )
    elif damper.wedge_angle > 0.0 and damper.wedge == 0.0:
        table.notes.fault(
            key,
            angle(damper.wedge_angle),
            "0 deg where there is no wedge",
            'give wedge a thickness, or set the angle to "0 deg"',
        )
