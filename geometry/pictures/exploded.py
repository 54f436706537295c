"""A motor damper pulled apart along its shaft, from motor to pulley, with numbers."""

from __future__ import annotations

from geometry.assembly import COLOURS
from geometry.finish.raster import Colour, View
from geometry.finish.scene import Scene
from geometry.finish.triangles import Mesh
from geometry.motors.damper_stack import Piece, pieces
from geometry.pictures.picture import COARSE, COARSE_ANGLE
from geometry.solids.mesh import tessellate
from isolator.design import PrintSettings
from isolator.design.damper import MotorDamper

SIZE = (1200, 420)  # [pixels]
APART = 9.0  # between two groups [mm]

_GROUPS = (
    ("motor", ("motor",)),
    ("nuts behind the motor's flange", ("motor-nut",)),
    ("bonding wire's terminal and its screw", ("bonding",)),
    ("motor-side plate", ("damper-motor-plate",)),
    ("motor's screws", ("motor-screw",)),
    ("rubber", ("rubber",)),
    ("frame's screws", ("frame-screw",)),
    ("frame-side plate", ("damper-frame-plate",)),
    ("wedge", ("damper-wedge",)),
    ("the printer's bracket", ("bracket",)),
    ("washers and nuts", ("frame-nut",)),
    ("pulley spacer", ("pulley-spacer",)),
    ("pulley", ("pulley",)),
)


_BOUGHT = (
    ("motor", ("motor",)),
    ("nuts behind the motor's flange", ("motor-nut",)),
    ("frame's screws", ("frame-screw",)),
    ("bought damper", ("damper-motor-plate", "rubber", "damper-frame-plate")),
    ("bonding wire's terminal and its toothed washer", ("bonding",)),
    ("motor's screws", ("motor-screw",)),
    *_GROUPS[8:],
)
"""The same where the damper is bought, in one piece."""


def exploded_scene(
    damper: MotorDamper, settings: PrintSettings, size: tuple[int, int] = SIZE
) -> Scene:
    """Return the damper pulled apart, its shaft from left to right, each group numbered."""
    items: list[tuple[Mesh, Colour]] = []
    numbers = []
    low = 0.0
    names = []
    for number, (name, group) in enumerate(_grouped(damper, settings), 1):
        names.append(name)
        meshes = [tessellate(piece.solid, COARSE, COARSE_ANGLE) for piece in group]
        bottom = min(float(mesh.vertices[:, 2].min()) for mesh in meshes)
        top = max(float(mesh.vertices[:, 2].max()) for mesh in meshes)
        numbers.append((range(len(items), len(items) + len(meshes)), number))
        items += [
            (laid_along(mesh, low - bottom), COLOURS[piece.role])
            for mesh, piece in zip(meshes, group, strict=True)
        ]
        low += top - bottom + APART
    return Scene(items, View(azimuth=-62, elevation=22), size, numbers, tuple(names))


def _grouped(damper: MotorDamper, settings: PrintSettings) -> list[tuple[str, list[Piece]]]:
    every = pieces(damper, settings)
    found = []
    for name, kinds in _BOUGHT if damper.bought else _GROUPS:
        group = [piece for piece in every if any(is_one(piece, kind) for kind in kinds)]
        if group:
            found.append((name, group))
    # nuts behind a flange come first: they are farthest from the pulley
    return sorted(found, key=lambda each: each[1][0].name != "motor-nut-1")


def is_one(piece: Piece, kind: str) -> bool:
    """Return whether a piece's name is `kind`, or `kind` and a number or one more word."""
    rest = piece.name.removeprefix(kind)
    return rest != piece.name and (rest == "" or rest[1:].isdigit() or kind == "bonding")


def laid_along(mesh: Mesh, forward: float) -> Mesh:
    """Return the mesh `forward` along its z, turned: z to the right, the bond's corner in front."""
    vertices = mesh.vertices[:, [2, 1, 0]] * (1.0, 1.0, -1.0) + (forward, 0.0, 0.0)
    return Mesh(vertices=vertices, triangles=mesh.triangles)
