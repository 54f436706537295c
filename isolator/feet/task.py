"""The task of the feet of one printer, as numbers: where they may stand, what they are made of."""

from __future__ import annotations

from dataclasses import dataclass

from isolator.brief import Brief, Feet, Print, Slab, Stock
from isolator.design.axes import Triple


@dataclass(frozen=True, slots=True, kw_only=True)
class FeetTask:
    """What all feet of one printer share."""

    feet: Feet  # where they may stand and what holds them
    stock: Stock
    print: Print
    slab: Slab | None  # under which they go; None: under the printer itself
    frame: Triple  # outside width, depth, height of the printer [m]


def build_feet_task(brief: Brief) -> FeetTask:
    """Return the numbers of a brief that concern its feet."""
    return FeetTask(
        feet=brief.feet,
        stock=brief.stock,
        print=brief.print,
        slab=brief.slab,
        frame=brief.printer.size,
    )
