"""The drawing sheet of a motor damper, and the room that its parts leave each other [m].

Local frame of a damper: z along the shaft, from the motor to the pulley, 0 at the motor's face;
the motor-side plate, the rubber, the frame-side plate, the wedge where there is one, then the
bracket. The motor's two screws sit on the diagonal x = y, the frame's two on x = −y, so that no
screw goes through the rubber from plate to plate. Heads lie in pockets of printed plates; on
plates of sheet metal they stand in the other plate's free corners.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from isolator.design.faceplates import FACEPLATES, screw_of
from isolator.design.plate_kinds import PLATE_KINDS, PRINTED, TOOTHED, PlateKind
from isolator.design.screws import Screw, kept_lengths

DAMPER_SHAPES = ("ring", "pads")

RECESS = 0.3e-3  # head below the face that the rubber is glued to
FLOOR = 1.5e-3  # least plate under a head
POCKET_PLAY = 0.2e-3  # on a pocket's diameter or flats, besides the hole compensation
PILOT_PLAY = 0.4e-3  # on the diameter of the hole round the motor's boss
GLUE_EDGE = 0.4e-3  # rubber stays this far from every edge of a plate's face
POCKET_WALL = 1.6e-3  # least wall outside a pocket
PLATE_CORNER = 4e-3  # corner radius of plates; motor cases are cut at least as much
FREE = 0.3e-3  # what is left between a screw and the far plate at full travel
BOND_RING = 0.8e-3  # thickest ring terminal of the bonding wire
CLAMPED = BOND_RING + TOOTHED  # under a motor screw of a bought damper, its toothed washer too
LEAST_TURNS = 3.0  # of thread that a screw holds by
DEEPEST = 3.0  # threaded holes of motors are never deeper than so many diameters; no source


@dataclass(frozen=True, slots=True, kw_only=True)
class MotorDamper:
    """Two plates with rubber bonded between them, under one belt motor [m]."""

    name: str  # the motor's name
    frame_size: int  # 14, 17, 23
    position: tuple[float, float, float]  # of the motor body's centre as built now
    axis: str  # "x" | "y" | "z", of the shaft
    points: int  # 1: the shaft points along the axis, -1: against it
    body: float  # length of the motor's body
    shaft: float  # length of the shaft from the motor's face
    pull: tuple[float, float, float]  # unit vector of the belts' pull on the shaft
    shape: str  # "ring" | "pads"
    first: float  # ring: outer diameter; pads: length across the radius
    second: float  # ring: inner diameter; pads: width along the radius
    circle: float  # pads: distance of a pad's middle from the shaft; ring: 0
    rubber: float  # thickness of the rubber, all of it
    material: str  # the card's id
    cast: bool  # cast in a mould rather than cut from sheet
    motor_plate: float  # thickness
    frame_plate: float  # thickness
    wedge: float  # thickness at the shaft's axis, 0 for none
    wedge_angle: float  # [rad]
    bracket: float  # thickness of the printer's bracket
    travel: float  # farthest that one plate moves sideways against the other
    motor_screw: float  # length of each of the two screws into the motor
    frame_screw: float  # length of each of the two screws through the bracket
    pulley_spacer: float  # height
    bore: float  # shaft diameter
    outer: float  # outer diameter of the pulley spacer
    filament: str  # of the plates and the wedge
    nose: float = 0.0  # diameter of the spacer's end on the bearing's inner ring, 0: as `outer`
    nose_height: float = 0.0  # of that end
    boss: float = 0.0  # diameter of the motor's boss, 0: usual of the frame size
    boss_height: float = 0.0  # 0: usual of the frame size
    density: float = 0.0  # of the rubber as it is poured [kg/m³]; 0: cut from sheet, or not known
    gauge: bool = False  # a gauge that comes off sets the pulley's height, no spacer
    plates: str = PRINTED  # of isolator.design.plate_kinds.PLATE_KINDS
    bought: str = ""  # what it is called where it is bought ready-made; empty: made
    found: str = ""  # where a bought one is got
    mass: float = 0.0  # of a bought one [kg]; 0: not known

    @property
    def kind(self) -> PlateKind:
        """What the plates are made of."""
        return PLATE_KINDS[self.plates]


def stack_height(damper: MotorDamper) -> float:
    """Return by how much the motor is moved back along its shaft's axis [m]."""
    return damper.motor_plate + damper.rubber + damper.frame_plate + damper.wedge


def pieces_each(damper: MotorDamper) -> int:
    """Return how many pieces of rubber one damper takes."""
    return 1 if damper.shape == "ring" else 4


