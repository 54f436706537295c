"""In which taps a swing clearly sounds: only those tell its frequency and damping."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from isolator.measuring.swing_search import LEAST_SHARE, poles_of
from isolator.physics.arrays import Array, Complex, Flags
from isolator.physics.signals.damped import Piece, Swings, Told, fit_swings, told_by

SURE = 4.0
"""Standard errors by which a swing's size in a tap is over nothing, to clearly sound in it."""
PERHAPS = 2.0
"""The same, to be fitted there: what is there unseen would be taken for its neighbours."""
ABOUT = 0.2
"""What is left so far about a swing's frequency, either way, is the noise it is held against."""
FEWEST_BINS = 4
"""Of a spectrum, either way, that such a noise is taken of, at least."""
ROUNDS = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class Sounding:
    """m swings, and in which of the pieces each sounds."""

    swings: Swings
    fitted: Flags  # (pieces, m) where it may sound: what it was fitted to
    clear: Flags  # (pieces, m) where it clearly does


def where_it_sounds(pieces: Sequence[Piece], swings: Swings) -> Sounding:
    """Return swings fitted to those pieces alone in which each sounds.

    One that clearly sounds nowhere is left out.
    """
    fitted = np.ones((len(pieces), len(swings.frequency)), dtype=bool)
    for _ in range(ROUNDS):
        perhaps, clear = _sounding(pieces, poles_of(swings))
        some = clear.any(axis=0)
        if not some.any() or (some.all() and np.array_equal(perhaps, fitted)):
            break
        fitted = perhaps[:, some]
        swings = fit_swings(pieces, poles_of(swings)[some], held=fitted)
    clear = fitted & _sounding(pieces, poles_of(swings))[1]
    return Sounding(swings=swings, fitted=fitted, clear=clear)


def _sounding(pieces: Sequence[Piece], poles: Complex) -> tuple[Flags, Flags]:
    """Return whether each swing may sound in a piece (pieces, m), and whether it clearly does.

    What stands at another frequency there, beyond half of the swing's power and of its own error,
    is no scatter of that swing but another one nearby.
    """
    told = [told_by(piece, poles) for piece in pieces]
    noise = np.array([_noise(p, t, poles) for p, t in zip(pieces, told, strict=True)])
    worth = np.array([each.worth for each in told])
    channels = np.array([[piece.samples.shape[1]] for piece in pieces])
    whole = np.array([[np.sum((p.samples - p.samples.mean(axis=0)) ** 2)] for p in pieces])
    clear = (worth > SURE**2 * channels * noise) & (worth > LEAST_SHARE * whole)
    turn = np.array([each.step[:, 1] for each in told])
    reach = np.array([each.reach[:, 1] for each in told]) * np.sqrt(noise)
    each = zip(turn.T, worth.T, clear.T, strict=True)
    usual = np.array([_middle(steps[own], weight[own]) for steps, weight, own in each])
    off = np.abs(turn - usual)
    elsewhere = (off > -poles.real) & (off > SURE * reach)
    perhaps = worth > PERHAPS**2 * channels * noise
    return perhaps & ~elsewhere, clear & ~elsewhere


def _noise(piece: Piece, told: Told, poles: Complex) -> Array:
    """Return the noise (m,) about each swing: the variance of samples that had it everywhere."""
    count, channels = told.left.shape
    power = np.sum(np.abs(np.fft.rfft(told.left, axis=0)) ** 2, axis=1) / (count * channels)
    step = float(np.median(np.diff(piece.time)))
    place = np.abs(poles) / (2.0 * math.pi) * count * step
    reach = np.maximum(ABOUT * place, FEWEST_BINS)
    ends = np.clip([place - reach, place + reach + 1.0], 1, len(power)).astype(int)
    return np.array([np.mean(power[low : max(high, low + 1)]) for low, high in ends.T], dtype=float)


def _middle(values: Array, weight: Array) -> float:
    """Return the median of values by weight; 0 of none."""
    if not len(values):
        return 0.0
    order = np.argsort(values)
    run = np.cumsum(weight[order])
    return float(values[order][np.searchsorted(run, 0.5 * run[-1])])
