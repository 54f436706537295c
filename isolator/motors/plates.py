"""The two plates of a damper: printed, cut of sheet metal, or those of a bought one."""

from __future__ import annotations

from dataclasses import dataclass

from isolator.brief import DamperStock
from isolator.brief.damper_mount_table import STEEL
from isolator.design import quantise_up
from isolator.design.plate_kinds import PLATE_KINDS, PRINTED, PlateKind
from isolator.design.plate_room import least_frame_plate, least_motor_plate
from isolator.motors.candidates import DamperBatch


@dataclass(frozen=True, slots=True, kw_only=True)
class Plates:
    """The two plates of a damper [m]: printed in whole layers, or cut of one sheet."""

    motor: float
    frame: float
    made: str = PRINTED  # of isolator.design.plate_kinds.PLATE_KINDS

    @property
    def kind(self) -> PlateKind:
        """What they are made of."""
        return PLATE_KINDS[self.made]


def made_of(stock: DamperStock, offered: DamperBatch) -> str:
    """Return what the plates of dampers are made of; those of bought ones are steel."""
    return stock.plates if offered.bought is None else STEEL


def plates_under(stock: DamperStock, frame_size: int, layer: float, offered: DamperBatch) -> Plates:
    """Return the plates of dampers: a bought one has its own, others as `plates_of` says."""
    if offered.bought is None:
        return plates_of(stock, frame_size, layer)
    return Plates(motor=offered.bought.plate, frame=offered.bought.plate, made=STEEL)


def plates_of(stock: DamperStock, frame_size: int, layer: float) -> Plates:
    """Return the plates: what screws and boss need, or what the stock asks where that is more.

    Sheet metal is as thick as the stock says.
    """
    if PLATE_KINDS[stock.plates].sheet:
        return Plates(motor=stock.plate, frame=stock.plate, made=stock.plates)
    return Plates(
        motor=quantise_up(max(stock.plate, least_motor_plate(frame_size)), layer),
        frame=quantise_up(max(stock.plate, least_frame_plate(frame_size)), layer),
    )
