"""Drawing sheets of many sizes, drawn once per run."""

from __future__ import annotations

import math
from dataclasses import replace
from functools import cache

from geometry.draw import draw
from geometry.solids.part import Part
from isolator.design import (
    ATTACHMENTS,
    SHAPES,
    Design,
    Foot,
    MotorSpacer,
    Pad,
    PrintSettings,
    least_cap,
    quantise_up,
)
from isolator.design.attachment import attachment_thread
from isolator.design.attachment_room import head
from isolator.design.damper import MotorDamper
from isolator.design.plate_room import (
    least_frame_plate,
    least_motor_plate,
    pad_room,
    ring_room,
)

PRINT = PrintSettings(
    bed=(0.22, 0.21, 0.25),
    nozzle=0.0004,
    layer=0.0002,
    hole_compensation=0.00015,
    first_layer_chamfer=0.0003,
    material="petg",
)
SIZES = {  # shape: first, second, by size; no two numbers alike
    "small": {
        "disc": (0.0206, 0.0),
        "ring": (0.0213, 0.0091),
        "rectangle": (0.0226, 0.0204),
        "square-with-hole": (0.0207, 0.0083),
    },
    "usual": {
        "disc": (0.042, 0.0),
        "ring": (0.044, 0.023),
        "rectangle": (0.031, 0.046),
        "square-with-hole": (0.041, 0.022),
    },
    "large": {
        "disc": (0.097, 0.0),
        "ring": (0.104, 0.061),
        "rectangle": (0.118, 0.083),
        "square-with-hole": (0.099, 0.047),
    },
}
THICKNESS = {"small": 0.0092, "usual": 0.0124, "large": 0.0254}
TUBE = {"small": 0.0125, "usual": 0.0183, "large": 0.0271}
ROD = {"small": 0.0083, "usual": 0.0122, "large": 0.0201}
BESIDE = {"small": 0.0021, "usual": 0.0034, "large": 0.0057}  # screw heads from the foot's side
STUD = {"small": 0.006, "usual": 0.008, "large": 0.01}
POSITIONS = ((0.181, 0.192), (-0.183, 0.194), (0.0, -0.177))
EVERY_FOOT = [
    (kind, shape, attachment, size)
    for kind in ("cup", "printed")
    for shape in SHAPES
    for attachment in ATTACHMENTS
    for size in SIZES
]


def holes(attachment: str, outside: float, size: str) -> tuple[tuple[float, float], ...]:
    """Return unequal places of screws beside a foot `outside` wide; none where it needs none."""
    row = ATTACHMENTS[attachment]
    if row.least_holes == 0:
        return ()
    reach = outside / 2.0 + head(attachment, attachment_thread(attachment, 0.0, 0.0))[0] / 2.0
    reach = round(reach + BESIDE[size], 4)
    if "holes" in row.keys:
        return ((-reach, -0.0031), (reach, 0.0042), (reach, -0.0057))
    return ((-reach, 0.0), (reach, 0.0))


def foot(kind: str, shape: str, attachment: str, size: str) -> Foot:
    """Return a foot of one of the offered kinds and sizes."""
    first, second = SIZES[size][shape]
    row, thickness = ATTACHMENTS[attachment], THICKNESS[size]
    tube, bolt = TUBE[size] if "tube" in row.keys else 0.0, STUD[size] if row.turned else 0.0
    printed = kind == "printed"
    if printed and row.flanged:
        thickness = max(thickness, 0.0104)  # a washer goes under each head
    room, wall = 0.0 if printed else round(0.1 * thickness + 0.0007, 6), 0.0018
    outside = max(first, second) + (0.0 if printed else 2.0 * (room + wall))
    return Foot(
        name="corner",
        kind=kind,
        pad=Pad(
            shape=shape,
            first=first,
            second=second,
            thickness=thickness,
            layers=1 if printed else 2,
            material="tpu-85" if printed else "cr-sponge",
            printed=printed,
        ),
        positions=POSITIONS,
        attachment=attachment,
        bolt=bolt,
        tube=tube,
        cap=max(0.0034, least_cap(attachment, bolt, tube, PRINT.layer)),
        sole=0.0026,
        wall=wall,
        side_room=room,
        sag=0.1 * thickness,
        stop=round(0.4 * thickness, 4),
        holes=holes(attachment, outside, size),
        rod=ROD[size] if "rod" in row.keys else 0.0,
        grip=0.0037 if row.sheet else 0.0,
    )


