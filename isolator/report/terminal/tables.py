"""Tables of the command line that read well from 80 columns up."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Literal

from rich.console import Group, RenderableType
from rich.table import Table
from rich.text import Text

from isolator.report.sentences.checks import advice, limit, margin, value
from isolator.vibration.band import Check, failed


@dataclass(frozen=True, slots=True)
class Grid:
    """A table before it is laid out: heads, the side of each column, cells."""

    heads: tuple[str, ...]
    sides: str
    rows: tuple[tuple[str, ...], ...]

    def __rich__(self) -> Table:
        """Lay it out; the last column takes what the others leave."""
        made = Table(box=None, pad_edge=False, padding=(0, 2, 0, 0), show_header=any(self.heads))
        for head, side in zip(self.heads, self.sides, strict=True):
            justify: Literal["left", "right"] = "right" if side == "r" else "left"
            made.add_column(Text(head), justify=justify, header_style="dim")
        for row in self.rows:
            made.add_row(*(Text(cell) for cell in row))
        return made


def spoken(told: RenderableType, say: Callable[[str], str]) -> RenderableType:
    """Return texts and tables with `say` done to every text in them."""
    if isinstance(told, Group):
        return Group(*(spoken(each, say) for each in told.renderables))
    if isinstance(told, Text):
        return Text(say(told.plain), style=told.style)
    if isinstance(told, Grid):
        rows = tuple(tuple(say(cell) for cell in row) for row in told.rows)
        return Grid(told.heads, told.sides, rows)
    return told


def table(title: str, heads: Sequence[str], sides: str, rows: Sequence[Sequence[str]]) -> Group:
    """Build a titled table whose cells are plain text: a bracket in a name stays a bracket.

    `sides` has an "r" or an "l" a column. Without any head the head's line is left out.
    """
    made = Grid(tuple(heads), sides, tuple(tuple(row) for row in rows))
    return Group(Text(f"\n{title}", style="bold"), made) if title else Group(made)


def checks_table(title: str, checks: Sequence[Check]) -> Group:
    """Return checks with their limits and margins; below them what to do about those that fail."""
    rows = [
        (
            _mark(check),
            check.name,
            value(check),
            _limit(check),
            margin(check).removesuffix(" to spare"),  # the mark says so
        )
        for check in checks
    ]
    told = [Text(f"→ {check.name}: {advice(check)}") for check in failed(checks)]
    return Group(table(title, ("", "check", "found", "limit", "margin"), "llrrr", rows), *told)


def _mark(check: Check) -> str:
    """Return whether a check holds; one that does not bind is missed, and nothing fails."""
    if check.passed:
        return "holds"
    return "FAILS" if check.binding else "missed"


def _limit(check: Check) -> str:
    """Return the limit behind ≤ or ≥; what it is a share of is told beside the value alone."""
    told = limit(check).replace("at most", "≤").replace("at least", "≥")
    return told.partition(" of ")[0]
