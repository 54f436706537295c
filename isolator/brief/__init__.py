"""The brief: what the user says about the printer, read strictly."""

from isolator.brief.limits import Brief, DamperStock, Driver, Limits, Owned, Print, Room, Stock
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
)
from isolator.brief.places import foot_positions
from isolator.brief.read import read_brief, read_brief_text

__all__ = [
    "Assumed",
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
    "Stock",
    "foot_positions",
    "read_brief",
    "read_brief_text",
]
