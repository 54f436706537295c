"""The speed map: which tone lies where at which speed, and what the feet make of it."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

import numpy as np
from matplotlib.axes import Axes
from matplotlib.figure import Figure
from numpy.typing import NDArray

from isolator.report.figures.figure import (
    BLUE,
    HATCHED,
    INK,
    LEADER,
    ORANGE,
    RED,
    SHORT,
    SOFT,
    UNITS,
    Style,
    box,
    chart,
    log_axis,
    log_ticks,
    spread,
)
from isolator.report.figures.key import Entry, key
from isolator.report.sentences.numbers import number
from isolator.report.sentences.speeds import WORSE_DB, merged
from isolator.vibration.results import AvoidRange, Evaluation, Mode, SpeedMap

_TALL, _NARROW_TALL = 500.0, 560.0  # [px]
_MODE = SOFT
_PALE_MODE = "color-mix(in srgb, var(--soft) 25%, transparent)"
_LABEL = 18.0  # between two labels on the right [px]
# (from dB, colour, width, words): width alone tells the order in grey print
_CLASSES = (
    (-math.inf, RED, 4.6, "worse than rigid feet"),
    (WORSE_DB, ORANGE, 3.2, "about the same, up to 5 dB less"),
    (5.0, BLUE, 2.2, "5 to 10 dB less"),
    (10.0, BLUE, 1.0, "10 dB less and more"),
)


def speed_map(found: Evaluation) -> str:
    """Return the picture of print speed against frequency, with modes and speeds to avoid."""

    def paint(figure: Figure, narrow: bool) -> None:
        axes = figure.add_axes(box(58.0, 48.0, 128.0 if narrow else 190.0, 34.0, figure))
        _frame(axes, found.speed_map, found.modes, narrow)
        _modes(axes, found.modes)
        _avoid(axes, found.avoid)
        _own_speeds(axes, [one.speed for one in found.speeds], narrow)
        _lines(axes, found.speed_map)
        _labels(axes, found.speed_map, found.modes, narrow)

    entries = [Entry("line", colour, words, width) for _, colour, width, words in _CLASSES]
    entries += [
        Entry("band", _PALE_MODE, "mode with its band"),
        Entry("hatch", RED, "speeds to avoid"),
        Entry("line", INK, "your speeds [mm/s]", 1.0, "4 3"),
    ]
    return chart("speed map", _TALL, paint, narrow=_NARROW_TALL) + key(entries)


def _frame(axes: Axes, told: SpeedMap, modes: Sequence[Mode], narrow: bool) -> None:
    """Frame modes and tones; where microsteps alone lie no foot decides, so they do not count."""
    every = range(len(told.sources))
    rows = [i for i in every if told.sources[i] != "microstep"] or every
    shown = told.frequency[rows]
    shown = shown[shown > 0]
    slowest = min((m.frequency.low for m in modes if m.frequency.low > 0), default=math.inf)
    low = 0.8 * min(float(shown.min()), slowest)
    high = 1.25 * float(shown.max())
    steps = (1, 3) if narrow else (1, 2, 3, 5, 7)
    log_axis(axes, "x", log_ticks(told.speed[0] * 1e3, told.speed[-1] * 1e3, steps))
    log_axis(axes, "y", log_ticks(low, high))
    axes.set_xlim(told.speed[0] * 1e3, told.speed[-1] * 1e3)
    axes.set_ylim(low, high)
    axes.set_xlabel("print speed along one axis [mm/s]" if not narrow else "print speed [mm/s]")
    axes.set_ylabel("frequency [Hz]")


def _modes(axes: Axes, modes: Sequence[Mode]) -> None:
    for mode in modes:
        band = mode.frequency
        axes.axhspan(band.low, band.high, facecolor=_MODE, alpha=0.2, lw=0)
        axes.axhline(band.nominal, color=SOFT, lw=0.6)


def _avoid(axes: Axes, avoid: Sequence[AvoidRange]) -> None:
    over: Style = {"transform": axes.get_xaxis_transform(), "clip_on": False}
    for low, high, _ in merged(avoid):
        span = (low * 1e3, high * 1e3)
        axes.axvspan(*span, edgecolor=RED, alpha=0.35, zorder=0.4, **HATCHED)
        axes.plot(span, (1.012, 1.012), color=RED, lw=4, solid_capstyle="butt", **over)


def _own_speeds(axes: Axes, speeds: Sequence[float], narrow: bool) -> None:
    left, right = axes.get_xlim()
    inside = [speed * 1e3 for speed in speeds if left <= speed * 1e3 <= right]
    gap = (0.2 if narrow else 0.052) * math.log10(right / left)
    places = spread([math.log10(speed) for speed in inside], gap)
    style: Style = {"ha": "center", "va": "bottom", "fontweight": "bold"}
    for speed, place in zip(inside, places, strict=True):
        axes.axvline(speed, color=INK, lw=0.8, ls=SHORT, zorder=1.2)
        axes.text(10**place, 1.03, number(speed), transform=axes.get_xaxis_transform(), **style)


def pieces(loss: NDArray[np.float64]) -> list[tuple[int, int, int]]:
    """Return (first, one past the last, class) of the runs of insertion loss [dB] in one class.

    Classes rise with isolation: 0 worse than rigid feet, 1 about the same, 2 from 5 dB, 3 from
    10 dB on.

    >>> pieces(np.array([-0.4, -3.0, -2.0, 7.0]))
    [(0, 1, 1), (1, 3, 0), (3, 4, 2)]
    """
    starts = [entry[0] for entry in _CLASSES[1:]]
    rank = np.digitize(np.nan_to_num(loss, nan=0.0), starts)
    cuts = np.flatnonzero(np.diff(rank)) + 1
    edges = [0, *(int(cut) for cut in cuts), len(loss)]
    return [(first, last, int(rank[first])) for first, last in pairwise(edges)]


def _lines(axes: Axes, told: SpeedMap) -> None:
    """Draw each tone piece by piece, a piece as long as its isolation stays in one class."""
    x = told.speed * 1e3
    low, high = axes.get_ylim()
    for frequency, loss in zip(told.frequency, told.insertion_loss, strict=True):
        if not low <= frequency[-1] <= high:
            continue
        for first, last, rank in pieces(loss):
            _, colour, width, _ = _CLASSES[rank]
            piece = slice(first, last + 1)
            axes.plot(
                x[piece], frequency[piece], color=colour, lw=width, solid_capstyle="butt", zorder=3
            )


def _labels(axes: Axes, told: SpeedMap, modes: Sequence[Mode], narrow: bool) -> None:
    """Name tones and modes on the right, moved apart where they would overlap."""
    low, high = axes.get_ylim()
    named = [
        (float(row[-1]), name, True)
        for name, row in zip(told.sources, told.frequency, strict=True)
        if low <= row[-1] <= high
    ]
    named += [
        (mode.frequency.nominal, _mode_words(mode, narrow), False)
        for mode in modes
        if low <= mode.frequency.nominal <= high
    ]
    scale = math.log10(high / low)
    tall = axes.get_window_extent().height * UNITS / axes.figure.dpi
    places = spread([math.log10(place) for place, _, _ in named], _LABEL / tall * scale)
    for (place, text, is_tone), moved in zip(named, places, strict=True):
        axes.annotate(
            text,
            xy=(1.0, place),
            xytext=(1.09 if narrow else 1.045, 10**moved),
            xycoords=axes.get_yaxis_transform(),
            textcoords=axes.get_yaxis_transform(),
            va="center",
            fontweight="bold" if is_tone else "normal",
            color=INK if is_tone else SOFT,
            annotation_clip=False,
            arrowprops={**LEADER, "shrinkA": 1, "relpos": (0, 0.5)},
        )


def _mode_words(mode: Mode, narrow: bool) -> str:
    return mode.name if narrow else f"{mode.name}, {number(mode.frequency.nominal, 2)} Hz"
