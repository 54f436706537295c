"""Outlines of pads: one row each, with what a pad's two sizes are for it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TypeVar

Size = TypeVar("Size")


@dataclass(frozen=True, slots=True, kw_only=True)
class PadOutline:
    """One outline; its areas are in `isolator.physics.rubber.section`, its solids in
    `geometry.solids.outline`."""

    sizes: tuple[str, ...]  # what is measured of it besides its thickness
    words: str  # what it is, of its two sizes {0} and {1}
    round: bool = False  # looks the same however it is turned
    holed: bool = False  # `second` is the width of a hole inside `first`
    oblong: bool = False  # `second` is the side along y
    halved: bool = False  # half of a ball that is bought, neither cut from sheet nor printed
    ready: bool = False  # of a mount that is bought as it is; `second`: height of its rubber
    plan: str = ""  # the outline that it has seen from above, where it is not its own

    @property
    def cut_hole(self) -> bool:
        """Return whether it is cut or printed with a hole right through it."""
        return self.holed and not self.halved

    @property
    def bought(self) -> bool:
        """Return whether it has the size that it is bought in."""
        return self.halved or self.ready

    def along_y(self, first: Size, second: Size) -> Size:
        """Return the outside width along y of a pad whose width along x is `first`."""
        return second if self.oblong else first


BALL = "half-ball"
"""The pad of a ball foot: half of a ball, solid or hollow, cut by a plane."""
BUFFER = "buffer"
"""A ready-made mount: rubber between two metal discs, with studs or threads."""

OUTLINES = {
    "disc": PadOutline(sizes=("diameter",), words="disc {0} across", round=True),
    "ring": PadOutline(
        sizes=("outer diameter", "inner diameter"),
        words="ring {0} outside, {1} inside",
        round=True,
        holed=True,
    ),
    "rectangle": PadOutline(
        sizes=("side along x", "side along y"),
        words="rectangle {0} along x, {1} along y",
        oblong=True,
    ),
    "square-with-hole": PadOutline(
        sizes=("side", "hole diameter"), words="square {0} wide with a {1} hole", holed=True
    ),
    BALL: PadOutline(
        sizes=("diameter", "diameter of the cavity"),
        words="half a ball {0} across",
        round=True,
        holed=True,
        halved=True,
    ),
    BUFFER: PadOutline(
        sizes=("diameter", "height of the rubber"),
        words="buffer {0} across",
        round=True,
        ready=True,
        plan="disc",
    ),
}
SHAPES = tuple(name for name, outline in OUTLINES.items() if not outline.bought)
"""Outlines of pads that are cut from sheet or printed."""
SHAPE_MEANINGS = {
    **dict.fromkeys(("washer", "tube", "hollow disc", "hollow cylinder"), "ring"),
    **dict.fromkeys(("hollow square", "hollow block"), "square-with-hole"),
    "hollow": "",
    **dict.fromkeys(("round", "circle", "circular", "cylinder", "puck"), "disc"),
    **dict.fromkeys(("square", "block", "rectangular", "strip", "box"), "rectangle"),
}
"""Outlines by other words, the telling ones first."""
