"""What motor dampers may be made of: [damper]."""

from __future__ import annotations

import math
from dataclasses import dataclass

from isolator.brief.damper_mount_table import DamperMountTable
from isolator.brief.damper_mounts import DamperMount, read_damper_mount
from isolator.brief.limits import CONVENTION
from isolator.brief.motor import DAMPER_WISHES
from isolator.brief.names import refuse_twins
from isolator.brief.stock import MOST_THICKNESSES
from isolator.design.damper import DAMPER_SHAPES
from isolator.design.plate_kinds import PLATE_KINDS, PRINTED, SHEETS, USUAL_SHEET
from isolator.reading.number_keys import number, quantities, quantity
from isolator.reading.quantities import parse_quantity
from isolator.reading.table import Table, many
from isolator.reading.units import format_quantity
from isolator.reading.word_keys import choice, choices, flag, texts


@dataclass(frozen=True, slots=True, kw_only=True)
class DamperStock:
    """What motor dampers may be made of."""

    thicknesses: tuple[float, ...]  # of the rubber [m]
    materials: tuple[str, ...]  # ids of rubber cards; empty: all of them
    shapes: tuple[str, ...]  # of isolator.design.damper.DAMPER_SHAPES
    plates: str  # what the plates are made of, of isolator.design.plate_kinds.PLATE_KINDS
    plate: float  # thickness of each of sheet, least of each printed one [m]; 0: what screws need
    tilt_limit: float  # of the shaft under the belts' pull [rad]
    wedge: bool  # whether a wedge may take the tilt back
    belt_ring: float  # of the belts' resonance today, at least what is left on dampers
    cast: bool  # the rubber is cast in a mould, not cut from sheet
    mounts: tuple[DamperMount, ...] = ()  # that can be bought


class DamperTable(Table):
    """[damper]."""

    shapes = choices(DAMPER_SHAPES, DAMPER_SHAPES, "all that can be drawn")
    thicknesses = quantities(
        "m",
        range(1, MOST_THICKNESSES + 1),
        (5e-4, 1e-3, 1.5e-3, 2e-3, 3e-3, 4e-3, 5e-3),
        "what rubber sheet is sold in; common practice, no source",
        usual=(3e-4, 0.01),
    )
    plates = choice(
        tuple(PLATE_KINDS),
        PRINTED,
        "printed",
        comment='or "steel", "aluminium": two sheets that a shop cuts, a thinner stack',
    )
    plate = quantity(
        "m",
        lambda t: USUAL_SHEET if PLATE_KINDS[t.plates].sheet else 0.0,
        lambda t: (
            "usual of sheet metal" if PLATE_KINDS[t.plates].sheet else "as thin as the screws allow"
        ),
        sign="not negative",
        usual=(0.0, 0.01),
        comment="of printed plates the least, 0 mm: as the screws allow; of sheet 1 to 2 mm",
    )
    tilt_limit = quantity(
        "rad",
        parse_quantity("0.25 deg", "rad"),
        CONVENTION,
        usual=(math.radians(0.05), math.radians(1.0)),
        comment="of the motor's shaft under the belts' pull",
    )
    wedge = flag(
        True,
        "a printed wedge may take the tilt back",
        comment="a printed wedge may take the tilt back",
    )
    belt_ring = number(
        (0.1, 1.0),
        0.75,
        CONVENTION,
        comment="of the belts' resonance, at least what a damper leaves",
    )
    rubber = choice(
        ("sheet", "cast"),
        "sheet",
        "cut from sheet",
        comment='or "cast": poured, a mould is drawn',
    )
    materials = texts(
        (),
        "none was given",
        told="all rubbers; of those that are cast all that can be poured",
        example=["nr-40", "nr-50"],
        comment="cards; otherwise all rubbers",
    )
    mount = many(
        DamperMountTable,
        aside=True,
        above="Motor dampers that you can buy, by their data sheets: a rubber ring between two "
        "steel plates.",
    )


def read_damper(table: DamperTable) -> DamperStock:
    """Return what motor dampers may be made of."""
    mounts = tuple(read_damper_mount(each) for each in table.mount)
    for at, each in enumerate(mounts, 1):
        if each.name in DAMPER_WISHES:
            where, wanted = f"mount[{at}].name", "a name of its own"
            table.fault(where, f'"{each.name}"', wanted, "that word says what a motor may have")
    refuse_twins(table.notes, table.path("mount"), [each.name for each in mounts])
    return table.whole(
        DamperStock, plate=_read_plate, cast=lambda t: t.rubber == "cast", mounts=mounts
    )


def _read_plate(table: DamperTable) -> float:
    """Return the plates' thickness; sheet is as thick as shops cut and as screws stand on."""
    low, high = SHEETS
    if not table.clean("plates") or not table.clean("plate"):
        return table.plate
    kind = PLATE_KINDS[table.plates]
    if kind.sheet and not low - 1e-9 <= table.plate <= high + 1e-9:
        table.fault(
            "plate",
            format_quantity(table.plate, "mm"),
            f"{format_quantity(low, 'mm')} to {format_quantity(high, 'mm')} of {table.plates}",
            f"leave it out for {format_quantity(USUAL_SHEET, 'mm')}",
        )
    return table.plate
