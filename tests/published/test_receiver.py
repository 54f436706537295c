"""Plates: mobility and modes.

Cremer, Heckl & Petersson, Structure-Borne Sound, ch. 5; Vigran, Building Acoustics, p. 97 and
eq. 2.43. Moduli and densities of boards: common figures, from memory.
"""

import numpy as np
import pytest

from isolator.physics.bodies.receiver import (
    bending_stiffness,
    edge_mobility,
    effectiveness,
    mass_spring_mobility,
    point_mobility,
    supported_plate_modes,
)


@pytest.mark.parametrize(
    ("thickness", "modulus", "density", "poisson", "mobility"),
    [
        (0.018, 3.5e9, 730, 0.25, 8.0955e-4),
        (0.025, 3.5e9, 730, 0.25, 4.1967e-4),
        (0.022, 2.5e9, 650, 0.25, 6.7954e-4),
        (0.004, 210e9, 7800, 0.3, 6.3789e-4),
        (0.010, 210e9, 7850, 0.3, 1.0174e-4),
        (0.100, 30e9, 2400, 0.2, 5.0000e-6),
        (0.015, 62e9, 2500, 0.24, 1.5006e-4),
    ],
    ids=["mdf 18", "mdf 25", "chipboard 22", "steel 4", "steel 10", "concrete 100", "glass 15"],
)
def test_point_mobility(
    thickness: float, modulus: float, density: float, poisson: float, mobility: float
) -> None:
    bending = bending_stiffness(modulus, thickness, poisson)
    assert point_mobility(bending, density * thickness) == pytest.approx(mobility, rel=1e-4)


def test_board_of_eighteen_millimetres() -> None:
    bending = bending_stiffness(3.5e9, 0.018, 0.25)
    assert bending == pytest.approx(1814.4, rel=1e-6)
    assert edge_mobility(bending, 13.14) == pytest.approx(1.8504e-3, rel=1e-4)  # five digits
    velocity = point_mobility(bending, 13.14)
    assert velocity == pytest.approx(809.6e-6, rel=1e-4)  # of 1 N
    assert velocity * 2 * np.pi * 100 == pytest.approx(0.50866, rel=2e-5)


def test_mobility_scales() -> None:
    one = point_mobility(bending_stiffness(3e9, 0.018, 0.25), 700 * 0.018)
    thick = point_mobility(bending_stiffness(3e9, 0.054, 0.25), 700 * 0.054)
    stiff = point_mobility(bending_stiffness(12e9, 0.018, 0.25), 6300 * 0.018)
    assert one / thick == pytest.approx(9.0)  # h⁻²
    assert one / stiff == pytest.approx(6.0)  # E^−½ ρ^−½


def test_modes_of_a_supported_pane() -> None:
    # Vigran p. 97: the fourth and fifth nearly fall together
    bending = float(bending_stiffness(62e9, 0.015, 0.24))
    found = supported_plate_modes(bending, 37.5, 1.10, 1.50, 5)
    np.testing.assert_allclose(found, [44.344, 90.867, 130.854, 168.405, 177.377], rtol=1e-4)


def test_first_mode_of_a_supported_board() -> None:
    bending = float(bending_stiffness(3.5e9, 0.018, 0.25))
    assert supported_plate_modes(bending, 13.14, 1.2, 0.6, 1)[0] == pytest.approx(64.091, rel=1e-4)


def test_effectiveness_on_a_rigid_and_on_a_soft_receiver() -> None:
    omega = 2 * np.pi * 80
    source, foot = 1 / (1j * omega * 11.0), 1j * omega / (9000 * (1 + 0.2j))
    rigid = effectiveness(source, foot, 0.0)
    textbook = abs(1 - omega**2 * 11.0 / (9000 * (1 + 0.2j)))
    assert rigid == pytest.approx(textbook, rel=1e-12)
    assert effectiveness(source, foot, 5e-3) < rigid  # a soft desk takes isolation away


def test_desk_as_one_mass_on_a_spring() -> None:
    # stiffness below its resonance, mass above
    assert mass_spring_mobility(8.0, 3e4, 1.0) == pytest.approx(1j / 3e4, rel=3e-4)  # ω²m/k
    assert mass_spring_mobility(8.0, 3e4, 2e4) == pytest.approx(1 / (1j * 2e4 * 8.0), rel=1e-5)
