"""How warm a motor gets, bolted on and on a damper, and whether its plates stand it."""

from __future__ import annotations

from isolator.brief import Motor
from isolator.cards import Material
from isolator.design.faceplates import FACEPLATES
from isolator.design.filaments import FILAMENTS
from isolator.motors.results import Heat
from isolator.physics.drive.heat import (
    FREE_CONVECTION,
    METAL_CONTACT,
    copper_loss,
    layer_resistance,
    two_nodes,
)
from isolator.vibration.band import Check

PLATE_CONDUCTIVITY = 0.2
"""Of printed plastic [W/(m·K)]; from memory."""
RUBBER_CONDUCTIVITY = 0.15
"""Where a card has none [W/(m·K)]: the low end of the 0.15 to 0.35 that tables give for rubber
(EN ISO 10456; CIBSE Guide A)."""
MARGIN = 10.0
"""Below softening [K]; engineering margin, no source: printed parts creep before they melt."""
CASE_LIMIT = 80.0
"""Of a motor's case [°C]; usual limit, from memory."""

Layer = tuple[float, float, float]


def heat(motor: Motor, layers: tuple[Layer, ...], warm: float, filament: str) -> Heat:
    """Return the motor's temperatures holding its set current in a room at `warm` [°C].

    `filament` is the family that its plates are printed of.
    `layers`: (thickness [m], conductivity [W/(m·K)], area [m²]) of what lies between the motor's
    face and its bracket, none where it is bolted on. The bracket has one temperature: true of
    metal; a printed one spreads heat badly, and its motor gets warmer than told.
    """
    side = FACEPLATES[motor.frame_size].body
    case_area = 4.0 * side * motor.body_length + side**2
    power = float(copper_loss(motor.current, motor.winding_resistance))

    def temperature(joint: float) -> float:
        case, _ = two_nodes(
            power,
            FREE_CONVECTION * case_area,
            joint,
            FREE_CONVECTION * motor.bracket_area,
            warm,
        )
        return float(case)

    contact = METAL_CONTACT / side**2
    before = temperature(contact)
    between = sum(float(layer_resistance(*layer)) for layer in layers)
    after = temperature(between) if layers else before
    row = FILAMENTS.get(filament)
    softening = None if row is None else row.softening
    return Heat(
        power=power,
        case_before=before,
        case_after=after,
        plate=after,
        softening=softening,
        limit=None if softening is None else softening - MARGIN,
    )


def rubber_conductivity(material: Material) -> float:
    """Return a card's conductivity [W/(m·K)], a low one where it tells none."""
    if material.conductivity is None:
        return RUBBER_CONDUCTIVITY
    return material.conductivity.value


def heat_checks(heat: Heat, motor: Motor) -> tuple[Check, ...]:
    """Return whether the plates keep their shape and the motor its windings."""
    rows = [("case of motor", heat.case_after, CASE_LIMIT)]
    if heat.limit is not None:
        rows.insert(0, ("plates under motor", heat.plate, heat.limit))
    return tuple(
        Check(
            name=f"{what} {motor.name}",
            value=found,
            limit=limit,
            unit="degC",
            passed=found <= limit,
            remedy=what,
        )
        for what, found, limit in rows
    )
