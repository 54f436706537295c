"""The printer as a body: [printer], [[printer.lump]], [[printer.extra]]."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from isolator.design.axes import Tensor, Triple
from isolator.reading.keys import by, maybe
from isolator.reading.number_keys import pair, quantities, quantity, triple, warn_unusual
from isolator.reading.table import Table, many
from isolator.reading.units import format_quantity
from isolator.reading.word_keys import text

USUAL_MASS = (4.0, 30.0)
USUAL_MASS_WITH_SLAB = (4.0, 60.0)
HEAVIEST = 300.0
"""No desktop printer weighs more, slab and all [kg]."""
USUAL_EXTRA = (0.0, 3.0)
MASS_AGREEMENT = 0.02
"""How far a typed mass may be from the sum of the lumps; a kitchen scale does better."""
COM_HEIGHT = 0.45
"""Height of the centre of mass over the printer's where the brief is silent; estimated."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Lump:
    """One uniform box of the printer; a point where `size` is zero."""

    name: str
    mass: float  # [kg]
    position: Triple  # of its centre [m]
    size: Triple  # [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class Extra:
    """A point mass that comes and goes, such as a spool or a print."""

    name: str
    mass_low: float  # [kg]
    mass_high: float  # [kg]
    position: Triple  # [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class Printer:
    """The printer as a body, without its extras."""

    mass: float  # [kg]; the lumps' sum where there are lumps
    size: Triple  # outside width, depth, height [m]
    center_of_mass: Triple | None  # [m]; None: it follows from the lumps
    inertia: Tensor | None  # about the centre of mass [kg·m²]; None: from the lumps or the size
    lumps: tuple[Lump, ...]
    extras: tuple[Extra, ...]


class LumpTable(Table):
    """One [[printer.lump]]."""

    name = text(lambda t: f"lump {t.number}")
    mass = quantity("kg")
    position = triple("m")
    size = triple(
        "m", (0.0, 0.0, 0.0), "none was given: its mass in one point", sign="not negative"
    )


class ExtraTable(Table):
    """One [[printer.extra]]."""

    name = text(lambda t: f"extra {t.number}", example="spool")
    mass = pair("kg", sign="not negative", example=["0 kg", "1.2 kg"])
    position = triple("m", example=["150 mm", "-150 mm", "420 mm"])


class PrinterTable(Table):
    """[printer]."""

    mass = by(
        lambda t: not t.with_slab,
        quantity(
            "kg", usual=USUAL_MASS, said="11.5 kg", comment="with motors and bed, without the spool"
        ),
        quantity("kg", usual=USUAL_MASS_WITH_SLAB),
    )
    size = triple(
        "m",
        sign="positive",
        usual=(0.15, 1.2),
        names="width, depth and height",
        said=["420 mm", "440 mm", "480 mm"],
        comment="outside width, depth, height",
    )
    center_of_mass = triple(
        "m",
        lambda t: None if t.lump else (0.0, 0.0, COM_HEIGHT * t.size[2]),
        lambda t: (
            "" if t.lump else "above the middle of the feet, at 45 % of the height; estimated"
        ),
        comment="balance it on a bar both ways to find it",
    )
    inertia = maybe(
        quantities(
            "kg*m^2",
            (3, 6),
            sign="any",
            example=["0.47 kg*m^2", "0.45 kg*m^2", "0.40 kg*m^2"],
            comment="xx yy zz (xy xz yz), about that centre",
        ),
        lambda t: "" if t.lump else "none was given",
        "a uniform box of the printer's outside, made larger for its frame",
    )
    lump = many(LumpTable)
    extra = many(ExtraTable, aside=True, above="What comes and goes: lightest and heaviest.")

    @property
    def with_slab(self) -> bool:
        """Return whether one of its lumps is a slab."""
        return any("slab" in lump.name.lower() for lump in self.lump)


def read_printer(table: PrinterTable) -> Printer:
    """Return the printer of a brief."""
    lumps = tuple(lump.whole(Lump) for lump in table.lump)
    extras = tuple(_read_extra(extra) for extra in table.extra)
    total = sum(lump.mass for lump in lumps)
    if table.has("mass") or not lumps:
        mass = table.mass
        if lumps and abs(mass - total) > MASS_AGREEMENT * total:
            table.fault(
                "mass",
                format_quantity(mass, "kg"),
                f"the sum of the lumps, {format_quantity(total, 'kg')}, within 2 %",
                "leave mass out, or add the lump that is missing",
            )
    else:
        mass = total
        usual = USUAL_MASS_WITH_SLAB if table.with_slab else USUAL_MASS
        warn_unusual(table.notes, table.path("lump"), mass, usual, "kg")
    if mass > HEAVIEST:
        grams = USUAL_MASS[0] <= mass / 1e3 <= USUAL_MASS[1]
        table.fault(
            "mass" if table.has("mass") else "lump",
            format_quantity(mass, "kg"),
            f"no more than {HEAVIEST:g} kg: it stands on a desk",
            f"did you mean {format_quantity(mass / 1e3, 'kg')}?" if grams else "weigh it again",
        )
    return table.whole(
        Printer,
        mass=mass,
        center_of_mass=_read_center,
        inertia=lambda t: _read_inertia(t, mass),
        lumps=lumps,
        extras=extras,
    )


def _read_extra(table: ExtraTable) -> Extra:
    low, high = table.mass
    warn_unusual(table.notes, table.path("mass"), high, USUAL_EXTRA, "kg")
    if low > high:
        table.fault(
            "mass",
            f"{format_quantity(low, 'kg')} before {format_quantity(high, 'kg')}",
            "the lightest first, then the heaviest",
            "turn them round",
        )
    return table.whole(Extra, mass_low=low, mass_high=high)


def _read_center(table: PrinterTable) -> Triple | None:
    center, size = table.center_of_mass, table.size
    if not table.has("center_of_mass"):
        return center
    inside = abs(center[0]) < size[0] / 2 and abs(center[1]) < size[1] / 2
    if table.clean("center_of_mass", "size") and not (inside and 0.0 < center[2] < size[2]):
        table.warn("center_of_mass", "lies outside the printer; check it")
    return center


def _read_inertia(table: PrinterTable, mass: float) -> Tensor | None:
    entries = table.inertia
    if entries is None or not table.clean("inertia"):
        return None
    xx, yy, zz, xy, xz, yz = (*entries, 0.0, 0.0, 0.0)[:6]
    tensor = ((xx, xy, xz), (xy, yy, yz), (xz, yz, zz))
    small, middle, large = np.linalg.eigvalsh(np.array(tensor))
    if small <= 0.0 or large > (small + middle) * (1.0 + 1e-9):  # rounding of a flat plate's
        told = ", ".join(format_quantity(float(x), "kg*m^2", 4) for x in (small, middle, large))
        table.fault(
            "inertia",
            f"principal moments {told}",
            "three above zero, none larger than the other two together",
            "check the order xx yy zz xy xz yz and the signs",
        )
    elif table.clean("mass", "size"):
        size = table.size
        box = mass / 12.0 * (math.fsum(side**2 for side in size) - min(size) ** 2)
        if not box / 5.0 < large < box * 5.0:
            table.warn("inertia", "is far from that of a box of this mass and size; check it")
    return tensor
