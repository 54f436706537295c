"""What a damper takes of its motor's torque ripple and of the floor's force, over frequency."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from matplotlib.axes import Axes
from matplotlib.figure import Figure

from isolator.motors.results import DamperLine
from isolator.report.figures.figure import (
    BEYOND,
    BLUE,
    DOTTED,
    HATCHED,
    INK,
    PAPER,
    ROSE,
    SOFT,
    Style,
    box,
    chart,
    log_axis,
    log_ticks,
)
from isolator.report.figures.key import Entry, key
from isolator.report.sentences.motors import floor_gain
from isolator.report.sentences.numbers import number
from isolator.vibration.band import Band

_TORQUE, _FLOOR = 230.0, 140.0  # panels [px]
_MARKS = ("o", "s", "D", "^", "v", "P", "X", "p", "h", "*")
_SHADES = (SOFT, BLUE, INK)  # slow to fast; the marks differ too
_EDGE: Style = {"mec": PAPER, "mew": 0.9}


def torque_loss(lines: Sequence[DamperLine], twist: Band | None, ceiling: float, rank: int) -> str:
    """Return torque loss [dB] over frequency [Hz], each line with its band, marked by speed.

    Under it what the damper takes of the floor's force beyond the feet, nominal. `twist` is the
    band of the twist mode [Hz], shown as a stripe; no more than `ceiling` [dB] is promised. `rank`
    numbers the motor.
    """
    speeds = sorted({line.speed for line in lines})
    marks = [_Mark(_MARKS[i % len(_MARKS)], _shade(i, len(speeds))) for i in range(len(speeds))]
    reach = [line.frequency for line in lines]
    reach += [] if twist is None else [twist.low, twist.high]
    losses = [edge for line in lines for edge in (line.torque.low, line.torque.high)]
    gains = [floor_gain(line) for line in lines]

    height = _TORQUE + _FLOOR + 110.0

    def paint(figure: Figure, narrow: bool) -> None:
        left, right = 80.0, 12.0
        torque = figure.add_axes(box(left, height - 10.0 - _TORQUE, right, 10.0, figure))
        floor = figure.add_axes(box(left, 50.0, right, height - 50.0 - _FLOOR, figure))
        for axes, told, least in ((torque, losses, 9.0), (floor, gains, 6.0)):
            _frame(axes, (min(reach) / 1.15, max(reach) * 1.15), told, least, narrow)
        _promise(torque, ceiling)
        if twist is not None:
            for axes in (torque, floor):
                axes.axvspan(twist.low, twist.high, edgecolor=SOFT, **HATCHED)
        _words(torque, floor)
        for speed, mark in zip(speeds, marks, strict=True):
            ours = [line for line in lines if line.speed == speed]
            for line in ours:
                f, band = line.frequency, line.torque
                torque.plot([f, f], [band.low, band.high], color=mark.shade, lw=1.2, zorder=3)
                mark.plot(torque, [f], [band.nominal])
            mark.plot(floor, [line.frequency for line in ours], [floor_gain(line) for line in ours])

    drawn = chart(f"torque loss of motor {rank} over frequency", height, paint)
    return drawn + _key(speeds, marks, striped=twist is not None)


class _Mark(NamedTuple):
    """How the lines of one speed are marked."""

    shape: str
    shade: str

    def plot(self, axes: Axes, x: Sequence[float], y: Sequence[float]) -> None:
        style = {"ms": 6.5, "ls": "none", "mfc": self.shade, **_EDGE}
        axes.plot(x, y, marker=self.shape, zorder=4, **style)


def _shade(index: int, count: int) -> str:
    """Faster is darker, as far as there are shades."""
    return _SHADES[index * len(_SHADES) // max(count, len(_SHADES))]


def _frame(
    axes: Axes, reach: tuple[float, float], told: Sequence[float], least: float, narrow: bool
) -> None:
    """Frame a panel for all that is `told` [dB], from -6 to `least` at least, red below 0."""
    bottom = min(-6.0, 3.0 * math.floor(min(told) / 3.0 - 0.4))
    top = max(least, 3.0 * math.ceil(max(told) / 3.0 + 0.4))
    log_axis(axes, "x", log_ticks(*reach, (1, 2, 5) if narrow else (1, 1.5, 2, 3, 5, 7)))
    axes.set_xlim(*reach)
    axes.set_ylim(bottom, top)
    axes.axhspan(bottom, 0.0, facecolor=ROSE, edgecolor="none", zorder=0)
    axes.axhline(0.0, color=INK, lw=1.0, zorder=2)


def _promise(axes: Axes, ceiling: float) -> None:
    _, top = axes.get_ylim()
    if top > ceiling:
        axes.axhspan(ceiling, top, facecolor=BEYOND, edgecolor="none", zorder=0)
        axes.axhline(ceiling, color=SOFT, lw=0.9, ls=DOTTED, zorder=1)


def _words(torque: Axes, floor: Axes) -> None:
    torque.set_ylabel("torque loss [dB]")
    floor.set_xlabel("frequency [Hz]")
    floor.set_ylabel("floor, beyond\nthe feet [dB]")


def _key(speeds: Sequence[float], marks: Sequence[_Mark], *, striped: bool) -> str:
    entries = [
        Entry(mark.shape, mark.shade, f"{number(speed * 1e3)} mm/s")
        for speed, mark in zip(speeds, marks, strict=True)
    ]
    if striped:
        entries.append(Entry("hatch", SOFT, "twist mode"))
    entries.append(Entry("band", ROSE, "worse with the damper"))
    return key(entries)
