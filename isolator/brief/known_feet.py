"""Feet that are there: those of known stiffness, [[feet.given]], and today's, [feet.now]."""

from __future__ import annotations

from dataclasses import dataclass

from isolator.design import OUTLINES, SHAPES
from isolator.design.axes import Triple
from isolator.design.outlines import SHAPE_MEANINGS
from isolator.reading.keys import by
from isolator.reading.number_keys import number, quantities, quantity, triple
from isolator.reading.table import Table
from isolator.reading.word_keys import choice, flag, text

UNDER = ("printer", "slab")
"""Under what today's feet stand: the printer, or the slab that it stands on today."""


@dataclass(frozen=True, slots=True, kw_only=True)
class GivenFoot:
    """A foot whose stiffness is already known, as it acts dynamically."""

    position: Triple  # of its elastic centre [m]
    stiffness: Triple  # along x, y, z [N/m]
    loss_factor: float
    angular: Triple  # about x, y, z [N·m/rad]


@dataclass(frozen=True, slots=True, kw_only=True)
class NowFoot:
    """What stands under the printer today: one pad of this kind at every place."""

    material: str  # a card's id
    shape: str  # one of isolator.design.SHAPES
    first: float  # as isolator.design.Pad.first [m]
    second: float  # as isolator.design.Pad.second [m]
    thickness: float  # [m]
    bonded: bool  # its faces cannot slip
    under: str = "printer"  # one of UNDER


class GivenTable(Table):
    """One [[feet.given]]."""

    position = triple("m", example=["180 mm", "190 mm", "-15 mm"], comment="of its elastic centre")
    stiffness = triple(
        "N/m",
        sign="positive",
        example=["8 N/mm", "8 N/mm", "20 N/mm"],
        comment="along x, y, z, as they act dynamically",
    )
    loss_factor = number((0.0, 2.0), 0.1, "estimated")
    angular = triple(
        "N*m/rad",
        (0.0, 0.0, 0.0),
        "small beside what the feet's distance gives",
        sign="not negative",
    )


class NowTable(Table):
    """[feet.now]."""

    material = text(example="nr-70", comment="a card: see `isolator materials`")
    shape = choice(
        SHAPES,
        "disc",
        "the usual shape",
        meanings=SHAPE_MEANINGS,
        comment=f"or {', '.join(SHAPES[1:])}",
    )
    size = by(
        lambda t: t.clean("shape"),
        by(
            lambda t: len(OUTLINES[t.shape].sizes) == 1,
            quantities(
                "m", (1,), example=["20 mm"], comment="diameter; or two sizes, the outer first"
            ),
            quantities("m", (2,)),
        ),
        quantities("m", (1, 2)),
    )
    thickness = quantity("m", example="10 mm")
    bonded = flag(
        True, "friction holds both faces at small motion", comment="false where its faces can slip"
    )
    under = choice(
        UNDER,
        "printer",
        comment="or slab: the printer stands on its slab already, on these",
    )
