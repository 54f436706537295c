"""Plates: mobility and modes.

Cremer, Heckl & Petersson, Structure-Borne Sound, ch. 5; Vigran, Building Acoustics, p. 97 and
eq. 2.43. Moduli and densities of boards: common figures, from memory.
"""

import numpy as np
import pytest
from one_body import KILOGRAMS, on_feet, pushed

from isolator.physics.bodies.receiver import bending_stiffness, point_mobility


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
    velocity = point_mobility(bending, 13.14)
    # at the free edge of a half-infinite plate 1/(3.5√(B·m″)) in place of 1/(8√(B·m″))
    assert 8 / 3.5 * velocity == pytest.approx(1.8504e-3, rel=1e-4)  # five digits
    assert velocity == pytest.approx(809.6e-6, rel=1e-4)  # of 1 N
    assert velocity * 2 * np.pi * 100 == pytest.approx(0.50866, rel=2e-5)


def test_mobility_scales() -> None:
    one = point_mobility(bending_stiffness(3e9, 0.018, 0.25), 700 * 0.018)
    thick = point_mobility(bending_stiffness(3e9, 0.054, 0.25), 700 * 0.054)
    stiff = point_mobility(bending_stiffness(12e9, 0.018, 0.25), 6300 * 0.018)
    assert one / thick == pytest.approx(9.0)  # h⁻²
    assert one / stiff == pytest.approx(6.0)  # E^−½ ρ^−½


def supported_plate_modes(
    bending: float, mass_per_area: float, length: float, width: float, count: int
) -> np.ndarray:
    """Lowest modes [Hz] of a plate on supported edges: (π/2)√(B/m″)·(p²/a² + q²/b²)."""
    order = np.arange(1, count + 1)
    waves = (order[:, None] / length) ** 2 + (order[None, :] / width) ** 2
    return np.pi / 2 * np.sqrt(bending / mass_per_area) * np.sort(waves.ravel())[:count]


def test_modes_of_a_supported_pane() -> None:
    # Vigran p. 97: the fourth and fifth nearly fall together
    bending = float(bending_stiffness(62e9, 0.015, 0.24))
    found = supported_plate_modes(bending, 37.5, 1.10, 1.50, 5)
    np.testing.assert_allclose(found, [44.344, 90.867, 130.854, 168.405, 177.377], rtol=1e-4)


def test_first_mode_of_a_supported_board() -> None:
    bending = float(bending_stiffness(3.5e9, 0.018, 0.25))
    first = supported_plate_modes(bending, 13.14, 1.2, 0.6, 1)[0]
    assert first == pytest.approx(64.091, rel=1e-4)


def test_effectiveness_on_a_rigid_and_on_a_soft_receiver() -> None:
    # Vigran eq. 2.43: |(Y_S + Y_I + Y_R)/(Y_S + Y_R)|, mobilities of source, isolator, receiver
    omega = 2 * np.pi * 80
    stiffness = 9000 * (1 + 0.2j)
    body = on_feet(np.full((1, 3, 3), 3000.0), 0.2)
    source, foot, desk = 1 / (1j * omega * KILOGRAMS), 1j * omega / stiffness, 5e-3
    found = pushed(body, 80.0, [0, 0, 1, 0, 0, 0], 3 * desk)  # three feet side by side
    rigid = abs((source + foot) / source)
    assert rigid == pytest.approx(abs(1 - omega**2 * KILOGRAMS / stiffness), rel=1e-12)
    assert found.insertion_loss[0, 0] == pytest.approx(20 * np.log10(rigid), abs=1e-9)
    soft = abs((source + foot + desk) / (source + desk))
    assert found.on_desk[0, 0] == pytest.approx(20 * np.log10(soft), abs=2e-4)
    assert soft < rigid  # a soft desk takes isolation away
