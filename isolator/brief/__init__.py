"""The brief: what the user typed, read strictly, as frozen records; every key is declared here.

What follows from a brief (masses, tones, candidates) belongs to the rooms that work it out.
"""

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
from isolator.reading.notes import Assumed

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
