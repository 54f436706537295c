"""What prints, screws and tape are let carry [Pa], and how much is kept back."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple


class Allowance(NamedTuple):
    """By what a strength is divided."""

    plastic: float
    steel: float
    glue: float


DRAG = Allowance(plastic=3.0, steel=1.5, glue=1.0)
"""Rare and short: over usual strengths of prints, for scatter, heat and creep; convention, no
source."""
MOVES = Allowance(plastic=6.0, steel=6.0, glue=4.0)
"""A million times: prints, threads and tape tire; convention, no source."""
TAPE = 300e3
"""Short tension that double-sided acrylic tape takes at its edge [Pa]; common practice, no
source."""
TAPE_SHEAR = 200e3
"""The same in shear [Pa]; common practice, no source."""
YIELD = 240e6
"""Least yield strength of steel screws, class 4.6, ISO 898-1 (from memory) [Pa]."""
TAPPED = 90e6
"""Shear strength of a soft aluminium profile, 0.6 of its tensile strength of 150 MPa (EN AW-6060
T4 to T5, EN 755-2, from memory) [Pa]."""
SHEAR = 0.5
"""Shear over tensile strength of a print; least of the usual criteria (Tresca)."""
GIVES = 0.25
"""Of its thickness: what a flexible flange may give; convention, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Strength:
    """Usual strength of a print [Pa]: within a layer, and across layers."""

    within: float
    across: float


STRENGTHS = {
    "pla": Strength(within=45e6, across=22e6),
    "petg": Strength(within=42e6, across=22e6),
    "abs": Strength(within=34e6, across=17e6),
    "asa": Strength(within=38e6, across=19e6),
    "pc": Strength(within=55e6, across=28e6),
    "pa": Strength(within=42e6, across=24e6),
    "nylon": Strength(within=42e6, across=24e6),
    "tpu": Strength(within=9e6, across=7e6),
}
"""By filament family; usual figures of printed test bars, from memory. A flexible print is let
stretch by about a half."""
SOFT = {"tpu-85": 12e6, "tpu-95": 26e6}
"""Lowest modulus of flexible prints by hardness [Pa]; the low end of what is measured, as on the
cards of printed solids."""


def strength(filament: str, unknown: str = "abs") -> Strength:
    """Return what a filament stands, by its family's name; that of `unknown` where not listed."""
    return STRENGTHS.get(filament.casefold().split("-")[0], STRENGTHS[unknown])


def softest(filament: str) -> float:
    """Return the lowest modulus [Pa] of a flexible print; that of the softest where unknown."""
    hardness = "-".join(filament.casefold().split("-")[:2])
    return SOFT.get(hardness, min(SOFT.values()))
