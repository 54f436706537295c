"""Holds a drawn part against what it ought to be, and refuses it where they differ."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from OCP.Bnd import Bnd_Box
from OCP.BRepBndLib import BRepBndLib

from geometry.finish.triangles import Mesh
from geometry.solids.bridges import Hanging, hanging
from geometry.solids.mesh import tessellate, thinnest_wall
from geometry.solids.part import CannotDraw, Part, mm
from isolator.design import PrintSettings

BOX_TOLERANCE = 1e-4  # the kernel joins what is nearer than 1e-4 mm when it fuses [mm]
VOLUME_TOLERANCE = 1e-4  # relative; the closed forms are exact, the kernel integrates to 1e-6
MESH_TOLERANCE = 5e-3  # relative, of the volume: what a chord of 0.02 mm may take from a small part
OVERHANG_TOLERANCE = 0.5  # [mm²]; facets of a 45 degree cone lean a little either way


@dataclass(frozen=True, slots=True, kw_only=True)
class Figures:
    """What a drawn part measures [mm, mm², mm³].

    `overhang` is what would need support, `bridge` the longest span that is printed without.
    """

    box: tuple[float, float, float]
    volume: float
    thinnest_wall: float
    overhang: float
    bridge: float


def bounds(solid: Any) -> tuple[float, float, float, float, float, float]:
    """Return the exact box of a solid: least x, y, z, greatest x, y, z [mm]."""
    box = Bnd_Box()
    BRepBndLib.AddOptimal_s(solid.wrapped, box, False, False)
    box.SetGap(0.0)  # the kernel widens its box by the shape's tolerance
    return tuple(box.Get())


@lru_cache(maxsize=256)
def verify(part: Part, settings: PrintSettings) -> Figures:
    """Return the figures of a part as drawn; raise CannotDraw where it fails.

    Looks at: one valid closed solid, on z = 0, box, volume against the closed form, mesh closed
    and within tolerance, fits the bed, thinnest wall at least the nozzle's width, nothing that
    hangs over further than 45 degrees unless it is a short bridge. A part is looked at once.
    """
    solid = part.solid
    if solid.ShapeType() != "Solid" or not solid.isValid():
        raise CannotDraw(part.name, "solid", "the drawn shape is not one valid solid")
    low_x, low_y, low_z, high_x, high_y, high_z = bounds(solid)
    box = (high_x - low_x, high_y - low_y, high_z - low_z)
    _require_box(part, box, low_z)
    if not part.cut:
        _require_bed(part, box, settings)
    volume = float(solid.Volume())
    if abs(volume / part.volume - 1) > VOLUME_TOLERANCE:
        raise CannotDraw(
            part.name, "volume", f"drawn {volume:.2f} mm³, expected {part.volume:.2f} mm³"
        )
    mesh = tessellate(solid)
    wall, free = _require_printable(part, mesh, volume, settings)
    return Figures(
        box=box,
        volume=volume,
        thinnest_wall=wall,
        overhang=free.overhang,
        bridge=free.bridge,
    )


def _require_box(part: Part, box: tuple[float, float, float], low_z: float) -> None:
    if abs(low_z) > BOX_TOLERANCE:
        raise CannotDraw(part.name, "z", f"lowest point at {low_z:.3f} mm, not on the print bed")
    for axis, drawn, wanted in zip("xyz", box, part.box, strict=True):
        if abs(drawn - wanted) > BOX_TOLERANCE:
            raise CannotDraw(
                part.name, f"size in {axis}", f"drawn {drawn:.3f} mm, expected {wanted:.3f} mm"
            )


def _require_bed(part: Part, box: tuple[float, float, float], settings: PrintSettings) -> None:
    bed = tuple(mm(side) for side in settings.bed)
    (short, long), (bed_short, bed_long) = sorted(box[:2]), sorted(bed[:2])
    for size, room, name in (
        (short, bed_short, "width"),
        (long, bed_long, "length"),
        (box[2], bed[2], "height"),
    ):
        if size > room:
            raise CannotDraw(
                part.name, name, f"{size:.1f} mm does not fit the print bed's {room:g} mm"
            )


def _require_printable(
    part: Part, mesh: Mesh, volume: float, settings: PrintSettings
) -> tuple[float, Hanging]:
    if not mesh.is_closed():
        raise CannotDraw(part.name, "mesh", "the triangles do not close")
    if abs(mesh.volume() / volume - 1) > MESH_TOLERANCE:
        raise CannotDraw(
            part.name, "mesh", f"{mesh.volume():.2f} mm³ in triangles, {volume:.2f} mm³ drawn"
        )
    wall, nozzle = thinnest_wall(mesh), mm(settings.nozzle)
    if part.cut:  # which no nozzle lays
        return wall, Hanging(overhang=0.0, bridge=0.0)
    if wall < nozzle:
        raise CannotDraw(
            part.name,
            "thinnest wall",
            f"{wall:.2f} mm is thinner than the nozzle's {nozzle:g} mm",
        )
    free = hanging(mesh)
    if free.overhang > OVERHANG_TOLERANCE:
        raise CannotDraw(part.name, "overhang", f"{free.overhang:.1f} mm² would need support")
    return wall, free
