"""Damped swings found in records: exact without noise, and as sure as they say with it."""

from __future__ import annotations

import numpy as np
import pytest

from isolator.physics.arrays import Array
from isolator.physics.signals.damped import Piece, Swings, find_poles, fit_swings, swung

RATE = 400.0
TIME = np.arange(320) / RATE
FREQUENCY = np.array([6.0, 6.6, 14.0, 31.0])
DAMPING = np.array([0.05, 0.06, 0.08, 0.02])


def taps(rng: np.random.Generator, noise: float, time: Array = TIME, count: int = 4) -> list[Piece]:
    """Return taps at unlike places: each swing in three channels, unlike amplitudes and phases."""
    omega = 2.0 * np.pi * FREQUENCY
    poles = omega * (-DAMPING + 1j * np.sqrt(1.0 - DAMPING**2))
    moved = np.exp(np.outer(time, poles))
    pieces = []
    for _ in range(count):
        size = rng.normal(size=(4, 3)) + 1j * rng.normal(size=(4, 3))
        samples = (moved @ size).real + noise * rng.normal(size=(len(time), 3))
        pieces.append(Piece(time, samples + np.array([0.0, 0.1, 9.8])))
    return pieces


def found(pieces: list[Piece]) -> Swings:
    poles = find_poles(pieces, RATE, 8)
    return fit_swings(pieces, poles[(poles.real < 0.0) & (abs(poles) > 12.0)])


def test_swings_without_noise_are_exact() -> None:
    swings = found(taps(np.random.default_rng(1), 0.0))
    order = np.argsort(swings.frequency)
    np.testing.assert_allclose(swings.frequency[order], FREQUENCY, rtol=1e-7)
    np.testing.assert_allclose(swings.damping[order], DAMPING, rtol=1e-6)


def test_unevenly_taken_samples_are_fitted_where_they_were_taken() -> None:
    rng = np.random.default_rng(6)
    time = np.sort(rng.uniform(0.0, 0.8, 320))
    poles = 2j * np.pi * FREQUENCY * np.exp(1j * 0.04)  # begun somewhat beside
    swings = fit_swings(taps(rng, 0.0, time), poles)
    np.testing.assert_allclose(swings.frequency, FREQUENCY, rtol=1e-7)
    np.testing.assert_allclose(swings.damping, DAMPING, rtol=1e-6)


def test_errors_are_as_large_as_they_are_told() -> None:
    """Standard scores of many fits have the standard deviation one, close pairs too."""
    scores = []
    for seed in range(25):
        swings = found(taps(np.random.default_rng(seed), 0.05))
        nearest = [int(np.argmin(np.abs(swings.frequency - each))) for each in FREQUENCY]
        spread = np.sqrt(np.diag(swings.covariance)).reshape(2, -1)[:, nearest]
        off = np.log([swings.frequency[nearest] / FREQUENCY, swings.damping[nearest] / DAMPING])
        scores.append(off / spread)
    assert np.std(scores) == pytest.approx(1.0, abs=0.15)
    assert np.mean(np.abs(scores) < 1.645) == pytest.approx(0.9, abs=0.06)


def test_what_was_fitted_adds_up_to_the_record() -> None:
    (piece,) = pieces = taps(np.random.default_rng(3), 0.0, count=1)
    swings = found(pieces)
    whole = swung(TIME, swings, swings.amplitudes[0]).sum(axis=0)
    np.testing.assert_allclose(whole, piece.samples - [0.0, 0.1, 9.8], atol=1e-5)
