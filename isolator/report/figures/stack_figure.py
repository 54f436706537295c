"""A motor cut along its shaft, as built now and with its stack, to scale."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.patches import Polygon, Rectangle

from isolator.motors.results import MotorResult
from isolator.report.figures.figure import (
    BEYOND,
    BLUE,
    FAINT,
    INK,
    ORANGE,
    PALE,
    PAPER,
    SOFT,
    TEXT,
    UNITS,
    WIDE,
    box,
    chart,
    spread,
)
from isolator.report.figures.stack_pile import Layer, Pile
from isolator.report.sentences.motors import Heights, heights
from isolator.report.sentences.numbers import number

_OPEN = (0, (3, 2))  # pattern of edges that are not known, or not there
_METAL = BEYOND
_BODY = 11.0  # how much of the motor's body is shown [mm]
_LABELS = 17.0  # least distance between two labels [px]
_MEASURE = {
    "arrowstyle": "<->",
    "color": SOFT,
    "lw": 0.8,
    "shrinkA": 0,
    "shrinkB": 0,
    "mutation_scale": 9,
}


class _Room(NamedTuple):
    """How large a motor's body is drawn, and what is left beside it [px]."""

    body: float
    now: float  # width of the picture of the motor as built now
    left: float  # for heights
    far: float  # from the body to the height of the stack; 0: it is not shown


_WIDE = _Room(body=165.0, now=345.0, left=180.0, far=104.0)
_NARROW = _Room(body=84.0, now=240.0, left=104.0, far=0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Place:
    """Where one of the two pictures stands [mm]; heights are over the bracket's motor side."""

    x: float  # of the shaft
    scale: float  # [px/mm]
    face: float  # of the motor
    pulley: float  # its end at the motor
    end: float  # its other end
    tip: float  # the shaft's end
    belt: float  # its middle


def stack_figure(motor: MotorResult, pile: Pile, rank: int) -> str:
    """Return the drawing of motor number `rank`, heights in mm, as SVG."""
    told = heights(motor)
    places = [_place(motor, told, stack, 1.0) for stack in (0.0, motor.stack_height)]
    top = max(max(place.tip, place.end) for place in places) + 9.0
    low = min(-_BODY, places[1].face - _BODY) - 9.0
    tall = [(top - low) * room.body / pile.body + 22.0 for room in (_WIDE, _NARROW)]

    def paint(figure: Figure, narrow: bool) -> None:
        room, high = (_NARROW, tall[1]) if narrow else (_WIDE, tall[0])
        scale = room.body / pile.body
        wide, whole = (side * UNITS for side in figure.get_size_inches())
        boxes = (
            box(0.0, whole - high, wide - room.now, 22.0, figure),
            box(0.0 if narrow else room.now, 0.0, 0.0, whole - high + 22.0, figure),
        )
        lefts = (room.left - (45.0 if room.far else 0.0), room.left)
        for index, title in enumerate(("now", "with the stack")):
            place = _place(motor, told, motor.stack_height if index else 0.0, scale)
            axes = figure.add_axes(boxes[index])
            axes.set_axis_off()
            left = -pile.body / 2 - lefts[index] / scale
            width = boxes[index][2] * wide / scale
            axes.set_xlim(left, left + width)
            axes.set_ylim(low, top)
            ring = not motor.gauge if index else told.standoff_before > 5e-5
            _picture(axes, pile, place, spaced=ring)
            axes.set_title(title, loc="left", fontweight="bold", fontsize=TEXT, pad=4)
            setter = "gauge" if motor.gauge else "spacer"
            _heights(axes, pile, place, setter if index else "to the pulley")
            if index:
                _layers(axes, pile, place, narrow)
            if index and room.far:
                x = -pile.body / 2 - room.far / scale
                _measure(axes, place, x, (place.face, 0.0), "stack", "center", -pile.body / 2)

    name = f"stack of motor {rank}, cut along the shaft"
    return chart(name, tall[0], paint, narrow=2.0 * tall[1], wide=WIDE)


def _place(motor: MotorResult, told: Heights, stack: float, scale: float) -> _Place:
    standoff = motor.pulley_spacer_height if stack > 0 else told.standoff_before
    return _Place(
        x=0.0,
        scale=scale,
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
    axes.text(x, place.face - 0.55 * _BODY, "motor", ha="center", va="center")
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
    _box(axes, x, pile.shaft, place.face, place.tip, fc=PAPER, zorder=5)
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


def _layers(axes: Axes, pile: Pile, place: _Place, narrow: bool) -> None:
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
        labels.append((tip, middle, f"{layer.name} {_mm(layer.height, narrow)}"))
        floor, lean = floor + layer.height, rise
    thick = "" if pile.bracket is None else f" {_mm(pile.bracket, narrow)}"
    labels.append((edge + 2.5, (pile.bracket or 0.0) / 2, f"bracket{thick}"))
    side = place.x + _reach(pile)
    labels.append((side, (place.belt + place.end) / 2, "pulley"))
    labels.append((side + 9, place.belt, "belts pull"))
    _leaders(axes, labels, edge + 16.0 / place.scale, place.scale)


def _upper(pile: Pile, layer: Layer, lean: float) -> float:
    """Return the slope of a layer's upper face: rubber gives way to the wedge's angle."""
    if pile.angle == 0 or layer.name == "wedge":
        return 0.0
    return math.tan(pile.angle) if layer.name == "rubber" else lean


def _leaders(
    axes: Axes, labels: Sequence[tuple[float, float, str]], x: float, scale: float
) -> None:
    places = spread([y for _, y, _ in labels], _LABELS / scale)
    for (tip, y, text), place in zip(labels, places, strict=True):
        axes.plot([tip, x - 9.0 / scale, x], [y, y, place], color=SOFT, lw=0.8, zorder=1.5)
        axes.text(x + 3.0 / scale, place, text, va="center", ha="left")


def _heights(axes: Axes, pile: Pile, place: _Place, setter: str) -> None:
    """Heights left of a picture, each between arrows; `setter` gives the pulley its own."""
    half = pile.body / 2
    x = -half - 14.0 / place.scale
    # words grow away from the height that both measure to
    _measure(axes, place, x, (place.face, place.pulley), setter, "top", -half)
    over = (place.pulley, place.tip)
    _measure(axes, place, x, over, "shaft for\nthe pulley", "bottom", -pile.spacer / 2)


def _measure(
    axes: Axes,
    place: _Place,
    x: float,
    span: tuple[float, float],
    name: str,
    side: str,
    edge: float,
) -> None:
    """Draw a height between arrows; `side` of its words is at the shared end, or in the middle."""
    low, high = span
    if abs(high - low) < 0.05:
        return
    for y in span:
        axes.plot([x - 0.8, edge - 0.5], [y, y], color=FAINT, lw=0.8, zorder=0.5)
    axes.annotate("", xy=(x, high), xytext=(x, low), arrowprops=_MEASURE)
    free = 2.0 / place.scale
    at = {"top": high - free, "bottom": low + free, "center": (low + high) / 2}[side]
    text = f"{name}\n{_mm(high - low)}"
    axes.text(x - 4.0 / place.scale, at, text, ha="right", va=side, linespacing=1.2)


def _mm(height: float, bare: bool = False) -> str:
    return number(height) if bare else f"{number(height)} mm"
