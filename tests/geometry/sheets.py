"""Drawing sheets of many sizes, drawn once per run."""

from __future__ import annotations

from functools import cache

from geometry.draw import draw
from geometry.part import Part
from isolator.design import (
    ATTACHMENTS,
    SHAPES,
    Design,
    Foot,
    MotorSpacer,
    Pad,
    PrintSettings,
    least_cap,
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
        "disc": (0.0194, 0.0),
        "ring": (0.0213, 0.0091),
        "rectangle": (0.0226, 0.0189),
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
THICKNESS = {"small": 0.0052, "usual": 0.0124, "large": 0.0254}
TUBE = {"small": 0.0125, "usual": 0.0183, "large": 0.0271}
POSITIONS = ((0.181, 0.192), (-0.183, 0.194), (0.0, -0.177))
EVERY_FOOT = [
    (kind, shape, attachment, size)
    for kind in ("cup", "printed")
    for shape in SHAPES
    for attachment in ATTACHMENTS
    for size in SIZES
]


def foot(kind: str, shape: str, attachment: str, size: str) -> Foot:
    """Return a foot of one of the offered kinds and sizes."""
    first, second = SIZES[size][shape]
    thickness, tube = THICKNESS[size], TUBE[size] if attachment == "tube-end" else 0.0
    printed = kind == "printed"
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
        bolt=0.0,
        tube=tube,
        cap=max(0.0034, least_cap(attachment, 0.0, tube, PRINT.layer)),
        sole=0.0026,
        wall=0.0018,
        side_room=0.0 if printed else round(0.1 * thickness + 0.0007, 6),
        sag=0.1 * thickness,
        stop=round(0.4 * thickness, 4),
    )


def design(*feet: Foot, spacers: tuple[MotorSpacer, ...] = ()) -> Design:
    """Return a design of these feet and spacers."""
    return Design(
        name="Reading-room printer",
        slug="reading-room-printer",
        version="0.1.0",
        print=PRINT,
        feet=feet,
        motor_spacers=spacers,
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
