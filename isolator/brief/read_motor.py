"""Reading the motors: what of one goes with what."""

from __future__ import annotations

import math

from isolator.brief.damper_mount_table import DamperMountTable
from isolator.brief.motor import DAMPER_WISHES, DamperWish, Motor, PulleySetting
from isolator.brief.motor_places import Place, by_axis, usual_places
from isolator.brief.motor_sizes import MOTOR_SIZES, judge_winding
from isolator.brief.motor_table import MotorTable
from isolator.brief.names import refuse_twins
from isolator.brief.pulleys import judge_pulley, read_pull
from isolator.design.axes import AXES, Axis
from isolator.design.damper import PILOT_PLAY
from isolator.design.faceplates import FACEPLATES
from isolator.reading.table import Table
from isolator.reading.units import format_quantity
from isolator.reading.word_keys import choice

FLANGE = 3.5e-3
"""By which a belt pulley's flanges are wider than its pitch circle [m]; common practice, no
source."""


def read_motors(tables: list[MotorTable], root: Table) -> tuple[Motor, ...]:
    """Return the belt motors; at usual places those that every layout has and the brief has not."""
    if not tables:
        root.notes.assume("motor", "two of frame size 17", "none was given")
        tables = [MotorTable(root.notes, f"motor[{n}]", {}, root, n) for n in (1, 2)]
    motors = [_read_motor(table) for table in tables]
    for place in _missing(motors, root):
        number = len(motors) + 1
        root.notes.assume(
            f"motor[{number}]",
            f"one of frame size 17 that drives {place.drives}",
            "none of this axis was given",
        )
        taken = {motor.name for motor in motors}
        name = f"{place.name} {number}" if place.name in taken else place.name
        raw = {"name": name, "drives": place.drives}
        motors.append(_read_motor(MotorTable(root.notes, f"motor[{number}]", raw, root, number)))
    refuse_twins(root.notes, "motor", [motor.name for motor in motors])
    return tuple(motors)


def _missing(motors: list[Motor], root: Table) -> list[Place]:
    """Return the usual places of the axes that no motor drives."""
    places = usual_places(root.motion.layout)  # type: ignore[attr-defined]
    if not by_axis(places):
        return []
    driven = {"x" if motor.drives == "x" else "y" for motor in motors}
    return [each for each in places if each.drives not in driven]


def _read_motor(table: MotorTable) -> Motor:
    return table.whole(
        Motor,
        axis=_read_axis,
        points=lambda t: -1 if t.axis.startswith("-") else 1,
        screw_depth=_read_screw_depth,
        inner_ring=_read_inner_ring,
        wrap=_read_wrap,
        winding_inductance=_read_inductance,
        damper=lambda t: _read_damper(t)[0],
        mount=lambda t: _read_damper(t)[1],
        spacer_plate=_read_spacer_plate,
        pulley_set_by=_read_pulley_set_by,
        pull=lambda t: read_pull(t, t.pull, _read_axis(t), t.position),
    )


def _read_axis(table: MotorTable) -> Axis:
    return AXES[AXES.index(table.axis[-1])]


def _read_screw_depth(table: MotorTable) -> float:
    depth = table.screw_depth
    if MOTOR_SIZES[table.frame_size].screw_depth == 0 and depth > 0:
        table.fault(
            "screw_depth",
            format_quantity(depth, "mm"),
            "0 mm: this frame size has a flange with through holes",
            "leave it out",
        )
    return depth


def _read_inner_ring(table: MotorTable) -> float:
    """Return the inner ring's diameter; a nose that stands on it must be two lines thick."""
    bore = table.shaft_diameter + table.up.print.hole_compensation
    least = bore + 4.0 * table.up.print.nozzle
    if table.inner_ring < least - 1e-9 and table.has("inner_ring"):
        table.fault(
            "inner_ring",
            format_quantity(table.inner_ring, "mm"),
            f"at least {format_quantity(least, 'mm', 4)}: two lines of the nozzle round the bore",
            "measure it again",
        )
    return max(table.inner_ring, float(least))


def _read_wrap(table: MotorTable) -> float:
    """Return how far the belt wraps; with it all of the pulley is told and can be judged."""
    wrap, length = table.wrap, table.pulley_length
    judge_pulley(table, length, set_screw=table.set_screw, belt_offset=table.belt_offset)
    return wrap


def _read_inductance(table: MotorTable) -> float:
    """Return the inductance; with it all of the winding is told and can be judged."""
    inductance = table.winding_inductance
    judge_winding(table, table.rated_current, table.current, table.winding_resistance)
    return inductance


def _read_damper(table: MotorTable) -> tuple[DamperWish, str]:
    """Return what is wanted under the motor, and the name of the bought damper that is."""
    told, mounts = table.damper, {each.name: each for each in table.up.damper.mount}
    if told in DAMPER_WISHES or not table.clean("damper"):
        return (told if told in DAMPER_WISHES else "auto"), ""
    if told not in mounts:
        words = choice((*DAMPER_WISHES, *mounts), otherwise="or tell it under [[damper.mount]]")
        words.read(table.notes, table.path("damper"), told)
        return "auto", ""
    _judge_mount(table, mounts[told])
    return "always", told


def _judge_mount(table: MotorTable, mount: DamperMountTable) -> None:
    """Refuse a bought damper that is for other motors, or thicker than the shaft is long."""
    told = f'"{mount.name}"'
    if mount.frame_size != table.frame_size and table.clean("frame_size"):
        table.fault(
            "damper",
            f"{told}, which fits frame size {mount.frame_size}",
            f"one that fits this motor, of frame size {table.frame_size}",
            f"take another, or correct {mount.path('frame_size')}",
        )
        return
    left = table.shaft_length - table.pulley_standoff
    if mount.thickness >= left:
        table.fault(
            "damper",
            f"{told}, {format_quantity(mount.thickness, 'mm')} thick",
            f"a stack thinner than the {format_quantity(left, 'mm')} of shaft beyond its pulley's "
            "end at the motor",
            "check its thickness, shaft_length and pulley_standoff",
        )


def _read_spacer_plate(table: MotorTable) -> float:
    if table.spacer_plate > 0 and table.damper not in ("auto", "none"):
        table.fault(
            "damper",
            f'"{table.damper}" beside a spacer_plate',
            "one of the two",
            'leave out spacer_plate, or set damper to "none"',
        )
    return table.spacer_plate


def _read_pulley_set_by(table: MotorTable) -> PulleySetting:
    """Return what sets the pulley's height; one set on the bare motor goes through the plates."""
    told, motion = table.pulley_set_by, table.up.motion
    wide = motion.pulley_teeth * motion.belt_pitch / math.pi + FLANGE
    hole = FACEPLATES[table.frame_size].pilot + PILOT_PLAY
    if told == "gauge" and wide > hole:
        table.fault(
            "pulley_set_by",
            '"gauge"',
            f"a pulley that goes through the plates' hole of {format_quantity(hole, 'mm', 3)}; "
            f"with {motion.pulley_teeth} teeth its flanges are some "
            f"{format_quantity(wide, 'mm', 3)} wide",
            'take "spacer"',
        )
    return told