def design(
    *feet: Foot,
    spacers: tuple[MotorSpacer, ...] = (),
    dampers: tuple[MotorDamper, ...] = (),
) -> Design:
    """Return a design of these feet, spacers and dampers."""
    return Design(
        name="Reading-room printer",
        slug="reading-room-printer",
        version="0.1.0",
        print=PRINT,
        feet=feet,
        motor_spacers=spacers,
        motor_dampers=dampers,
        frame_size=(0.42, 0.44, 0.48),
    )


def spacer(name: str = "left", frame_size: int = 17) -> MotorSpacer:
    """Return spacers of a belt motor."""
    return MotorSpacer(
        name=name,
        frame_size=frame_size,
        height=0.0052,
        pulley_spacer=0.0112,
        bore=0.005,
        outer=0.0093,
    )


@cache
def drawn(kind: str, shape: str, attachment: str, size: str) -> tuple[Foot, tuple[Part, ...]]:
    """Return a foot and its verified parts, drawn once."""
    one = foot(kind, shape, attachment, size)
    return one, tuple(draw(design(one)))


BRACKET = 0.0042
STANDOFF = 0.0063  # pulley above the motor's face before the stack
RUBBER = {"soft": ("nr-40", 0.0031), "hard": ("nr-70", 0.0014)}


def damper(
    frame_size: int = 17, shape: str = "ring", hardness: str = "soft", wedge: bool = False
) -> MotorDamper:
    """Return a damper of the largest ring, or of pads, that its plates carry."""
    outer, inner = ring_room(frame_size, PRINT.hole_compensation)
    _, near, far = pad_room(frame_size, PRINT.hole_compensation)
    material, rubber = RUBBER[hardness]
    motor_plate = quantise_up(least_motor_plate(frame_size), PRINT.layer)
    frame_plate = quantise_up(least_frame_plate(frame_size), PRINT.layer)
    thick = 0.0016 if wedge else 0.0
    deep = math.floor((far - near) * 1e4) / 1e4
    return MotorDamper(
        name="left",
        frame_size=frame_size,
        position=(-0.171, 0.198, 0.421),
        axis="z",
        points=1,
        body=0.0395,
        shaft=0.0245,
        pull=(0.6, -0.8, 0.0),
        shape=shape,
        first=math.floor(outer * 1e4) / 1e4 if shape == "ring" else 0.0127,
        second=math.ceil(inner * 1e4) / 1e4 if shape == "ring" else deep,
        circle=0.0 if shape == "ring" else (near + far) / 2,
        rubber=rubber,
        material=material,
        cast=False,
        motor_plate=motor_plate,
        frame_plate=frame_plate,
        wedge=thick,
        wedge_angle=0.0131 if wedge else 0.0,
        bracket=BRACKET,
        travel=0.0007 if hardness == "soft" else 0.0002,
        motor_screw=0.006 if frame_size < 23 else 0.012,
        frame_screw=0.014 if frame_size < 23 else 0.016,
        pulley_spacer=STANDOFF + motor_plate + rubber + frame_plate + thick,
        bore=0.005,
        outer=0.0098,
        filament="asa",
    )


SHEET = {14: (0.0011, 0.0017), 17: (0.0015, 0.0012), 23: (0.002, 0.0016)}
"""Thicknesses of the plates of sheet metal, motor side and frame side: unequal on purpose."""


def sheet_damper(
    frame_size: int = 17, shape: str = "ring", made: str = "steel", wedge: bool = False
) -> MotorDamper:
    """Return a damper of the largest ring, or of pads, between plates of sheet metal."""
    outer, inner = ring_room(frame_size, PRINT.hole_compensation, made)
    length, near, far = pad_room(frame_size, PRINT.hole_compensation, made)
    one = damper(frame_size, shape, wedge=wedge)
    motor_plate, frame_plate = SHEET[frame_size]
    return replace(
        one,
        first=math.floor((outer if shape == "ring" else min(length, 0.0123)) * 1e4) / 1e4,
        second=math.ceil(inner * 1e4) / 1e4 if shape == "ring" else one.second,
        circle=0.0 if shape == "ring" else (near + far) / 2,
        plates=made,
        motor_plate=motor_plate,
        frame_plate=frame_plate,
        frame_screw=0.012,
        travel=0.00073,
        pulley_spacer=STANDOFF + motor_plate + one.rubber + frame_plate + one.wedge,
    )
