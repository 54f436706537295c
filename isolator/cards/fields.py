"""Which figures a card may hold: their unit inside, sane range, and the families they belong to."""

from __future__ import annotations

from typing import NamedTuple

from isolator.cards.card import FAMILIES, Family


class Field(NamedTuple):
    """One figure of a card.

    `unit` is the SI unit it is read into, "" for a plain number; `low` and `high` (both allowed)
    bound what can be meant at all, in that unit. `needed` are the families that cannot do without
    it, `families` those that may hold it.
    """

    unit: str
    low: float
    high: float
    example: str
    needed: tuple[Family, ...] = ()
    families: tuple[Family, ...] = FAMILIES
    in_points: bool = False  # its spread is ± points, not a factor
    spread_alone: bool = False  # a factor of 1 that is written by its spread


_SOLID: tuple[Family, ...] = ("rubber", "printed")

FIELDS: dict[str, Field] = {
    "hardness": Field("", 0, 100, "50", in_points=True),
    "youngs_modulus": Field(
        "Pa", 1e2, 1e9, '"2.2 MPa"', needed=("rubber",), families=("rubber", "foam")
    ),
    "shear_modulus": Field("Pa", 1e2, 1e9, '"0.64 MPa"', families=("rubber",)),
    "bulk_modulus": Field("Pa", 1e6, 1e10, '"1030 MPa"', families=_SOLID),
    "poisson": Field("", 0, 0.5, "0.25"),
    "solid_modulus": Field("Pa", 1e4, 1e10, '"18 MPa"', needed=("printed",), families=("printed",)),
    "infill_factor": Field("", 0.01, 5, "1.0", needed=("printed",), families=("printed",)),
    "infill_power": Field("", 0.5, 4, "1.5", needed=("printed",), families=("printed",)),
    "loss_factor": Field("", 0, 3, "0.1", needed=FAMILIES),
    "dynamic_ratio": Field("", 1, 20, "1.4", needed=FAMILIES),
    "strain_dependence": Field("", 1, 1, "1", spread_alone=True),
    "creep": Field("", 0, 1, "0.05", needed=FAMILIES),
    "temperature": Field("1/K", -0.2, 0.2, '"-0.004 1/K"', needed=FAMILIES),
    "strain_limit": Field("", 0.01, 0.8, "0.15", needed=FAMILIES),
    "density": Field("kg/m^3", 1, 5000, '"1100 kg/m^3"', needed=FAMILIES),
    "conductivity": Field("W/(m*K)", 0.005, 5, '"0.2 W/(m*K)"'),
}

GONE = {
    "hardness_factor": (
        "it follows from where youngs_modulus is from: the published table's own "
        "E0 brings its k, any other has 1",
        "leave it out",
    ),
    "stock": (
        "a material's sheets stand beside where it is got",
        "write [supply] with found, sheets (the thicknesses), kind, source",
    ),
}
"""What older cards typed: why it is typed no more, and how to mend it."""

SPREAD_KEYS = ("spread", "kind", "source", "conditions")
FIGURE_KEYS = ("value", *SPREAD_KEYS)
CURVE_KEYS = ("unit", "strain", "stress", "spread", "kind", "source", "conditions")
PRINT_KEYS = ("pattern", "infill", "wall")
SUPPLY_KEYS = ("found", "sheets", "sizes", "ready", "kind", "source")
CAST_KEYS = ("system", "kind", "source")
SOURCE_KEYS = ("key", "cite")
CARD_KEYS = (
    "name",
    "family",
    "note",
    "reference_frequency",
    "curve",
    "print",
    "supply",
    "cast",
    "sources",
    *FIELDS,
)
