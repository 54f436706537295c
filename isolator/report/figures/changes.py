"""How much louder each step is after a change, over speed, with what was predicted beside it."""

from __future__ import annotations

import math
from collections.abc import Callable

import numpy as np
from matplotlib.axes import Axes
from matplotlib.figure import Figure

from isolator.measuring.before_after import StepChange
from isolator.report.figures.figure import BLUE, INK, ORANGE, PAPER, SOFT, Style, alone
from isolator.report.sentences.compare_text import ALONE, Told
from isolator.report.sentences.numbers import number

_WIDE, _ROW, _HEAD = 880.0, 270.0, 70.0  # [px]
_BAND = "#f3d9be"
_MARKS: tuple[tuple[str, str, str, Callable[[StepChange], bool]], ...] = (
    ("measured", BLUE, BLUE, lambda step: not step.beats and not step.near_room),
    ("within 3 dB of the room", PAPER, BLUE, lambda step: step.near_room and not step.beats),
    ("two motors at one speed: not sure", PAPER, SOFT, lambda step: step.beats),
)
"""Words, face, colour of a mark, and the steps that it stands for."""
_RANGE, _MIDDLE = "predicted, nine of ten", f"predicted, {ALONE}"
_ORDER = (_RANGE, _MIDDLE, *(row[0] for row in _MARKS))
"""Of the key."""


def changes_picture(told: Told) -> str:
    """Return the picture as an SVG file: one field a direction."""
    directions = sorted({step.direction_deg for step in told.changes.steps})
    rows = math.ceil(len(directions) / 2)

    def paint(figure: Figure) -> None:
        fields = figure.subplots(rows, min(2, len(directions)), sharey=True, squeeze=False)
        low, high = _limits(told)
        for field, direction in zip(fields.flat, directions, strict=False):
            _field(field, told, direction)
            field.set_ylim(low, high)
        for field in fields.flat[len(directions) :]:
            field.set_visible(False)
        for row in fields:
            row[0].set_ylabel(f"change [{told.unit}], minus is quieter")
        for field in fields[-1]:
            field.set_xlabel("speed of the tool [mm/s]")
        each = [field.get_legend_handles_labels() for field in fields.flat]
        named = {
            word: mark for marks, words in each for mark, word in zip(marks, words, strict=True)
        }
        # a field that shows all kinds is not always the first
        order = [words for words in _ORDER if words in named]
        figure.legend(
            [named[words] for words in order], order, loc="upper left", ncols=3, frameon=False
        )
        tall = _HEAD + rows * _ROW
        figure.subplots_adjust(0.09, 58 / tall, 0.98, 1 - 70 / tall, 0.06, 0.3)

    return alone("changes", (_WIDE, _HEAD + rows * _ROW), paint, PAPER)


def _limits(told: Told) -> tuple[float, float]:
    """Return a range that holds all closed ends; of steps that are not sure the middle alone."""
    ends = [step.change.nominal for step in told.changes.steps]
    ends += [
        each
        for step in told.changes.steps
        if not step.beats
        for band in (step.change, told.model(step))
        if band is not None
        for each in (band.low, band.nominal, band.high)
        if math.isfinite(each)
    ]
    low, high = min([*ends, -1.0]), max([*ends, 1.0])
    room = 0.06 * (high - low)
    return low - room, high + room


def _field(axes: Axes, told: Told, direction: float) -> None:
    steps = [each for each in told.changes.steps if each.direction_deg == direction]
    steps.sort(key=lambda step: step.speed)
    axes.set_title(f"along {number(direction)}°", loc="left", fontsize=13, color=INK)
    axes.axhline(0.0, color=SOFT, lw=1.0)
    models = [(step.speed, told.model(step)) for step in steps]
    known = [(speed, model) for speed, model in models if model is not None]
    if known:
        x = [1e3 * speed for speed, _ in known]
        low, high = ([getattr(m, end) for _, m in known] for end in ("low", "high"))
        axes.fill_between(x, low, high, color=_BAND, lw=0, label=_RANGE)
        nominal = [model.nominal for _, model in known]
        axes.plot(x, nominal, color=ORANGE, lw=1.6, label=_MIDDLE)
    for words, face, colour, belongs in _MARKS:
        some = [step for step in steps if belongs(step)]
        if some:
            x = [1e3 * step.speed for step in some]
            y = [step.change.nominal for step in some]
            wide = 0.8 if colour == SOFT else 1.6
            style: Style = {"color": colour, "mfc": face, "ms": 6, "lw": wide, "capsize": 3}
            axes.errorbar(x, y, yerr=_bars(some), fmt="o", label=words, **style)


def _bars(steps: list[StepChange]) -> np.ndarray:
    """Return how far bars reach down and up (2, n) [dB]."""
    bars = [
        (step.change.nominal - step.change.low, step.change.high - step.change.nominal)
        for step in steps
    ]
    return np.array([[min(end, 1e3) for end in each] for each in bars]).T
