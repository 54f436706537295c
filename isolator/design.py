"""The drawing sheet: all that a draughtsman needs to draw every part of a design.

Lengths are metres, loads newtons. The frame of reference is the printer's: x to the right, y to
the back, z up, origin at the middle of the foot rectangle on the underside of the printer's frame.
"""

from __future__ import annotations

from dataclasses import dataclass

SHAPES = ("disc", "ring", "rectangle", "square-with-hole")
ATTACHMENTS = ("slot-20", "slot-30", "slot-40", "bolt", "tube-end", "adhesive")


@dataclass(frozen=True, slots=True, kw_only=True)
class PrintSettings:
    """How the user's printer makes parts [m]."""

    bed: tuple[float, float, float]
    nozzle: float
    layer: float
    hole_compensation: float  # added to every hole's diameter
    first_layer_chamfer: float
    material: str  # filament family for rigid parts, such as "petg"


@dataclass(frozen=True, slots=True, kw_only=True)
class Pad:
    """One pad as cut from sheet (or printed), unloaded [m].

    `first`, `second` are: disc diameter, 0; ring outer, inner diameter; rectangle x, y side;
    square-with-hole side, hole diameter. `thickness` is the whole free height, all layers.
    """

    shape: str
    first: float
    second: float
    thickness: float
    layers: int
    material: str  # the card's id
    printed: bool  # printed as one body with its foot rather than cut from sheet


@dataclass(frozen=True, slots=True, kw_only=True)
class Foot:
    """One kind of foot and the places where it stands [m, N].

    A cup foot is two printed parts, a cup fixed to the printer and a sole on the desk, with the
    pad glued between them; a printed foot is one body of flexible filament.
    `cap` is the solid height between the printer's underside and the pad's upper face,
    `sole` the solid height between the pad's lower face and the desk. `stop` is the compression
    of the pad, from its free height, at which cup and sole touch.
    """

    name: str
    kind: str  # "cup" | "printed"
    pad: Pad
    positions: tuple[tuple[float, float], ...]
    attachment: str
    bolt: float  # nominal thread diameter of the attachment, 0 for none
    tube: float  # inner diameter of the tube for "tube-end", 0 otherwise
    cap: float
    sole: float
    wall: float
    side_room: float  # free gap round the unloaded pad
    sag: float  # compression under the nominal static load
    stop: float


@dataclass(frozen=True, slots=True, kw_only=True)
class MotorSpacer:
    """Parts that move a belt motor back by `height` and its pulley forward by as much [m]."""

    name: str  # the motor's name
    frame_size: int  # 14, 17, 23
    height: float  # of the plate between motor and frame
    pulley_spacer: float  # height of the spacer between motor face (boss) and pulley
    bore: float  # shaft diameter
    outer: float  # outer diameter of the pulley spacer


@dataclass(frozen=True, slots=True, kw_only=True)
class Design:
    """A whole design, ready to be drawn."""

    name: str
    slug: str
    version: str
    print: PrintSettings
    feet: tuple[Foot, ...]
    motor_spacers: tuple[MotorSpacer, ...]
    frame_size: tuple[float, float, float]  # the printer's outside, for the assembly picture
