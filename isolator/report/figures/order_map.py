"""The order map: how loud each frequency is at each speed, ridges and what stands still on it."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
from matplotlib.axes import Axes
from matplotlib.collections import QuadMesh
from matplotlib.colors import LinearSegmentedColormap
from matplotlib.figure import Figure

from isolator.report.figures.figure import (
    BLUE,
    DASHED,
    DOTTED,
    INK,
    ORANGE,
    PALE,
    PAPER,
    RED,
    SOFT,
    alone,
    log_axis,
    log_ticks,
    spread,
)
from isolator.report.sentences.numbers import number
from isolator.report.sentences.orders_text import Told, ridge_name

_WIDE, _ROW, _HEAD = 980.0, 360.0, 110.0  # [px]
_COLOURS = LinearSegmentedColormap.from_list("loud", [PAPER, PALE, BLUE, INK])
_TOP_DB = 40.0
_MOST = 6
"""Ridges that get a name."""
_BENDS = 60
"""Points of a line: straight over speed, it is none on a scale of logarithms."""
_APART = 0.055
"""Of names one over another, as a share of a field's height."""
_Name = tuple[float, str, str]
"""Where a name stands [Hz], the name and its colour."""


def order_picture(told: Told) -> str:
    """Return the picture as an SVG file: one field a direction."""
    directions = sorted({direction for _, direction in told.map.keys})
    rows, columns = math.ceil(len(directions) / 2), min(2, len(directions))
    tall = _HEAD + rows * _ROW

    def paint(figure: Figure) -> None:
        fields = figure.subplots(rows, columns, squeeze=False)
        mesh = None
        for field, direction in zip(fields.flat, directions, strict=False):
            mesh = _field(field, told, direction)
        for field in fields.flat[len(directions) :]:
            field.set_visible(False)
        for row in fields:
            row[0].set_ylabel("frequency [Hz]")
        for field in fields.flat:
            field.set_xlabel("speed of the tool [mm/s]")
        figure.subplots_adjust(0.07, 58 / tall, 0.85, 1 - 84 / tall, 0.44, 0.24)
        figure.text(0.07, 1 - 24 / tall, _key(told), color=SOFT, va="center")
        if mesh is not None:
            bar = figure.add_axes((0.96, 58 / tall, 0.012, 1 - 142 / tall))
            figure.colorbar(mesh, cax=bar)
            bar.set_title("dB over\nthe room", fontsize=11, color=SOFT, pad=12)

    return alone("order map", (_WIDE, tall), paint, PAPER)


def _key(told: Told) -> str:
    words = ["lines: follow the speed"]
    words += ["dashed: resonance"] if told.resonances else []
    words += ["dotted: never stops"] if told.hums else []
    words += ["red on top: avoid"] if told.avoid else []
    return " · ".join(words)


def _field(axes: Axes, told: Told, direction: float) -> QuadMesh:
    rows = [n for n, (_, own) in enumerate(told.map.keys) if own == direction]
    rows.sort(key=lambda n: told.map.keys[n][0])
    speed = np.array([1e3 * told.map.keys[n][0] for n in rows])
    frequency = told.map.frequency
    middle = (speed[1:] + speed[:-1]) / 2.0
    ends = (speed[0] - 2.0, speed[-1] + 2.0)
    if len(speed) > 1:
        ends = (2.0 * speed[0] - middle[0], 2.0 * speed[-1] - middle[-1])
    sides = np.concatenate([[ends[0]], middle, [ends[1]]])
    step = frequency[1] - frequency[0]
    edges = np.append(frequency - step / 2.0, frequency[-1] + step / 2.0)
    level = told.map.over[rows].T
    mesh = axes.pcolormesh(
        sides, edges, level, cmap=_COLOURS, vmin=0.0, vmax=_TOP_DB, rasterized=True
    )
    low, high = max(edges[0], 1.0), edges[-1]
    log_axis(axes, "y", log_ticks(low, high))
    axes.set_xlim(sides[0], sides[-1])
    axes.set_ylim(low, high)
    axes.grid(visible=False)
    axes.set_title(f"along {number(direction)}°", loc="left", fontsize=13, color=INK, pad=11)
    for each in told.resonances:
        axes.axhline(each.frequency, color=RED, lw=1.2, ls=DASHED)
    for hum in told.hums:
        axes.axhline(hum, color=SOFT, lw=1.0, ls=DOTTED)
    for loud in told.avoid:
        if direction not in loud.directions_deg:
            continue
        top = axes.get_xaxis_transform()
        axes.plot(
            (1e3 * loud.low, 1e3 * loud.high),
            (1.012, 1.012),
            color=RED,
            lw=4,
            transform=top,
            clip_on=False,
            solid_capstyle="butt",
        )
    named = _ridges(axes, told, rows[0], sides)
    named += [(each.frequency, f"{number(each.frequency)} Hz", RED) for each in told.resonances]
    named += [(hum, f"{number(hum)} Hz", SOFT) for hum in told.hums]
    _name(axes, named)
    return mesh


def _ridges(axes: Axes, told: Told, row: int, sides: np.ndarray) -> list[_Name]:
    """Draw what follows the speed; return the names of all lines that are seen, and where."""
    low, high = axes.get_ylim()
    named: list[_Name] = []
    for ridge in told.ridges[:_MOST]:
        for factor in told.map.factors[row]:
            speed = np.linspace(sides[0], sides[-1], _BENDS)
            line = ridge.order * factor * 1e-3 * speed
            axes.plot(speed, line, color=ORANGE, lw=1.0, alpha=0.8)
            if line[0] < high and line[-1] > low:
                named.append((min(float(line[-1]), high), ridge_name(ridge), ORANGE))
    return named


def _name(axes: Axes, named: Sequence[_Name]) -> None:
    """Write names on the right; moved apart where they overlap."""
    low, high = axes.get_ylim()
    places = spread([math.log(place) for place, _, _ in named], _APART * math.log(high / low))
    for (_, name, colour), place in zip(named, places, strict=True):
        axes.annotate(
            name,
            xy=(1.02, math.exp(place)),
            xycoords=axes.get_yaxis_transform(),
            va="center",
            fontsize=11,
            color=colour,
            annotation_clip=False,
        )
