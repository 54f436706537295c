"""What is told of the motors' driver: [driver]."""

from __future__ import annotations

from dataclasses import dataclass

from isolator.reading.keys import maybe, renamed
from isolator.reading.number_keys import number, quantity
from isolator.reading.table import Table


@dataclass(frozen=True, slots=True, kw_only=True)
class Driver:
    """The motor driver, as far as the user tells."""

    current_shunt: float | None  # [Ω]; None: not given
    gain: float | None  # reference voltage over the shunt's peak voltage; None: not given
    voltage: float  # [V]


class DriverTable(Table):
    """[driver]."""

    voltage = quantity("V", 24.0, "the usual supply", usual=(5.0, 60.0))
    current_shunt = maybe(
        quantity(
            "ohm",
            usual=(0.02, 1.0),
            example="0.11 ohm",
            comment="it senses the current; with gain: the setting voltage",
        )
    )
    sense_resistor = renamed("current_shunt")
    gain = maybe(
        number((0.01, 1000.0), example=2.5, comment="reference over the shunt's peak voltage")
    )


def read_driver(table: DriverTable) -> Driver:
    """Return what is told of the motor driver."""
    return table.whole(Driver)
