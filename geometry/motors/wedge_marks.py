"""What is engraved in a wedge's flat face: whose motor it is for, and an arrow to the belt [mm].

A wedge along no axis of its plate differs from its mirror image, and two of them look alike.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

from geometry.lettering.lettering import DEPTH, Letter, Lettering, engraved, lettering
from geometry.lettering.stroked import Point
from geometry.motors.damper_plates import (
    key_hole,
    mouth_depth,
    plate_outline,
    screw_at,
    wedge_slope,
)
from geometry.solids.part import Part, mm
from isolator.design import PrintSettings
from isolator.design.damper import MotorDamper, local_pull
from isolator.design.plate_room import boss_hole

LEAST_ARROW = 3.0  # length of an arrow that is seen on a print [mm]
OVER_MARKS = 2  # layers left over the letters


def marked_wedge(
    part: Part, damper: MotorDamper, names: Sequence[str], settings: PrintSettings
) -> Part:
    """Return a wedge with the names of the motors that it serves and an arrow to the belt's side.

    Both stand in the flat face, which lies on the print bed. What finds no room is noted.
    """
    thin = mm(damper.wedge) - wedge_slope(damper)
    if thin < DEPTH + max(OVER_MARKS * part.layer, mm(settings.nozzle)) - 1e-9:
        return replace(part, notes=(*part.notes, f"{thin:.2f} mm is too thin to engrave"))
    edge = 2.0 * mm(settings.nozzle)  # plates are narrow: two lines are left everywhere
    outline, at = plate_outline(damper.frame_size), screw_at(damper.frame_size)
    room = outline.grown(-mm(settings.first_layer_chamfer))
    mouth = mouth_depth(thin)
    boss = mm(boss_hole(damper.frame_size, settings.hole_compensation)) / 2 + mouth
    strip = room.size[1] / 2 - boss - 2.0 * edge
    middle = (0.0, -(boss + edge + strip / 2))
    holes = [(0.0, 0.0, boss), (*middle, strip / 2)]
    wide = key_hole(damper, settings) / 2 + mouth
    holes += [(x, y, wide) for x in (-at, at) for y in (-at, at)]
    tried = (lettering(each, room, settings, holes, edge=edge) for each in _texts(names))
    text = next((each for each in tried if each is not None), None)
    arrow = _arrow(middle, strip, local_pull(damper), edge) if strip >= LEAST_ARROW else None
    letters = (*(text.letters if text else ()), *((arrow,) if arrow else ()))
    notes = [*part.notes]
    if text:
        notes.append(f"engraved: {' / '.join(text.lines)}")
    else:
        notes.append(f"no room to engrave {', '.join(names)}")
    if arrow:
        notes.append("the engraved arrow points to the thin edge: turn it to the belt's side")
    if not letters:
        return replace(part, notes=tuple(notes))
    marks = Lettering(lines=(), height=strip, stroke=edge, letters=letters)
    solid, removed = engraved(part.solid, marks, 0.0, mirrored=True, into=1)
    return replace(part, solid=solid, volume=part.volume - removed, notes=tuple(notes))


def _texts(names: Sequence[str]) -> Iterator[str]:
    """Yield the motors' names in full, then by their initials where these tell them apart."""
    yield " ".join(names)
    initials = ["".join(word[0] for word in name.split()) for name in names]
    if all(initials) and len(set(initials)) == len(names):
        yield " ".join(initials)


def _arrow(middle: Point, long: float, way: tuple[float, float], pen: float) -> Letter:
    """Return an arrow along `way`, clockwise, in the mirror of the face, as letters are laid."""
    half, neck, wing = long / 2, long * 0.05, long * 0.36
    stem = max(pen, long / 5) / 2
    shape = [
        (half, 0.0),
        (neck, -wing),
        (neck, -stem),
        (-half, -stem),
        (-half, stem),
        (neck, stem),
        (neck, wing),
    ]
    # letters are laid as they are read from below, where x runs the other way
    turn = math.atan2(way[1], -way[0])
    cos, sin = math.cos(turn), math.sin(turn)
    return (
        tuple((middle[0] + cos * u - sin * v, middle[1] + sin * u + cos * v) for u, v in shape),
    )
