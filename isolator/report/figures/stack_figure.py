"""A motor cut along its shaft, as built now and with its stack, to scale."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.patches import Polygon, Rectangle

from isolator.motors.results import MotorResult
from isolator.report.figures.figure import BLUE, FAINT, INK, ORANGE, PALE, SOFT, draw, spread
from isolator.report.figures.stack_pile import Layer, Pile
from isolator.report.sentences.motors import Heights, heights
from isolator.report.sentences.numbers import number

_OPEN = (0, (3, 2))  # pattern of edges that are not known, or not there
_WIDE = 9.2  # [in]
_METAL = "#eceff1"
_BODY = 11.0  # how much of the motor's body is shown [mm]
_GAP = 4.2  # least distance between two labels [mm]
_MIDDLE = 52.0  # between the two pictures [mm]
_SIDE = (36.0, 46.0)  # room for labels left and right [mm]
_MEASURE = {
    "arrowstyle": "<->",
    "color": SOFT,
    "lw": 0.8,
    "shrinkA": 0,
    "shrinkB": 0,
    "mutation_scale": 7,
}


@dataclass(frozen=True, slots=True, kw_only=True)
class _Place:
    """Where one of the two pictures stands [mm]; heights are over the bracket's motor side."""

    x: float  # of the shaft
    face: float  # of the motor
    pulley: float  # its end at the motor
    end: float  # its other end
    tip: float  # the shaft's end
    belt: float  # its middle


def stack_figure(motor: MotorResult, pile: Pile, rank: int) -> str:
    """Return the drawing of motor number `rank`, heights in mm, as SVG."""
    told = heights(motor)
    half = pile.body / 2
    now = _place(motor, told, 0.0, half)
    later = _place(motor, told, motor.stack_height, half + pile.body + _MIDDLE)
    top = max(now.tip, now.end, later.tip, later.end) + 8.0
    low = min(-_BODY, later.face - _BODY) - 5.0
    left, right = -_SIDE[0], later.x + half + _SIDE[1]

    def paint(figure: Figure) -> None:
        axes = figure.add_axes((0.0, 0.0, 1.0, 1.0))
        axes.set_axis_off()
        axes.set_xlim(left, right)
        axes.set_ylim(low, top)
        for place, title in ((now, "now"), (later, "with the stack")):
            ring = not motor.gauge if place is later else told.standoff_before > 5e-5
            _picture(axes, pile, place, spaced=ring)
            axes.text(place.x - half, top - 1.0, title, va="top", fontweight="bold", fontsize=10)
        _layers(axes, pile, later)
        _heights(axes, pile, now, later, "gauge" if motor.gauge else "spacer")

    size = (_WIDE, _WIDE * (top - low) / (right - left))
    return draw(f"stack of motor {rank}, cut along the shaft", size, paint)


def _place(motor: MotorResult, told: Heights, stack: float, x: float) -> _Place:
    standoff = motor.pulley_spacer_height if stack > 0 else told.standoff_before
    return _Place(
        x=x,
        face=-stack * 1e3,
        pulley=(standoff - stack) * 1e3,
        end=(standoff + told.pulley - stack) * 1e3,
        tip=(told.shaft - stack) * 1e3,
        belt=(standoff + told.belt_offset - stack) * 1e3,
    )


def _box(axes: Axes, middle: float, wide: float, low: float, high: float, **kind: object) -> None:
    style = {"ec": INK, "lw": 0.9, **kind}
    axes.add_patch(Rectangle((middle - wide / 2, low), wide, high - low, **style))  # type: ignore[arg-type]


def _picture(axes: Axes, pile: Pile, place: _Place, *, spaced: bool) -> None:
    x, half = place.x, pile.body / 2
    left, right, cut = x - half, x + half, place.face - _BODY  # the body's end is not drawn
    body = [(left, cut), (left, place.face), (right, place.face), (right, cut)]
    axes.add_patch(Polygon(body, closed=False, fc=_METAL, ec=INK, lw=0.9))
    axes.text(x, place.face - 0.55 * _BODY, "motor", ha="center", va="center", fontsize=9)
    _box(axes, x, pile.pilot[0], place.face, place.face + pile.pilot[1], fc=_METAL)
    _bracket(axes, pile, x)
    if spaced:  # a pulley held off by its set screw alone has nothing there
        kind = {"fc": PALE} if place.face < 0 else {"fc": "none", "ls": _OPEN, "ec": SOFT}
        _box(axes, x, pile.spacer, place.face, place.pulley, zorder=3, **kind)
    left, right = x - _reach(pile), x + _reach(pile)  # of the pulley
    for y in (place.pulley, place.end):
        axes.plot([left, right], [y, y], color=BLUE, lw=1.6, zorder=4)
    for side in (left, right):
        ends = [place.pulley, place.end]
        axes.plot([side, side], ends, color=BLUE, lw=1.1, ls=_OPEN, zorder=4)
    _box(axes, x, pile.shaft, place.face, place.tip, fc="white", zorder=5)
    axes.plot([left - 3, right + 3], [place.belt] * 2, color=ORANGE, lw=1.6, zorder=6)
    arrow = {"arrowstyle": "-|>", "color": ORANGE, "lw": 1.6, "shrinkA": 0}
    start, end = (right + 3, place.belt), (right + 9, place.belt)
    axes.annotate("", xy=end, xytext=start, arrowprops=arrow, zorder=6)


