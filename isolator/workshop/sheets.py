"""Sheets to buy: pieces as they are sold, on which all pads of one thickness find room."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from isolator.cards import Material
from isolator.cards.supply import UNKNOWN
from isolator.design.nesting import KNIFE, Nest, nested
from isolator.design.phrases import in_a_sentence
from isolator.workshop.foot_hardware import Row

SAME = 1e-5
"""Sheets whose thicknesses differ by less are the same [m]."""


@dataclass(frozen=True, slots=True)
class Cut:
    """Pads of one template: their box [m], how many, and how they nest closest."""

    wide: float
    deep: float
    count: int

    @property
    def nest(self) -> Nest:
        """Return how they lie in the smallest piece."""
        return nested(self.wide, self.deep, self.count, KNIFE)

    def on(self, side: float, other: float) -> int:
        """Return how many find room on a sheet of these sides [m], whichever way round."""
        return max(
            math.floor((side - KNIFE) / (x + KNIFE) + 1e-9)
            * math.floor((other - KNIFE) / (y + KNIFE) + 1e-9)
            for x, y in ((self.wide, self.deep), (self.deep, self.wide))
        )

    @property
    def words(self) -> str:
        """Return it in words."""
        pieces = "1 piece" if self.count == 1 else f"{self.count} pieces"
        across, up = self.nest.wide * 1e3, self.nest.high * 1e3
        return f"{pieces}, cut from {across:.0f} x {up:.0f} mm in rows {KNIFE * 1e3:g} mm apart"


def sheet_rows(
    pads: Sequence[Mapping[str, Any]],
    boxes: Sequence[tuple[float, float]],
    cards: Mapping[str, Material],
) -> list[Row]:
    """Return (item, quantity, unit, remark) of the sheets for pads of a manifest.

    `boxes` are the pads' sides [m]. One line for all that is cut from one sheet, in the sold size
    that wastes least; where no size is known, or none is large enough, a piece cut to measure.
    """
    found: dict[tuple[str, float], list[Cut]] = {}
    for pad, (wide, deep) in zip(pads, boxes, strict=True):
        key = (pad["material"], pad["layer_thickness_m"])
        found.setdefault(key, []).append(Cut(wide, deep, pad["quantity"]))
    return [_row(ident, thick, cuts, cards.get(ident)) for (ident, thick), cuts in found.items()]


def _row(ident: str, thick: float, cuts: list[Cut], card: Material | None) -> Row:
    supply = UNKNOWN if card is None else card.supply
    # what a shop knows it by
    rubber = ident if card is None else in_a_sentence(card.name)
    name = f"sheet of {rubber}, {thick * 1e3:g} mm"
    told = "; ".join(cut.words for cut in cuts)
    where = f"; got: {supply.found}" if supply.source else ""
    if supply.sheets and not any(abs(thick - each) < SAME for each in supply.sheets):
        where += ", though no usual thickness: ask for it"
    sold = least(cuts, supply.sizes)
    if sold is None:
        wide, high = _stacked(cuts)
        return f"{name}, {_size(wide, high)} or more", "1", "pieces", told + where
    pieces, (short, long) = sold
    return f"{name}, {_size(short, long)}", str(pieces), "pieces", told + where


def _size(wide: float, high: float) -> str:
    return f"{math.ceil(wide * 1e3 - 1e-6)} x {math.ceil(high * 1e3 - 1e-6)} mm"


def _stacked(cuts: Sequence[Cut]) -> tuple[float, float]:
    """Return the sides of a piece on which the nests of all cuts lie one over the other."""
    nests = [cut.nest for cut in cuts]
    return max(each.wide for each in nests), sum(each.high for each in nests)


def least(
    cuts: Sequence[Cut], sizes: Sequence[tuple[float, float]]
) -> tuple[int, tuple[float, float]] | None:
    """Return how many sheets of which size hold all cuts with the least area; None for none."""
    low, high = sorted(_stacked(cuts))
    found = []
    for short, long in sizes:
        if low <= short + SAME and high <= long + SAME:
            pieces = 1
        elif any(cut.on(short, long) == 0 for cut in cuts):
            continue
        else:
            pieces = sum(math.ceil(cut.count / cut.on(short, long)) for cut in cuts)
        found.append((pieces * short * long, pieces, (short, long)))
    if not found:
        return None
    _, pieces, size = min(found)
    return pieces, size
