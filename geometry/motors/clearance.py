"""Whether a motor damper moves freely: measured on its solids over its whole travel."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from typing import Any, NamedTuple

import cadquery as cq

from geometry.motors.damper_stack import Piece, pieces, twin
from geometry.solids import booleans
from geometry.solids.part import CannotDraw, mm
from geometry.solids.verify import bounds
from isolator.design import PrintSettings
from isolator.design.damper import FREE, MotorDamper
from isolator.design.faceplates import FACEPLATES
from isolator.design.naming import slug

INTERFERENCE = 1e-6  # volume that two solids may share: what the kernel leaves of a touch [mm³]
TOUCH = 1e-6  # planes nearer than this are one [mm]
DIRECTIONS = 8
FAR_HEAD = 1.3  # a screw's farthest point moves so many times as far as its axis in a twist

Box = tuple[float, float, float, float, float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class DamperClearances:
    """What is left between the parts of a damper [m, m³].

    `interference` is the largest volume that any two solids share at rest. The others are least
    distances over rest, `travel` in eight directions across the shaft and a twist by `travel` at
    the screws, each way: from the motor's screws (and that of the bonding wire) to all that stays
    with the frame, from the frame's screws to all that moves with the motor, and from the pulley's
    spacer, or the bare shaft, to all that stays with the frame.
    """

    interference: float
    motor_screws: float
    frame_screws: float
    spacer: float
    travel: float
    positions: int


class Least(NamedTuple):
    """A least distance [mm] and the two pieces it was found between."""

    distance: float
    one: str
    other: str


def damper_clearances(damper: MotorDamper, settings: PrintSettings) -> DamperClearances:
    """Return what is left between the parts; raise CannotDraw where it is too little.

    Too little is less than `FREE` at full travel, or any two solids that share a volume. Plates
    stay parallel: how far the rubber lets them tilt is for the solver to judge. The same damper
    under another name or at another place is measured once.
    """
    shared, pair, *least = _measured(twin(damper), settings)
    part = slug(damper.name, "damper")
    if shared > INTERFERENCE:
        raise CannotDraw(part, "interference", f"{pair[0]} and {pair[1]} share {shared:.3g} mm³")
    for found in least:
        if found.distance < mm(FREE) - TOUCH:
            raise CannotDraw(
                part,
                "travel",
                f"{found.one} comes as near as {found.distance:.2f} mm to {found.other} at "
                f"{mm(damper.travel):g} mm of travel; {mm(FREE):g} mm must be left",
            )
    motor, frame, spacer = (found.distance * 1e-3 for found in least)
    return DamperClearances(
        interference=shared * 1e-9,
        motor_screws=motor,
        frame_screws=frame,
        spacer=spacer,
        travel=damper.travel,
        positions=len(_positions(damper)),
    )


@lru_cache(maxsize=16)
def _measured(
    damper: MotorDamper, settings: PrintSettings
) -> tuple[float, tuple[str, str], Least, Least, Least]:
    found = pieces(damper, settings)
    boxes = {piece.name: bounds(piece.solid) for piece in found}
    moving = [piece for piece in found if piece.moves and piece.role != "pulley"]
    still = [piece for piece in found if not piece.moves and piece.role != "rubber"]
    groups = (
        ([piece for piece in moving if piece.role == "screw"], still),
        (moving, [piece for piece in still if piece.role == "screw"]),
    )
    positions, travel = _positions(damper), mm(damper.travel)
    motor, frame = (_least(itertools.product(*group), boxes, positions, travel) for group in groups)
    spacer = _turning(damper, moving)
    rings = [piece for piece in still if piece.role not in ("screw", "nut")]
    return (
        *_interference(found, boxes),
        motor,
        Least(frame.distance, frame.other, frame.one),
        _round_spacer(spacer, rings, positions, travel),
    )


def _turning(damper: MotorDamper, moving: list[Piece]) -> Piece:
    """Return what turns in the plates' holes: the pulley's spacer, or the bare shaft."""
    ring = [piece for piece in moving if piece.role == "pulley-spacer"]
    bare = cq.Solid.makeCylinder(mm(damper.bore) / 2, mm(damper.shaft))
    return ring[0] if ring else Piece(name="shaft", role="motor", moves=True, solid=bare)


def _positions(damper: MotorDamper) -> list[Any]:
    """Return where the motor's side may be: at rest, aside in eight directions, twisted."""
    travel = mm(damper.travel)
    turns = [math.tau * number / DIRECTIONS for number in range(DIRECTIONS)]
    twist = math.degrees(travel / (mm(FACEPLATES[damper.frame_size].bolt_circle) / 2))
    return [
        cq.Location(),
        *(
            cq.Location(cq.Vector(travel * math.cos(turn), travel * math.sin(turn), 0))
            for turn in turns
        ),
        *(cq.Location(cq.Vector(0, 0, 0), cq.Vector(0, 0, 1), turn) for turn in (twist, -twist)),
    ]


