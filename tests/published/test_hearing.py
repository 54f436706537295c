"""Hearing and radiation against published rows."""

from __future__ import annotations

import numpy as np
import pytest

from isolator.physics.bodies import endless_plate, receiver
from isolator.physics.sound.panel import force_power, moment_power
from isolator.physics.sound.radiation import critical_frequency, radiation_factor
from isolator.physics.sound.weighting import a_energy, a_weighting

# IEC 61672-1, table 3: A-weighting [dB] at the nominal third octaves, from memory
NOMINAL = {
    12.5: -63.4, 16: -56.7, 20: -50.5, 25: -44.7, 31.5: -39.4, 40: -34.6, 50: -30.2, 63: -26.2,
    80: -22.5, 100: -19.1, 125: -16.1, 160: -13.4, 200: -10.9, 250: -8.6, 315: -6.6, 400: -4.8,
    500: -3.2, 630: -1.9, 800: -0.8, 1000: 0.0, 1250: 0.6, 1600: 1.0, 2000: 1.2, 2500: 1.3,
    3150: 1.2, 4000: 1.0, 5000: 0.5, 6300: -0.1, 8000: -1.1, 10000: -2.5,
}  # fmt: skip


def test_weighting_at_every_nominal_third_octave() -> None:
    """The rows hold at the exact mid-frequencies, 1000·10^(n/10), to their last digit."""
    for nominal, row in NOMINAL.items():
        exact = 1000.0 * 10.0 ** (round(10.0 * np.log10(nominal / 1000.0)) / 10.0)
        assert float(a_weighting(exact)) == pytest.approx(row, abs=0.051), nominal


def test_two_equal_tones_are_three_decibels_more_than_one() -> None:
    one = a_energy(250.0)
    assert 10.0 * np.log10((one + one) / one) == pytest.approx(3.01, abs=0.005)


class TestRadiation:
    """A fibreboard top 1.4 × 0.7 m, 18 mm; worked with a general library for plates."""

    SIZE = (1.4, 0.7)
    BENDING = float(receiver.bending_stiffness(3.5e9, 0.018, 0.25))
    MASS = 730.0 * 0.018

    def test_critical_frequency(self) -> None:
        assert critical_frequency(self.BENDING, self.MASS) == pytest.approx(1593.45, abs=0.05)

    @pytest.mark.parametrize(
        ("hertz", "factor"),
        [
            (50.0, 0.03806),
            (100.0, 0.03926),
            (200.0, 0.04753),
            (400.0, 0.07032),
            (800.0, 0.15281),
            (1600.0, 2.0),
            (2500.0, 1.66064),
        ],
    )
    def test_factor(self, hertz: float, factor: float) -> None:
        critical = critical_frequency(self.BENDING, self.MASS)
        assert float(radiation_factor(hertz, critical, self.SIZE)) == pytest.approx(
            factor, rel=2e-4
        )

    def test_far_above_the_critical_frequency_a_plate_radiates_as_a_piston(self) -> None:
        critical = critical_frequency(self.BENDING, self.MASS)
        assert float(radiation_factor(60e3, critical, self.SIZE)) == pytest.approx(1.0, abs=0.02)

    def test_a_thick_small_plate_radiates_as_a_small_source_at_low_frequencies(self) -> None:
        critical = 30.0  # a plate whose first mode lies above half its critical frequency
        assert float(radiation_factor(12.0, critical, (0.5, 0.3))) == pytest.approx(
            4.0 * 0.5 * 0.3 * (12.0 / 343.0) ** 2
        )


class TestPanel:
    """Injected power against the plate's own receptance, worked out another way."""

    BENDING, MASS, WIDTH = 120.0, 8.1, 0.004

    @pytest.mark.parametrize("hertz", [60.0, 480.0])
    def test_power_of_force_and_moment(self, hertz: float) -> None:
        at = np.array([[0.0, 0.0]])
        found = endless_plate.receptance(
            self.BENDING, self.MASS, at, np.array([self.WIDTH]), np.array([hertz])
        )[0]
        omega = 2.0 * np.pi * hertz
        of_force, of_moment = (0.5 * (1j * omega * found[k, k]).real for k in (0, 1))
        assert force_power(3.0, self.BENDING, self.MASS) == pytest.approx(9.0 * of_force, rel=1e-3)
        assert moment_power(0.2, self.BENDING, hertz) == pytest.approx(0.04 * of_moment, rel=1e-3)
