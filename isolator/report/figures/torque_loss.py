"""What a damper takes of its motor's torque ripple and of the floor's force, over frequency."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

import numpy as np
from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.lines import Line2D
from matplotlib.patches import Patch

from isolator.motors.results import DamperLine
from isolator.report.figures.figure import (
    BEYOND,
    DOTTED,
    HATCHED,
    INK,
    RED,
    SOFT,
    Style,
    draw,
    legend,
    log_axis,
    log_ticks,
    stroke,
)
from isolator.report.sentences.motors import floor_gain
from isolator.report.sentences.numbers import number
from isolator.vibration.band import Band

_SIZE = (9.2, 5.6)
_MARKS = ("o", "s", "D", "^", "v", "P", "X", "p", "h", "*")
_SLOW, _FAST = np.array((0x7A, 0xB1, 0xD8)), np.array((0x12, 0x33, 0x4E))  # light to dark blue
_EDGE: Style = {"mec": "white", "mew": 0.7}
_WARNING: Style = {"ha": "right", "color": RED, "fontsize": 8.8}


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

    def paint(figure: Figure) -> None:
        torque = figure.add_axes((0.075, 0.44, 0.91, 0.49))
        floor = figure.add_axes((0.075, 0.095, 0.91, 0.285))
        for axes, told, least in ((torque, losses, 9.0), (floor, gains, 6.0)):
            _frame(axes, (min(reach) / 1.15, max(reach) * 1.15), told, least)
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
        _key(torque, speeds, marks, striped=twist is not None)

    return draw(f"torque loss of motor {rank} over frequency", _SIZE, paint)


class _Mark(NamedTuple):
    """How the lines of one speed are marked."""

    shape: str
    shade: str

    def plot(self, axes: Axes, x: Sequence[float], y: Sequence[float]) -> None:
        style = {"ms": 6.5, "ls": "none", "mfc": self.shade, **_EDGE}
        axes.plot(x, y, marker=self.shape, zorder=4, **style)


def _shade(index: int, count: int) -> str:
    """Faster is darker: the order still shows without colour."""
    share = index / max(count - 1, 1)
    mixed = np.rint(_SLOW + share * (_FAST - _SLOW)).astype(int)
    return "#" + "".join(f"{part:02x}" for part in mixed)


def _frame(axes: Axes, reach: tuple[float, float], told: Sequence[float], least: float) -> None:
    """Frame a panel for all that is `told` [dB], from -6 to `least` at least, red below 0."""
    bottom = min(-6.0, 3.0 * math.floor(min(told) / 3.0 - 0.4))
    top = max(least, 3.0 * math.ceil(max(told) / 3.0 + 0.4))
    log_axis(axes, "x", log_ticks(*reach, (1, 1.5, 2, 3, 4, 5, 7)))
    axes.set_xlim(*reach)
    axes.set_ylim(bottom, top)
    axes.axhspan(bottom, 0.0, facecolor="#fbe6e1", edgecolor="none", zorder=0)
    axes.axhline(0.0, color=INK, lw=1.0, zorder=2)


def _promise(axes: Axes, ceiling: float) -> None:
    _, top = axes.get_ylim()
    if top > ceiling:
        axes.axhspan(ceiling, top, facecolor=BEYOND, edgecolor="none", zorder=0)
        axes.axhline(ceiling, color=SOFT, lw=0.9, ls=DOTTED, zorder=1)


def _words(torque: Axes, floor: Axes) -> None:
    torque.annotate(
        "worse than bolted to the frame",
        xy=(0.99, 0.0),
        xycoords=torque.get_yaxis_transform(),
        xytext=(0, -4),
        textcoords="offset points",
        va="top",
        **_WARNING,
    )
    torque.set_ylabel("torque loss [dB]")
    text = "worse on the floor than feet alone"
    floor.annotate(text, xy=(0.99, 0.03), xycoords="axes fraction", va="bottom", **_WARNING)
    floor.set_xlabel("frequency [Hz]")
    floor.set_ylabel("floor, beyond\nthe feet [dB]")


def _key(axes: Axes, speeds: Sequence[float], marks: Sequence[_Mark], *, striped: bool) -> None:
    keys: list[Line2D | Patch] = [
        stroke(f"{number(speed * 1e3)} mm/s", mark.shade, 1.2, marker=mark.shape, ms=6, **_EDGE)
        for speed, mark in zip(speeds, marks, strict=True)
    ]
    if striped:
        keys.append(Patch(edgecolor=SOFT, label="twist mode", **HATCHED))
    sample = {"handlelength": 1.6, "handletextpad": 0.4, "columnspacing": 1.3}
    around = {"borderaxespad": 0.3, "borderpad": 0, "ncols": min(len(keys), 8)}
    legend(axes, keys, "lower left", (0.0, 1.0), **sample, **around)
