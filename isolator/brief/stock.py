"""What pads may be made of: [stock], its balls and what is owned."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from isolator.brief.limits import CONVENTION
from isolator.brief.mounts import Mount, MountTable, read_mount
from isolator.design import BALL, BUFFER, SHAPES
from isolator.design.axes import Triple
from isolator.design.outlines import SHAPE_MEANINGS
from isolator.physics.rubber.ball import THINNEST
from isolator.reading.keys import maybe
from isolator.reading.number_keys import integer, number, quantities, quantity, triple
from isolator.reading.table import Table, many
from isolator.reading.units import format_quantity
from isolator.reading.word_keys import beside, choice, choices, text, texts

KEEP, HALF_BALL, BOUGHT, SLAB = "keep", "half-ball", "bought", "slab"
KINDS = ("rubber", "foam", "printed", HALF_BALL, BOUGHT, KEEP)
"""Kinds of feet that can be asked for; "bought": ready-made mounts; "keep": what stands there."""
PICKS = (*KINDS, SLAB)
"""And the best of them under a paver, for one run: the keys of [slab] are typed with it."""
MOST_WIDTHS = 200
MOST_THICKNESSES = 20


@dataclass(frozen=True, slots=True, kw_only=True)
class Owned:
    """Something of the shopping list that the user has."""

    item: str  # the line's name
    quantity: float  # in the line's unit


@dataclass(frozen=True, slots=True, kw_only=True)
class Ball:
    """A rubber ball that may be cut in halves."""

    diameter: float  # [m]
    wall: float  # [m]; half of the diameter: solid
    material: str  # a card's id


@dataclass(frozen=True, slots=True, kw_only=True)
class Stock:
    """What the user can cut pads from."""

    widths: Triple  # smallest, largest, step of a pad's outer size [m]
    thicknesses: tuple[float, ...]  # of one sheet [m]; empty: each card's own
    materials: tuple[str, ...]  # card ids; empty: all that can be got by the piece
    prefer: str  # the only kind of feet wanted, of KINDS; empty: any
    shapes: tuple[str, ...]  # of isolator.design.SHAPES, or others that are bought
    max_layers: int
    cards: Path | None  # folder of the user's own cards; None: none
    owned: tuple[Owned, ...]  # what need not be bought
    balls: tuple[Ball, ...] = ()
    mounts: tuple[Mount, ...] = ()


class BallTable(Table):
    """One [[stock.ball]]."""

    diameter = quantity("m", usual=(0.02, 0.07), example="40 mm")
    wall = quantity(
        "m",
        lambda t: t.diameter / 2.0,
        "a solid one",
        example="5 mm",
        comment="without it a solid ball",
    )
    material = text(example="nr-50", comment="a rubber's card")


class OwnedTable(Table):
    """One [[stock.owned]]."""

    item = text(example="slot nut M5 for 20 mm extrusion")
    quantity = number((0.0, 1e6), example=8)


class StockTable(Table):
    """[stock]."""

    shapes = choices(
        (*SHAPES, BUFFER, BALL),
        (*SHAPES, BUFFER),
        "all that can be drawn",
        meanings=SHAPE_MEANINGS | {"ball": BALL, "sphere": BALL},
        comment=f'["{BALL}"]: balls alone',
    )
    widths = triple(
        "m",
        (0.014, 0.06, 0.002),
        "what a knife and a punch can cut",
        sign="positive",
        names="smallest, largest and step",
        comment="smallest, largest, step",
    )
    max_layers = integer((1, 10), 4, CONVENTION)
    materials = texts(
        (),
        "none was given",
        told="all that can be got by the piece",
        example=["nr-50", "tpu-95-solid"],
        comment="cards; otherwise all that can be got by the piece",
    )
    prefer = maybe(
        choice(KINDS, example="foam", comment=f"feet of this kind alone: {', '.join(KINDS)}"),
        "none was given",
        "any kind",
    )
    thicknesses = quantities(
        "m",
        range(1, MOST_THICKNESSES + 1),
        (),
        "none was given",
        told="those each card is sold in",
        example=["6 mm", "10 mm"],
        comment="of one sheet; otherwise those it is sold in",
    )
    cards = maybe(beside(folder=True, example="my-cards", comment="a folder of your own cards"))
    ball = many(BallTable, aside=True, above="Rubber balls that may be cut in halves: ball feet.")
    mount = many(
        MountTable,
        aside=True,
        above="Ready-made mounts by their data sheets: buffers with studs or threads.",
    )
    owned = many(
        OwnedTable,
        aside=True,
        above="What you own need not be bought: a line of shopping.csv, and how much of it in its "
        "unit.",
    )


def read_stock(table: StockTable) -> Stock:
    """Return the stock of a brief."""
    stock = table.record(
        Stock,
        widths=_read_widths,
        prefer=lambda t: t.prefer or "",
        owned=lambda t: tuple(each.whole(Owned) for each in t.owned),
        balls=lambda t: tuple(_read_ball(each) for each in t.ball),
        mounts=lambda t: tuple(read_mount(each) for each in t.mount),
    )
    if BALL in stock.shapes and not stock.balls and table.clean("ball"):
        table.fault(
            "shapes",
            f'"{BALL}" without a ball',
            "one [[stock.ball]] or more",
            "tell the balls that you have, or leave it out",
        )
    table.done()
    return stock


def _read_widths(table: StockTable) -> Triple:
    smallest, largest, step = table.widths
    if table.clean("widths") and (smallest > largest or (largest - smallest) / step > MOST_WIDTHS):
        table.fault(
            "widths",
            ", ".join(format_quantity(width, "mm") for width in table.widths),
            f"smallest, largest and step, in at most {MOST_WIDTHS} steps",
            'write it like ["14 mm", "60 mm", "2 mm"]',
        )
    return table.widths


def _read_ball(table: BallTable) -> Ball:
    solid = table.diameter / 2.0
    if table.wall > solid * (1.0 + 1e-9):
        table.fault(
            "wall",
            format_quantity(table.wall, "mm"),
            f"no more than half of {format_quantity(table.diameter, 'mm')}",
            "half of the diameter is a solid ball",
        )
    if table.wall < THINNEST * solid * (1.0 - 1e-9):
        table.fault(
            "wall",
            format_quantity(table.wall, "mm"),
            f"no less than {format_quantity(THINNEST * solid, 'mm')}",
            "a thinner wall buckles inwards; take a thicker ball",
        )
    return table.whole(Ball)
