"""What a damper takes of its motor's torque ripple and of the floor's force, over frequency."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.lines import Line2D
from matplotlib.patches import Patch

from isolator.motors.results import DamperLine
from isolator.report.figures.figure import INK, RED, SOFT, draw, log_axis, log_ticks
from isolator.report.sentences.motors import floor_gain
from isolator.report.sentences.numbers import number
from isolator.vibration.band import Band

_SIZE = (9.2, 5.6)
_MARKS = ("o", "s", "D", "^", "v", "P", "X", "p", "h", "*")
_SLOW, _FAST = np.array((0x7A, 0xB1, 0xD8)), np.array((0x12, 0x33, 0x4E))  # light to dark blue
_WORSE, _BEYOND = "#fbe6e1", "#eceff1"


def torque_loss(lines: Sequence[DamperLine], twist: Band | None, ceiling: float, rank: int) -> str:
    """Return torque loss [dB] over frequency [Hz], each line with its band, marked by speed.

    Under it what the damper takes of the floor's force beyond the feet, nominal. `twist` is the
    band of the twist mode [Hz], shown as a stripe; no more than `ceiling` [dB] is promised. `rank`
    numbers the motor.
    """
    speeds = sorted({line.speed for line in lines})

    def paint(figure: Figure) -> None:
        axes = figure.add_axes((0.075, 0.44, 0.91, 0.49))
        floor = figure.add_axes((0.075, 0.095, 0.91, 0.285))
        _frame(axes, lines, twist, ceiling)
        _floor_frame(floor, lines, twist, axes.get_xlim())
        for index, speed in enumerate(speeds):
            ours = [line for line in lines if line.speed == speed]
            mark, shade = _MARKS[index % len(_MARKS)], _shade(index, len(speeds))
            _bars(axes, ours, mark, shade)
            floor.plot(
                [line.frequency for line in ours],
                [floor_gain(line) for line in ours],
                marker=mark,
                ms=6.5,
                ls="none",
                mfc=shade,
                mec="white",
                mew=0.7,
                zorder=4,
            )
        _key(axes, speeds, twist)

    return draw(f"torque loss of motor {rank} over frequency", _SIZE, paint)


def _shade(index: int, count: int) -> str:
    """Faster is darker: the order still shows without colour."""
    share = index / max(count - 1, 1)
    mixed = np.rint(_SLOW + share * (_FAST - _SLOW)).astype(int)
    return "#" + "".join(f"{part:02x}" for part in mixed)


def _frame(axes: Axes, lines: Sequence[DamperLine], twist: Band | None, ceiling: float) -> None:
    tones = [line.frequency for line in lines]
    reach = [*tones, *((twist.low, twist.high) if twist is not None else ())]
    low, high = min(reach) / 1.15, max(reach) * 1.15
    bottom = min(-6.0, 3.0 * math.floor(min(line.torque.low for line in lines) / 3.0 - 0.4))
    top = max(9.0, 3.0 * math.ceil(max(line.torque.high for line in lines) / 3.0 + 0.4))
    log_axis(axes, "x", log_ticks(low, high, (1, 1.5, 2, 3, 4, 5, 7)))
    axes.set_xlim(low, high)
    axes.set_ylim(bottom, top)
    axes.axhspan(bottom, 0.0, facecolor=_WORSE, edgecolor="none", zorder=0)
    axes.axhline(0.0, color=INK, lw=1.0, zorder=2)
    if top > ceiling:
        axes.axhspan(ceiling, top, facecolor=_BEYOND, edgecolor="none", zorder=0)
        axes.axhline(ceiling, color=SOFT, lw=0.9, ls=(0, (1, 2)), zorder=1)
    if twist is not None:
        axes.axvspan(twist.low, twist.high, facecolor="none", edgecolor=SOFT, hatch="////", lw=0)
    axes.annotate(
        "worse than bolted to the frame",
        xy=(0.99, 0.0),
        xycoords=axes.get_yaxis_transform(),
        xytext=(0, -4),
        textcoords="offset points",
        ha="right",
        va="top",
        color=RED,
        fontsize=8.8,
    )
    axes.set_ylabel("torque loss [dB]")


def _floor_frame(
    axes: Axes, lines: Sequence[DamperLine], twist: Band | None, reach: tuple[float, float]
) -> None:
    """Frame the lower panel: the floor's force, feet with and without the damper."""
    gains = [floor_gain(line) for line in lines]
    bottom = min(-6.0, 3.0 * math.floor(min(gains) / 3.0 - 0.4))
    top = max(6.0, 3.0 * math.ceil(max(gains) / 3.0 + 0.4))
    log_axis(axes, "x", log_ticks(*reach, (1, 1.5, 2, 3, 4, 5, 7)))
    axes.set_xlim(*reach)
    axes.set_ylim(bottom, top)
    axes.axhspan(bottom, 0.0, facecolor=_WORSE, edgecolor="none", zorder=0)
    axes.axhline(0.0, color=INK, lw=1.0, zorder=2)
    if twist is not None:
        axes.axvspan(twist.low, twist.high, facecolor="none", edgecolor=SOFT, hatch="////", lw=0)
    axes.annotate(
        "worse on the floor than feet alone",
        xy=(0.99, 0.03),
        xycoords="axes fraction",
        ha="right",
        va="bottom",
        color=RED,
        fontsize=8.8,
    )
    axes.set_xlabel("frequency [Hz]")
    axes.set_ylabel("floor, beyond\nthe feet [dB]")


def _bars(axes: Axes, lines: Sequence[DamperLine], mark: str, colour: str) -> None:
    for line in lines:
        f, torque = line.frequency, line.torque
        axes.plot([f, f], [torque.low, torque.high], color=colour, lw=1.2, zorder=3)
        axes.plot(
            [f],
            [torque.nominal],
            marker=mark,
            ms=6.5,
            ls="none",
            mfc=colour,
            mec="white",
            mew=0.7,
            zorder=4,
        )


def _key(axes: Axes, speeds: Sequence[float], twist: Band | None) -> None:
    keys: list[Line2D | Patch] = [
        Line2D(
            [],
            [],
            marker=_MARKS[index % len(_MARKS)],
            color=_shade(index, len(speeds)),
            lw=1.2,
            ms=6,
            mec="white",
            mew=0.7,
            label=f"{number(speed * 1e3)} mm/s",
        )
        for index, speed in enumerate(speeds)
    ]
    if twist is not None:
        keys.append(Patch(facecolor="none", edgecolor=SOFT, hatch="////", lw=0, label="twist mode"))
    axes.legend(
        handles=keys,
        loc="lower left",
        bbox_to_anchor=(0.0, 1.0),
        ncols=min(len(keys), 8),
        borderaxespad=0.3,
        borderpad=0,
        handlelength=1.6,
        handletextpad=0.4,
        columnspacing=1.3,
    )
