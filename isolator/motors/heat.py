"""How warm a motor gets, bolted on and on a damper, and whether what is printed stands it."""

from __future__ import annotations

import math

from isolator.brief import Motor
from isolator.cards import Material
from isolator.design.faceplates import FACEPLATES
from isolator.design.filaments import FILAMENTS
from isolator.motors.limits import check_against
from isolator.motors.results import Heat
from isolator.physics.drive.heat import (
    FREE_CONVECTION,
    METAL_CONTACT,
    copper_loss,
    fin_length,
    layer_resistance,
    two_nodes,
)
from isolator.vibration.band import Check

PLATE_CONDUCTIVITY = 0.2
"""Of printed plastic [W/(m·K)]; from memory."""
RUBBER_CONDUCTIVITY = 0.15
"""Where a card has none [W/(m·K)]: the low end of the 0.15 to 0.35 that tables give for rubber
(EN ISO 10456; CIBSE Guide A)."""
BRACKET_CONDUCTIVITY = {"aluminium": math.inf, "steel": 50.0, "printed": PLATE_CONDUCTIVITY}
"""Of a bracket [W/(m·K)]: aluminium counts as equally warm all over; plain steel from memory."""
MARGIN = 10.0
"""Below softening [K]; engineering margin, no source: printed parts creep before they melt."""
CASE_LIMIT = 80.0
"""Of a motor's case [°C]; usual limit, from memory."""

Layer = tuple[float, float, float]


def heat(motor: Motor, layers: tuple[Layer, ...], warm: float, filament: str) -> Heat:
    """Return the motor's temperatures holding its set current in a room at `warm` [°C].

    `filament` is the family that its plates are printed of.
    `layers`: (thickness [m], conductivity [W/(m·K)], area [m²]) of what lies between the motor's
    face and its bracket, none where it is bolted on. A printed bracket is taken to be of the same
    filament as the plates.
    """
    side = FACEPLATES[motor.frame_size].body
    case_area = 4.0 * side * motor.body_length + side**2
    power = float(copper_loss(motor.current, motor.winding_resistance))
    through, cooled = _bracket(motor, side)

    def temperatures(joint: float) -> tuple[float, float]:
        """Return those of the case and of the bracket's face at the motor."""
        case, far = two_nodes(
            power, FREE_CONVECTION * case_area, joint + through, FREE_CONVECTION * cooled, warm
        )
        near = far + (far - warm) * FREE_CONVECTION * cooled * through
        return float(case), float(near)

    before = temperatures(METAL_CONTACT / side**2)
    between = sum(float(layer_resistance(*layer)) for layer in layers)
    after, face = temperatures(between) if layers else before
    row = FILAMENTS.get(filament)
    softening = None if row is None else row.softening
    return Heat(
        power=power,
        case_before=before[0],
        case_after=after,
        plate=after,
        bracket=face if motor.bracket_material == "printed" else None,
        softening=softening,
        limit=None if softening is None else softening - MARGIN,
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


def heat_checks(heat: Heat, motor: Motor) -> tuple[Check, ...]:
    """Return whether plates and printed bracket keep their shape and the motor its windings."""
    rows = [("case of motor", heat.case_after, CASE_LIMIT)]
    if heat.limit is not None:
        rows.insert(0, ("plates under motor", heat.plate, heat.limit))
    if heat.limit is not None and heat.bracket is not None:
        rows.append(("printed bracket of motor", heat.bracket, heat.limit))
    return tuple(
        check_against(f"{what} {motor.name}", found, limit, "degC", what)
        for what, found, limit in rows
    )
