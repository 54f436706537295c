"""One printable part, where it goes, and the refusal to draw one."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from isolator.design.fill import SOLID, Fill

SLENDER = 1.5
"""A part taller than so many times its narrower side is told to have a brim; common practice, no
source."""


class CannotDraw(Exception):  # noqa: N818 - the name is the sentence a caller reads
    """A part cannot be drawn as asked (exit 3): which part, which dimension, why."""

    def __init__(self, part: str, dimension: str, reason: str) -> None:
        self.part = part
        self.dimension = dimension
        self.reason = reason
        super().__init__(f"{part}: {dimension}: {reason}")

    def __reduce__(self) -> tuple[type[CannotDraw], tuple[str, str, str]]:
        """Come whole out of another process."""
        return CannotDraw, (self.part, self.dimension, self.reason)


@dataclass(frozen=True, slots=True, kw_only=True)
class Placement:
    """Where one copy stands in the assembly [mm], frame of reference of the printer.

    `turned` means rolled half a turn about x before it is moved, from the print bed to its use.
    """

    x: float
    y: float
    z: float
    turned: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """One part as it lies on the print bed [mm], underside at z = 0.

    `solid` is a cadquery solid. `box` and `volume` are what the part ought to measure, from closed
    forms, so that the drawing can be held against them. `loaded` lists the heights of the plane
    faces that carry the pad (level, +1 facing up or -1 facing down), in print coordinates.
    `owner` is the name of the foot or motor it belongs to, `role` its kind.
    """

    name: str
    owner: str
    role: str
    quantity: int
    solid: Any
    material: str
    orientation: str
    notes: tuple[str, ...]
    box: tuple[float, float, float]
    volume: float
    loaded: tuple[tuple[float, int], ...]
    places: tuple[Placement, ...]
    layer: float = 0.0  # layer height of its own [mm], 0: that of all others
    fill: Fill = SOLID
    hollow: float = 0.0  # volume inside it that its infill leaves empty [mm³]
    cut: bool = False  # of sheet metal by a shop, not printed


@dataclass(frozen=True, slots=True, kw_only=True)
class Body:
    """One solid where it stands in the assembly [mm]."""

    name: str
    owner: str
    role: str
    solid: Any


def brim_notes(box: tuple[float, float, float]) -> tuple[str, ...]:
    """Return the advice to print a slender part with a brim; none for another.

    >>> brim_notes((9.8, 9.8, 15.0)) == (), brim_notes((9.8, 9.8, 14.6))
    (False, ())
    """
    wide, deep, high = box
    if high <= SLENDER * min(wide, deep):
        return ()
    return ("slender: print it with a brim of 4 mm, and trim it off",)


def mm(length: float) -> float:
    """Return a length given in metres in millimetres, freed of binary dust below a picometre."""
    return round(length * 1000.0, 9)


def layer_notes(layer: float, **heights: float) -> tuple[str, ...]:
    """Return a note for every height [mm], drawn as asked, that is no whole number of layers.

    `layer` is the layer height [m].

    >>> layer_notes(0.0002, cap=4.6, rim=7.35)
    ('rim of 7.35 mm is no whole number of 0.2 mm layers: it prints up to half a layer off',)
    """
    step = mm(layer)
    return tuple(
        f"{name} of {height:g} mm is no whole number of {step:g} mm layers: "
        "it prints up to half a layer off"
        for name, height in heights.items()
        if abs(height / step - round(height / step)) > 1e-6
    )
