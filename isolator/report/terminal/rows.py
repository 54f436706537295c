"""Labelled rows that share a number of lines: each says as much as it has room for."""

from __future__ import annotations

import textwrap
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

MARGIN = 2
"""Blanks before a label."""
LABEL = 10
"""Columns of a label with the blanks after it."""
Say = Callable[[str], str]


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """A label and what stands beside it; items that find no room are counted.

    `least` lines it has in any case; the row of the highest `spare` gives up lines first. The
    first `sure` items are always told.
    """

    label: str
    items: tuple[str, ...]
    least: int = 1
    most: int = 3
    spare: int = 0
    sure: int = 1
    more: str = "--details"  # where what finds no room is told


def fitted(rows: Sequence[Row], width: int, lines: int, say: Say = str) -> list[str]:
    """Return rows as text of `width` columns on no more than `lines` lines, if that can be.

    `say` is done to every item. A row without items is left out.
    """
    rows = [row for row in rows if row.items]
    label = MARGIN + LABEL
    found = [_row(row, width - label, row.most, say) for row in rows]
    while sum(map(len, found)) > lines:
        spare = [at for at, row in enumerate(rows) if len(found[at]) > row.least]
        if not spare:
            break
        at = max(spare, key=lambda each: (rows[each].spare, len(found[each])))
        shorter = _row(rows[at], width - label, len(found[at]) - 1, say)
        if len(shorter) == len(found[at]):  # one item alone needs as many
            shorter = shorter if rows[at].least else []
            rows[at] = replace(rows[at], least=len(shorter))
        found[at] = shorter
    return [
        f"{' ' * MARGIN}{row.label if number == 0 else '':<{label - MARGIN}}{line}"
        for row, told in zip(rows, found, strict=True)
        for number, line in enumerate(told)
    ]


def _row(row: Row, width: int, most: int, say: Say) -> list[str]:
    """Return the lines of one row: as many items as `most` lines hold, at least the sure ones."""
    items = [say(item) for item in row.items] if most else []
    sure = min(max(row.sure, 1), len(items))
    for count in range(len(items), sure - 1, -1):
        left = len(items) - count
        told = "; ".join(items[:count])
        if left:
            told = f"{told}; {left} more ({row.more})"
        lines = wrapped(told, width)
        if len(lines) <= most or count == sure:
            return lines
    return []


def wrapped(text: str, width: int) -> list[str]:
    """Return text in lines of at most `width` columns; a longer word stands by itself."""
    return textwrap.wrap(text, max(width, 20), break_long_words=False, break_on_hyphens=False) or [
        ""
    ]
