"""The whole brief: all its tables, in the order of the starter."""

from __future__ import annotations

from dataclasses import dataclass, field

from isolator.brief.damper_stock import DamperStock, DamperTable
from isolator.brief.desk import Desk, DeskTable
from isolator.brief.driver import Driver, DriverTable
from isolator.brief.fans_and_loads import Fan, FanTable, Load, LoadTable
from isolator.brief.feet import Feet, FeetTable
from isolator.brief.fit import FitTable
from isolator.brief.frame import Frame, FrameTable
from isolator.brief.limits import Limits, LimitsTable, Room, RoomTable
from isolator.brief.motion import Motion, MotionTable
from isolator.brief.motor import Motor
from isolator.brief.motor_table import MotorTable
from isolator.brief.noise import Noise, NoiseTable
from isolator.brief.printer import Printer, PrinterTable
from isolator.brief.printing import Print, PrintTable
from isolator.brief.slab import Slab, SlabTable
from isolator.brief.stock import Stock, StockTable
from isolator.reading.notes import Assumed
from isolator.reading.table import Table, many, one
from isolator.reading.word_keys import text


@dataclass(frozen=True, slots=True, kw_only=True)
class Brief:
    """All that the user asks, checked, with every default that was used named in `assumed`."""

    name: str
    slug: str  # ASCII, a safe folder name, never empty
    printer: Printer
    frame: Frame
    motion: Motion
    motors: tuple[Motor, ...]
    fans: tuple[Fan, ...]
    feet: Feet
    desk: Desk
    loads: tuple[Load, ...]
    limits: Limits
    stock: Stock
    print: Print
    damper: DamperStock
    driver: Driver
    room: Room
    assumed: tuple[Assumed, ...]
    warnings: tuple[str, ...]  # values outside their usual range, and other doubts
    source_file: str
    slab: Slab | None = None  # None: the feet go under the printer itself
    noise: Noise = field(default_factory=lambda: Noise(answers={}))


class BriefTable(Table):
    """A brief as it is typed."""

    name = text(said="My printer")
    printer = one(PrinterTable)
    frame = one(FrameTable)
    motion = one(MotionTable)
    motor = many(MotorTable)
    fan = many(FanTable, aside=True)
    feet = one(FeetTable)
    slab = one(
        SlabTable,
        aside=True,
        above="A slab, such as a paver, that the printer stands on; the pads then go under it.",
    )
    desk = one(DeskTable)
    load = many(LoadTable, aside=True, above="A force of your own, by its amplitude.")
    limits = one(LimitsTable)
    stock = one(StockTable)
    print = one(PrintTable)
    fit = one(
        FitTable,
        aside=True,
        above="What you measured on the fit coupon: `isolator fit` draws it and puts the readings "
        "here; without\nhole_compensation and first_layer_chamfer above, both follow from it.",
    )
    damper = one(DamperTable)
    driver = one(DriverTable)
    room = one(RoomTable)
    noise = one(
        NoiseTable,
        aside=True,
        above="What is heard, and when: `isolator triage` tells whether it is the feet.",
    )
