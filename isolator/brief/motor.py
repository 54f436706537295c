"""Reading one [[motor]]: its body, its shaft and pulley, its bracket, its winding."""

from __future__ import annotations

import math
from typing import NamedTuple

from isolator.brief.model import (
    AXES,
    BRACKET_MATERIALS,
    DAMPER_WISHES,
    DRIVES,
    FRAME_SIZES,
    Axis,
    Drives,
    Motor,
    Triple,
)
from isolator.brief.section import Section
from isolator.quantities import format_quantity, parse_quantity

ESTIMATED = "estimated; measure it"
SIGNED_AXES = (*AXES, "-x", "-y", "-z")


class _Body(NamedTuple):
    """What is usual of one motor frame size (common practice; numbers from memory)."""

    mass: float
    length: float
    rotor_inertia: float
    holding_torque: float
    shaft_length: float
    shaft_diameter: float
    screw_depth: float
    rated_current: float
    resistance: float
    inductance: float


_BODIES = {
    14: _Body(0.18, 0.028, 23e-7, 0.20, 0.020, 0.005, 0.0045, 1.0, 2.7, 4.0e-3),
    17: _Body(0.28, 0.040, 54e-7, 0.40, 0.024, 0.005, 0.0045, 1.5, 2.0, 3.0e-3),
    23: _Body(0.45, 0.045, 110e-7, 0.55, 0.021, 0.00635, 0.0, 2.0, 1.4, 3.0e-3),
}


class Place(NamedTuple):
    """Where a motor of a layout usually sits, as shares of half width, half depth and height."""

    name: str
    drives: Drives
    axis: Axis
    share: Triple


def read_motor(section: Section, number: int, place: Place, size: Triple) -> Motor:
    """Return one motor; `size` [m] is the printer's outside."""
    name = section.text("name", place.name if number < 3 else f"motor {number}")
    frame = section.integer("frame_size", 17, "the usual size", within=(14, 23))
    if frame not in FRAME_SIZES:
        section.notes.fault(
            section.path("frame_size"), str(frame), "14, 17 or 23", "take the nearest"
        )
        frame = 17
    body = _BODIES[frame]
    usual = f"usual of frame size {frame}; estimated"
    x, y, z = place.share
    corner = (x * size[0] / 2, y * size[1] / 2, z * size[2])
    position = section.triple("position", "m", corner, "usual of the layout; estimated")
    signed = section.choice("axis", SIGNED_AXES, place.axis, "usual of the layout; shaft up")
    axis: Axis = AXES[AXES.index(signed[-1])]
    drives = section.choice("drives", DRIVES, place.drives, "by the layout and its order")
    rated = section.quantity("rated_current", "A", body.rated_current, usual, usual=(0.3, 4.0))
    wish = section.choice("damper", DAMPER_WISHES, "auto", "where one helps")
    plate = section.quantity(
        "spacer_plate", "m", 0.0, "no plate wanted", sign="not negative", usual=(0.0, 0.02)
    )
    if plate > 0 and wish == "always":
        section.notes.fault(
            section.path("damper"), '"always" beside a spacer_plate', "one of the two",
            "leave out spacer_plate, or set damper to \"none\"",
        )  # fmt: skip
    pulley = _read_pulley(section)
    motor = Motor(
        name=name, frame_size=frame, position=position, axis=axis,
        points=-1 if signed.startswith("-") else 1, drives=drives,
        mass=section.quantity("mass", "kg", body.mass, usual, usual=(0.1, 1.2)),
        body_length=section.quantity("body_length", "m", body.length, usual, usual=(0.02, 0.12)),
        rotor_inertia=section.quantity(
            "rotor_inertia", "kg*m^2", body.rotor_inertia, usual, show="g*cm^2",
            usual=(23e-7, 110e-7),
        ),
        holding_torque=section.quantity(
            "holding_torque", "N*m", body.holding_torque, usual, usual=(0.2, 0.65)
        ),
        shaft_length=section.quantity(
            "shaft_length", "m", body.shaft_length, usual, usual=(0.016, 0.025)
        ),
        shaft_diameter=section.quantity("shaft_diameter", "m", body.shaft_diameter, usual),
        screw_depth=section.quantity(
            "screw_depth", "m", body.screw_depth, usual, sign="not negative", usual=(0.0, 0.012)
        ),
        pulley_standoff=section.quantity(
            "pulley_standoff", "m", 0.006, ESTIMATED, sign="not negative"
        ),
        pulley_length=pulley[0], set_screw=pulley[1], belt_offset=pulley[2],
        pull=_read_pull(section, axis, position),
        wrap=section.quantity(
            "wrap", "rad", parse_quantity("180 deg", "rad"), "half a turn", usual=(1.0, 3.8)
        ),
        bracket=section.quantity("bracket", "m", 0.004, ESTIMATED, usual=(0.001, 0.012)),
        bracket_material=section.choice(
            "bracket_material", BRACKET_MATERIALS, "aluminium", "estimated"
        ),
        bracket_area=section.quantity("bracket_area", "m^2", 0.01, ESTIMATED, usual=(1e-3, 0.1)),
        radial_limit=(
            section.quantity("radial_limit", "N", usual=(5.0, 500.0))
            if section.has("radial_limit") else None
        ),
        radial_arm=section.quantity("radial_arm", "m", 0.02, "usual of data sheets"),
        rated_current=rated,
        current=section.quantity(
            "current", "A", 0.85 * rated, "85 % of rated; estimated", usual=(0.1, 4.0)
        ),
        winding_resistance=section.quantity(
            "winding_resistance", "ohm", body.resistance, usual, usual=(0.3, 40.0)
        ),
        winding_inductance=section.quantity(
            "winding_inductance", "H", body.inductance, usual, usual=(2e-4, 0.1)
        ),
        damper=wish, spacer_plate=plate,
    )  # fmt: skip
    section.done()
    return motor


