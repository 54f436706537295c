"""Damping from widths and decays, spectra and their errors, against closed forms and scipy's own.

Sources: half-power points and the logarithmic decrement stand in any textbook of vibration, here
worked out from |H|² = 1/((1 − r²)² + (2ζr)²) and from two swings in a row; Welch's densities from
the window's definition; errors by Bendat and Piersol, Random Data (from memory). ISO 7626
(mobility) and ISO 18437-2 (resonance method) use the same half-power width.
"""

from __future__ import annotations

import numpy as np
import pytest
from scipy import signal

from isolator.physics.signals import decay, spectra


@pytest.mark.parametrize(
    ("ratio", "low", "high", "estimate"),
    [
        (0.01, 0.989849, 1.009851, 0.0100020),
        (0.05, 0.946111, 1.046363, 0.0502519),
        (0.1, 0.883743, 1.085817, 0.1020623),
        (0.2, 0.726692, 1.145390, 0.2182613),
    ],
)
def test_half_power_points_of_a_receptance(
    ratio: float, low: float, high: float, estimate: float
) -> None:
    points = decay.half_power(ratio)
    assert points == pytest.approx((low, high), abs=2e-6)
    peak = np.sqrt(1.0 - 2.0 * ratio**2)
    assert (points[1] - points[0]) / (2.0 * peak) == pytest.approx(estimate, abs=1e-6)


@pytest.mark.parametrize("ratio", [0.01, 0.05, 0.1, 0.2])
def test_a_mobility_is_wide_by_exactly_twice_the_damping(ratio: float) -> None:
    """|r·H|² is half its peak where |1 − r²| = 2ζr: r = √(1 + ζ²) ∓ ζ."""
    r = np.sqrt(1.0 + ratio**2) + np.array([-ratio, ratio])
    power = r**2 / ((1.0 - r**2) ** 2 + (2.0 * ratio * r) ** 2)
    assert power == pytest.approx(0.5 / (2.0 * ratio) ** 2)
    # the receptance's width is nearly that, and beyond it by no more than ζ³
    low, high = decay.half_power(ratio)
    assert high - low == pytest.approx(2.0 * ratio, abs=4.0 * ratio**3)


@pytest.mark.parametrize(
    ("loss", "width"),
    [(0.02, 0.0200010), (0.1, 0.1001256), (0.2, 0.2010179), (0.4, 0.4086193)],
)
def test_width_of_a_resonance_on_a_lossy_spring(loss: float, width: float) -> None:
    assert decay.hysteretic_width(loss) == pytest.approx(width, abs=1e-7)


@pytest.mark.parametrize(
    ("ratio", "decrement", "swings"),
    [
        (0.01, 0.0628350, 11.0312),
        (0.05, 0.3145527, 2.20360),
        (0.1, 0.6314839, 1.09765),
        (0.2, 1.2825498, 0.54044),
    ],
)
def test_logarithmic_decrement(ratio: float, decrement: float, swings: float) -> None:
    assert decay.log_decrement(ratio) == pytest.approx(decrement, abs=1e-7)
    assert decay.swings_to_half(ratio) == pytest.approx(swings, rel=1e-5)
    assert decay.damping_of(decrement) == pytest.approx(ratio, rel=1e-6)


def test_density_of_a_sine() -> None:
    time = np.arange(100_000) / 1000.0
    sine = np.sin(2.0 * np.pi * 100.0 * time)[:, np.newaxis]
    frequency, density, _ = spectra.density(sine, 1000.0, 1000)
    at = int(np.argmax(density))
    assert frequency[at] == 100.0
    assert density[at - 1 : at + 2, 0] == pytest.approx((1 / 12, 1 / 3, 1 / 12), abs=1e-9)
    assert np.sum(density) * 1.0 == pytest.approx(0.5, abs=1e-9)  # a bin is 1 Hz wide
    # by bandwidth the same is half the amplitude's square
    assert density[at, 0] * spectra.noise_bandwidth("hann") == pytest.approx(0.5, abs=1e-9)


def test_density_of_white_noise() -> None:
    noise = np.random.default_rng(1).normal(size=(200_000, 1))
    _, density, averages = spectra.density(noise, 1000.0, 1000)
    assert averages == 399
    assert np.mean(density[5:-5]) == pytest.approx(0.002, rel=0.01)
    # half overlapping Hann segments count as 0.95 of as many that share nothing (Welch, 1967)
    scatter = np.std(density[5:-5, 0]) / np.mean(density[5:-5])
    assert scatter == pytest.approx(spectra.random_error(0.95 * averages), rel=0.1)


@pytest.mark.parametrize(("count", "segment"), [(70_001, 256), (70_001, 1001), (500, 500)])
def test_densities_are_those_of_a_general_library(
    count: int, segment: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    samples = np.random.default_rng(2).normal(size=(count, 3)) + np.array([0.0, 5.0, -2.0])
    monkeypatch.setattr(spectra, "AT_ONCE", 4096)  # many blocks
    frequency, density, _ = spectra.density(samples, 48_000.0, segment)
    there, wanted = signal.welch(samples, 48_000.0, nperseg=segment, axis=0)
    np.testing.assert_allclose(frequency, there)
    np.testing.assert_allclose(density, wanted, rtol=1e-9)


def test_noise_bandwidths() -> None:
    assert spectra.noise_bandwidth("hann") == pytest.approx(1.5, rel=1e-6)
    assert spectra.noise_bandwidth("flattop") == pytest.approx(3.77025, rel=1e-5)


def test_errors_of_averages() -> None:
    errors = spectra.random_error([16, 64, 100])
    assert errors == pytest.approx((0.25, 0.125, 0.1))
    assert spectra.transfer_error(0.9, 50) == pytest.approx(0.03333, abs=1e-5)


def test_velocity_and_displacement_of_an_acceleration() -> None:
    assert spectra.velocity(1.0, 100.0) == pytest.approx(1591.549e-6, rel=1e-6)
    assert spectra.displacement(1.0, 100.0) == pytest.approx(2.533030e-6, rel=1e-6)
