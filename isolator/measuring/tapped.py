"""Natural frequencies and damping from taps: decays of all taps fitted together, with bands."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from isolator.measuring.chance import NINE_OF_TEN, student
from isolator.measuring.sounding import Sounding, where_it_sounds
from isolator.measuring.swing_search import LEAST_SHARE, Search, energies, poles_of
from isolator.measuring.tap_windows import Taps
from isolator.physics.arrays import Array
from isolator.physics.signals.damped import Piece, Swings, fit_swings
from isolator.vibration.band import Band

FEWEST = 3
"""Taps of a mode from which leaving out one at a time tells how far they differ."""
WIDEST = 0.5
"""A damping whose band reaches further either way, as a share, is not told."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TappedMode:
    """A natural frequency as tapped."""

    frequency: Band  # [Hz] undamped
    damping: Band  # ratio
    taps: int  # in which it clearly sounds: those that its numbers are of
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

    Taps share frequencies and dampings; sizes are each tap's own, and where a mode does not sound
    a tap tells nothing of it. Bands hold nine of ten: the wider of what the noise allows, and of
    what leaving out one of its taps at a time changes; they reach besides as far as automatic gain
    may have moved them.
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
    sounding = where_it_sounds(used, _sorted(swings))
    swings = sounding.swings
    growth = max((taps.gain.growth for taps in found), default=0.0)
    whole = sum(float(np.sum((p.samples - p.samples.mean(axis=0)) ** 2)) for p in used)
    return Tapped(
        modes=tuple(
            _as_gain_allows(mode, growth)
            for mode in _modes(used, sounding, search)
            if _is_sure(mode)
        ),
        taps=len(used),
        left=swings.squares / whole,
        even=even,
        swings=swings,
        pieces=tuple(used),
    )


def _alike(stamped: Piece, evenly: Piece) -> bool:
    """Return whether stamps say nothing else than an even rate, but for a hundredth of it."""
    return np.allclose(stamped.time, evenly.time, atol=0.01 * float(evenly.time[1]))


def _modes(pieces: Sequence[Piece], sounding: Sounding, search: Search) -> list[TappedMode]:
    swings = sounding.swings
    spread = _spread(pieces, sounding)
    energy = energies(pieces, swings)
    return [
        TappedMode(
            frequency=_band(float(swings.frequency[m]), spread[0, m]),
            damping=_band(float(swings.damping[m]), spread[1, m]),
            taps=int(sounding.clear[:, m].sum()),
            share=float(energy[m].sum() / energy.sum()),
            shape=_shape(swings, m),
        )
        for m in range(len(swings.frequency))
        if search.is_mode(float(swings.frequency[m]), float(swings.damping[m]))
    ]


def _is_sure(mode: TappedMode) -> bool:
    wide = mode.damping.high / mode.damping.nominal - 1.0
    return mode.taps > 0 and mode.share > LEAST_SHARE and wide < WIDEST


def _as_gain_allows(mode: TappedMode, growth: float) -> TappedMode:
    """Return a mode with bands for a gain that grows [1/s] as it swings.

    Growth takes off as much of the decay, and spreads a frequency by as much either way.
    """
    hertz, ratio, wider = mode.frequency, mode.damping, growth / (2.0 * math.pi)
    return replace(
        mode,
        frequency=replace(hertz, low=hertz.low - wider, high=hertz.high + wider),
        damping=replace(ratio, high=ratio.high + wider / hertz.nominal),
    )


def _spread(pieces: Sequence[Piece], sounding: Sounding) -> Array:
    """Return how far ln f and ln ζ (2, m) may be off, either way: nine of ten lie within."""
    swings = sounding.swings
    wide = NINE_OF_TEN * np.sqrt(np.diag(swings.covariance)).reshape(2, -1)
    start = poles_of(swings)
    whole = np.log(np.abs([swings.frequency, swings.damping]))
    off = np.full((len(pieces), *whole.shape), np.nan)
    for n in range(len(pieces)):
        others = np.delete(sounding.fitted, n, axis=0)
        left = others.any(axis=0)
        if left.any():
            rest = fit_swings([*pieces[:n], *pieces[n + 1 :]], start[left], held=others[:, left])
            off[n][:, left] = np.log(np.abs([rest.frequency, rest.damping])) - whole[:, left]
    for m, own in enumerate(sounding.clear.T):
        count = int(own.sum())
        if count >= FEWEST:
            each = off[own, :, m]
            jack = np.sqrt((count - 1) / count * np.sum((each - each.mean(axis=0)) ** 2, axis=0))
            wide[:, m] = np.maximum(wide[:, m], student(count - 1) * jack)
    return np.asarray(wide)


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
