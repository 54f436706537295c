"""How warm a motor gets, bolted on and on a damper, and whether what is printed stands it."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import NamedTuple

from isolator.brief import Motor
from isolator.cards import Material
from isolator.design.faceplates import FACEPLATES
from isolator.design.filaments import FILAMENTS
from isolator.design.plate_kinds import PLATE_KINDS, PRINTED, PlateKind
from isolator.motors.limits import check_against
from isolator.motors.results import Heat
from isolator.physics.drive.heat import (
    CONVECTION_SCATTER,
    FREE_CONVECTION,
    METAL_CONTACT,
    RUBBER_CONDUCTIVITY,
    copper_loss,
    fin_length,
    layer_resistance,
    two_nodes,
)
from isolator.vibration.band import Band, Check

PLATE_CONDUCTIVITY = PLATE_KINDS[PRINTED].conductivity
"""Of printed plastic [W/(m·K)]; from memory."""
BRACKET_CONDUCTIVITY = {"aluminium": math.inf, "steel": 50.0, "printed": PLATE_CONDUCTIVITY}
"""Of a bracket [W/(m·K)]: aluminium counts as equally warm all over; plain steel from memory."""
MARGIN = 10.0
"""Below softening [K]; engineering margin, no source: printed parts creep before they melt."""
CASE_LIMIT = 80.0
"""Of a motor's case [°C]; usual limit, from memory."""

POWER_SPREAD = 1.15
"""Factor on a motor's heat either way: windings ±10 % on data sheets, the current as it is set
±5 %; common practice, no source."""
PLASTIC_SPREAD = 1.3
"""Factor on the conductivity of printed plastic either way; estimated."""


class Layer(NamedTuple):
    """A flat layer that heat has to pass."""

    thickness: float  # [m]
    conductivity: float  # [W/(m·K)]
    area: float  # [m²]
    spread: float = 1.0  # factor on the conductivity, either way


class _Scatter(NamedTuple):
    """Factors on what heat depends on."""

    power: float = 1.0
    cooling: float = 1.0
    layer: int = -1  # the one whose conductivity is off by
    by: float = 1.0


_NONE = _Scatter()


def heat(
    motor: Motor,
    layers: tuple[Layer, ...],
    warm: float,
    filament: str,
    cool: float | None = None,
) -> Heat:
    """Return the motor's temperatures holding its set current in a room at `warm` [°C].

    `filament` is the family that prints at the motor are of. `layers` lie between the motor's
    face and its bracket, none where it is bolted on. A printed bracket is taken to be of the same
    filament. Bands are about the middle of a room from `cool` to `warm`: what its temperature, the
    motor's heat, the cooling and each layer's conductivity add is summed by squares.
    """
    side = FACEPLATES[motor.frame_size].body
    case_area = 4.0 * side * motor.body_length + side**2
    power = float(copper_loss(motor.current, motor.winding_resistance))
    through, cooled = _bracket(motor, side)

    def temperatures(joint: float, room: float, off: _Scatter = _NONE) -> tuple[float, float]:
        """Return those of the case and of the bracket's face at the motor."""
        film = FREE_CONVECTION * off.cooling
        case, far = two_nodes(
            power * off.power, film * case_area, joint + through, film * cooled, room
        )
        near = far + (far - room) * film * cooled * through
        return float(case), float(near)

    def stacked(room: float, off: _Scatter = _NONE) -> tuple[float, float]:
        """Return them with the layers between, or screwed on where there are none."""
        if not layers:
            return temperatures(METAL_CONTACT / side**2, room, off)
        parts = [
            float(layer_resistance(each.thickness, each.conductivity, each.area))
            / (off.by if number == off.layer else 1.0)
            for number, each in enumerate(layers)
        ]
        return temperatures(sum(parts), room, off)

    before = temperatures(METAL_CONTACT / side**2, warm)
    after, face = stacked(warm)
    row = FILAMENTS.get(filament)
    softening = None if row is None else row.softening
    ends = (warm if cool is None else cool, warm)
    case, near = (_band(stacked, ends, layers, which) for which in (0, 1))
    printed = motor.bracket_material == "printed"
    return Heat(
        power=power,
        case_before=before[0],
        case_after=after,
        case=case,
        plate=after,
        bracket=face if printed else None,
        bracket_high=near.high if printed else None,
        softening=softening,
        limit=None if softening is None else softening - MARGIN,
    )


def plate_layer(thick: float, kind: PlateKind, area: float) -> Layer:
    """Return a plate `thick` [m] and of `area` [m²] as heat passes it; metal's spread is none."""
    return Layer(thick, kind.conductivity, area, 1.0 if kind.sheet else PLASTIC_SPREAD)


def _band(
    found: Callable[[float, _Scatter], tuple[float, float]],
    room: tuple[float, float],
    layers: tuple[Layer, ...],
    which: int,
) -> Band:
    """Return the band of one of two temperatures over a room's ends and all that scatters."""
    middle = sum(room) / 2.0
    nominal = found(middle, _NONE)[which]
    pairs = [
        tuple(_Scatter(power=each) for each in (1.0 / POWER_SPREAD, POWER_SPREAD)),
        tuple(_Scatter(cooling=1.0 + each) for each in (-CONVECTION_SCATTER, CONVECTION_SCATTER)),
        *(
            tuple(_Scatter(layer=number, by=each) for each in (1.0 / one.spread, one.spread))
            for number, one in enumerate(layers)
        ),
    ]
    steps = [[found(middle, off)[which] - nominal for off in pair] for pair in pairs]
    steps.append([end - middle for end in room])
    return Band(
        low=nominal - math.hypot(*(min(0.0, *pair) for pair in steps)),
        nominal=nominal,
        high=nominal + math.hypot(*(max(0.0, *pair) for pair in steps)),
    )


def _bracket(motor: Motor, side: float) -> tuple[float, float]:
    """Return a bracket's resistance from face to face [K/W] and the surface that cools it [m²].

    Heat spreads over the face under the motor and a rim of one fin's length round it; no more
    cools than the bracket has.
    """
    conductivity = BRACKET_CONDUCTIVITY[motor.bracket_material]
    rim = float(fin_length(conductivity, motor.bracket))
    through = float(layer_resistance(motor.bracket, conductivity, side**2))
    return through, min(motor.bracket_area, side**2 + 2.0 * 4.0 * side * rim)


def rubber_conductivity(material: Material) -> float:
    """Return a card's conductivity [W/(m·K)], a low one where it tells none."""
    if material.conductivity is None:
        return RUBBER_CONDUCTIVITY
    return material.conductivity.value


def rubber_spread(material: Material) -> float:
    """Return the factor by which it may be off, that of plastic where a card has none."""
    return PLASTIC_SPREAD if material.conductivity is None else material.conductivity.spread


def heat_checks(heat: Heat, motor: Motor) -> tuple[Check, ...]:
    """Return whether prints keep their shape and the motor its windings, at the bands' warm end."""
    rows = [("case of motor", heat.case.high, CASE_LIMIT)]
    if heat.limit is not None:
        rows.insert(0, ("prints at motor", heat.case.high, heat.limit))
    if heat.limit is not None and heat.bracket_high is not None:
        rows.append(("printed bracket of motor", heat.bracket_high, heat.limit))
    return tuple(
        check_against(f"{what} {motor.name}", found, limit, "degC", what)
        for what, found, limit in rows
    )
