"""What lies between a motor and its bracket, as the report draws it: layers in mm."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from isolator.design import MotorSpacer
from isolator.design.damper import MotorDamper, boss_hole, outline_side
from isolator.design.faceplates import FACEPLATES
from isolator.report.figures.figure import PALE

_RUBBER, _WEDGE = "#4a5058", "#e9c48f"


@dataclass(frozen=True, slots=True, kw_only=True)
class Layer:
    """One layer between motor and bracket; its height is that at the shaft's axis [mm]."""

    name: str
    height: float
    colour: str
    spans: tuple[tuple[float, float], ...]  # from and to, across the shaft, in the cut


@dataclass(frozen=True, slots=True, kw_only=True)
class Pile:
    """What lies between a motor and its bracket, from the motor up, and what it needs [mm]."""

    layers: tuple[Layer, ...]
    body: float  # side of the motor's body
    pilot: tuple[float, float]  # diameter and height of the boss
    shaft: float  # diameter
    spacer: float  # outer diameter
    bracket: float | None  # thickness, None where it is unknown
    angle: float = 0.0  # of the wedge [rad]; its thin edge is on the right, where the pull goes


def damper_pile(damper: MotorDamper, compensation: float) -> Pile:
    """Return the stack of a damper; `compensation` [m] is what the printer adds to holes."""
    face = FACEPLATES[damper.frame_size]
    half, hole = outline_side(damper.frame_size) / 2, boss_hole(damper.frame_size, compensation) / 2
    plate = ((-half, -hole), (hole, half))
    if damper.shape == "ring":
        inner, outer = damper.second / 2, damper.first / 2
    else:
        inner, outer = damper.circle - damper.second / 2, damper.circle + damper.second / 2
    rubber = ((-outer, -inner), (inner, outer))
    layers = [
        ("motor-side plate", damper.motor_plate, PALE, plate),
        ("rubber", damper.rubber, _RUBBER, rubber),
        ("frame-side plate", damper.frame_plate, PALE, plate),
        ("wedge", damper.wedge, _WEDGE, plate),
    ]
    return Pile(
        layers=tuple(_layer(*each) for each in layers if each[1] > 0),
        body=face.body * 1e3,
        pilot=(face.pilot * 1e3, face.pilot_height * 1e3),
        shaft=damper.bore * 1e3,
        spacer=damper.outer * 1e3,
        bracket=damper.bracket * 1e3,
        angle=damper.wedge_angle,
    )


def plate_pile(spacer: MotorSpacer, compensation: float) -> Pile:
    """Return the stack of a plain plate."""
    face = FACEPLATES[spacer.frame_size]
    half = face.body / 2
    hole = boss_hole(spacer.frame_size, compensation) / 2
    plate = _layer("plate", spacer.height, PALE, ((-half, -hole), (hole, half)))
    return Pile(
        layers=(plate,),
        body=face.body * 1e3,
        pilot=(face.pilot * 1e3, face.pilot_height * 1e3),
        shaft=spacer.bore * 1e3,
        spacer=spacer.outer * 1e3,
        bracket=None,
    )


def _layer(name: str, height: float, colour: str, spans: Sequence[tuple[float, float]]) -> Layer:
    across = tuple((low * 1e3, high * 1e3) for low, high in spans)
    return Layer(name=name, height=height * 1e3, colour=colour, spans=across)
