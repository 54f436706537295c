"""A flange beside the pad, through which screws go up into the frame, heads below it [mm].

Every cup and printed foot lies with its upper face on the print bed, so the flange is a plate on
the bed too: it prints first, solid, its layers across the screws' pull.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import combinations, pairwise
from typing import Any

import numpy as np

from geometry.solids import features
from geometry.solids.fasteners import thread
from geometry.solids.outline import Outline, chamfered_volume, disc
from geometry.solids.part import CannotDraw, mm
from isolator import design as shared
from isolator.design import EAR, Foot
from isolator.design.attachment import HEAD_GAP, HEAD_UNDER
from isolator.design.attachment_room import bearing, clearance, slot_reach
from isolator.design.screws import SELF_TAPPING

EAR_MARGIN = mm(shared.EAR_MARGIN)  # flange left round a screw head [mm]
GAP = mm(HEAD_GAP)  # between screw head and the foot's side [mm]
UNDER = mm(HEAD_UNDER)  # free height that a head needs besides its own [mm]
_NODES, _WEIGHTS = np.polynomial.legendre.leggauss(24)


@dataclass(frozen=True, slots=True, kw_only=True)
class Flange:
    """One outline over all screws, about the foot's middle, and their holes [mm].

    As it lies on the bed, its face towards the printer down: y runs to the front.
    """

    screw: str  # such as "ISO 7380-1 M5"
    outline: Outline
    hole: float
    places: tuple[tuple[float, float], ...]

    def joined_area(self, body: Outline, inset: float) -> float:
        """Return the area [mm²] of body and flange together, both drawn in by `inset` [mm]."""
        return joined_area(body.grown(-inset), self.outline.grown(-inset))

    def added_volume(self, body: Outline, chamfer: float, height: float) -> float:
        """Return what the flange adds to the body's volume [mm³], its holes taken out."""
        beside = chamfered_volume(
            lambda inset: self.joined_area(body, inset) - body.grown(-inset).area, chamfer, height
        )
        each = features.hole_area(self.hole) * height + features.relief_volume(disc(self.hole))
        return beside - len(self.places) * each

    def solid(self, chamfer: float, height: float) -> Any:
        """Return the flange without its holes, on z = 0."""
        return features.prism(self.outline, 0.0, height, chamfer)

    def cutters(self, height: float) -> list[Any]:
        """Return the cutters of all holes."""
        mouth = disc(self.hole)
        return [
            cutter
            for x, y in self.places
            for cutter in (
                features.hole(self.hole, -1.0, height + 1.0, x, y),
                features.relief(mouth, x=x, y=y),
            )
        ]


def flange(part: str, foot: Foot, body: Outline, hole_compensation: float, room: float) -> Flange:
    """Return the flange of a foot; `room` [mm] is the free height under it, desk to flange.

    Raises CannotDraw where a head meets the foot, the desk or another head, or where the plate is
    thinner than it may be.
    """
    name, hole, across, tall = _screw(part, foot)
    width = across + 2 * EAR_MARGIN
    beside = body.size[1 - "xy".index(foot.along)]
    if not foot.holes and width > beside:
        raise CannotDraw(
            part,
            "bolt",
            f"the ear for {name} is {width:g} mm wide, wider than the foot's {beside:g} mm",
        )
    if mm(foot.cap) < mm(EAR) - 1e-9:
        raise CannotDraw(
            part, "cap", f"{mm(foot.cap):g} mm is thinner than the {mm(EAR):g} mm that an ear needs"
        )
    if tall + UNDER > room:
        raise CannotDraw(
            part,
            "pad.thickness",
            f"only {room:g} mm under the ear; the {name} screw head needs {tall + UNDER:g} mm",
        )
    places = _places(part, foot, body, name, across)
    far_x, far_y = (max(abs(at[axis]) for at in places) for axis in (0, 1))
    outline = Outline(core_x=2 * far_x, core_y=2 * far_y, offset=width / 2)
    norm = "ISO 7049" if foot.fastening.tapping else "ISO 7380-1"
    return Flange(
        screw=f"{norm} {name}",
        outline=outline,
        hole=hole + mm(hole_compensation),
        places=places,
    )


