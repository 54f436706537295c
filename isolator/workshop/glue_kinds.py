"""Which kind of glue holds which two materials; common practice, no source.

A kind, not a product: what its maker says of both materials rules.
"""

from __future__ import annotations

from typing import NamedTuple

from isolator.design.filaments import filament
from isolator.design.plate_kinds import PLATE_KINDS

SLAB = "slab"
METAL = "metal"
OTHER = "other"


class GlueKind(NamedTuple):
    """A kind of glue and how faces are made ready for it."""

    name: str
    ready: str


CONTACT = GlueKind(
    "contact adhesive of chloroprene",
    "roughen and degrease both faces, coat both, wait as its tin says, press once",
)
ROOFING = GlueKind(
    "contact adhesive for EPDM and butyl membrane",
    "wipe the rubber with its primer or spirit, coat both faces, press once",
)
SILICONE = GlueKind(
    "one-part silicone adhesive",
    "nothing else holds on silicone; degrease, press lightly, a day to cure",
)
URETHANE = GlueKind(
    "flexible polyurethane adhesive", "roughen and degrease both faces, clamp until it has cured"
)
FOAMED = GlueKind(
    "spray contact adhesive for polyethylene foam",
    "coat both faces thinly, wait until dry to the touch, press once",
)
TOUGH = GlueKind(
    "rubber-toughened cyanoacrylate", "roughen both faces, press at once, no more than a film"
)
EPOXY = GlueKind("two-part epoxy", "roughen and degrease both faces, clamp until it has cured")
BONDED = GlueKind(
    "contact adhesive of chloroprene, or rubber-toughened cyanoacrylate, for rubber to metal",
    "grind the metal bare with grit 80, degrease both faces, coat both, press once; a rubber shop "
    "can also vulcanise it on",
)
HYBRID = GlueKind(
    "construction adhesive of silane-modified polymer",
    "brush the slab free of dust, press, two days to cure",
)
NAMED = GlueKind("glue that its maker names for both", "roughen and degrease both faces")

_SURFACES = {
    **dict.fromkeys(("nr", "sbr", "cr", "nbr", "sponge", "cork", "eva"), "rubber"),
    **dict.fromkeys(("epdm", "iir"), "membrane"),
    "vmq": "silicone",
    "pu": "polyurethane",
    "pe": "polyethylene",
    SLAB: SLAB,
    METAL: METAL,
    **{made: METAL for made, kind in PLATE_KINDS.items() if kind.sheet},
}
"""What a face is to a glue, by the first word of a card's id; rubbers as ISO 1629 names them."""

_ALONE = {
    "silicone": SILICONE,
    "polyethylene": FOAMED,
    "membrane": ROOFING,
    "polyurethane": URETHANE,
}
"""What one face asks for whatever the other is, the fussiest first."""

_PAIRS = {
    ("rubber", "rubber"): CONTACT,
    ("rigid", "rubber"): CONTACT,
    ("flexible", "rubber"): CONTACT,
    ("rubber", SLAB): HYBRID,
    ("flexible", "flexible"): TOUGH,
    ("flexible", "rigid"): TOUGH,
    ("flexible", SLAB): HYBRID,
    (METAL, "rigid"): EPOXY,
    (METAL, "rubber"): BONDED,
    ("rigid", "rigid"): EPOXY,
    ("rigid", SLAB): HYBRID,
}
"""What holds the rest, the two in the order of the alphabet."""


def surface(material: str) -> str:
    """Return what the face of a material is to a glue, by its card's id or its filament.

    >>> [surface(each) for each in ("nr-50", "petg", "tpu-95-gyroid-25", "my-own")]
    ['rubber', 'rigid', 'flexible', 'other']
    """
    row = filament(material)
    if row is not None:
        return "flexible" if row.flexible else "rigid"
    return _SURFACES.get(material.casefold().split("-")[0], OTHER)


def glue_kind(one: str, other: str) -> GlueKind:
    """Return the kind of glue that holds two materials; nothing is known of a card of one's own.

    >>> glue_kind("iir-50", "petg").name, glue_kind("petg", "petg").name
    ('contact adhesive for EPDM and butyl membrane', 'two-part epoxy')
    """
    faces = sorted((surface(one), surface(other)))
    alone = next((kind for face, kind in _ALONE.items() if face in faces), None)
    return alone if alone is not None else _PAIRS.get((faces[0], faces[1]), NAMED)
