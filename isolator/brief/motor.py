"""Reading one [[motor]]: where it sits, its body, its bracket, what may go under it."""

from __future__ import annotations

from typing import NamedTuple

from isolator.brief.model import (
    BRACKET_MATERIALS,
    DAMPER_WISHES,
    DRIVES,
    BracketMaterial,
    DamperWish,
    Drives,
    Motor,
)
from isolator.brief.motor_sizes import MOTOR_SIZES, MotorSize, read_winding
from isolator.brief.pulleys import read_pull, read_pulley
from isolator.design.axes import AXES, Axis, Triple
from isolator.design.faceplates import FRAME_SIZES
from isolator.reading.table import Section
from isolator.reading.units import format_quantity

SIGNED_AXES = (*AXES, "-x", "-y", "-z")
_POINTS = {"x": "right", "y": "back", "z": "up"}


class Place(NamedTuple):
    """Where a motor of a layout usually sits, as shares of half width, half depth and height."""

    name: str
    drives: Drives
    axis: Axis
    share: Triple


class _Seat(NamedTuple):
    position: Triple  # [m]
    axis: Axis
    points: int
    drives: Drives


class _Body(NamedTuple):
    mass: float  # [kg]
    length: float  # [m]
    rotor_inertia: float  # [kg·m²]
    holding_torque: float  # [N·m]
    shaft_length: float  # [m]
    shaft_diameter: float  # [m]
    screw_depth: float  # [m]
    radial_limit: float | None  # [N]
    radial_arm: float  # [m]


class _Bracket(NamedTuple):
    thickness: float  # [m]
    material: BracketMaterial
    area: float  # [m²]


def read_motor(section: Section, number: int, place: Place, size: Triple) -> Motor:
    """Return one motor; `size` [m] is the printer's outside."""
    name = section.text("name", place.name if number < 3 else f"motor {number}")
    frame = _read_frame_size(section)
    usual = f"usual of frame size {frame}; estimated, from memory"
    seat = _read_seat(section, place, size)
    body = _read_body(section, MOTOR_SIZES[frame], usual)
    pulley = read_pulley(section)
    bracket = _read_bracket(section)
    winding = read_winding(section, MOTOR_SIZES[frame], usual)
    damper, spacer_plate = _read_wish(section)
    motor = Motor(
        name=name,
        frame_size=frame,
        position=seat.position,
        axis=seat.axis,
        points=seat.points,
        drives=seat.drives,
        mass=body.mass,
        body_length=body.length,
        rotor_inertia=body.rotor_inertia,
        holding_torque=body.holding_torque,
        shaft_length=body.shaft_length,
        shaft_diameter=body.shaft_diameter,
        screw_depth=body.screw_depth,
        pulley_standoff=pulley.standoff,
        pulley_length=pulley.length,
        set_screw=pulley.set_screw,
        belt_offset=pulley.belt_offset,
        pull=read_pull(section, seat.axis, seat.position),
        wrap=pulley.wrap,
        bracket=bracket.thickness,
        bracket_material=bracket.material,
        bracket_area=bracket.area,
        radial_limit=body.radial_limit,
        radial_arm=body.radial_arm,
        rated_current=winding.rated,
        current=winding.current,
        winding_resistance=winding.resistance,
        winding_inductance=winding.inductance,
        damper=damper,
        spacer_plate=spacer_plate,
    )
    section.done()
    return motor


def _read_frame_size(section: Section) -> int:
    frame = section.integer("frame_size", 17, "the usual size", within=(14, 23))
    if frame in FRAME_SIZES:
        return frame
    section.notes.fault(section.path("frame_size"), str(frame), "14, 17 or 23", "take the nearest")
    return 17


def _read_seat(section: Section, place: Place, size: Triple) -> _Seat:
    x, y, z = place.share
    corner = (x * size[0] / 2, y * size[1] / 2, z * size[2])
    position = section.triple("position", "m", corner, "usual of the layout; estimated")
    why = f"usual of the layout; its shaft points {_POINTS[place.axis]}"
    signed = section.choice("axis", SIGNED_AXES, place.axis, why)
    return _Seat(
        position=position,
        axis=AXES[AXES.index(signed[-1])],
        points=-1 if signed.startswith("-") else 1,
        drives=section.choice("drives", DRIVES, place.drives, "by the layout and its order"),
    )


def _read_body(section: Section, size: MotorSize, usual: str) -> _Body:
    limit = None
    if section.has("radial_limit"):
        limit = section.quantity("radial_limit", "N", usual=(5.0, 500.0))
    depth = section.quantity(
        "screw_depth", "m", size.screw_depth, usual, sign="not negative", usual=(0.0, 0.012)
    )
    if size.screw_depth == 0 and depth > 0:
        section.notes.fault(
            section.path("screw_depth"),
            format_quantity(depth, "mm"),
            "0 mm: this frame size has a flange with through holes",
            "leave it out",
        )
    return _Body(
        mass=section.quantity("mass", "kg", size.mass, usual, usual=(0.1, 1.2)),
        length=section.quantity("body_length", "m", size.length, usual, usual=(0.02, 0.12)),
        rotor_inertia=section.quantity(
            "rotor_inertia",
            "kg*m^2",
            size.rotor_inertia,
            usual,
            show="g*cm^2",
            usual=(23e-7, 110e-7),
        ),
        holding_torque=section.quantity(
            "holding_torque", "N*m", size.holding_torque, usual, usual=(0.2, 0.65)
        ),
        shaft_length=section.quantity(
            "shaft_length", "m", size.shaft_length, usual, usual=(0.016, 0.025)
        ),
        shaft_diameter=section.quantity(
            "shaft_diameter", "m", size.shaft_diameter, usual, usual=(0.004, 0.01)
        ),
        screw_depth=depth,
        radial_limit=limit,
        radial_arm=section.quantity(
            "radial_arm", "m", 0.02, "as data sheets tell it; from memory", usual=(0.005, 0.03)
        ),
    )


def _read_bracket(section: Section) -> _Bracket:
    why = "estimated; measure it"
    return _Bracket(
        thickness=section.quantity("bracket", "m", 0.004, why, usual=(0.001, 0.012)),
        material=section.choice("bracket_material", BRACKET_MATERIALS, "aluminium", "estimated"),
        area=section.quantity("bracket_area", "m^2", 0.01, why, usual=(1e-3, 0.1)),
    )


def _read_wish(section: Section) -> tuple[DamperWish, float]:
    """Return whether a damper is wanted, and the height of a plain plate [m]."""
    wish = section.choice("damper", DAMPER_WISHES, "auto", "where one helps")
    plate = section.quantity(
        "spacer_plate", "m", 0.0, "no plate wanted", sign="not negative", usual=(0.0, 0.02)
    )
    if plate > 0 and wish == "always":
        section.notes.fault(
            section.path("damper"),
            '"always" beside a spacer_plate',
            "one of the two",
            'leave out spacer_plate, or set damper to "none"',
        )
    return wish, plate