def _reach(pile: Pile) -> float:
    """Half the width in which a pulley is shown [mm]."""
    return max(pile.spacer + 4.0, 12.0) / 2


def _bracket(axes: Axes, pile: Pile, x: float) -> None:
    """The bracket's motor side, and its other side where its thickness is known; edges open."""
    hole = pile.pilot[0] / 2
    for side in (-1, 1):
        near, far = x + side * hole, x + side * (pile.body / 2 + 2.5)
        if pile.bracket is not None:
            axes.fill_between([near, far], 0.0, pile.bracket, color=FAINT, lw=0, zorder=1)
            axes.plot([near, far], [pile.bracket] * 2, color=INK, lw=0.9)
        axes.plot([near, far], [0.0, 0.0], color=INK, lw=1.6 if pile.bracket is None else 0.9)


def _layers(axes: Axes, pile: Pile, place: _Place) -> None:
    """Draw the layers with the motor upright, as the pull leaves it, and name them."""
    labels: list[tuple[float, float, str]] = []
    floor = place.face
    lean = 0.0  # slope of a layer's lower face
    edge = place.x + pile.body / 2
    for layer in pile.layers:
        rise = _upper(pile, layer, lean)
        for low, high in layer.spans:
            below = [(place.x + x, floor + lean * x) for x in (low, high)]
            above = [(place.x + x, floor + layer.height + rise * x) for x in (high, low)]
            axes.add_patch(Polygon([*below, *above], fc=layer.colour, ec=INK, lw=0.9, zorder=2))
        tip = place.x + layer.spans[-1][1]
        middle = floor + layer.height / 2
        labels.append((tip, middle, f"{layer.name} {_mm(layer.height)}"))
        floor, lean = floor + layer.height, rise
    thick = "" if pile.bracket is None else f" {_mm(pile.bracket)}"
    labels.append((edge + 2.5, (pile.bracket or 0.0) / 2, f"bracket{thick}"))
    side = place.x + _reach(pile)
    labels.append((side, (place.belt + place.end) / 2, "pulley"))
    labels.append((side + 9, place.belt, "belts pull"))
    _leaders(axes, labels, edge + 6.0)


def _upper(pile: Pile, layer: Layer, lean: float) -> float:
    """Return the slope of a layer's upper face: rubber gives way to the wedge's angle."""
    if pile.angle == 0 or layer.name == "wedge":
        return 0.0
    return math.tan(pile.angle) if layer.name == "rubber" else lean


def _leaders(axes: Axes, labels: Sequence[tuple[float, float, str]], x: float) -> None:
    places = spread([y for _, y, _ in labels], _GAP)
    for (tip, y, text), place in zip(labels, places, strict=True):
        axes.plot([tip, x - 2.5, x], [y, y, place], color=SOFT, lw=0.6, zorder=1.5)
        axes.text(x + 0.8, place, text, va="center", ha="left", fontsize=8.8)


def _heights(axes: Axes, pile: Pile, now: _Place, later: _Place, setter: str) -> None:
    """Heights left of each picture, each between arrows; `setter` gives the pulley its own."""
    half = pile.body / 2
    for place, name in ((now, "to the pulley"), (later, setter)):
        x = place.x - half - 5.0
        _measure(axes, x, place.face, place.pulley, name, place.x - half)
        edge = place.x - pile.spacer / 2
        _measure(axes, x, place.pulley, place.tip, "shaft for\nthe pulley", edge)
    x = later.x - half - 28.0
    _measure(axes, x, later.face, 0.0, "stack", later.x - half)


def _measure(axes: Axes, x: float, low: float, high: float, name: str, edge: float) -> None:
    if abs(high - low) < 0.05:
        return
    for y in (low, high):
        axes.plot([x - 0.8, edge - 0.5], [y, y], color=FAINT, lw=0.7, zorder=0.5)
    axes.annotate("", xy=(x, high), xytext=(x, low), arrowprops=_MEASURE)
    text, y = f"{name}\n{_mm(high - low)}", (low + high) / 2
    axes.text(x - 1.2, y, text, ha="right", va="center", fontsize=8.8, linespacing=1.15)


def _mm(height: float) -> str:
    return f"{number(height)} mm"
