"""Dampers that the stock offers for one motor: outlines, thicknesses, materials, stiffness."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from isolator.brief import DamperMount, DamperStock
from isolator.cards import Material
from isolator.cards.pad_law import is_solid, solid_pads
from isolator.design.plate_room import pad_room, ring_room
from isolator.physics.arrays import Array
from isolator.physics.rubber.section import section, within_fits

LEAST_WIDTH = 2.5e-3
"""Narrowest rubber that can be cut and glued [m]; common practice, no source."""
STEP = 1.0e-3
"""Step of the outlines looked at [m]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DamperBatch:
    """n dampers of one material and shape; stiffnesses are static, without load, small strain.

    Across the shaft every one is alike in all directions: a ring, or four equal pads a quarter
    turn apart.
    """

    material: Material
    shape: str  # "ring" | "pads"
    first: Array  # (n,) as isolator.design.damper.MotorDamper [m]
    second: Array
    circle: Array
    rubber: Array  # thickness [m]
    area: Array  # [m²]
    edge: Array  # farthest rubber from the shaft's axis [m]
    axial: Array  # [N/m]
    shear: Array  # [N/m]
    tilt: Array  # about an axis across the shaft, at the rubber's middle [N·m/rad]
    twist: Array  # about the shaft [N·m/rad]
    bought: DamperMount | None = None  # None: cut or cast, and glued between plates of one's own

    def take(self, rows: NDArray[np.intp] | NDArray[np.bool_]) -> DamperBatch:
        """Return the dampers at `rows`."""
        arrays: dict[str, Any] = {
            name: value[rows]
            for name in self.__slots__
            if isinstance(value := getattr(self, name), np.ndarray)
        }
        return replace(self, **arrays)

    def __len__(self) -> int:
        return len(self.first)


def damper_batches(
    stock: DamperStock, frame_size: int, compensation: float, cards: dict[str, Material]
) -> list[DamperBatch]:
    """Return every damper of the stock that can be drawn for a motor, one batch a material.

    `compensation` [m] is what the printer adds to a hole's diameter.
    """
    wanted = stock.materials or tuple(
        ident for ident, card in cards.items() if card.family == "rubber"
    )
    found = []
    for shape in stock.shapes:
        drawable = _rings if shape == "ring" else _pads
        outlines = drawable(frame_size, compensation, stock.plates)
        for card in (cards[ident] for ident in wanted):
            if not is_solid(card) or not (card.cast if stock.cast else card.in_sheets):
                continue
            batch = _batch(card, shape, *_crossed(outlines, stock.thicknesses))
            if len(batch):
                found.append(batch)
    return found


def _steps(low: float, high: float) -> Array:
    """Return sizes from `low` up in whole steps, and `high` itself in tenths of a millimetre."""
    top = np.floor(high * 1e4 + 1e-6) / 1e4
    return (
        np.unique(np.round(np.append(np.arange(low, top, STEP), top), 6))
        if top >= low
        else (np.zeros(0))
    )


def _rings(frame_size: int, compensation: float, plates: str) -> Array:
    """Return (outer, inner, 0) of rings, all as wide outside or as narrow inside as fits."""
    outer, inner = ring_room(frame_size, compensation, plates)
    inner = np.ceil(inner * 1e4 - 1e-6) / 1e4
    if outer < inner:  # the holes leave no face between them
        return np.zeros((0, 3))
    rows = [(size, inner, 0.0) for size in _steps(inner + 2 * LEAST_WIDTH, outer)]
    widest = float(_steps(inner, outer)[-1])
    rows += [(widest, size, 0.0) for size in _steps(inner + STEP, widest - 2 * LEAST_WIDTH)]
    return np.array(rows).reshape(-1, 3)


def _pads(frame_size: int, compensation: float, plates: str) -> Array:
    """Return (across, along the radius, circle) of pads at the plates' edges or near the boss."""
    length, near, far = pad_room(frame_size, compensation, plates)
    rows = [
        (across, deep, middle)
        for across in _steps(LEAST_WIDTH + STEP, length)
        for deep in _steps(LEAST_WIDTH, far - near)
        # to whole micrometres, and never past an edge
        for middle in {
            math.floor((far - deep / 2.0) * 1e6) / 1e6,
            math.ceil((near + deep / 2.0) * 1e6) / 1e6,
        }
    ]
    return np.array(rows).reshape(-1, 3)


def _crossed(outlines: Array, thicknesses: Iterable[float]) -> tuple[Array, Array]:
    """Return every outline at every thickness: (n, 3) and (n,)."""
    every = np.array(tuple(thicknesses))
    return np.repeat(outlines, len(every), axis=0), np.tile(every, len(outlines))


def _batch(card: Material, shape: str, outlines: Array, rubber: Array) -> DamperBatch:
    """Return the dampers of one material within the range of shape factors."""
    first, second, circle = outlines.T
    one = "ring" if shape == "ring" else "rectangle"
    # a pad's own x is along the radius, its y across it
    sizes = (first, second) if shape == "ring" else (second, first)
    part = section(one, *sizes)
    factor = np.asarray(part.area / (part.perimeter * rubber))
    kept = within_fits(factor)
    sizes = (sizes[0][kept], sizes[1][kept])
    first, second, circle, rubber = first[kept], second[kept], circle[kept], rubber[kept]
    pads = solid_pads(card, one, (*sizes, rubber))
    axial = (pads.compression / pads.thickness)[:, 0]
    along, across = pads.shear[:, 0].T
    about = pads.angular[:, 0].T
    area = np.asarray(section(one, *sizes).area)
    if shape == "ring":
        count, edge, shear, tilt, twist = 1.0, first / 2.0, along, about[0], about[2]
    else:
        count, edge = 4.0, np.hypot(circle + second / 2.0, first / 2.0)
        shear = 2.0 * (along + across)
        # two pads lie out on the axis of tilt and turn on it, two lift and press
        tilt = 2.0 * (axial * circle**2 + about[0] + about[1])
        twist = 4.0 * (across * circle**2 + about[2])
    return DamperBatch(
        material=card,
        shape=shape,
        first=first,
        second=second,
        circle=circle,
        rubber=rubber,
        area=count * area,
        edge=edge,
        axial=count * axial,
        shear=shear,
        tilt=tilt,
        twist=twist,
    )
