"""Reading the printer as a body: [printer], [[printer.lump]], [[printer.extra]]."""

from __future__ import annotations

import math

import numpy as np

from isolator.brief.model import Extra, Lump, Printer
from isolator.design.axes import Tensor, Triple
from isolator.reading.table import Section
from isolator.reading.units import format_quantity
from isolator.reading.values import warn_unusual

USUAL_MASS = (4.0, 30.0)
USUAL_MASS_WITH_SLAB = (4.0, 60.0)
USUAL_EXTRA = (0.0, 3.0)
USUAL_SIZE = (0.15, 1.2)
MASS_AGREEMENT = 0.02
"""How far a typed mass may be from the sum of the lumps; a kitchen scale does better."""
COM_HEIGHT = 0.45
"""Height of the centre of mass over the printer's where the brief is silent; estimated."""


def read_printer(section: Section) -> Printer:
    """Return the printer of a brief."""
    lumps = _read_lumps(section.sections("lump"))
    extras = _read_extras(section.sections("extra"))
    slab = any("slab" in lump.name.lower() for lump in lumps)
    usual = USUAL_MASS_WITH_SLAB if slab else USUAL_MASS
    total = sum(lump.mass for lump in lumps)
    if section.has("mass") or not lumps:
        mass = section.quantity("mass", "kg", usual=usual)
        if lumps and abs(mass - total) > MASS_AGREEMENT * total:
            section.notes.fault(
                section.path("mass"),
                format_quantity(mass, "kg"),
                f"the sum of the lumps, {format_quantity(total, 'kg')}, within 2 %",
                "leave mass out, or add the lump that is missing",
            )
    else:
        mass = total
        warn_unusual(section.notes, section.path("lump"), mass, usual, "kg")
    size = section.triple("size", "m", sign="positive")
    for side in size:
        warn_unusual(section.notes, section.path("size"), side, USUAL_SIZE, "mm")
    printer = Printer(
        mass=mass,
        size=size,
        center_of_mass=_read_center(section, size, bool(lumps)),
        inertia=_read_inertia(section, mass, size, bool(lumps)),
        lumps=lumps,
        extras=extras,
    )
    section.done()
    return printer


def _read_lumps(sections: list[Section]) -> tuple[Lump, ...]:
    lumps = []
    for number, section in enumerate(sections, 1):
        why = "none was given: its mass in one point"
        lumps.append(
            Lump(
                name=section.text("name", f"lump {number}"),
                mass=section.quantity("mass", "kg"),
                position=section.triple("position", "m"),
                size=section.triple("size", "m", (0.0, 0.0, 0.0), why, sign="not negative"),
            )
        )
        section.done()
    return tuple(lumps)


def _read_extras(sections: list[Section]) -> tuple[Extra, ...]:
    extras = []
    for number, section in enumerate(sections, 1):
        low, high = section.quantities("mass", "kg", lengths=(2,), sign="not negative")
        warn_unusual(section.notes, section.path("mass"), high, USUAL_EXTRA, "kg")
        if low > high:
            section.notes.fault(
                section.path("mass"),
                f"{format_quantity(low, 'kg')} before {format_quantity(high, 'kg')}",
                "the lightest first, then the heaviest",
                "turn them round",
            )
        extras.append(
            Extra(
                name=section.text("name", f"extra {number}"),
                mass_low=low,
                mass_high=high,
                position=section.triple("position", "m"),
            )
        )
        section.done()
    return tuple(extras)


def _read_center(section: Section, size: Triple, lumped: bool) -> Triple | None:
    if not section.has("center_of_mass"):
        if lumped:
            return None
        return section.triple(
            "center_of_mass",
            "m",
            (0.0, 0.0, COM_HEIGHT * size[2]),
            "above the middle of the feet, at 45 % of the height; estimated",
        )
    center = section.triple("center_of_mass", "m")
    inside = abs(center[0]) < size[0] / 2 and abs(center[1]) < size[1] / 2
    if section.notes.clean(section.path("center_of_mass"), section.path("size")) and not (
        inside and 0.0 < center[2] < size[2]
    ):
        section.notes.warn(section.path("center_of_mass"), "lies outside the printer; check it")
    return center


def _read_inertia(section: Section, mass: float, size: Triple, lumped: bool) -> Tensor | None:
    key = section.path("inertia")
    if not section.has("inertia"):
        if not lumped:
            section.notes.assume(
                key,
                "a uniform box of the printer's outside, made larger for its frame",
                "none was given",
            )
        return None
    entries = section.quantities("inertia", "kg*m^2", lengths=(3, 6), sign="any")
    if not section.notes.clean(key):
        return None
    xx, yy, zz, xy, xz, yz = (*entries, 0.0, 0.0, 0.0)[:6]
    tensor = ((xx, xy, xz), (xy, yy, yz), (xz, yz, zz))
    small, middle, large = np.linalg.eigvalsh(np.array(tensor))
    if small <= 0.0 or large > (small + middle) * (1.0 + 1e-9):  # rounding of a flat plate's
        told = ", ".join(format_quantity(float(x), "kg*m^2", 4) for x in (small, middle, large))
        section.notes.fault(
            key,
            f"principal moments {told}",
            "three above zero, none larger than the other two together",
            "check the order xx yy zz xy xz yz and the signs",
        )
    elif section.notes.clean(section.path("mass"), section.path("size")):
        box = mass / 12.0 * (math.fsum(side**2 for side in size) - min(size) ** 2)
        if not box / 5.0 < large < box * 5.0:
            section.notes.warn(key, "is far from that of a box of this mass and size; check it")
    return tensor
