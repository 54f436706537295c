"""Natural frequencies and damping from taps: decays of all taps fitted together, with bands."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from scipy.stats import t as student

from isolator.measuring.swing_search import Search, energies, poles_of
from isolator.measuring.tap_windows import Taps
from isolator.physics.arrays import Array
from isolator.physics.signals.damped import Piece, Swings, fit_swings
from isolator.vibration.band import Band

SURE = 4.0
"""Standard errors by which a mode's size in a tap is over nothing, to count in it."""
NORMAL = 1.645
"""Standard errors either way between which nine of ten lie."""
WIDEST = 0.5
"""A damping whose band reaches further either way, as a share, is not told."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TappedMode:
    """A natural frequency as tapped."""

    frequency: Band  # [Hz] undamped
    damping: Band  # ratio
    taps: int  # in which it was seen
    share: float  # of the energy after the taps
    shape: Array  # (k,) size in each channel, the largest 1, with its sign against it


@dataclass(frozen=True, slots=True, kw_only=True)
class Tapped:
    """What taps told."""

    modes: tuple[TappedMode, ...]  # ascending
    taps: int
    left: float  # share of the energy that no swing explains: noise, hum, rattle
    even: bool  # the samples were taken as evenly spaced, whatever their stamps say
    swings: Swings | None  # of the whole fit
    pieces: tuple[Piece, ...] = ()


def tapped_modes(found: Sequence[Taps], highest: float, lowest: float = 0.5) -> Tapped:
    """Return the modes between two frequencies [Hz] that the taps of recordings swing in.

    All taps share frequencies and dampings; sizes are each tap's own. Bands hold nine of ten: the
    wider of what the noise allows, and of what leaving out one tap at a time changes.
    """
    stamped = [piece for taps in found for piece in taps.pieces]
    rates = [taps.rate for taps in found for _ in taps.pieces]
    evenly = [
        Piece(np.arange(len(piece.time)) / rate, piece.samples)
        for piece, rate in zip(stamped, rates, strict=True)
    ]
    search = Search(rates, lowest, highest)
    swings = search.fitted(evenly)
    if swings is None:
        return Tapped(modes=(), taps=len(evenly), left=1.0, even=True, swings=None)
    used, even = evenly, True
    if not all(_alike(*both) for both in zip(stamped, evenly, strict=True)):
        by_stamps = fit_swings(stamped, poles_of(swings))
        if by_stamps.squares < swings.squares:
            swings, used, even = by_stamps, stamped, False
    swings = _sorted(swings)
    whole = sum(float(np.sum((p.samples - p.samples.mean(axis=0)) ** 2)) for p in used)
    return Tapped(
        modes=tuple(mode for mode in _modes(used, swings, search) if _is_sure(mode)),
        taps=len(used),
        left=swings.squares / whole,
        even=even,
        swings=swings,
        pieces=tuple(used),
    )


def _alike(stamped: Piece, evenly: Piece) -> bool:
    """Return whether stamps say nothing else than an even rate, but for a hundredth of it."""
    return np.allclose(stamped.time, evenly.time, atol=0.01 * float(evenly.time[1]))


def _modes(pieces: Sequence[Piece], swings: Swings, search: Search) -> list[TappedMode]:
    spread = _spread(pieces, swings)
    energy = energies(pieces, swings)
    return [
        TappedMode(
            frequency=_band(float(swings.frequency[m]), spread[0, m]),
            damping=_band(float(swings.damping[m]), spread[1, m]),
            taps=_seen(pieces, swings, energy[m]),
            share=float(energy[m].sum() / energy.sum()),
            shape=_shape(swings, m),
        )
        for m in range(len(swings.frequency))
        if search.is_mode(float(swings.frequency[m]), float(swings.damping[m]))
    ]


def _is_sure(mode: TappedMode) -> bool:
    return mode.taps > 0 and mode.damping.high / mode.damping.nominal < 1.0 + WIDEST


def _seen(pieces: Sequence[Piece], swings: Swings, energy: Array) -> int:
    """Return in how many taps a mode of `energy` (pieces,) stands over the noise."""
    noise = swings.squares / swings.count
    channels = np.array([piece.samples.shape[1] for piece in pieces])
    return int(np.sum(energy > SURE**2 * channels * noise))


def _spread(pieces: Sequence[Piece], swings: Swings) -> Array:
    """Return how far ln f and ln ζ (2, m) may be off, either way: nine of ten lie within."""
    by_noise = NORMAL * np.sqrt(np.diag(swings.covariance))
    count, both = len(pieces), len(by_noise)
    if count < 3:
        return by_noise.reshape(2, -1)
    start = poles_of(swings)
    whole = np.log(np.concatenate((swings.frequency, np.abs(swings.damping))))
    off = np.empty((count, both))
    for n in range(count):
        rest = fit_swings([*pieces[:n], *pieces[n + 1 :]], start)
        off[n] = np.log(np.concatenate((rest.frequency, np.abs(rest.damping)))) - whole
    jack = np.sqrt((count - 1) / count * np.sum((off - off.mean(axis=0)) ** 2, axis=0))
    by_taps = float(student.ppf(0.95, count - 1)) * jack
    return np.asarray(np.maximum(by_noise, by_taps)).reshape(2, -1)


def _sorted(swings: Swings) -> Swings:
    order = np.argsort(swings.frequency)
    both = np.concatenate((order, order + len(order)))
    return replace(
        swings,
        frequency=swings.frequency[order],
        damping=swings.damping[order],
        covariance=swings.covariance[np.ix_(both, both)],
        amplitudes=tuple(size[order] for size in swings.amplitudes),
    )


def _band(nominal: float, spread: float) -> Band:
    return Band(low=nominal * math.exp(-spread), nominal=nominal, high=nominal * math.exp(spread))


def _shape(swings: Swings, mode: int) -> Array:
    """Return the shape (k,) of a mode: the strongest direction over taps of as many channels."""
    count = swings.amplitudes[0].shape[1]
    size = np.array([each[mode] for each in swings.amplitudes if each.shape[1] == count])
    # phases of taps do not matter: the strongest direction of all real and imaginary parts
    _, _, turned = np.linalg.svd(np.vstack((size.real, size.imag)))
    shape = turned[0]
    return np.asarray(shape / shape[np.argmax(np.abs(shape))])
