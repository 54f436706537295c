"""Reading the feet: what excludes each other, what goes with what."""

from __future__ import annotations

from isolator.brief.attaching import read_fixing
from isolator.brief.feet import Feet, FeetTable
from isolator.brief.known_feet import GivenFoot, NowFoot, NowTable
from isolator.design import OUTLINES
from isolator.design.axes import Pair


def read_feet(table: FeetTable) -> Feet:
    """Return the feet of a brief; whether the printer stands on them is judged elsewhere."""
    given = tuple(each.whole(GivenFoot) for each in table.given)
    table.check("design")
    ways = [name for name in ("positions", "given", "design") if table.has(name)]
    if len(ways) > 1:
        table.notes.fault(
            table.where,
            " and ".join(ways),
            "one way to say where the feet are",
            f"keep {ways[-1]} or {ways[0]} alone",
        )
    positions = _read_positions(table, given)
    count, inset = _read_count(table, positions)
    return table.whole(
        Feet,
        positions=positions,
        count=count,
        inset=inset,
        **read_fixing(table)._asdict(),
        given=given,
        now=lambda t: _read_now(t.now) if t.has("now") else None,
    )


def _read_positions(table: FeetTable, given: tuple[GivenFoot, ...]) -> tuple[Pair, ...] | None:
    if table.has("positions"):
        return table.positions
    if given:
        return tuple((foot.position[0], foot.position[1]) for foot in given)
    return None


def _read_count(
    table: FeetTable, positions: tuple[Pair, ...] | None
) -> tuple[tuple[int, ...], float]:
    if positions is None:
        table.check("inset")
        return table.count, table.inset
    for name in ("count", "inset"):
        if table.has(name):
            table.fault(
                name,
                f"{name} beside the feet's places",
                "either the places, or count and inset",
                f"remove {name}",
            )
    return (len(positions),), 0.0


def _read_now(table: NowTable) -> NowFoot:
    table.check("shape")
    first, second = (*table.size, 0.0)[:2]
    if OUTLINES[table.shape].holed and second >= first:
        table.fault(
            "size",
            "a hole as large as the pad",
            "the outer size first, then the hole",
            "turn them round",
        )
    return table.whole(NowFoot, first=first, second=second)
