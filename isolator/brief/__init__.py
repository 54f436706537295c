"""The brief: what the user typed, read strictly, as frozen records; every key is declared here.

What follows from a brief (masses, tones, candidates) belongs to the rooms that work it out.
"""

from isolator.brief.brief import Brief
from isolator.brief.damper_mounts import DamperMount
from isolator.brief.damper_stock import DamperStock
from isolator.brief.desk import Desk
from isolator.brief.driver import Driver
from isolator.brief.fans_and_loads import Fan, Load
from isolator.brief.feet import Feet
from isolator.brief.frame import Frame
from isolator.brief.known_feet import GivenFoot, NowFoot
from isolator.brief.limits import Limits, Room
from isolator.brief.motion import Motion
from isolator.brief.motor import Motor
from isolator.brief.places import designed_positions, foot_positions
from isolator.brief.printer import Extra, Lump, Printer
from isolator.brief.printing import Print
from isolator.brief.read import read_brief, read_brief_text
from isolator.brief.slab import Slab
from isolator.brief.stock import Ball, Owned, Stock
from isolator.physics.drive.stepper import Layout
from isolator.reading.notes import Assumed

__all__ = [
    "Assumed",
    "Ball",
    "Brief",
    "DamperMount",
    "DamperStock",
    "Desk",
    "Driver",
    "Extra",
    "Fan",
    "Feet",
    "Frame",
    "GivenFoot",
    "Layout",
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
