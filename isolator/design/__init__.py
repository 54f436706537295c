"""The drawing sheet: all that a draughtsman needs to draw every part of a design.

Lengths are metres, loads newtons. The frame of reference is the printer's: x to the right, y to
the back, z up, origin at the middle of the foot rectangle on the underside of the printer's frame.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from isolator.design.damper import MotorDamper

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
    motor_dampers: tuple[MotorDamper, ...] = ()
    frame_size: tuple[float, float, float]  # the printer's outside, for the assembly picture


HEX_HEAD_HEIGHT = {0.004: 2.8e-3, 0.005: 3.5e-3, 0.006: 4.0e-3, 0.008: 5.3e-3}
"""Thread diameter to nominal head height of a hexagon-head screw [m]; ISO 4017, from memory."""

HEADS = {
    0.004: (7.6e-3, 7e-3),
    0.005: (9.5e-3, 8e-3),
    0.006: (10.5e-3, 10e-3),
    0.008: (14e-3, 13e-3),
}
"""Thread diameter to greatest button head (ISO 7380-1) and width across flats (ISO 4017) [m]."""

EAR_MARGIN = 2.0e-3  # solid left round a screw head [m]
HEX_FIT = 0.2e-3  # play across flats of a pressed-in hexagon [m]
COVER = 1.6e-3  # printed layer between a captive screw head and the pad [m]
FLOOR = 2.4e-3  # least solid under a captive screw head [m]
EAR = 3.0e-3  # least thickness of an ear that a slot screw clamps [m]
PLATE = 1.2e-3  # least thickness of any printed plate under a pad [m]
_SLOT_THREADS = {"slot-20": 0.005, "slot-30": 0.006, "slot-40": 0.008}


def quantise(value: float, layer: float) -> float:
    """Return the height nearest to `value` [m] that is a whole number of layers, at least one.

    `layer` is the layer height [m]. A tie goes to the larger height; nothing below a nanometre is
    kept, so that a height reads like one.

    >>> quantise(0.00449, 0.0002)
    0.0044
    """
    return round(max(1, math.floor(value / layer + 0.5 + 1e-9)) * layer, 9)


def quantise_up(value: float, layer: float) -> float:
    """Return the least whole number of layers [m] that is not less than `value` [m].

    >>> quantise_up(0.00401, 0.0002)
    0.0042
    """
    return round(max(1, math.ceil(value / layer - 1e-9)) * layer, 9)


def attachment_thread(attachment: str, bolt: float, tube: float) -> float:
    """Return the thread diameter [m] that an attachment is drawn with, 0 for "adhesive".

    `bolt` [m] rules where it is given (above 0). Otherwise slots take M5, M6 and M8 (common
    practice, no source), one bolt M6, a tube M5 where its inner diameter `tube` [m] leaves a wall
    round the nut (13 mm and more) and M4 below.
    """
    if attachment == "adhesive":
        return 0.0
    if bolt > 0:
        return bolt
    if attachment == "tube-end":
        return 0.005 if tube >= 0.013 else 0.004
    return _SLOT_THREADS.get(attachment, 0.006)


def least_cap(attachment: str, bolt: float, tube: float, layer: float) -> float:
    """Return the least `cap` [m] with which a foot of this attachment can be drawn.

    Slots clamp ears as thick as the cap; a bolt and a tube end hide a hexagon head in the cap,
    with `FLOOR` under it and a glued cover of `COVER` over it, so that the pad bears on its whole
    area. `layer` is the layer height [m]; the result is a whole number of layers. A thread that
    has no row in `HEX_HEAD_HEIGHT` counts as the largest row.
    """
    if attachment == "adhesive":
        return quantise_up(PLATE, layer)
    if attachment.startswith("slot"):
        return quantise_up(EAR, layer)
    thread = attachment_thread(attachment, bolt, tube)
    head = HEX_HEAD_HEIGHT.get(round(thread, 6), max(HEX_HEAD_HEIGHT.values()))
    return round(sum(quantise_up(height, layer) for height in (COVER, head, FLOOR)), 9)


def least_width(attachment: str, bolt: float, tube: float, compensation: float) -> float:
    """Return the least width [m] of what takes a foot's screw, 0 for "adhesive".

    For slots the foot's outside along y, which its ears join; for a captive head the narrow side
    of the pocket over the pad. `compensation` [m] is what the user's printer adds to holes.
    """
    if attachment == "adhesive":
        return 0.0
    thread = round(attachment_thread(attachment, bolt, tube), 6)
    button, flats = HEADS.get(thread, HEADS[max(HEADS)])
    if attachment.startswith("slot"):
        return button + 2.0 * EAR_MARGIN
    return 2.0 * (flats + HEX_FIT + compensation) / math.sqrt(3.0) + 2.0 * EAR_MARGIN
