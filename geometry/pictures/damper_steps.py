"""Pictures of the steps in which a motor damper goes together, laid along its shaft."""

from __future__ import annotations

from typing import NamedTuple

from geometry.assembly import COLOURS
from geometry.finish.raster import Colour, View
from geometry.finish.scene import Scene
from geometry.finish.triangles import Mesh
from geometry.motors.damper_stack import Piece, gauge_piece, pieces
from geometry.pictures.exploded import is_one, laid_along
from geometry.pictures.picture import COARSE_ANGLE
from geometry.pictures.step_pictures import pale
from geometry.solids.mesh import tessellate
from isolator.design import PrintSettings
from isolator.design.damper import MotorDamper

SIZE = (420, 250)  # [pixels]
CHORD = 0.2  # error in these pictures [mm]
APART = 8.0  # between two groups [mm]


class _Group(NamedTuple):
    """What moves as one in a picture: its name where it is new, and the pieces' kinds."""

    name: str  # empty: it was there before
    kinds: tuple[str, ...]


_MOTOR = ("motor", "motor-nut", "bonding")
_GLUED = ("damper-motor-plate", "motor-screw", "rubber", "frame-screw", "damper-frame-plate")
_FIXED = (*_MOTOR, *_GLUED, "damper-wedge", "bracket", "frame-nut")
_VIEWS = {
    "glue": (
        _Group("motor-side plate", ("damper-motor-plate",)),
        _Group("motor's screws", ("motor-screw",)),
        _Group("rubber", ("rubber",)),
        _Group("frame's screws", ("frame-screw",)),
        _Group("frame-side plate", ("damper-frame-plate",)),
    ),
    "bond": (_Group("", ("motor",)), _Group("terminal and its screw", ("bonding",))),
    "motor": (_Group("", _MOTOR), _Group("damper", _GLUED)),
    "bracket": (
        _Group("", (*_MOTOR, *_GLUED)),
        _Group("wedge", ("damper-wedge",)),
        _Group("bracket", ("bracket",)),
        _Group("washers and nuts", ("frame-nut",)),
    ),
    "gauge": (
        _Group("", ("motor",)),
        _Group("gauge", ("pulley-gauge",)),
        _Group("pulley", ("pulley",)),
    ),
    "pulley": (
        _Group("", _FIXED),
        _Group("pulley spacer", ("pulley-spacer",)),
        _Group("pulley", ("pulley",)),
    ),
}
"""What each view shows, from the motor to the pulley."""
_SHEET = ("damper-motor-plate", "rubber", "damper-frame-plate")
_SHEET_VIEWS = _VIEWS | {
    "glue": tuple(group for group in _VIEWS["glue"] if "screw" not in group.name),
    "bond": (
        _Group("terminal, its screw and nut", ("bonding",)),
        _Group("", _SHEET),
    ),
    "bracket": (
        _Group("frame's screws", ("frame-screw",)),
        _Group("", (*_SHEET, "bonding")),
        _Group("motor's screws", ("motor-screw",)),
        _Group("wedge", ("damper-wedge",)),
        _Group("bracket", ("bracket",)),
        _Group("washers and nuts", ("frame-nut",)),
    ),
    "motor": (
        _Group("motor", ("motor",)),
        _Group("nuts behind its flange", ("motor-nut",)),
        _Group("", tuple(kind for kind in _FIXED if kind not in ("motor", "motor-nut"))),
    ),
}
"""The same with plates of sheet metal, which go onto the bracket before the motor."""


_BOUGHT_VIEWS = _SHEET_VIEWS | {
    "bracket": (
        _Group("frame's screws", ("frame-screw",)),
        _Group("damper", _SHEET),
        _Group("terminal and toothed washer", ("bonding",)),
        *_SHEET_VIEWS["bracket"][2:],
    ),
}
"""The same with a bought damper."""


def damper_step_scene(
    damper: MotorDamper, settings: PrintSettings, view: str, size: tuple[int, int] = SIZE
) -> Scene:
    """Return a view, shaft from left to right: new things in colour, numbered, apart.

    `view` is "glue", "gauge", "bond", "motor", "bracket" or "pulley"; KeyError for another.
    """
    items: list[tuple[Mesh, Colour]] = []
    numbers: list[tuple[range, int]] = []
    names: list[str] = []
    right: float | None = None
    for group, solids in _shown(damper, settings, view):
        meshes = [tessellate(piece.solid, CHORD, COARSE_ANGLE) for piece in solids]
        low = min(float(mesh.vertices[:, 2].min()) for mesh in meshes)
        high = max(float(mesh.vertices[:, 2].max()) for mesh in meshes)
        by = 0.0 if right is None else right + APART - low
        right = high + by
        if group.name:
            numbers.append((range(len(items), len(items) + len(meshes)), len(numbers) + 1))
            names.append(group.name)
        colours = [COLOURS[piece.role] for piece in solids]
        items += [
            (laid_along(mesh, by), colour if group.name else pale(colour))
            for mesh, colour in zip(meshes, colours, strict=True)
        ]
    return Scene(items, View(azimuth=-62, elevation=22), size, numbers, tuple(names))


def _shown(
    damper: MotorDamper, settings: PrintSettings, view: str
) -> list[tuple[_Group, list[Piece]]]:
    every = pieces(damper, settings)
    if view == "gauge":
        every = (*every, gauge_piece(damper, settings))
    found = []
    made = _SHEET_VIEWS if damper.kind.sheet else _VIEWS
    views = _BOUGHT_VIEWS if damper.bought else made
    for group in views[view]:
        solids = [piece for piece in every if any(is_one(piece, kind) for kind in group.kinds)]
        if solids:
            found.append((group, solids))
    return found
