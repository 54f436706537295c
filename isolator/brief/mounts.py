"""Ready-made mounts that a brief tells by their data sheets: [[stock.mount]]."""

from __future__ import annotations

import math
from dataclasses import dataclass

from isolator.design.ends import ENDS, PLAIN, STUD, THREAD, Ends, ReadyMade
from isolator.design.got import POST, SHOP_MEANINGS, SHOPS
from isolator.design.naming import slug
from isolator.design.screws import SCREWS
from isolator.reading.keys import Key, maybe
from isolator.reading.number_keys import number, quantities, quantity
from isolator.reading.table import Table
from isolator.reading.units import format_quantity
from isolator.reading.word_keys import choice, text

MOST_POINTS = 30
DISC = 2e-3
"""Thickness of a mount's metal discs where it is not told [m]; from memory."""
LOSS = 0.1
"""Loss factor of a mount whose sheet does not tell it; estimated, as of natural rubber."""
RATIO = 1.4
"""Dynamic over static stiffness likewise; estimated."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Mount:
    """A ready-made mount as its data sheet tells it [SI]."""

    id: str  # of the material that it stands for
    name: str
    size: ReadyMade
    loads: tuple[float, ...]  # [N], rising
    sags: tuple[float, ...]  # deflection under each of `loads` [m], rising
    across: float  # stiffness sideways [N/m]; 0: estimated from its proportions
    highest: float  # most load that it may carry for good [N]
    loss_factor: float
    loss_told: bool  # rather than estimated
    dynamic_ratio: float
    ratio_told: bool
    found: str  # where it is got, of isolator.design.got.SHOPS


def where_got() -> Key[str]:
    """Return the key that says where a bought thing is got."""
    return choice(
        SHOPS,
        POST,
        "usual of such mounts",
        meanings=SHOP_MEANINGS,
        comment=f"where it is got; or {', '.join(each for each in SHOPS if each != POST)}",
    )


def points(unit: str, example: list[str], comment: str = "") -> Key[tuple[float, ...]]:
    """Return the key of a data sheet's points on one axis, in `unit`; none unless told."""
    return quantities(unit, range(1, MOST_POINTS + 1), (), example=example, comment=comment)


class MountTable(Table):
    """One [[stock.mount]]."""

    name = text(example="buffer from the drawer")
    diameter = quantity("m", usual=(0.005, 0.1), example="20 mm")
    height = quantity(
        "m", usual=(0.005, 0.1), example="15 mm", comment="from face to face, metal counted in"
    )
    rubber = maybe(
        quantity("m", example="11 mm", comment="height of its rubber; else discs of 2 mm")
    )
    thread = quantity("m", example="6 mm")
    upper = choice(
        tuple(each for each in ENDS if each != PLAIN),
        STUD,
        "usual of a mount",
        comment="its end at the printer; or thread",
    )
    lower = choice(ENDS, STUD, "usual of a mount", comment="its end at the desk; or thread, plain")
    stud = quantity("m", 0.0, sign="not negative", example="18 mm", comment="length of a stud")
    depth = quantity("m", 0.0, sign="not negative", example="6 mm", comment="of a thread inside it")
    stiffness = maybe(
        quantity("N/m", example="60 N/mm", comment="along its axis; or loads and sags")
    )
    loads = points("N", ["50 N", "100 N", "150 N"])
    sags = points("m", ["0.8 mm", "1.5 mm", "2.1 mm"], "deflection under each load")
    across = quantity(
        "N/m",
        0.0,
        "estimated from its proportions",
        sign="not negative",
        example="11 N/mm",
        comment="stiffness sideways",
    )
    highest = maybe(
        quantity("N", example="150 N", comment="load that it may carry for good; else the last")
    )
    loss_factor = maybe(number((0.0, 2.0), example=0.1), "estimated, ×/÷ 1.6", f"{LOSS:g}")
    dynamic_ratio = maybe(
        number((1.0, 10.0), example=1.4, comment="dynamic over static stiffness"),
        "estimated, ×/÷ 1.3",
        f"{RATIO:g}",
    )
    found = where_got()


def read_mount(table: MountTable) -> Mount:
    """Return a mount of the stock; what contradicts itself becomes faults."""
    table.check("name", "diameter", "height", "rubber", "thread", "upper", "lower")
    size = _read_size(table)
    loads, sags, highest = _read_curve(table, size.rubber)
    found = Mount(
        id=f"mount-{slug(table.name)}",
        name=table.name,
        size=size,
        loads=loads,
        sags=sags,
        across=table.across,
        highest=highest,
        loss_factor=LOSS if table.loss_factor is None else table.loss_factor,
        loss_told=table.loss_factor is not None,
        dynamic_ratio=RATIO if table.dynamic_ratio is None else table.dynamic_ratio,
        ratio_told=table.dynamic_ratio is not None,
        found=table.found,
    )
    table.done()
    return found


