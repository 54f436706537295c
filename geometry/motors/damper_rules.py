"""What a motor damper's sheet must hold before it is drawn; told with part and dimension."""

from __future__ import annotations

from geometry.motors.damper_plates import (
    THIN_EDGE,
    bond_radius,
    key_hole,
    plate_outline,
    screw_at,
    wedge_slope,
)
from geometry.motors.motor_plate import faceplate
from geometry.solids.part import CannotDraw, mm
from isolator.design import PrintSettings
from isolator.design.damper import (
    DAMPER_SHAPES,
    FREE,
    GLUE_EDGE,
    POCKET_WALL,
    MotorDamper,
    least_frame_screw,
    local_pull,
    motor_screw_room,
)
from isolator.design.faceplates import FACEPLATES
from isolator.design.naming import slug
from isolator.design.plate_kinds import HEAD_PLAY, PLATE_KINDS, SHEETS
from isolator.design.plate_room import (
    boss_hole,
    least_frame_plate,
    least_motor_plate,
    pad_room,
    ring_room,
    round_screw,
)

LEAST_LAYERS = 2  # that a wedge rises by
HAIR = 1e-6  # lengths nearer than this are equal [mm]


def require(damper: MotorDamper, settings: PrintSettings) -> None:
    """Raise CannotDraw where plates, rubber, holes or screws of a damper cannot go together."""
    faceplate(slug(damper.name, "damper"), damper.frame_size)
    if damper.shape not in DAMPER_SHAPES:
        _refuse(damper, "rubber", "shape", f"{damper.shape} is not among ring, pads")
    if damper.plates not in PLATE_KINDS:
        told = ", ".join(PLATE_KINDS)
        _refuse(damper, "motor-plate", "plates", f"{damper.plates} is not among {told}")
    _plates(damper)
    if damper.shape == "ring":
        _ring(damper, settings)
    else:
        _pads(damper, settings)
    _holes(damper, settings)
    _screws(damper)
    _wedge(damper, settings)
    if damper.pulley_spacer <= 0 or damper.shaft <= damper.pulley_spacer:
        _refuse(
            damper,
            "pulley-spacer",
            "pulley_spacer",
            f"{mm(damper.pulley_spacer):g} mm is not between 0 and the shaft's "
            f"{mm(damper.shaft):g} mm",
        )


def _plates(damper: MotorDamper) -> None:
    for part, height, least in (
        ("motor-plate", damper.motor_plate, least_motor_plate(damper.frame_size, damper.plates)),
        ("frame-plate", damper.frame_plate, least_frame_plate(damper.frame_size, damper.plates)),
    ):
        if mm(height) < mm(least) - HAIR:
            _refuse(
                damper,
                part,
                part.replace("-", "_"),
                f"{mm(height):g} mm is thinner than the {mm(least):g} mm "
                + ("of the thinnest sheet" if damper.kind.sheet else "that its screws need"),
            )
        if damper.kind.sheet and mm(height) > mm(SHEETS[1]) + HAIR:
            _refuse(
                damper,
                part,
                part.replace("-", "_"),
                f"{mm(height):g} mm is thicker than the {mm(SHEETS[1]):g} mm of the thickest sheet",
            )
    if damper.rubber <= 0:
        _refuse(damper, "rubber", "rubber", f"{mm(damper.rubber):g} mm is no thickness")


def _ring(damper: MotorDamper, settings: PrintSettings) -> None:
    room = ring_room(damper.frame_size, settings.hole_compensation, damper.plates)
    outer, inner = (mm(each) for each in room)
    if damper.bought:  # its rubber is no wider than it is sold
        inner = mm(FACEPLATES[damper.frame_size].pilot)
    first, second = mm(damper.first), mm(damper.second)
    if first > outer + HAIR:
        _refuse(
            damper,
            "rubber",
            "first",
            f"a ring {first:g} mm wide lies over the screws' pockets; {outer:.2f} mm does not",
        )
    if second < inner - HAIR:
        _refuse(
            damper,
            "rubber",
            "second",
            f"the ring's hole of {second:g} mm lies over the boss's; {inner:.2f} mm does not",
        )
    if second >= first:
        _refuse(damper, "rubber", "second", f"{second:g} mm is not inside {first:g} mm")


