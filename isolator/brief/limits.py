"""The records that bound a design: limits, stock, the user's own printing, the room."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from isolator.brief.model import Desk, Fan, Feet, Load, Motion, Motor, Printer, Slab
from isolator.design import PrintSettings
from isolator.design.axes import Pair, Triple
from isolator.reading.notes import Assumed


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    """What a design may not pass."""

    sway: float  # peak displacement at the tool's height [m]
    static_strain: float | None  # largest static compression strain; None: each card's own
    foot_height: float  # [m]
    foot_width: float  # [m]
    tip_margin: float  # restoring over overturning moment, at least
    slip_margin: float  # friction over horizontal force, at least
    desk_friction: float  # coefficient between foot and desk
    gravity_share: float  # largest share of the rocking stiffness that gravity may take
    promise_ceiling_db: float  # no more than this is promised [dB]
    min_insertion_loss_db: float | None  # at the slowest speed [dB]; None: no such demand
    strokes: Pair  # shortest and longest infill stroke looked at [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class Owned:
    """Something of the shopping list that the user has."""

    item: str  # the line's name
    quantity: float  # in the line's unit


@dataclass(frozen=True, slots=True, kw_only=True)
class Ball:
    """A rubber ball that may be cut in halves."""

    diameter: float  # [m]
    wall: float  # [m]; half of the diameter: solid
    material: str  # a card's id


@dataclass(frozen=True, slots=True, kw_only=True)
class Stock:
    """What the user can cut pads from."""

    materials: tuple[str, ...]  # card ids; empty: all cards
    shapes: tuple[str, ...]  # of isolator.design.SHAPES
    widths: Triple  # smallest, largest, step of a pad's outer size [m]
    thicknesses: tuple[float, ...]  # of one sheet [m]; empty: each card's own
    max_layers: int
    cards: Path | None  # folder of the user's own cards; None: none
    owned: tuple[Owned, ...]  # what need not be bought
    balls: tuple[Ball, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Print:
    """How the user's printer makes parts."""

    bed: Triple  # [m]
    nozzle: float  # [m]
    layer: float  # [m]
    hole_compensation: float  # added to every hole's diameter [m]
    first_layer_chamfer: float  # [m]
    material: str  # filament family of rigid parts, such as "petg"
    flexible_material: str  # filament family of flexible parts, such as "tpu-95"
    motor_material: str  # filament family of plates under motors, such as "asa"

    @property
    def settings(self) -> PrintSettings:
        """What the drawing office is told of it."""
        return PrintSettings(
            bed=self.bed,
            nozzle=self.nozzle,
            layer=self.layer,
            hole_compensation=self.hole_compensation,
            first_layer_chamfer=self.first_layer_chamfer,
            material=self.material,
            flexible=self.flexible_material,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class DamperStock:
    """What motor dampers may be made of."""

    materials: tuple[str, ...]  # ids of rubber cards; empty: all of them
    shapes: tuple[str, ...]  # of isolator.design.damper.DAMPER_SHAPES
    thicknesses: tuple[float, ...]  # of the rubber [m]
    plate: float  # least thickness of each printed plate [m]; 0: what its screws need
    tilt_limit: float  # of the shaft under the belts' pull [rad]
    wedge: bool  # whether a wedge may take the tilt back
    cast: bool  # the rubber is cast in a mould, not cut from sheet


@dataclass(frozen=True, slots=True, kw_only=True)
class Driver:
    """The motor driver, as far as the user tells."""

    voltage: float  # [V]
    sense_resistor: float | None  # [Ω]; None: not given
    gain: float | None  # reference voltage over the sense resistor's peak voltage; None: not given


@dataclass(frozen=True, slots=True, kw_only=True)
class Room:
    """Between which temperatures the feet must work [°C]."""

    temperature_low: float
    temperature_high: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Brief:
    """All that the user asks, checked, with every default that was used named in `assumed`."""

    name: str
    slug: str  # ASCII, a safe folder name, never empty
    printer: Printer
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
