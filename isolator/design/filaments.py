"""Filaments by family: one row each, with what is known of a print of it."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Strength:
    """Usual strength of a print [Pa]: within a layer, and across layers."""

    within: float
    across: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Filament:
    """One family; what is None is not known.

    `strength`: usual figures of printed test bars, from memory; a flexible print is let stretch by
    about a half. `density` of solid filament [kg/m³]: usual data-sheet values, from memory.
    `softening`: glass transition [°C]: PLA, PETG, ABS from published data; ASA and PC from memory.
    """

    strength: Strength
    density: float | None = None
    softening: float | None = None
    flexible: bool = False


FILAMENTS = {
    "petg": Filament(strength=Strength(within=42e6, across=22e6), density=1270.0, softening=77.0),
    "abs": Filament(strength=Strength(within=34e6, across=17e6), density=1040.0, softening=100.0),
    "asa": Filament(strength=Strength(within=38e6, across=19e6), density=1070.0, softening=100.0),
    "pla": Filament(strength=Strength(within=45e6, across=22e6), density=1240.0, softening=59.0),
    "pc": Filament(strength=Strength(within=55e6, across=28e6), softening=145.0),
    "pa": Filament(strength=Strength(within=42e6, across=24e6)),
    "tpu": Filament(strength=Strength(within=9e6, across=7e6), density=1210.0, flexible=True),
}
"""Rows by family, in the order in which a brief is offered them."""
RIGID = tuple(family for family, row in FILAMENTS.items() if not row.flexible)
RIGID_MEANINGS = {"nylon": "pa", "polyamide": "pa", "polycarbonate": "pc", "polyester": "petg"}
"""Families of rigid filaments by other words."""
_OTHER_NAMES = {"nylon": "pa"}
SOFT = {"tpu-85": 12e6, "tpu-95": 26e6}
"""Lowest modulus of flexible prints by hardness [Pa]; the low end of what is measured, as on the
cards of printed solids."""


def family_of(name: str) -> str:
    """Return the family that a filament's name begins with, whether it is known or not.

    >>> family_of("TPU-95-gyroid"), family_of("nylon")
    ('tpu', 'pa')
    """
    family = name.casefold().split("-")[0]
    return _OTHER_NAMES.get(family, family)


def filament(name: str) -> Filament | None:
    """Return the row of a filament's family, None where nothing is known of it.

    >>> filament("TPU-95-gyroid") is FILAMENTS["tpu"], filament("hemp")
    (True, None)
    """
    return FILAMENTS.get(family_of(name))


def sold_as(name: str) -> str:
    """Return as what a filament is sold: family and hardness, without how it is printed.

    >>> sold_as("tpu-95-gyroid-15"), sold_as("petg"), sold_as("hemp-fibre")
    ('tpu-95', 'petg', 'hemp-fibre')
    """
    if filament(name) is None:
        return name
    family, *more = name.casefold().split("-")
    return "-".join((family, *(each for each in more[:1] if each.isdigit())))


def strength(name: str, *, flexible: bool = False) -> Strength:
    """Return what a print stands; that of the weakest rigid, or flexible, one where not known."""
    row = filament(name)
    return weakest(flexible=flexible) if row is None else row.strength


def weakest(*, flexible: bool) -> Strength:
    """Return the strength of the weakest family that is rigid, or flexible."""
    rows = [row.strength for row in FILAMENTS.values() if row.flexible == flexible]
    return min(rows, key=lambda each: each.across)


def softest(name: str) -> float:
    """Return the lowest modulus [Pa] of a flexible print; that of the softest where unknown."""
    hardness = "-".join(name.casefold().split("-")[:2])
    return SOFT.get(hardness, min(SOFT.values()))
