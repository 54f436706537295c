"""Copies of all parts of one filament laid out on the user's print bed, plate by plate [mm]."""

from __future__ import annotations

from dataclasses import dataclass

from geometry.formats.mesh_files import BuildItem, three_mf_bytes
from geometry.solids.mesh import Mesh, tessellate
from geometry.solids.part import CannotDraw, Part, mm
from isolator.design import PrintSettings
from isolator.design.naming import slug

GAP = 5.0  # between any two copies [mm]
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

    `layer` is a layer height of its own [mm], 0: that of all others.
    """

    material: str
    number: int
    copies: tuple[Laid, ...]
    layer: float = 0.0

    @property
    def name(self) -> str:
        """Return the file's name without suffix: filament, own layers, number from the second."""
        own = (f"{self.layer:g} mm layers",) if self.layer > 0 else ()
        return slug(self.material, *own) + ("" if self.number == 1 else f"-{self.number}")


@dataclass(slots=True)
class _Shelf:
    """A row across the bed that is being filled from the left."""

    y: float
    deep: float
    used: float


def plates(parts: list[Part], settings: PrintSettings) -> list[Plate]:
    """Return the fewest plates found for every filament, in the order in which parts name them.

    What has a layer height of its own lies on plates of its own.

    Shelves: the deepest copies first, each on the first shelf of the first plate with room. The
    long side of a copy lies across the bed where it fits. What lies on a plate is in the middle of
    the bed. Raises CannotDraw where a part is larger than the bed.
    """
    prints: dict[tuple[str, float], list[Part]] = {}
    for part in parts:
        prints.setdefault((part.material, part.layer), []).append(part)
    return [
        Plate(material=material, number=number, copies=copies, layer=layer)
        for (material, layer), same in prints.items()
        for number, copies in enumerate(_filled(same, settings), 1)
    ]


def plate_bytes(plate: Plate, parts: list[Part], title: str) -> bytes:
    """Return the 3MF of a plate; every part is one object, every copy one item of the build."""
    drawn = {part.name: part for part in parts}
    names = list(dict.fromkeys(copy.part for copy in plate.copies))
    meshes = {name: tessellate(drawn[name].solid) for name in names}
    items = [_item(copy, names.index(copy.part), meshes[copy.part]) for copy in plate.copies]
    return three_mf_bytes([(name, meshes[name]) for name in names], items, title)


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
    copies = [(part, *_lying(part, bed)) for part in parts for _ in range(part.quantity)]
    copies.sort(key=lambda each: (-each[2], -each[1], each[0].name))
    shelves: list[list[_Shelf]] = []
    laid: list[list[Laid]] = []
    for part, wide, deep, turned in copies:
        number, x, y = _place(shelves, wide, deep, bed)
        if number == len(laid):
            laid.append([])
        laid[number].append(
            Laid(
                part=part.name, x=x + wide / 2, y=y + deep / 2, wide=wide, deep=deep, turned=turned
            )
        )
    return [_in_the_middle(each, bed) for each in laid]


def _lying(part: Part, bed: tuple[float, float]) -> tuple[float, float, bool]:
    """Return width, depth and whether turned: the long side across the bed, if it fits so."""
    wide, deep, _ = part.box
    ways = sorted([(deep, wide, True), (wide, deep, False)], key=lambda way: (-way[0], way[2]))
    for way in ways:
        if way[0] <= bed[0] and way[1] <= bed[1]:
            return way
    raise CannotDraw(
        part.name,
        "box",
        f"{wide:.1f} × {deep:.1f} mm does not fit the print bed's {bed[0]:g} × {bed[1]:g} mm",
    )


def _place(
    shelves: list[list[_Shelf]], wide: float, deep: float, bed: tuple[float, float]
) -> tuple[int, float, float]:
    """Return plate and corner of the first room for a copy, and take it; open what is needed."""
    for number, rows in enumerate(shelves):
        for row in rows:
            if row.used + GAP + wide <= bed[0] and deep <= row.deep:
                x, row.used = row.used + GAP, row.used + GAP + wide
                return number, x, row.y
        y = rows[-1].y + rows[-1].deep + GAP
        if y + deep <= bed[1]:
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
