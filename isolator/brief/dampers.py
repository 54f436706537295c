"""Reading what motor dampers may be made of, and the motors' driver: [damper], [driver]."""

from __future__ import annotations

import math

from isolator.brief.limits import DamperStock, Driver
from isolator.design.damper import DAMPER_SHAPES
from isolator.reading.table import Section
from isolator.reading.units import parse_quantity
from isolator.reading.values import warn_unusual

RUBBERS = ("sheet", "cast")
SHEETS = (5e-4, 1e-3, 1.5e-3, 2e-3, 3e-3, 4e-3, 5e-3)
USUAL_RUBBER = (3e-4, 0.01)


def read_damper(section: Section) -> DamperStock:
    """Return what motor dampers may be made of."""
    thicknesses = section.quantities(
        "thicknesses",
        "m",
        SHEETS,
        "what rubber sheet is sold in; common practice, no source",
        lengths=range(1, 21),
    )
    for each in thicknesses:
        warn_unusual(section.notes, section.path("thicknesses"), each, USUAL_RUBBER, "mm")
    found = DamperStock(
        materials=section.texts("materials", "all rubbers", "none was given"),
        shapes=section.choices("shapes", DAMPER_SHAPES, DAMPER_SHAPES, "all that can be drawn"),
        thicknesses=thicknesses,
        plate=section.quantity(
            "plate",
            "m",
            0.0,
            "as thin as the screws allow",
            sign="not negative",
            usual=(0.0, 0.01),
        ),
        tilt_limit=section.quantity(
            "tilt_limit",
            "rad",
            parse_quantity("0.25 deg", "rad"),
            "convention, no source",
            usual=(math.radians(0.05), math.radians(1.0)),
        ),
        wedge=section.flag("wedge", True, "a printed wedge may take the tilt back"),
        cast=section.choice("rubber", RUBBERS, "sheet", "cut from sheet") == "cast",
    )
    section.done()
    return found


def read_driver(section: Section) -> Driver:
    """Return what is told of the motor driver."""
    resistor = gain = None
    if section.has("sense_resistor"):
        resistor = section.quantity("sense_resistor", "ohm", usual=(0.02, 1.0))
    if section.has("gain"):
        gain = section.number("gain", None, within=(0.01, 1000.0))
    found = Driver(
        voltage=section.quantity("voltage", "V", 24.0, "the usual supply", usual=(5.0, 60.0)),
        sense_resistor=resistor,
        gain=gain,
    )
    section.done()
    return found