def joined_area(one: Outline, other: Outline) -> float:
    """Return the area [mm²] of two outlines about one middle, joined.

    Both are symmetric about x and y, so at every y the wider one rules. Gauss–Legendre between all
    corners of both and where they cross; errors about 1e-9 of the area.
    """
    top = max(one.size[1], other.size[1]) / 2
    cuts = {0.0, top}
    for each in (one, other):
        cuts |= {each.core_y / 2, each.size[1] / 2}
    cuts |= set(_crossings(one, other, sorted(cuts)))
    edges = sorted(cut for cut in cuts if 0.0 <= cut <= top)
    total = 0.0
    for low, high in pairwise(edges):
        # a round end has a root at its tip: t² takes the root away
        y = high - (high - low) * ((1 + _NODES) / 2) ** 2
        weight = (high - low) * (1 + _NODES) / 2 * _WEIGHTS
        total += float(np.sum(weight * np.maximum(half_width(one, y), half_width(other, y))))
    return 4 * total


def half_width(outline: Outline, y: Any) -> Any:
    """Return half the width in x [mm] of an outline at heights `y` [mm]; 0 beyond it."""
    over = np.maximum(np.abs(y) - outline.core_y / 2, 0.0)
    inside = over <= outline.offset + 1e-12
    arc = np.sqrt(np.maximum(outline.offset**2 - over**2, 0.0))
    return np.where(inside, outline.core_x / 2 + arc, 0.0)


def _crossings(one: Outline, other: Outline, knots: list[float]) -> list[float]:
    """Return the heights at which both outlines are equally wide, by halving."""
    found = []
    for low, high in pairwise(knots):
        grid = np.linspace(low + 1e-12, high - 1e-12, 65)
        gap = half_width(one, grid) - half_width(other, grid)
        for k in np.flatnonzero(gap[:-1] * gap[1:] < 0):
            a, b = float(grid[k]), float(grid[k + 1])
            for _ in range(60):
                c = (a + b) / 2
                at = float(half_width(one, np.array(c)) - half_width(other, np.array(c)))
                a, b = (c, b) if at * gap[k] > 0 else (a, c)
            found.append((a + b) / 2)
    return found


def _screw(part: str, foot: Foot) -> tuple[str, float, float, float]:
    """Return the screw's name, hole, head diameter and head height [mm]."""
    nominal = foot.thread
    across, tall = (mm(each) for each in bearing(foot.attachment, nominal, soft=foot.soft_flange))
    hole = mm(clearance(foot.attachment, nominal, foot.fixing))
    if not foot.fastening.tapping:
        return thread(part, mm(nominal)).name, hole, across, tall
    name = f"ST{mm(nominal):g}"
    if round(nominal, 6) not in SELF_TAPPING:
        offered = ", ".join(f"ST{mm(each):g}" for each in SELF_TAPPING)
        raise CannotDraw(part, "bolt", f"{name} is not among the screws drawn ({offered})")
    return name, hole, across, tall


def _places(
    part: str, foot: Foot, body: Outline, name: str, across: float
) -> tuple[tuple[float, float], ...]:
    """Return where the screws go: as the foot says, else in line with a slot."""
    if not foot.holes and foot.fastening.slot is None:
        raise CannotDraw(part, "holes", f"no place of an {name} screw is told")
    if not foot.holes:
        axis = "xy".index(foot.along)
        reach = slot_reach(body.size[axis], across, GAP)
        return ((-reach, 0.0), (reach, 0.0)) if axis == 0 else ((0.0, -reach), (0.0, reach))
    places = tuple((mm(x), mm(y)) for x, y in foot.holes)
    for x, y in places:
        clear = _beside(body, x, y) - across / 2
        if clear < GAP - 1e-9:
            raise CannotDraw(
                part,
                "holes",
                f"the {name} head at ({x:g}, {y:g}) mm comes within {clear:.2f} mm of the foot's "
                f"side; {GAP:g} mm is the least",
            )
    for (x, y), (u, v) in combinations(places, 2):
        apart = math.hypot(x - u, y - v) - across
        if apart < GAP - 1e-9:
            raise CannotDraw(
                part,
                "holes",
                f"the {name} heads at ({x:g}, {y:g}) and ({u:g}, {v:g}) mm are {apart:.2f} mm "
                f"apart; {GAP:g} mm is the least",
            )
    # turned over about x, from the bed to its use
    return tuple((x, -y) for x, y in places)


def _beside(body: Outline, x: float, y: float) -> float:
    """Return how far (x, y) lies outside a body's side [mm]; negative inside."""
    over_x, over_y = abs(x) - body.core_x / 2, abs(y) - body.core_y / 2
    if over_x > 0 and over_y > 0:
        return math.hypot(over_x, over_y) - body.offset
    return max(over_x, over_y) - body.offset
