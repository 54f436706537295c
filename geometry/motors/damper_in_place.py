"""A motor damper with its motor where it is on the printer [mm]."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache
from typing import Any

import cadquery as cq

from geometry.motors import hardware
from geometry.motors.damper_stack import Piece, pieces, slope
from geometry.solids import features
from geometry.solids.part import Body, mm
from isolator.design import PrintSettings
from isolator.design.damper import MotorDamper, face_now, local_axes, local_pull, stack_height
from isolator.design.naming import slug


def damper_bodies(damper: MotorDamper, settings: PrintSettings) -> list[Body]:
    """Return everything in its place on the printer; only dampers that are alike share solids."""
    there = location(damper)
    return [
        Body(
            name=slug(damper.name, piece.name),
            owner=damper.name,
            role=piece.role,
            solid=piece.solid.moved(there),
        )
        for piece in _copied(pieces(damper, settings))
    ]


def location(damper: MotorDamper) -> Any:
    """Return the way from the damper's own frame to the printer's.

    The bracket's motor side stays where the motor's face is now; a wedge turns the motor about
    the middle of that face, its shaft away from the belts.
    """
    x, _, z = local_axes(damper)
    face = cq.Vector(*(mm(each) for each in face_now(damper)))
    frame = cq.Location(cq.Plane(origin=face, xDir=cq.Vector(*x), normal=cq.Vector(*z)))
    back = hardware.tilted(slope(damper), *local_pull(damper)).inverse
    return frame * back * cq.Location(cq.Vector(0, 0, -mm(stack_height(damper))))


@lru_cache(maxsize=4)
def _copied(found: tuple[Piece, ...]) -> tuple[Piece, ...]:
    """Return the same pieces as solids of their own; what was one solid in two places stays one."""
    copies: dict[Any, Any] = {}
    own = []
    for piece in found:
        drawn = features.unplaced(piece.solid)
        if drawn not in copies:
            copies[drawn] = drawn.copy()
        own.append(replace(piece, solid=copies[drawn].moved(piece.solid.location())))
    return tuple(own)
