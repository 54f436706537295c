"""Which figures a card may hold: their unit inside, sane range, and the families they belong to."""

from __future__ import annotations

from dataclasses import dataclass

from isolator.cards.card import FAMILIES, Family


@dataclass(frozen=True, slots=True, kw_only=True)
class Field:
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


_SOLID: tuple[Family, ...] = ("rubber", "printed")

FIELDS: dict[str, Field] = {
    "hardness": Field(unit="", low=0, high=100, example="50", in_points=True),
    "youngs_modulus": Field(
        unit="Pa",
        low=1e2,
        high=1e9,
        example='"2.2 MPa"',
        needed=("rubber",),
        families=("rubber", "foam"),
    ),
    "shear_modulus": Field(
        unit="Pa", low=1e2, high=1e9, example='"0.64 MPa"', families=("rubber",)
    ),
    "hardness_factor": Field(unit="", low=0.1, high=1.5, example="0.73", families=_SOLID),
    "bulk_modulus": Field(unit="Pa", low=1e6, high=1e10, example='"1030 MPa"', families=_SOLID),
    "poisson": Field(unit="", low=0, high=0.5, example="0.25"),
    "solid_modulus": Field(
        unit="Pa",
        low=1e4,
        high=1e10,
        example='"18 MPa"',
        needed=("printed",),
        families=("printed",),
    ),
    "infill_factor": Field(
        unit="", low=0.01, high=5, example="1.0", needed=("printed",), families=("printed",)
    ),
    "infill_power": Field(
        unit="", low=0.5, high=4, example="1.5", needed=("printed",), families=("printed",)
    ),
    "loss_factor": Field(unit="", low=0, high=3, example="0.1", needed=FAMILIES),
    "dynamic_ratio": Field(unit="", low=1, high=20, example="1.4", needed=FAMILIES),
    "creep": Field(unit="", low=0, high=1, example="0.05", needed=FAMILIES),
    "temperature": Field(unit="1/K", low=-0.2, high=0.2, example='"-0.004 1/K"', needed=FAMILIES),
    "strain_limit": Field(unit="", low=0.01, high=0.8, example="0.15", needed=FAMILIES),
    "density": Field(unit="kg/m^3", low=1, high=5000, example='"1100 kg/m^3"', needed=FAMILIES),
    "conductivity": Field(unit="W/(m*K)", low=0.005, high=5, example='"0.2 W/(m*K)"'),
}

FIGURE_KEYS = ("value", "spread", "kind", "source", "conditions")
CURVE_KEYS = ("unit", "strain", "stress", "spread", "kind", "source", "conditions")
PRINT_KEYS = ("pattern", "infill", "wall")
STOCK_KEYS = ("thicknesses", "kind", "source")
SOURCE_KEYS = ("key", "cite")
CARD_KEYS = (
    "name",
    "family",
    "note",
    "reference_frequency",
    "curve",
    "print",
    "stock",
    "sources",
    *FIELDS,
)