def _interference(found: tuple[Piece, ...], boxes: dict[str, Box]) -> tuple[float, tuple[str, str]]:
    """Return the largest volume that two pieces share, and which two."""
    worst = (0.0, ("", ""))
    for one, other in itertools.combinations(found, 2):
        a, b = boxes[one.name], boxes[other.name]
        if any(min(a[i + 3], b[i + 3]) - max(a[i], b[i]) < TOUCH for i in range(3)):
            continue  # what they share lies in the overlap of their boxes
        volume = _shared(one.solid, other.solid)
        if volume > worst[0] + INTERFERENCE:  # of two alike the first is told
            worst = (volume, (one.name, other.name))
    return worst


@lru_cache(maxsize=256)
def _shared(one: Any, other: Any) -> float:
    """Return the volume that two solids share; dampers that are alike but for their wedges share
    most of theirs."""
    return float(booleans.common(one, other).Volume())


def _least(
    pairs: Iterable[tuple[Piece, Piece]], boxes: dict[str, Box], positions: list[Any], travel: float
) -> Least:
    """Return the least distance of any pair in any position.

    Nothing moves along the shaft, so that the gap of two boxes in z bounds a distance in every
    position, and a distance at rest less the way bounds it in all others: most need no look.
    """
    ordered = sorted(
        (_gap(boxes[one.name], boxes[other.name], travel), one.name, other.name, one, other)
        for one, other in pairs
    )
    best = Least(math.inf, "", "")
    near = []
    for bound, _, _, one, other in ordered:
        if bound >= best.distance - TOUCH:
            break
        rest = float(one.solid.distance(other.solid))
        best = min(best, Least(rest, one.name, other.name))
        near.append((rest, bound, one, other))
    for rest, bound, one, other in near:
        for position in positions[1:]:
            if max(bound, rest - FAR_HEAD * travel) >= best.distance - TOUCH:
                break
            distance = float(one.solid.moved(position).distance(other.solid))
            best = min(best, Least(distance, one.name, other.name))
    return best


def _round_spacer(spacer: Piece, rings: list[Piece], positions: list[Any], travel: float) -> Least:
    """Return the least distance from the spacer's wall to the wall of any hole round it.

    The wall is as far away as the shaft's axis, less the radius that the solid has; whole solids
    about one axis take the kernel a hundred times as long.
    """
    _, _, low, right, _, high = bounds(spacer.solid)
    axis = cq.Edge.makeLine(cq.Vector(0, 0, low), cq.Vector(0, 0, high))
    walls = [(piece.name, _largest_round_face(piece.solid)) for piece in rings]
    found = sorted(
        ((float(axis.distance(wall)) - right, name, wall) for name, wall in walls),
        key=lambda each: each[:2],
    )
    best = Least(found[0][0], spacer.name, found[0][1])
    for rest, name, wall in found:
        # a twist about the spacer's own axis leaves it where it is
        for position in positions[1 : 1 + DIRECTIONS]:
            if rest - travel >= best.distance - TOUCH:
                break
            distance = float(axis.moved(position).distance(wall)) - right
            best = min(best, Least(distance, spacer.name, name))
    return best


def _largest_round_face(solid: Any) -> Any:
    """Return the wall of a plate's widest hole."""
    return max((f for f in solid.Faces() if f.geomType() == "CYLINDER"), key=lambda f: f.Area())


def _gap(a: Box, b: Box, travel: float) -> float:
    """Return the least distance that two boxes can have while one goes `travel` across z."""
    gaps = [max(a[i] - b[i + 3], b[i] - a[i + 3], 0.0) for i in range(3)]
    aside = max(math.hypot(gaps[0], gaps[1]) - FAR_HEAD * travel, 0.0)
    return math.hypot(aside, gaps[2])
