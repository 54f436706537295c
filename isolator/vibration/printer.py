"""The printer as a rigid body: mass, centre of mass and inertia, light, nominal and heavy."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from isolator.brief import Brief, Printer, Slab
from isolator.brief.printer import COM_HEIGHT
from isolator.physics.arrays import Array

FRAME_FACTOR = 1.15
"""A printer's inertia over that of a uniform box of its outside: its frame sits in the edges, its
heavy parts inside; estimated, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MassCase:
    """The printer with its extras in one state."""

    name: str  # "light" | "nominal" | "heavy"
    mass: float  # [kg]
    com: Array  # (3,) centre of mass [m]
    inertia: Array  # (3, 3) about the centre of mass [kg·m²]


@dataclass(frozen=True, slots=True, kw_only=True)
class RigidPrinter:
    """The printer as a rigid body, over the range of what comes and goes."""

    light: MassCase
    nominal: MassCase
    heavy: MassCase

    @property
    def cases(self) -> tuple[MassCase, MassCase, MassCase]:
        """All three, light first."""
        return (self.light, self.nominal, self.heavy)


def box_inertia(mass: float, size: tuple[float, float, float]) -> Array:
    """Return the inertia tensor [kg·m²] of a uniform box about its middle; `size` [m].

    >>> box_inertia(12.0, (0.3, 0.4, 0.5)).diagonal().round(3).tolist()
    [0.41, 0.34, 0.25]
    """
    square = np.square(np.asarray(size, dtype=float))
    return np.diag(mass / 12.0 * (square.sum() - square))


def point_inertia(mass: float, arm: Array) -> Array:
    """Return what a point mass at `arm` (3,) [m] adds to the inertia tensor [kg·m²]."""
    return mass * (float(arm @ arm) * np.eye(3) - np.outer(arm, arm))


def combine(pieces: list[tuple[float, Array, Array]]) -> tuple[float, Array, Array]:
    """Sum (mass, centre, own inertia) pieces by the parallel-axis theorem.

    Returns the mass [kg], the centre of mass (3,) [m] and the inertia about it (3, 3) [kg·m²].
    """
    mass = sum(piece[0] for piece in pieces)
    com = sum((piece[0] * piece[1] for piece in pieces), np.zeros(3)) / mass
    inertia = sum(
        (own + point_inertia(part, centre - com) for part, centre, own in pieces), np.zeros((3, 3))
    )
    return mass, com, inertia


def _body(printer: Printer) -> tuple[float, Array, Array]:
    """Return mass, centre and inertia of the printer without its extras, as `combine` does."""
    if printer.lumps:
        mass, com, inertia = combine(
            [
                (lump.mass, np.array(lump.position), box_inertia(lump.mass, lump.size))
                for lump in printer.lumps
            ]
        )
    else:
        mass = printer.mass
        com = np.array([0.0, 0.0, COM_HEIGHT * printer.size[2]])
        inertia = FRAME_FACTOR * box_inertia(mass, printer.size)
    if printer.center_of_mass is not None:
        com = np.array(printer.center_of_mass)
    if printer.inertia is not None:
        inertia = np.array(printer.inertia)
    return mass, com, inertia


def _slab(slab: Slab | None) -> list[tuple[float, Array, Array]]:
    """Return the slab under the printer, which stands on it as one body; none without one."""
    if slab is None:
        return []
    middle = np.array([*slab.position, -(slab.gap + slab.size[2] / 2.0)])
    return [(slab.mass, middle, box_inertia(slab.mass, slab.size))]


def build_printer(brief: Brief) -> RigidPrinter:
    """Return the printer of a brief, and its slab, over the range of its extras.

    Where lumps are given they make mass, centre and inertia; a centre or tensor typed in the
    brief overrules them. The nominal case carries each extra at the middle of its range.
    """
    body, under = _body(brief.printer), _slab(brief.slab)

    def case(name: str, share: float) -> MassCase:
        extras = [
            (extra.mass_low + share * (extra.mass_high - extra.mass_low), np.array(extra.position))
            for extra in brief.printer.extras
        ]
        pieces = [body, *under, *((mass, place, np.zeros((3, 3))) for mass, place in extras)]
        mass, com, inertia = combine(pieces)
        return MassCase(name=name, mass=mass, com=com, inertia=inertia)

    return RigidPrinter(
        light=case("light", 0.0), nominal=case("nominal", 0.5), heavy=case("heavy", 1.0)
    )