def _read_size(table: MountTable) -> ReadyMade:
    rubber = table.rubber
    discs = 1.0 if table.lower == PLAIN else 2.0
    if rubber is None:
        rubber = round(table.height - discs * DISC, 9)
    if not math.isnan(rubber) and not 0.0 < rubber < table.height:
        told = "rubber" if table.has("rubber") else "height"
        table.fault(
            told,
            format_quantity(getattr(table, told), "mm"),
            "a height with room for rubber and metal discs",
            "height counts the discs in, rubber is what lies between them",
        )
    if not math.isnan(table.thread) and round(table.thread * 1e3, 6) not in SCREWS:
        table.fault(
            "thread",
            format_quantity(table.thread, "mm"),
            ", ".join(f"M{each}" for each in SCREWS),
            'write it like "6 mm"',
        )
    for name, kind in (("stud", STUD), ("depth", THREAD)):
        if kind in (table.upper, table.lower) and getattr(table, name) == 0.0:
            own = [end for end in ("upper", "lower") if getattr(table, end) == kind]
            table.fault(
                name,
                "nothing",
                f"how long its {kind} is, as {' and '.join(own)} is one",
                f'measure it and add {name} = "10 mm"',
            )
    ends = Ends(
        thread=table.thread,
        upper=table.upper,
        lower=table.lower,
        stud=table.stud,
        depth=table.depth,
    )
    return ReadyMade(diameter=table.diameter, height=table.height, rubber=rubber, ends=ends)


Points = tuple[float, ...]


def _read_curve(table: MountTable, rubber: float) -> tuple[Points, Points, float]:
    """Return loads [N], sags [m] and the highest load [N] of a mount."""
    by_points = table.has("loads", "sags")
    if by_points == table.has("stiffness"):
        table.fault(
            "stiffness",
            "stiffness beside loads and sags" if by_points else "nothing",
            "either its stiffness, or loads and sags",
            "keep what the data sheet says" if by_points else 'add stiffness = "60 N/mm"',
        )
        return (1.0, 2.0), (1e-3, 2e-3), 2.0
    loads, sags, highest = table.loads, table.sags, table.highest
    if not by_points:
        if highest is None:
            table.fault("highest", "nothing", "its highest load", 'add highest = "150 N"')
            highest = math.nan
        loads = (highest / 2.0, highest)
        stiffness = math.nan if table.stiffness is None else table.stiffness
        sags = tuple(each / stiffness for each in loads)
    _judge_points(table, loads, sags, rubber)
    highest = loads[-1] if highest is None and loads else highest
    if by_points and loads and highest is not None and highest > loads[-1] * (1.0 + 1e-9):
        table.fault(
            "highest",
            format_quantity(highest, "N"),
            f"no more than the last of loads, {format_quantity(loads[-1], 'N')}",
            "add the deflection under it to loads and sags",
        )
    return loads, sags, math.nan if highest is None else highest


def _judge_points(table: MountTable, loads: Points, sags: Points, rubber: float) -> None:
    """Note points that are no curve, or that press a mount through its own rubber."""
    if len(loads) != len(sags) and table.clean("loads", "sags"):
        table.fault(
            "sags",
            f"{len(sags)} of them",
            f"{len(loads)}, one to each load",
            "give both lists the same length",
        )
    for name, points in (("loads", loads), ("sags", sags)):
        falls = [n for n in range(1, len(points)) if points[n] <= points[n - 1]]
        if falls and table.clean(name):
            unit = "N" if name == "loads" else "mm"
            table.fault(
                f"{name}[{falls[0] + 1}]",
                format_quantity(points[falls[0]], unit),
                f"more than {format_quantity(points[falls[0] - 1], unit)}",
                "list both from the smallest load up",
            )
    if sags and rubber > 0.0 and sags[-1] >= rubber:
        name = "sags" if table.has("sags") else "stiffness"
        table.fault(
            name,
            f"a deflection of {format_quantity(sags[-1], 'mm', 3)}",
            f"less than its rubber is high, {format_quantity(rubber, 'mm', 3)}",
            "check units and the highest load",
        )
