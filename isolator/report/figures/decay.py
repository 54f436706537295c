"""A tap's decay with the swings fitted to it, and the spectrum of all taps with their modes."""

from __future__ import annotations

import numpy as np
from matplotlib.axes import Axes
from matplotlib.figure import Figure
from scipy import signal

from isolator.measuring.tap_found import TapFound
from isolator.physics.arrays import Array
from isolator.physics.signals.damped import swung
from isolator.physics.signals.decay import half_power
from isolator.report.figures.figure import BLUE, INK, ORANGE, PALE, PAPER, SOFT, alone, box, spread
from isolator.report.sentences.numbers import number

_WIDE, _TALL = 880.0, 640.0  # [px]
_SHOWN = 1.5
"""Of a decay [s]."""
_DEEP = 60.0
"""Of a spectrum below its peak [dB]."""
_LABEL = 0.045
"""Room of a mode's number over the width of the spectrum."""
_FINE = 4
"""Points of the drawn fit to a sample."""


def decay_figure(found: TapFound) -> str:
    """Return the picture as an SVG file: the strongest decay in time, all of them by frequency."""

    def paint(figure: Figure) -> None:
        _decay(figure.add_axes(box(84.0, 380.0, 20.0, 40.0, figure)), found)
        _spectrum(figure.add_axes(box(84.0, 56.0, 20.0, 336.0, figure)), found)

    return alone("decay of a tap", (_WIDE, _TALL), paint, PAPER)


def _decay(axes: Axes, found: TapFound) -> None:
    tapped = found.tapped
    pieces = tapped.pieces or tuple(p for taps in found.taps for p in taps.pieces)
    at = int(np.argmax([np.ptp(piece.samples) for piece in pieces]))
    piece = pieces[at]
    channel = int(np.argmax(np.ptp(piece.samples, axis=0)))
    names = next(r.channels for r in found.recordings if len(r.channels) == piece.samples.shape[1])
    samples = piece.samples[:, channel] - np.mean(piece.samples[:, channel])
    shown = piece.time <= _SHOWN
    axes.plot(piece.time[shown], samples[shown], ".", color=ORANGE, ms=5.0, label="recorded")
    if tapped.swings is not None:
        count = _FINE * int(np.count_nonzero(shown))
        fine = np.linspace(0.0, float(piece.time[shown][-1]), count)
        fit = swung(fine, tapped.swings, tapped.swings.amplitudes[at])[:, :, channel].sum(axis=0)
        axes.plot(fine, fit, color=BLUE, lw=1.6, label="fitted swings")
    unit = found.recordings[0].unit
    axes.set_title(f"One tap, along {names[channel]}", loc="left", color=INK, fontsize=13)
    axes.set_xlabel("time after the tap [s]")
    axes.set_ylabel("m/s²" if unit == "m/s^2" else unit)
    axes.legend(frameon=False, loc="upper right")


def _spectrum(axes: Axes, found: TapFound) -> None:
    frequency, level = _level(found, fitted=False)
    axes.plot(frequency, level, color=ORANGE, lw=1.4)
    if found.tapped.swings is not None:
        axes.plot(*_level(found, fitted=True), color=BLUE, lw=1.6)
    modes, right = found.tapped.modes, _right(found)
    places = spread([mode.frequency.nominal for mode in modes], _LABEL * right)
    for mode, place in zip(modes, places, strict=True):
        hertz, ratio = mode.frequency.nominal, mode.damping.nominal
        low, high = hertz * half_power(min(ratio, 0.3))
        axes.axvspan(low, high, color=PALE, lw=0, zorder=0.5)
        axes.axvline(hertz, color=SOFT, lw=0.8, zorder=0.6)
        axes.annotate(
            number(hertz),
            (place, 1.0),
            xycoords=("data", "axes fraction"),
            xytext=(0, 3),
            textcoords="offset points",
            ha="center",
        )
    axes.set_xlim(0.0, right)
    axes.set_ylim(-_DEEP, 5.0)
    axes.set_xlabel("frequency [Hz]; shaded: half of a mode's power")
    axes.set_ylabel("dB under the peak")


def _right(found: TapFound) -> float:
    """Return how far the spectrum is drawn [Hz]: a little beyond the highest mode."""
    modes = found.tapped.modes
    return min(found.highest, 1.6 * modes[-1].frequency.nominal) if modes else found.highest


def _level(found: TapFound, *, fitted: bool) -> tuple[Array, Array]:
    """Return frequencies [Hz] and the mean level of all decays, 0 dB at the recorded peak."""
    swings, pieces = found.tapped.swings, found.tapped.pieces
    if not pieces:
        pieces = tuple(p for taps in found.taps for p in taps.pieces)
    rate = float(np.median([1.0 / np.mean(np.diff(piece.time)) for piece in pieces]))
    bins = 1 << int(np.ceil(np.log2(8.0 * rate)))  # 1/8 Hz apart or closer
    grid: Array = np.arange(bins // 2 + 1, dtype=float) * (rate / bins)
    total, recorded = np.zeros(len(grid)), np.zeros(len(grid))
    for n, piece in enumerate(pieces):
        fade = signal.windows.hann(2 * len(piece.time))[len(piece.time) :, None]
        raw = piece.samples - piece.samples.mean(axis=0)
        fit = raw
        if fitted and swings is not None:
            fit = swung(piece.time, swings, swings.amplitudes[n]).sum(axis=0)
        recorded += np.sum(np.abs(np.fft.rfft(raw * fade, bins, axis=0)) ** 2, axis=1)
        total += np.sum(np.abs(np.fft.rfft(fit * fade, bins, axis=0)) ** 2, axis=1)
    peak = float(np.max(recorded[grid > 0.5]))
    return grid, np.asarray(10.0 * np.log10(np.maximum(total / peak, 1e-12)))
