"""What was squashed: a piece's shape, sizes, faces and family, from options or a file."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from isolator.design import OUTLINES, SHAPES
from isolator.design.outlines import SHAPE_MEANINGS
from isolator.reading.keys import Key, by, maybe
from isolator.reading.notes import Notes, shown
from isolator.reading.number_keys import integer, quantities, quantity
from isolator.reading.table import Table
from isolator.reading.word_keys import choice, text

RUBBER, FOAM, PRINTED = FAMILIES = ("rubber", "foam", "printed")
BONDED, SLIPPING = FACES = ("bonded", "slipping")
FACE_MEANINGS = {
    **dict.fromkeys(("glued", "held", "sandpaper", "stuck"), BONDED),
    **dict.fromkeys(("greased", "lubricated", "free", "talc", "oiled"), SLIPPING),
}
FAMILY_MEANINGS = {
    **dict.fromkeys(("sponge", "felt", "cork", "cellular"), FOAM),
    **dict.fromkeys(("tpu", "print", "filament"), PRINTED),
    **dict.fromkeys(("silicone", "elastomer", "solid"), RUBBER),
}
SIZE_ERROR = 0.2e-3
"""Standard error of a soft piece's sizes by callipers [m]; estimated, no source."""
ID = re.compile(r"[a-z0-9](?:[a-z0-9-]{0,38}[a-z0-9])?")


@dataclass(frozen=True, slots=True, kw_only=True)
class Specimen:
    """What was squashed [SI]; `layers` pieces lie on one another, each `thickness` thick."""

    shape: str  # of isolator.design.SHAPES
    first: float  # as isolator.design.Pad.first
    second: float  # as isolator.design.Pad.second
    thickness: float
    layers: int
    faces: str  # of FACES
    temperature: float  # [°C]
    family: str  # of FAMILIES
    id: str  # of the card
    name: str  # of the card; empty: after its id
    like: str  # card that lends what a squash test does not tell; empty: the nearest
    size_error: float
    scale_step: float | None  # of the scale [kg]; None: as typed
    gauge_step: float | None  # of what measured the height [m]; None: as typed

    @property
    def height(self) -> float:
        """Return the height of the whole stack [m]."""
        return self.thickness * self.layers


class SpecimenTable(Table):
    """[specimen]."""

    shape = choice(SHAPES, meanings=SHAPE_MEANINGS)
    size = by(
        lambda t: t.clean("shape"),
        by(
            lambda t: len(OUTLINES[t.shape].sizes) == 1,
            quantities("m", (1,), example=["30 mm"]),
            quantities("m", (2,)),
        ),
        quantities("m", (1, 2)),
    )
    thickness = quantity("m", within=(2e-4, 0.5), example="10 mm")
    layers = integer((1, 50), 1)
    # foam does not bulge, so that nothing follows from how its faces are held
    faces = by(
        lambda t: t.raw("family") == FOAM,
        choice(FACES, BONDED, meanings=FACE_MEANINGS),
        choice(FACES, meanings=FACE_MEANINGS, otherwise="say how the faces were held"),
    )
    temperature = quantity("degC", 20.0, sign="any", within=(-30.0, 80.0), show="degC")
    family = choice(FAMILIES, meanings=FAMILY_MEANINGS)
    id = text(most=40, example="my-foam")
    name = maybe(text())
    like = maybe(text(most=60))
    size_error = quantity("m", SIZE_ERROR, within=(1e-6, 5e-3))
    scale_step = maybe(quantity("kg", within=(1e-6, 1.0), show="g"))
    gauge_step = maybe(quantity("m", within=(1e-7, 2e-3)))


class OptionsTable(SpecimenTable):
    """The same, typed as options."""

    @classmethod
    def declared(cls) -> dict[str, Key[Any] | Any]:
        """Return the keys of [specimen]."""
        return SpecimenTable.declared()

    def path(self, name: str) -> str:
        """Return the option of a key."""
        return "--" + OPTIONS.get(name, name).replace("_", "-")

    def fault(self, name: str, got: str, wanted: str, suggestion: str) -> None:
        """Note a fault of an option; one that is missing is shown as it is typed."""
        if got == "nothing" and name in TYPED:
            wanted = "a length with its unit" if name == "size" else wanted
            suggestion = f"add {TYPED[name]}"
        super().fault(name, got, wanted, suggestion)


OPTIONS = {"faces": "bonded/--slipping", "scale_step": "scale", "gauge_step": "gauge"}
"""Options that are called otherwise than their key."""
TYPED = {
    "shape": "--shape disc",
    "size": "--size 40mm, twice for two sizes, outer first",
    "thickness": "--thickness 10mm",
    "family": "--family foam",
    "id": "--id my-foam",
    "faces": "--bonded or --slipping",
}
"""How options that must be there are typed."""


def read_specimen(raw: Mapping[str, Any], notes: Notes, *, options: bool) -> Specimen | None:
    """Return the specimen of a table, or of options; None with faults where it is none."""
    kind = OptionsTable if options else SpecimenTable
    table = kind(notes, "" if options else "specimen", dict(raw))
    sizes = table.size
    found = table.whole(
        Specimen,
        first=sizes[0],
        second=sizes[1] if len(sizes) > 1 else 0.0,
        name=table.name or "",
        like=table.like or "",
    )
    if not ID.fullmatch(found.id) and table.clean("id"):
        wanted = "a card's id: small letters, digits and hyphens, 40 at most"
        table.fault("id", shown(found.id), wanted, 'write it like "my-foam"')
    if not notes.faults and OUTLINES[found.shape].holed and found.second >= found.first:
        table.fault("size", "a hole as wide as the piece", "less", "swap the two sizes?")
    return None if notes.faults else found
