"""The centre of mass from scales under the feet: feet.weights."""

from __future__ import annotations

from dataclasses import replace

from isolator.brief.feet import Feet
from isolator.brief.places import foot_positions
from isolator.brief.printer import COM_HEIGHT, Printer
from isolator.brief.slab import Slab
from isolator.reading.notes import Assumed, Notes
from isolator.reading.units import format_quantity

OFF = 0.05
"""Share by which scales under the feet and the printer's own mass may differ unnoticed."""


def weighed(notes: Notes, printer: Printer, feet: Feet, slab: Slab | None) -> Printer:
    """Return the printer with its centre of mass, in plan, where scales under its feet show it.

    However the feet share the load, its moments balance about the centre of mass. The height
    stays as told; so does the mass, with a warning where the scales show another.
    """
    weights = feet.weights
    if not weights or not notes.clean("feet", "printer"):
        return printer
    if feet.positions is not None and slab is not None:
        notes.fault(
            "feet.weights",
            "weights beside the places of feet under a slab",
            "weights of the printer's own feet",
            "remove feet.positions, or the weights",
        )
        return printer
    places = foot_positions(feet, printer.size, feet.count[0])
    if len(weights) != len(places):
        notes.fault(
            "feet.weights",
            f"{len(weights)} weights for {len(places)} feet",
            "one for each foot as it stands now, in their order",
            "add or remove some",
        )
        return printer
    total = sum(weights)
    if abs(total / printer.mass - 1.0) > OFF:
        notes.warn(
            "feet.weights",
            f"add up to {format_quantity(total, 'kg')}, the printer is told as "
            f"{format_quantity(printer.mass, 'kg')}: weigh it again without spool and print",
        )
    x, y = (
        sum(w * at[axis] for w, at in zip(weights, places, strict=True)) / total for axis in (0, 1)
    )
    height = _height(printer)
    for number, each in enumerate(notes.assumed):
        if each.key == "printer.center_of_mass":  # its height alone is left to assume
            told = f"{format_quantity(height, 'mm')} high"
            why = "45 % of the printer's height; where it lies follows from feet.weights"
            notes.assumed[number] = Assumed(key=f"{each.key}, height", value=told, why=why)
    return replace(printer, center_of_mass=(x, y, height))


def _height(printer: Printer) -> float:
    """Return the height of the centre of mass as told, from the lumps, or as estimated [m]."""
    if printer.center_of_mass is not None:
        return printer.center_of_mass[2]
    if printer.lumps:
        return sum(lump.mass * lump.position[2] for lump in printer.lumps) / printer.mass
    return COM_HEIGHT * printer.size[2]
