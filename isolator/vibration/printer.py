"""The printer as a rigid body: mass, centre of mass and inertia, light, nominal and heavy."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import partial

import numpy as np

from isolator.brief import Brief, Printer, Slab
from isolator.brief.printer import COM_HEIGHT
from isolator.physics.arrays import Array
from isolator.vibration.bending import Bending, build_bending
from isolator.vibration.on_slab import OnSlab
from isolator.vibration.pieces import Piece, box, box_inertia, combine, point

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
    bending: Bending | None = None  # of its frame; None: rigid
    on_slab: OnSlab | None = None  # its own feet on its slab; None: no slab, or one body with it


@dataclass(frozen=True, slots=True, kw_only=True)
class RigidPrinter:
    """The printer as a rigid body, over the range of what comes and goes."""

    light: MassCase
    nominal: MassCase
    heavy: MassCase
    extras: int = 0  # how many come and go
    between: Callable[[Sequence[float]], MassCase] | None = None  # share of each one's range → case

    def at(self, shares: Sequence[float]) -> MassCase:
        """Return the printer with each extra at a share of its range, 0 to 1."""
        return self.nominal if self.between is None else self.between(shares)

    @property
    def cases(self) -> tuple[MassCase, MassCase, MassCase]:
        """All three, light first."""
        return (self.light, self.nominal, self.heavy)


def _body(printer: Printer) -> Piece:
    """Return the printer without its extras."""
    if printer.lumps:
        lumps = [box(lump.mass, lump.position, lump.size) for lump in printer.lumps]
        mass, com, inertia = combine(lumps)
    else:
        mass = printer.mass
        com = np.array([0.0, 0.0, COM_HEIGHT * printer.size[2]])
        inertia = FRAME_FACTOR * box_inertia(mass, printer.size)
    if printer.center_of_mass is not None:
        com = np.array(printer.center_of_mass)
    if printer.inertia is not None:
        inertia = np.array(printer.inertia)
    return mass, com, inertia


def slab_piece(slab: Slab | None) -> list[Piece]:
    """Return the slab under the printer as a list of one; empty without one."""
    if slab is None:
        return []
    middle = (*slab.position, -(slab.gap + slab.size[2] / 2.0))
    return [box(slab.mass, middle, slab.size)]


def build_printer(brief: Brief) -> RigidPrinter:
    """Return the printer of a brief, and its slab, over the range of its extras.

    Where lumps are given they make mass, centre and inertia; a centre or tensor typed in the
    brief overrules them. The nominal case carries each extra at the middle of its range.
    """
    body, under = _body(brief.printer), slab_piece(brief.slab)

    count = len(brief.printer.extras)

    def case(name: str, shares: Sequence[float]) -> MassCase:
        extras = [
            (extra.mass_low + share * (extra.mass_high - extra.mass_low), np.array(extra.position))
            for extra, share in zip(brief.printer.extras, shares, strict=True)
        ]
        mass, com, inertia = combine([body, *under, *(point(*extra) for extra in extras)])
        bending = build_bending(brief.frame, brief.printer, brief.motion, body, extras)
        return MassCase(name=name, mass=mass, com=com, inertia=inertia, bending=bending)

    return RigidPrinter(
        light=case("light", [0.0] * count),
        nominal=case("nominal", [0.5] * count),
        heavy=case("heavy", [1.0] * count),
        extras=count,
        between=partial(case, "between"),
    )
