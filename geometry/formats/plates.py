"""Copies of all parts of one filament laid out on the user's print bed, plate by plate [mm]."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from geometry.finish.triangles import Mesh
from geometry.formats.mesh_files import BuildItem, MeshObject, three_mf_bytes
from geometry.solids.mesh import tessellate
from geometry.solids.part import CannotDraw, Part, mm
from isolator.design import Foot, PrintSettings
from isolator.design.naming import slug

GAP = 12.0  # between any two copies: room for two brims of 5 mm [mm]
BESIDE = 20.0  # between a bed and the next one, where one part fills more than one [mm]


@dataclass(frozen=True, slots=True, kw_only=True)
class Laid:
    """One copy of a part on a plate: the middle of its box from the bed's front left corner [mm].

    `turned` means a quarter turn anticlockwise about z.
    """

    part: str
    x: float
    y: float
    wide: float
    deep: float
    turned: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Plate:
    """One print: its filament, its number from 1, its copies.

    `layer` is a layer height of its own [mm], 0: that of all others. `first`: one whole foot, to
    try before the rest is printed.
    """

    material: str
    number: int
    copies: tuple[Laid, ...]
    layer: float = 0.0
    first: bool = False

    @property
    def name(self) -> str:
        """Return the file's name without suffix: filament, own layers, number from the second."""
        own = (f"{self.layer:g} mm layers",) if self.layer > 0 else ()
        stem = slug(*(("first foot",) if self.first else ()), self.material, *own)
        return stem + ("" if self.number == 1 else f"-{self.number}")


@dataclass(slots=True)
class _Shelf:
    """A row across the bed that is being filled from the left."""

    y: float
    deep: float
    used: float


def plates(parts: list[Part], settings: PrintSettings, feet: Sequence[Foot] = ()) -> list[Plate]:
    """Return the fewest plates found for every filament, in the order in which parts name them.

    What has a layer height of its own lies on plates of its own. One whole foot, of the first of
    `feet` that is printed, comes before all the rest.

    Shelves: the deepest copies first, each on the first shelf of the first plate with room. The
    long side of a copy lies across the bed where it fits. What lies on a plate is in the middle of
    the bed. Raises CannotDraw where a part is larger than what the bed's margin leaves.
    """
    parts = [part for part in parts if not part.cut]
    one = _one_foot(parts, feet)
    tried = {part.name: part.quantity for part in one}
    rest = [replace(part, quantity=part.quantity - tried.get(part.name, 0)) for part in parts]
    prints: dict[tuple[bool, str, float], list[Part]] = {}
    for first, some in ((True, one), (False, rest)):
        for part in some:
            if part.quantity > 0:
                prints.setdefault((first, part.material, part.layer), []).append(part)
    return [
        Plate(material=material, number=number, copies=copies, layer=layer, first=first)
        for (first, material, layer), same in prints.items()
        for number, copies in enumerate(_filled(same, settings), 1)
    ]


def _one_foot(parts: list[Part], feet: Sequence[Foot]) -> list[Part]:
    """Return the parts of one foot, with how many of each it takes."""
    for foot in feet:
        count = len(foot.positions)
        of_it = [part for part in parts if part.owner == foot.name]
        if of_it:
            return [replace(part, quantity=math.ceil(part.quantity / count)) for part in of_it]
    return []


def plate_bytes(plate: Plate, parts: list[Part], title: str) -> bytes:
    """Return the 3MF of a plate; every part is one object, every copy one item of the build."""
    drawn = {part.name: part for part in parts}
    names = list(dict.fromkeys(copy.part for copy in plate.copies))
    meshes = {name: tessellate(drawn[name].solid) for name in names}
    items = [_item(copy, names.index(copy.part), meshes[copy.part]) for copy in plate.copies]
    objects = [MeshObject(name, meshes[name], drawn[name].fill) for name in names]
    return three_mf_bytes(objects, items, title)


def laid_out(part: Part, mesh: Mesh, settings: PrintSettings) -> list[BuildItem]:
    """Return all copies of one part as they lie on the bed, further plates to the right of it."""
    step = mm(settings.bed[0]) + BESIDE
    return [
        item._replace(x=item.x + (plate.number - 1) * step)
        for plate in plates([part], settings)
        for item in (_item(copy, 0, mesh) for copy in plate.copies)
    ]


def _filled(parts: list[Part], settings: PrintSettings) -> list[tuple[Laid, ...]]:
    bed = (mm(settings.bed[0]), mm(settings.bed[1]))
    room = (bed[0] - 2 * mm(settings.bed_margin), bed[1] - 2 * mm(settings.bed_margin))
    copies = [(part, *_lying(part, room)) for part in parts for _ in range(part.quantity)]
    copies.sort(key=lambda each: (-each[2], -each[1], each[0].name))
    shelves: list[list[_Shelf]] = []
    laid: list[list[Laid]] = []
    for part, wide, deep, turned in copies:
        number, x, y = _place(shelves, wide, deep, room)
        if number == len(laid):
            laid.append([])
        laid[number].append(
            Laid(
                part=part.name, x=x + wide / 2, y=y + deep / 2, wide=wide, deep=deep, turned=turned
            )
        )
    return [_in_the_middle(each, bed) for each in laid]


def _lying(part: Part, room: tuple[float, float]) -> tuple[float, float, bool]:
    """Return width, depth and whether turned: the long side across the bed, if it fits so."""
    wide, deep, _ = part.box
    ways = sorted([(deep, wide, True), (wide, deep, False)], key=lambda way: (-way[0], way[2]))
    for way in ways:
        if way[0] <= room[0] and way[1] <= room[1]:
            return way
    raise CannotDraw(
        part.name,
        "box",
        f"{wide:.1f} × {deep:.1f} mm does not fit the {room[0]:g} × {room[1]:g} mm that "
        "print.bed_margin leaves of the bed",
    )


def _place(
    shelves: list[list[_Shelf]], wide: float, deep: float, room: tuple[float, float]
) -> tuple[int, float, float]:
    """Return plate and corner of the first room for a copy, and take it; open what is needed."""
    for number, rows in enumerate(shelves):
        for row in rows:
            if row.used + GAP + wide <= room[0] and deep <= row.deep:
                x, row.used = row.used + GAP, row.used + GAP + wide
                return number, x, row.y
        y = rows[-1].y + rows[-1].deep + GAP
        if y + deep <= room[1]:
            rows.append(_Shelf(y=y, deep=deep, used=wide))
            return number, 0.0, y
    shelves.append([_Shelf(y=0.0, deep=deep, used=wide)])
    return len(shelves) - 1, 0.0, 0.0


def _in_the_middle(copies: list[Laid], bed: tuple[float, float]) -> tuple[Laid, ...]:
    right = max(copy.x + copy.wide / 2 for copy in copies)
    back = max(copy.y + copy.deep / 2 for copy in copies)
    x, y = (bed[0] - right) / 2, (bed[1] - back) / 2
    return tuple(
        Laid(
            part=copy.part,
            x=round(copy.x + x, 6),
            y=round(copy.y + y, 6),
            wide=copy.wide,
            deep=copy.deep,
            turned=copy.turned,
        )
        for copy in copies
    )


def _item(copy: Laid, number: int, mesh: Mesh) -> BuildItem:
    """Return where the object goes: what the middle of its box must move by, once turned."""
    low, high = mesh.vertices.min(axis=0), mesh.vertices.max(axis=0)
    x, y = (low[:2] + high[:2]) / 2
    if copy.turned:
        x, y = -y, x
    return BuildItem(object=number, x=copy.x - float(x), y=copy.y - float(y), turned=copy.turned)
