"""What lies between a motor and its bracket, as the report draws it: layers in mm."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from isolator.design import MotorSpacer
from isolator.design.damper import MotorDamper
from isolator.design.faceplates import FACEPLATES
from isolator.design.plate_room import boss_hole, outline_side
from isolator.report.figures.figure import PALE

Spans = tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Layer:
    """One layer between motor and bracket; its height is that at the shaft's axis [mm]."""

    name: str
    height: float
    colour: str
    spans: Spans  # from and to, across the shaft, in the cut


@dataclass(frozen=True, slots=True, kw_only=True)
class Pile:
    """What lies between a motor and its bracket, from the motor up, and what it needs [mm]."""

    layers: tuple[Layer, ...]
    body: float  # side of the motor's body
    pilot: tuple[float, float]  # diameter and height of the boss
    shaft: float  # diameter
    spacer: float  # outer diameter
    bracket: float | None  # thickness, None where it is unknown
    angle: float  # of the wedge [rad]; its thin edge is on the right, where the pull goes


def damper_pile(damper: MotorDamper, compensation: float) -> Pile:
    """Return the stack of a damper; `compensation` [m] is what the printer adds to holes."""
    plate = _plate(outline_side(damper.frame_size), damper.frame_size, compensation)
    if damper.shape == "ring":
        inner, outer = damper.second / 2, damper.first / 2
    else:
        inner, outer = damper.circle - damper.second / 2, damper.circle + damper.second / 2
    layers = (
        ("motor-side plate", damper.motor_plate, PALE, plate),
        ("rubber", damper.rubber, "#4a5058", ((-outer, -inner), (inner, outer))),
        ("frame-side plate", damper.frame_plate, PALE, plate),
        ("wedge", damper.wedge, "#e9c48f", plate),
    )
    return _pile(damper, layers, bracket=damper.bracket * 1e3, angle=damper.wedge_angle)


def plate_pile(spacer: MotorSpacer, compensation: float) -> Pile:
    """Return the stack of a plain plate."""
    plate = _plate(FACEPLATES[spacer.frame_size].body, spacer.frame_size, compensation)
    return _pile(spacer, (("plate", spacer.height, PALE, plate),), bracket=None, angle=0.0)


def _plate(side: float, frame_size: int, compensation: float) -> Spans:
    """Return where a plate of this `side` is cut, beside its hole for the motor's boss [m]."""
    hole = boss_hole(frame_size, compensation) / 2
    return ((-side / 2, -hole), (hole, side / 2))


def _pile(
    part: MotorDamper | MotorSpacer,
    layers: Sequence[tuple[str, float, str, Spans]],
    *,
    bracket: float | None,
    angle: float,
) -> Pile:
    """Return a stack of the layers [m] that are there."""
    face = FACEPLATES[part.frame_size]
    drawn = []
    for name, height, colour, spans in layers:
        across = tuple((low * 1e3, high * 1e3) for low, high in spans)
        drawn.append(Layer(name=name, height=height * 1e3, colour=colour, spans=across))
    return Pile(
        layers=tuple(layer for layer in drawn if layer.height > 0),
        body=face.body * 1e3,
        pilot=(face.pilot * 1e3, face.pilot_height * 1e3),
        shaft=part.bore * 1e3,
        spacer=part.outer * 1e3,
        bracket=bracket,
        angle=angle,
    )
