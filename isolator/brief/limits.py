"""What a design may not pass: [limits], and the temperatures it must bear: [room]."""

from __future__ import annotations

from dataclasses import dataclass

from isolator.design.axes import Pair
from isolator.design.soles import FRICTION
from isolator.reading.keys import gone, maybe
from isolator.reading.number_keys import number, pair, quantity
from isolator.reading.table import Table
from isolator.reading.units import format_quantity

CONVENTION = "convention, no source"
USUAL_ROOM = (-10.0, 50.0)
ROOM = (-60.0, 100.0)
"""Of rooms in which a printer stands [°C]; common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    """What a design may not pass."""

    static_strain: float | None  # largest static compression strain; None: each card's own
    strokes: Pair  # shortest and longest infill stroke looked at [m]
    sway: float  # peak displacement at the tool's height [m]
    foot_height: float  # [m]
    foot_width: float  # [m]
    tip_margin: float  # restoring over overturning moment, at least
    slip_margin: float  # friction over horizontal force, at least
    desk_friction: float | None  # coefficient of foot and desk; None: of what stands on it
    gravity_share: float  # largest share of the rocking stiffness that gravity may take
    promise_ceiling_db: float  # no more than this is promised [dB]
    least_gain_db: float  # by how much it must be quieter at every speed, at least [dB(A)]


@dataclass(frozen=True, slots=True, kw_only=True)
class Room:
    """Between which temperatures the feet must work [°C]."""

    temperature_low: float
    temperature_high: float


class LimitsTable(Table):
    """[limits]."""

    sway = quantity(
        "m", 5e-4, CONVENTION, usual=(5e-5, 3e-3), comment="of the tool when it turns round"
    )
    foot_height = quantity("m", 0.05, CONVENTION, usual=(0.01, 0.1))
    foot_width = quantity("m", 0.07, CONVENTION, usual=(0.02, 0.15))
    tip_margin = number((1.0, 10.0), 1.5, CONVENTION, comment="resisting over tipping moment")
    slip_margin = number((1.0, 10.0), 1.5, CONVENTION, comment="friction over sideways force")
    desk_friction = maybe(
        number((0.05, 2.0), example=0.5, comment="of foot and desk, measured"),
        "estimated, on a dry table top",
        told=", ".join(f"{mu:g} for a {what}" for what, mu in FRICTION.items()),
    )
    gravity_share = number(
        (0.01, 0.9), 0.25, CONVENTION, comment="of the rocking stiffness, at most"
    )
    promise_ceiling_db = number(
        (1.0, 60.0), 30.0, "frames and desks bend above it", comment="nothing above is promised"
    )
    least_gain_db = number(
        (-20.0, 30.0),
        0.0,
        "never louder than before",
        comment="quieter than before by so much, dB(A), at every speed",
    )
    strokes = pair(
        "m",
        (0.001, 0.1),
        "infill strokes of small and large prints",
        comment="shortest and longest infill stroke looked at",
    )
    static_strain = maybe(
        number((0.01, 0.8), example=0.15, comment="of a pad; otherwise its card's own"),
        "none was given",
        "each card's own",
    )
    min_insertion_loss_db = gone(
        "leave it out: the feet that keep back most are chosen, and the report tells how much"
    )


class RoomTable(Table):
    """[room]."""

    temperature_low = quantity(
        "degC", 15.0, "a room where people live", sign="any", usual=USUAL_ROOM, within=ROOM
    )
    temperature_high = quantity(
        "degC", 30.0, "a room where people live", sign="any", usual=USUAL_ROOM, within=ROOM
    )


def read_limits(table: LimitsTable) -> Limits:
    """Return the limits of a brief."""
    return table.whole(Limits, strokes=_read_strokes)


def _read_strokes(table: LimitsTable) -> Pair:
    short, long = table.strokes
    if short >= long:
        table.fault("strokes", "the longer first", "the shorter first", "turn them round")
    return (short, long)


def read_room(table: RoomTable) -> Room:
    """Return the room's temperatures."""
    room = table.record(Room)
    if room.temperature_low > room.temperature_high:
        table.fault(
            "temperature_low",
            format_quantity(room.temperature_low, "degC"),
            f"no more than temperature_high, {format_quantity(room.temperature_high, 'degC')}",
            "turn them round",
        )
    table.done()
    return room