def _pads(damper: MotorDamper, settings: PrintSettings) -> None:
    _, nearest, farthest = pad_room(damper.frame_size, settings.hole_compensation, damper.plates)
    half, deep, middle = mm(damper.first) / 2, mm(damper.second) / 2, mm(damper.circle)
    near, far = middle - deep, middle + deep
    if near < mm(nearest) - HAIR or far > mm(farthest) + HAIR:
        _refuse(
            damper,
            "rubber",
            "circle",
            f"pads from {near:.2f} to {far:.2f} mm off the shaft's axis; the plates carry them "
            f"from {mm(nearest):.2f} to {mm(farthest):.2f} mm",
        )
    if half > near - HAIR:
        _refuse(
            damper,
            "rubber",
            "first",
            f"pads {2 * half:g} mm long overlap at {near:.2f} mm off the shaft's axis",
        )
    off = round_screw(damper.frame_size, settings.hole_compensation, damper.plates)
    room = screw_at(damper.frame_size) - mm(off) - mm(GLUE_EDGE)
    if half > room + HAIR:
        _refuse(
            damper,
            "rubber",
            "first",
            f"pads {2 * half:g} mm long lie over the screws' pockets; {2 * room:.2f} mm do not",
        )


def _holes(damper: MotorDamper, settings: PrintSettings) -> None:
    """The holes that let something through must leave the rubber and the plate's edge alone."""
    boss = mm(boss_hole(damper.frame_size, settings.hole_compensation))
    needed = mm(damper.outer) + 2 * (mm(damper.travel) + mm(FREE))
    if needed > boss + HAIR and not damper.gauge:  # a bare shaft always has room
        _refuse(
            damper,
            "frame-plate",
            "outer",
            f"the pulley spacer of {mm(damper.outer):g} mm needs a hole of {needed:.2f} mm with "
            f"its travel; the plate's is {boss:.2f} mm",
        )
    if damper.kind.sheet:
        if damper.travel > HEAD_PLAY + 1e-9:
            _refuse(
                damper,
                "frame-plate",
                "travel",
                f"{mm(damper.travel):g} mm is more than the {mm(HEAD_PLAY):g} mm by which the free "
                "corners of sheet clear its screws' heads",
            )
        if damper.wedge == 0:
            return
    key, at = key_hole(damper, settings) / 2, screw_at(damper.frame_size)
    outline = plate_outline(damper.frame_size)
    room = min(bond_radius(damper, settings), outline.size[0] / 2 - mm(POCKET_WALL) - at)
    if key > room + HAIR:
        _refuse(
            damper,
            "frame-plate",
            "travel",
            f"{mm(damper.travel):g} mm makes the key's holes {2 * key:.2f} mm wide; "
            f"{2 * room:.2f} mm is the most beside rubber and edge",
        )


def _screws(damper: MotorDamper) -> None:
    low, high = (mm(each) for each in motor_screw_room(damper))
    long = mm(damper.motor_screw)
    if long < low - HAIR:
        _refuse(
            damper,
            "motor-plate",
            "motor_screw",
            f"{long:g} mm is too short to hold the motor; {low:.2f} mm is the least",
        )
    if long > high + HAIR:
        _refuse(
            damper,
            "motor-plate",
            "motor_screw",
            f"{long:g} mm bottoms in the motor; {high:.2f} mm is the most in the deepest holes",
        )
    long, low = mm(damper.frame_screw), mm(least_frame_screw(damper))
    if long < low - HAIR:
        _refuse(
            damper,
            "frame-plate",
            "frame_screw",
            f"{long:g} mm ends inside its nut; {low:.2f} mm is the least",
        )


def _wedge(damper: MotorDamper, settings: PrintSettings) -> None:
    if damper.wedge <= 0:
        return
    if local_pull(damper) == (0.0, 0.0):
        _refuse(damper, "wedge", "pull", "the belts pull along the shaft, not across it")
    rise, layer = 2.0 * wedge_slope(damper), mm(settings.layer)
    if rise < LEAST_LAYERS * layer - HAIR:
        _refuse(
            damper,
            "wedge",
            "wedge_angle",
            f"a slope that rises by {rise:.2f} mm is less than {LEAST_LAYERS} layers of "
            f"{layer:g} mm; leave the wedge out",
        )
    thin, least = mm(damper.wedge) - wedge_slope(damper), THIN_EDGE
    least = max(least, 2 * mm(settings.first_layer_chamfer))
    if thin < least - HAIR:
        _refuse(
            damper,
            "wedge",
            "wedge",
            f"{mm(damper.wedge):g} mm in the middle leaves {thin:.2f} mm at the thin edge; "
            f"{least:g} mm is the least",
        )


def _refuse(damper: MotorDamper, part: str, dimension: str, reason: str) -> None:
    name = part if part == "pulley-spacer" else f"damper-{part}"
    raise CannotDraw(slug(damper.name, name), dimension, reason)
