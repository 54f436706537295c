"""Judging whether a printer stands on its feet before anything is designed for it."""

from __future__ import annotations

from dataclasses import replace

from isolator.brief.feet import Feet
from isolator.brief.places import designed_positions
from isolator.brief.polygon import margin, width
from isolator.brief.printer import Printer
from isolator.brief.slab import Slab
from isolator.design.axes import Pair
from isolator.reading.notes import Notes
from isolator.reading.units import format_quantity

SMALLEST_WIDTH = 0.01
"""Feet in an outline narrower than this stand in one line [m]."""


def judge_standing(notes: Notes, printer: Printer, feet: Feet, slab: Slab | None = None) -> Feet:
    """Note feet that cannot hold the printer; return the feet without counts that cannot.

    A count that the brief leaves open is dropped with a warning where another one holds.
    """
    if feet.design is not None or not notes.clean("printer", "feet", "slab"):
        return feet
    if feet.positions is not None:
        key = "feet.given" if feet.given else "feet.positions"
        _judge_places(notes, key, feet.positions, printer, slab)
        return feet
    outside = printer.size if slab is None else slab.size
    if not 2 * feet.inset < min(outside[:2]):
        notes.fault(
            "feet.inset",
            format_quantity(feet.inset, "mm"),
            f"less than half of {format_quantity(min(outside[:2]), 'mm')}",
            f"it is the distance from the {'printer' if slab is None else 'slab'}'s outside to a "
            "foot's middle",
        )
        return feet
    held = tuple(
        count
        for count in feet.count
        if not _tipping(designed_positions(feet, printer.size, slab, count), printer, slab)
    )
    if not held:
        places = designed_positions(feet, printer.size, slab, feet.count[0])
        _judge_places(notes, "feet.count", places, printer, slab)
        return feet
    for count in feet.count:
        if count not in held:
            notes.warn(
                "feet.count", f"{count} is left out: the centre of mass lies outside such feet"
            )
    return replace(feet, count=held)


def _judge_places(
    notes: Notes, key: str, places: tuple[Pair, ...], printer: Printer, slab: Slab | None
) -> None:
    if len(places) < 3:
        notes.fault(key, f"{len(places)} feet", "three feet or more", "add places")
        return
    if len(set(places)) < len(places):
        notes.fault(key, "two feet at one place", "a place for each foot", "move one of them")
    if width(places) < SMALLEST_WIDTH:
        notes.fault(
            key, "feet in one line", "feet that span an area", "move one of them off the line"
        )
        return
    tipping = _tipping(places, printer, slab)
    if tipping:
        where, (x, y), beyond = tipping
        told = f"({format_quantity(x, 'mm')}, {format_quantity(y, 'mm')})"
        notes.fault(
            key,
            f"feet that leave the centre of mass of {where} at {told} outside",
            "feet all round the centre of mass",
            f"it tips: move feet out by more than {format_quantity(beyond, 'mm', 3)} there",
        )


def _tipping(
    places: tuple[Pair, ...], printer: Printer, slab: Slab | None
) -> tuple[str, Pair, float] | None:
    """Return which state of the printer tips, its centre of mass and how far outside it is [m]."""
    for name, share in (("the printer", 0.0), ("the printer with all extras", 1.0)):
        center = _center(printer, share, slab)
        inside = margin(places, center)
        if inside <= 0.0:
            return name, center, -inside
    return None


def _center(printer: Printer, share: float, slab: Slab | None) -> Pair:
    """Return the centre of mass (x, y) [m] with extras at `share` of their range of mass."""
    parts = [(lump.mass, lump.position) for lump in printer.lumps]
    if printer.center_of_mass is not None:
        parts = [(printer.mass, printer.center_of_mass)]
    parts += [
        (extra.mass_low + share * (extra.mass_high - extra.mass_low), extra.position)
        for extra in printer.extras
    ]
    if slab is not None:
        parts.append((slab.mass, (*slab.position, 0.0)))
    mass = sum(part for part, _ in parts)
    return (
        sum(part * place[0] for part, place in parts) / mass,
        sum(part * place[1] for part, place in parts) / mass,
    )
