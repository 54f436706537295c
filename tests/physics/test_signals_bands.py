"""Spectra of pieces against scipy's own, and third octaves against IEC 61260-1."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.signal import welch

from isolator.physics.signals.pieces import mean_of, pieces
from isolator.physics.signals.third_octaves import centres, edges, energy_between, nominal

# IEC 61260-1:2014, table of base-ten bands: nominal and exact centres [Hz], from memory
EXACT = {
    25: 25.119,
    31.5: 31.623,
    40: 39.811,
    50: 50.119,
    63: 63.096,
    80: 79.433,
    100: 100.00,
    125: 125.89,
    160: 158.49,
    200: 199.53,
    250: 251.19,
    315: 316.23,
    400: 398.11,
    500: 501.19,
    630: 630.96,
    800: 794.33,
    1000: 1000.0,
    1250: 1258.9,
}


def test_centres_are_those_of_the_standard() -> None:
    found = centres(22.0, 1420.0)
    assert found == pytest.approx(list(EXACT.values()), rel=5e-5)
    assert [nominal(float(each)) for each in found] == list(EXACT)
    low, high = edges(np.array([100.0]))
    assert (low[0], high[0]) == pytest.approx((89.125, 112.20), rel=1e-4)


def test_the_mean_of_pieces_is_scipys_and_bands_that_touch_add_up() -> None:
    rate, length = 1000.0, 250
    samples = np.random.default_rng(5).standard_normal((6000, 2))
    samples[:, 0] += np.sin(2.0 * np.pi * 100.0 * np.arange(6000) / rate)
    found = pieces(samples, rate, length)
    _, own = welch(samples, rate, "hann", length, length // 2, axis=0)
    assert mean_of(found.density).value == pytest.approx(own.sum(axis=1), rel=1e-12)
    low = np.array([40.0, 91.3, 140.0])
    high = np.array([91.3, 140.0, 333.0])
    bands = energy_between(found.density, found.step, low, high)
    whole = energy_between(found.density, found.step, low[:1], high[-1:])
    assert bands.sum(axis=1) == pytest.approx(whole[:, 0], rel=1e-12)
    # a sine of amplitude 1 holds one half, noise of two channels 0.004 a hertz
    assert bands.mean(axis=0)[1] == pytest.approx(0.5 + 0.004 * 48.7, rel=0.05)


def test_the_error_of_a_mean_is_that_of_its_averages() -> None:
    # C8.5: 16, 64 and 100 averages that do not overlap have 25, 12.5 and 10 %; half overlap counts
    # a little less than as many
    noise = np.random.default_rng(8).standard_normal((65 * 128, 1))
    found = mean_of(pieces(noise, 1.0, 256).density)
    inner = slice(2, -2)  # at 0 and at half the rate there is one degree of freedom, not two
    relative = np.sqrt(np.mean((found.error[inner] / found.value[inner]) ** 2))
    assert relative == pytest.approx(1.0 / np.sqrt(found.freedom + 1.0), rel=0.06)
    assert found.freedom + 1.0 == pytest.approx(64.0 / (1.0 + 2.0 / 36.0), rel=0.01)
