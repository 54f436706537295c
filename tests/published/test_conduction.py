"""Conduction through rubber and screws, copper loss, softening, against published figures.

Conductivities: rubber 0.17 W/(m·K), CIBSE Guide A Table 3.36; chloroprene 0.23, EPDM 0.25,
silicone 0.35, EN ISO 10456; natural rubber 0.15 from public material data; steel 45 from memory.
Resistances derived from t/(kA).
"""

from __future__ import annotations

import math

import pytest

from isolator.physics.drive.heat import copper_loss, layer_resistance
from isolator.physics.rubber.section import section

RING = float(section("ring", 42e-3, 24e-3).area)
SQUARE = float(section("square-with-hole", 42.3e-3, 24e-3).area)


@pytest.mark.parametrize(
    ("area", "conductivity", "resistance"),
    [
        (RING, 0.15, 21.435),
        (RING, 0.17, 18.913),
        (RING, 0.25, 12.861),
        (RING, 0.35, 9.186),
        (SQUARE, 0.17, 13.200),
    ],
)
def test_a_rubber_ring_of_three_millimetres(area, conductivity, resistance) -> None:
    # the last digit told
    assert layer_resistance(3e-3, conductivity, area) == pytest.approx(resistance, abs=6e-4)


def test_screws_that_bridge_carry_the_heat_too() -> None:
    """One M3 of steel, 2.5 mm core, 6 mm long: 27.16 K/W; four side by side 6.79 K/W."""
    one = float(layer_resistance(6e-3, 45.0, math.pi / 4 * 2.5e-3**2))
    assert one == pytest.approx(27.16, abs=0.01)
    assert one / 4 == pytest.approx(6.79, abs=0.01)
    assert one / 4 < layer_resistance(3e-3, 0.17, RING) / 2


@pytest.mark.parametrize(
    ("peak", "resistance", "watts"), [(math.sqrt(2.0), 2.0, 4.00), (1.4, 1.5, 2.94)]
)
def test_copper_loss_of_two_windings(peak, resistance, watts) -> None:
    """2·I²R with I effective: 1.0 A in 2 Ω; sine microstepping of 1.4 A peak in 1.5 Ω."""
    assert copper_loss(peak, resistance) == pytest.approx(watts)