def local_axes(
    damper: MotorDamper,
) -> tuple[tuple[float, ...], tuple[float, ...], tuple[float, ...]]:
    """Return the local x, y and z as unit vectors of the printer's frame.

    z points from the motor to the pulley, x along the axis that follows the shaft's in the round
    x, y, z, and y makes the frame right-handed.
    """
    shaft = "xyz".index(damper.axis)
    turn = float(damper.points)
    x = tuple(float(i == (shaft + 1) % 3) for i in range(3))
    y = tuple(turn * float(i == (shaft + 2) % 3) for i in range(3))
    z = tuple(turn * float(i == shaft) for i in range(3))
    return x, y, z


def local_pull(damper: MotorDamper) -> tuple[float, float]:
    """Return the pull's direction along the local x and y; its part along the shaft is left out."""
    x, y, _ = local_axes(damper)
    along = sum(a * b for a, b in zip(damper.pull, x, strict=True))
    across = sum(a * b for a, b in zip(damper.pull, y, strict=True))
    length = math.hypot(along, across)
    return (along / length, across / length) if length > 1e-6 else (0.0, 0.0)


def face_now(damper: MotorDamper) -> tuple[float, float, float]:
    """Return the middle of the motor's face as built now [m], printer's frame.

    The bracket's motor side is there, and stays there when the stack comes between.
    """
    z = local_axes(damper)[2]
    x, y, height = (
        at + damper.body / 2.0 * step for at, step in zip(damper.position, z, strict=True)
    )
    return x, y, height


def rubber_area(damper: MotorDamper) -> float:
    """Return the area of rubber between the plates [m²]."""
    if damper.shape == "ring":
        return math.pi / 4.0 * (damper.first**2 - damper.second**2)
    return 4.0 * damper.first * damper.second


SPILL = 1.2
"""Rubber mixed over rubber needed; common practice, no source."""


def poured(damper: MotorDamper) -> tuple[float, float]:
    """Return the volume [m³] and mass [kg] to mix for one pour, the spill with it."""
    volume = rubber_area(damper) * damper.rubber * SPILL
    return volume, volume * damper.density


def floor_under(thick: float, head: float, kind: PlateKind) -> float:
    """Return what a screw clamps of a plate `thick` [m] under its `head` [m]."""
    return thick if kind.sheet else thick - head - RECESS


def frame_head(screw: Screw, kind: PlateKind) -> float:
    """Return the height of a frame screw's head [m]: hexagon in a pocket, button on sheet."""
    return screw.button_height if kind.sheet else screw.hexagon_height


def motor_floor(damper: MotorDamper) -> float:
    """Return what a motor screw clamps: the plate under its head [m]."""
    return floor_under(damper.motor_plate, screw_of(damper.frame_size).button_height, damper.kind)


def frame_floor(damper: MotorDamper) -> float:
    """Return the frame-side plate under a frame screw's head [m]."""
    head = frame_head(screw_of(damper.frame_size), damper.kind)
    return floor_under(damper.frame_plate, head, damper.kind)


def motor_screw_room(damper: MotorDamper) -> tuple[float, float]:
    """Return the shortest and the longest motor screw that can be right at all [m].

    Into blind holes it holds by `LEAST_TURNS` and goes in by `DEEPEST` diameters at most; through
    a flange its end fills the nut behind, and nothing bounds it. The depth of the holes of the
    user's own motor is not looked at here.
    """
    screw, flange = screw_of(damper.frame_size), FACEPLATES[damper.frame_size].flange
    if flange > 0:
        return motor_floor(damper) + flange + screw.nut_height, math.inf
    floor = motor_floor(damper)
    low = floor + (CLAMPED if damper.bought else 0.0)
    return low + LEAST_TURNS * screw.pitch, floor + DEEPEST * screw.thread


def least_frame_screw(damper: MotorDamper) -> float:
    """Return the shortest frame screw whose nut is filled, without a washer [m]."""
    nut = screw_of(damper.frame_size).nut_height
    return frame_floor(damper) + damper.wedge + damper.bracket + nut


def bond_screw(damper: MotorDamper) -> float:
    """Return the length of the screw that clamps the bonding wire's terminal on the motor [m].

    It sits in a motor hole that the motor-side plate leaves free, so that metal lies on metal. In
    blind holes it reaches no deeper than the motor's other screws, if any sold length does. On
    sheet metal it goes through the plate's ear, with the terminal, a toothed washer and a nut; on
    a bought damper it is one of the motor's screws.
    """
    if damper.bought:
        return damper.motor_screw
    screw, flange = screw_of(damper.frame_size), FACEPLATES[damper.frame_size].flange
    kept = kept_lengths(screw.thread)
    if damper.kind.sheet:
        least = damper.motor_plate + BOND_RING + TOOTHED + screw.nut_height
        return next((each for each in kept if each >= least - 1e-9), kept[-1])
    if flange > 0:
        least = BOND_RING + flange + screw.nut_height
        return next((each for each in kept if each >= least - 1e-9), kept[-1])
    most = damper.motor_screw - motor_floor(damper) + BOND_RING
    return max((each for each in kept if each <= most + 1e-9), default=kept[0])
