"""Which swings a set of decays holds: searched, fitted, what is no more than chance left out."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from isolator.physics.arrays import Array, Complex
from isolator.physics.signals.damped import Piece, Swings, find_poles, fit_swings, swung

MOST_MODES = 12
"""Swings that are looked for."""
BELOW = 0.45
"""Of the rate: a hum above what is looked for is fitted too, as it would disturb the rest."""
APART = (0.96, 1.04)
"""Where two swings are sought in the place of one, over its frequency."""
ROUGH = 1e-3
"""How closely fits are made while swings are still looked for."""
LOWEST_DAMPING, HIGHEST_DAMPING = 0.001, 0.35
"""What swings slower down than that is a hum, and what dies sooner no natural frequency; no frame
or foot lies beyond them."""
LEAST_SHARE = 1e-3
"""Of the energy after a tap that a mode holds, at least, to be told."""


@dataclass(frozen=True, slots=True)
class Search:
    """The search for swings in pieces of these rates [Hz], between two frequencies [Hz]."""

    rates: list[float]
    lowest: float
    highest: float

    def fitted(self, pieces: Sequence[Piece]) -> Swings | None:
        """Return the swings that pieces hold, those left out that explain no more than chance.

        What the first ones leave is searched again: a weak swing beside a strong one shows there.
        """
        if not pieces:
            return None
        found = self.pruned(pieces, self.poles(pieces, MOST_MODES))
        while found is not None and len(found.frequency) < MOST_MODES:
            better = self.with_more(pieces, found)
            if better is None:
                break
            found = better
        return None if found is None else fit_swings(pieces, poles_of(found))

    def with_more(self, pieces: Sequence[Piece], found: Swings) -> Swings | None:
        """Return a fit with further swings that is worth them, None where there is none.

        Those that show in what is left, or else two in the place of one.
        """
        own, price = poles_of(found), worth(found, pieces)
        trials = [np.concatenate((own, self.poles(rest_of(pieces, found), 2)))]
        trials += [np.append(np.delete(own, n), own[n] * np.array(APART)) for n in range(len(own))]
        for trial in trials:
            more = self.pruned(pieces, trial) if len(trial) > len(own) else None
            if more is not None and worth(more, pieces) < price:
                return more
        return None

    def poles(self, pieces: Sequence[Piece], most: int) -> Complex:
        """Return likely poles, sought in the pieces of one rate, that of most of them."""
        usual = float(np.median(self.rates))
        usual = min(self.rates, key=lambda rate: abs(rate - usual))
        alike = [p for p, r in zip(pieces, self.rates, strict=True) if abs(r / usual - 1.0) < 0.01]
        return self.likely(find_poles(alike, usual, most))

    def pruned(self, pieces: Sequence[Piece], poles: Complex) -> Swings | None:
        """Return the fit begun at `poles`, without what turns out unlikely or too weak."""
        while len(poles):
            swings = fit_swings(pieces, poles, ROUGH)
            kept = self.likely(poles_of(swings))
            weak = _weakest(pieces, swings) if len(kept) == len(poles) else None
            if len(kept) == len(poles) and weak is None:
                return swings
            poles = kept if weak is None else np.delete(poles_of(swings), weak)
        return None

    def likely(self, poles: Complex) -> Complex:
        """Return those of the poles that a frame, feet or a hum can have."""
        natural = np.abs(poles)
        damping, hertz = -poles.real / natural, natural / (2.0 * math.pi)
        fits = (damping > -LOWEST_DAMPING) & (damping < HIGHEST_DAMPING)
        most = BELOW * min(self.rates)
        return np.asarray(poles[fits & (hertz > self.lowest) & (hertz < most)])

    def is_mode(self, hertz: float, damping: float) -> bool:
        """Return whether a swing is a mode between the frequencies looked for, and no hum."""
        return self.lowest < hertz < self.highest and LOWEST_DAMPING < damping < HIGHEST_DAMPING


def rest_of(pieces: Sequence[Piece], swings: Swings) -> list[Piece]:
    """Return what the swings leave of each piece."""
    return [
        Piece(piece.time, piece.samples - swung(piece.time, swings, size).sum(axis=0))
        for piece, size in zip(pieces, swings.amplitudes, strict=True)
    ]


def _numbers(pieces: Sequence[Piece]) -> int:
    """Return how many numbers one swing takes: its pole, and two in each channel of each piece."""
    return 2 + 2 * sum(int(piece.samples.shape[1]) for piece in pieces)


def worth(swings: Swings, pieces: Sequence[Piece]) -> float:
    """Return what is left, with a price on every number fitted (Schwarz, 1978, from memory)."""
    free = _numbers(pieces) * len(swings.frequency)
    return swings.count * math.log(swings.squares) + free * math.log(swings.count)


def poles_of(swings: Swings) -> Complex:
    """Return the poles (m,) of swings [1/s]."""
    omega = 2.0 * math.pi * swings.frequency
    return np.asarray(omega * (-swings.damping + 1j * np.sqrt(1.0 - swings.damping**2)))


def _weakest(pieces: Sequence[Piece], swings: Swings) -> int | None:
    """Return the swing to leave out: the one that holds least, where that is too little."""
    energy: Array = energies(pieces, swings).sum(axis=1)
    at, least = int(np.argmin(energy)), LEAST_SHARE * float(energy.sum())
    if float(energy[at]) < least:
        return at
    noise = swings.squares / swings.count
    chance = _numbers(pieces) * math.log(swings.count) * noise
    return at if float(energy[at]) < chance else None


def energies(pieces: Sequence[Piece], swings: Swings) -> Array:
    """Return the energy (m, pieces) of each swing in each piece."""
    return np.array(
        [
            np.sum(swung(piece.time, swings, size) ** 2, axis=(1, 2))
            for piece, size in zip(pieces, swings.amplitudes, strict=True)
        ]
    ).T
