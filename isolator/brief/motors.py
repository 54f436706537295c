"""Reading what shakes: [[motor]], [[fan]], [[load]]."""

from __future__ import annotations

import math
from typing import NamedTuple

from isolator.brief.model import (
    AXES,
    DRIVES,
    FRAME_SIZES,
    Axis,
    Drives,
    Fan,
    Layout,
    Load,
    Motion,
    Motor,
    Triple,
)
from isolator.brief.notes import Notes
from isolator.brief.section import Section

MOST_FREQUENCIES = 100


class _Body(NamedTuple):
    """What is usual of one motor frame size (common practice; inertia and torque from memory)."""

    mass: float
    rotor_inertia: float
    holding_torque: float
    shaft_length: float
    shaft_diameter: float


_BODIES = {
    14: _Body(0.18, 23e-7, 0.20, 0.020, 0.005),
    17: _Body(0.28, 54e-7, 0.40, 0.024, 0.005),
    23: _Body(0.45, 110e-7, 0.55, 0.021, 0.00635),
}


class _Place(NamedTuple):
    """Where a motor of a layout usually sits, as shares of half width, half depth and height."""

    name: str
    drives: Drives
    axis: Axis
    share: Triple


_PLACES: dict[Layout, tuple[_Place, ...]] = {
    "crossed-belt": (
        _Place("left", "both", "z", (-0.8, 0.8, 0.88)),
        _Place("right", "both", "z", (0.8, 0.8, 0.88)),
    ),
    "motor-per-axis": (
        _Place("x", "x", "z", (-0.8, 0.0, 0.88)),
        _Place("y", "y", "x", (0.8, 0.8, 0.84)),
    ),
    "moving-bed": (
        _Place("x", "x", "y", (-0.8, 0.1, 0.5)),
        _Place("y", "y", "x", (0.1, 0.8, 0.12)),
    ),
}


def read_motors(root: Section, layout: Layout, size: Triple) -> tuple[Motor, ...]:
    """Return the belt motors; two at usual places where the brief has none."""
    sections = root.sections("motor")
    if not sections:
        root.notes.assume("motor", "two of frame size 17", "none was given")
        sections = [Section(root.notes, f"motor[{number}]", {}) for number in (1, 2)]
    motors = tuple(
        _read_motor(section, number, _PLACES[layout][min(number, 2) - 1], size)
        for number, section in enumerate(sections, 1)
    )
    _refuse_twins(root.notes, "motor", [motor.name for motor in motors])
    return motors


def _read_motor(section: Section, number: int, place: _Place, size: Triple) -> Motor:
    name = section.text("name", place.name if number < 3 else f"motor {number}")
    frame = section.integer("frame_size", 17, "the usual size", within=(14, 23))
    if frame not in FRAME_SIZES:
        section.notes.fault(
            section.path("frame_size"), str(frame), "14, 17 or 23", "take the nearest"
        )
    body = _BODIES.get(frame, _BODIES[17])
    usual = f"usual of frame size {frame}; estimated"
    x, y, z = place.share
    corner = (x * size[0] / 2, y * size[1] / 2, z * size[2])
    position = section.triple("position", "m", corner, "usual of the layout; estimated")
    axis = section.choice("axis", AXES, place.axis, "usual of the layout")
    drives = section.choice("drives", DRIVES, place.drives, "by the layout and its order")
    motor = Motor(
        name=name,
        frame_size=frame,
        position=position,
        axis=axis,
        drives=drives,
        mass=section.quantity("mass", "kg", body.mass, usual, usual=(0.1, 1.2)),
        rotor_inertia=section.quantity(
            "rotor_inertia",
            "kg*m^2",
            body.rotor_inertia,
            usual,
            show="g*cm^2",
            usual=(23e-7, 110e-7),
        ),
        holding_torque=section.quantity(
            "holding_torque", "N*m", body.holding_torque, usual, usual=(0.2, 0.65)
        ),
        shaft_length=section.quantity(
            "shaft_length", "m", body.shaft_length, usual, usual=(0.016, 0.025)
        ),
        shaft_diameter=section.quantity("shaft_diameter", "m", body.shaft_diameter, usual),
        pulley_standoff=section.quantity(
            "pulley_standoff", "m", 0.006, "estimated; measure it", sign="not negative"
        ),
        spacer_plate=section.quantity(
            "spacer_plate", "m", 0.0, "no plate wanted", sign="not negative", usual=(0.0, 0.02)
        ),
    )
    section.done()
    return motor


def read_fans(root: Section, gantry_height: float) -> tuple[Fan, ...]:
    """Return the fans, none where the brief has none."""
    fans = []
    for number, section in enumerate(root.sections("fan"), 1):
        speed = section.quantity("speed", "Hz", show="rpm", usual=(10.0, 250.0))
        fans.append(
            Fan(
                name=section.text("name", f"fan {number}"),
                speed=speed,
                blades=section.integer("blades", 7, "the usual count", within=(2, 100)),
                position=section.triple(
                    "position", "m", (0.0, 0.0, gantry_height), "on the tool; estimated"
                ),
                axis=section.choice("axis", AXES, "y", "estimated"),
                unbalance=_read_unbalance(section, speed),
            )
        )
        section.done()
    _refuse_twins(root.notes, "fan", [fan.name for fan in fans])
    return tuple(fans)


def _read_unbalance(section: Section, speed: float) -> float:
    """A 15 g rotor balanced to grade G 6.3, the fans' own in ISO 21940-11 (from memory)."""
    default = 0.015 * 6.3e-3 / (math.tau * speed)
    why = "a 15 g rotor of balance grade G 6.3; estimated"
    return section.quantity(
        "unbalance", "kg*m", default, why, sign="not negative", show="g*mm", usual=(0.0, 1e-5)
    )


def read_loads(root: Section, motion: Motion) -> tuple[Load, ...]:
    """Return the user's own forces, none where the brief has none."""
    zero = (0.0, 0.0, 0.0)
    loads = []
    for number, section in enumerate(root.sections("load"), 1):
        place = (0.0, 0.0, motion.gantry_height)
        force = section.triple("force", "N", zero, "none was given")
        moment = section.triple("moment", "N*m", zero, "none was given")
        if force == zero and moment == zero:
            section.notes.fault(
                section.path("force"),
                "no force and no moment",
                "one of them",
                'write it like ["0 N", "0 N", "1 N"]',
            )
        loads.append(
            Load(
                name=section.text("name", f"load {number}"),
                force=force,
                moment=moment,
                position=section.triple("position", "m", place, "at the tool's height; estimated"),
                frequencies=_read_frequencies(section),
            )
        )
        section.done()
    _refuse_twins(root.notes, "load", [load.name for load in loads])
    return tuple(loads)


def _read_frequencies(section: Section) -> tuple[float, ...]:
    lengths = range(1, MOST_FREQUENCIES + 1)
    if not section.has("frequencies"):
        return ()
    return section.quantities("frequencies", "Hz", lengths=lengths)


def _refuse_twins(notes: Notes, key: str, names: list[str]) -> None:
    for index, name in enumerate(names):
        if name and name in names[:index]:
            notes.fault(
                f"{key}[{index + 1}].name",
                f'"{name}" again',
                "a name of its own",
                "call it something else",
            )
