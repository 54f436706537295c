"""The sizes in which cylindrical rubber-metal buffers are usually sold."""

from __future__ import annotations

from functools import cache
from importlib import resources
from typing import cast

from isolator.cards.entries import Entries, Table
from isolator.cards.library import BUFFERS
from isolator.cards.reader import parse_card
from isolator.design import Ends
from isolator.design.ends import PLAIN, STUD, THREAD, ReadyMade
from isolator.reading.faults import InputError

KEYS = ("diameter", "height", "disc", "thread", "stud", "depth")


@cache
def trade_buffers() -> tuple[ReadyMade, ...]:
    """Return every size of `materials/buffers.toml` with each pair of ends that it is sold with."""
    entries = Entries(f"materials/{BUFFERS}")
    text = resources.files("materials").joinpath(BUFFERS).read_text(encoding="utf-8")
    rows = cast("list[Table]", parse_card(text, entries).get("buffer", []))
    found = [size for row in rows for size in _sizes(entries, row)]
    if entries.faults:
        raise InputError(entries.faults)
    return tuple(found)


def _sizes(entries: Entries, row: Table) -> list[ReadyMade]:
    entries.known(row, KEYS, "buffer")
    diameter, height, disc, thread, stud, depth = (
        entries.number(row.get(key, "0 mm"), f"buffer.{key}", "m", 0.0, 0.1, '"6 mm"')
        for key in KEYS
    )
    pairs = [(STUD, STUD), (STUD, PLAIN)]
    if depth > 0:
        pairs += [(STUD, THREAD), (THREAD, STUD), (THREAD, THREAD), (THREAD, PLAIN)]
    return [
        ReadyMade(
            diameter=diameter,
            height=height,
            rubber=round(height - (1.0 if lower == PLAIN else 2.0) * disc, 9),
            ends=Ends(
                thread=thread,
                upper=upper,
                lower=lower,
                stud=stud if STUD in (upper, lower) else 0.0,
                depth=depth if THREAD in (upper, lower) else 0.0,
            ),
        )
        for upper, lower in pairs
    ]
