"""The brief: what the user says about the printer, read strictly."""

from isolator.brief.limits import (
    Ball,
    Brief,
    DamperStock,
    Driver,
    Limits,
    Owned,
    Print,
    Room,
    Stock,
)
from isolator.brief.model import (
    Assumed,
    Desk,
    Extra,
    Fan,
    Feet,
    GivenFoot,
    Load,
    Lump,
    Motion,
    Motor,
    NowFoot,
    Printer,
    Slab,
)
from isolator.brief.places import designed_positions, foot_positions
from isolator.brief.read import read_brief, read_brief_text

__all__ = [
    "Assumed",
    "Ball",
    "Brief",
    "DamperStock",
    "Desk",
    "Driver",
    "Extra",
    "Fan",
    "Feet",
    "GivenFoot",
    "Limits",
    "Load",
    "Lump",
    "Motion",
    "Motor",
    "NowFoot",
    "Owned",
    "Print",
    "Printer",
    "Room",
    "Slab",
    "Stock",
    "designed_positions",
    "foot_positions",
    "read_brief",
    "read_brief_text",
]