def _read_pulley(section: Section) -> Triple:
    """Return the pulley's length, its set screws' and its belt's place along it [m]."""
    length = section.quantity("pulley_length", "m", 0.016, ESTIMATED, usual=(0.006, 0.03))
    screw = section.quantity(
        "set_screw", "m", 0.0035, "hub towards the motor; estimated", sign="not negative"
    )
    belt = section.quantity("belt_offset", "m", 0.0115, ESTIMATED, sign="not negative")
    for name, value in (("set_screw", screw), ("belt_offset", belt)):
        if value > length:
            section.notes.fault(
                section.path(name), format_quantity(value, "mm"),
                f"a place on the pulley, 0 mm to {format_quantity(length, 'mm')}",
                "it is counted from the pulley's end at the motor",
            )  # fmt: skip
    return length, screw, belt


def _read_pull(section: Section, axis: Axis, position: Triple) -> Triple:
    """Return the unit vector of the belts' pull, across the shaft."""
    along = AXES.index(axis)
    if not section.has("pull"):
        inwards = [-place for place in position]
        inwards[2] = 0.0  # the printer's middle, at the motor's height
        inwards[along] = 0.0
        if not math.hypot(*inwards) > 1e-6:
            inwards = [0.0, 0.0, 0.0]
            inwards[(along + 1) % 3] = 1.0
        section.notes.assume(section.path("pull"), "towards the printer's middle", "estimated")
        return _unit(inwards)
    x, y, z = section.numbers("pull", 3, within=(-1e6, 1e6))
    across = [x, y, z]
    if abs(across[along]) > 1e-9:
        section.notes.warn(
            section.path("pull"),
            f"its part along the shaft ({axis}) is left out",
        )
    across[along] = 0.0
    if not math.hypot(*across) > 1e-9:
        if not any(map(math.isnan, (x, y, z))):
            section.notes.fault(
                section.path("pull"), f"[{x:g}, {y:g}, {z:g}]",
                f"a direction across the shaft, which runs along {axis}",
                "write the way the belts leave the pulley, such as [0, -1, 0]",
            )  # fmt: skip
        return (1.0, 0.0, 0.0)
    return _unit(across)


def _unit(vector: list[float]) -> Triple:
    size = math.hypot(*vector)
    x, y, z = (round(each / size, 12) for each in vector)
    return (x, y, z)
