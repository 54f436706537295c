"""Scenes of parts, of a foot cut open and of the assembly."""

from __future__ import annotations

import cadquery as cq

from geometry.assembly import COLOURS, bodies, frame_outline, pad_solid, placed
from geometry.finish.raster import Colour, View
from geometry.finish.scene import Scene
from geometry.finish.triangles import Mesh
from geometry.solids import booleans
from geometry.solids.mesh import tessellate
from geometry.solids.part import Body, Part, Placement, mm
from isolator.design import Design, Foot

SIZE = (480, 360)  # [pixels]
COARSE = 0.1  # chord error in pictures [mm]
COARSE_ANGLE = 0.4  # [rad]
FRAME_COLOUR: Colour = (0.80, 0.81, 0.82)


def part_scene(part: Part, size: tuple[int, int] = SIZE) -> Scene:
    """Return a part as it lies on the print bed, seen from the front, right and above."""
    return Scene([(_mesh(part), COLOURS[part.role])], View(azimuth=-60, elevation=35), size)


def assembly_scene(design: Design, parts: list[Part], size: tuple[int, int] = (640, 480)) -> Scene:
    """Return all feet in place under the outline of the printer, seen from a little above."""
    drawn = {part.name: part for part in parts}
    meshes: dict[str, Mesh] = {name: _mesh(part) for name, part in drawn.items()}
    items: list[tuple[Mesh, Colour]] = [
        (_moved(meshes[part.name], place), COLOURS[part.role])
        for part in parts
        for place in part.places
    ]
    for body in bodies(design, []):  # the pads alone
        items.append((tessellate(body.solid, COARSE, COARSE_ANGLE), COLOURS[body.role]))
    items.append((tessellate(frame_outline(design)), FRAME_COLOUR))
    return Scene(items, View(azimuth=-65, elevation=14), size)


def cut_scene(foot: Foot, parts: list[Part], size: tuple[int, int] = SIZE) -> Scene:
    """Return one foot as assembled, unloaded, its front half cut away."""
    items = [
        (tessellate(body.solid, COARSE, COARSE_ANGLE), COLOURS[body.role])
        for body in cut_open(foot, parts)
    ]
    return Scene(items, View(azimuth=-68, elevation=16), size)


def cut_open(foot: Foot, parts: list[Part]) -> list[Body]:
    """Return the bodies of one foot about the z axis, what lies in front of y = 0 cut away."""
    reach = 4 * max(mm(foot.pad.first), mm(foot.pad.second), mm(foot.pad.thickness)) + 200.0
    front = cq.Solid.makeBox(2 * reach, reach, 2 * reach, cq.Vector(-reach, -reach, -reach))
    return [
        Body(
            name=body.name, owner=body.owner, role=body.role, solid=booleans.cut(body.solid, front)
        )
        for body in standing_alone(foot, parts)
    ]


def standing_alone(foot: Foot, parts: list[Part]) -> list[Body]:
    """Return the bodies of one foot, assembled about the z axis, its cap's face at z = 0."""
    found = []
    for part in parts:
        if part.owner != foot.name or not part.places:
            continue
        there = part.places[0]
        middle = Placement(x=0.0, y=0.0, z=there.z + mm(foot.lift), turned=there.turned)
        found.append(
            Body(name=part.name, owner=foot.name, role=part.role, solid=placed(part.solid, middle))
        )
    if not foot.build.soft_body:
        found.append(Body(name="pad", owner=foot.name, role="pad", solid=pad_solid(foot)))
    return found


def _mesh(part: Part) -> Mesh:
    return tessellate(part.solid, COARSE, COARSE_ANGLE)


def _moved(mesh: Mesh, place: Placement) -> Mesh:
    """Return the mesh at its place; a half turn about x keeps the facets outward."""
    sign = -1.0 if place.turned else 1.0
    vertices = mesh.vertices * (1.0, sign, sign) + (place.x, place.y, place.z)
    return Mesh(vertices=vertices, triangles=mesh.triangles)
