"""What shakes besides the motors: [[fan]], [[load]]."""

from __future__ import annotations

import math
from dataclasses import dataclass

from isolator.brief.names import refuse_twins
from isolator.design.axes import AXES, Axis, Triple
from isolator.reading.notes import Notes
from isolator.reading.number_keys import integer, quantities, quantity, triple
from isolator.reading.table import Table
from isolator.reading.word_keys import choice, text

MOST_FREQUENCIES = 100
_NONE = (0.0, 0.0, 0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Fan:
    """One fan."""

    name: str
    speed: float  # turns a second [Hz]
    blades: int
    position: Triple  # [m]
    axis: Axis  # of rotation
    unbalance: float  # [kg·m]


@dataclass(frozen=True, slots=True, kw_only=True)
class Load:
    """A force of the user's own, amplitudes."""

    name: str
    force: Triple  # [N]
    moment: Triple  # [N·m]
    position: Triple  # [m]
    frequencies: tuple[float, ...]  # [Hz]; empty: those the command asks for


class FanTable(Table):
    """One [[fan]].

    Unbalance: a 15 g rotor balanced to grade G 6.3, the fans' own in ISO 21940-11 (from memory).
    """

    name = text(lambda t: f"fan {t.number}", example="electronics")
    speed = quantity("Hz", show="rpm", usual=(10.0, 250.0), example="5000 rpm")
    blades = integer((2, 100), 7, "the usual count")
    position = triple(
        "m",
        lambda t: (0.0, 0.0, t.up.motion.gantry_height),
        "on the tool; estimated",
        example=["150 mm", "-120 mm", "60 mm"],
    )
    axis = choice(AXES, "y", "estimated", example="x", comment="of rotation")
    unbalance = quantity(
        "kg*m",
        lambda t: 0.015 * 6.3e-3 / (math.tau * t.speed),
        "a 15 g rotor of balance grade G 6.3; estimated",
        sign="not negative",
        show="g*mm",
        usual=(0.0, 1e-5),
        example="0.2 g*mm",
    )


class LoadTable(Table):
    """One [[load]]."""

    name = text(lambda t: f"load {t.number}", example="pump")
    force = triple("N", _NONE, "none was given", example=["0 N", "0 N", "1 N"])
    moment = triple("N*m", _NONE, "none was given")
    position = triple(
        "m",
        lambda t: (0.0, 0.0, t.up.motion.gantry_height),
        "at the tool's height; estimated",
        example=["150 mm", "-120 mm", "340 mm"],
    )
    frequencies = quantities("Hz", range(1, MOST_FREQUENCIES + 1), (), example=["25 Hz", "50 Hz"])


def read_fans(tables: list[FanTable], notes: Notes) -> tuple[Fan, ...]:
    """Return the fans, none where the brief has none."""
    fans = []
    for table in tables:
        table.check("speed")
        fans.append(table.whole(Fan))
    refuse_twins(notes, "fan", [fan.name for fan in fans])
    return tuple(fans)


def read_loads(tables: list[LoadTable], notes: Notes) -> tuple[Load, ...]:
    """Return the user's own forces, none where the brief has none."""
    loads = []
    for table in tables:
        table.check("force", "moment")
        if table.force == _NONE == table.moment:
            table.fault(
                "force",
                "no force and no moment",
                "one of them",
                'write it like ["0 N", "0 N", "1 N"]',
            )
        loads.append(table.whole(Load))
    refuse_twins(notes, "load", [load.name for load in loads])
    return tuple(loads)
