"""What colours and marks of a chart mean, as a list of the page under it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from html import escape
from typing import NamedTuple

from isolator.report.figures.figure import THEME

_SHAPES: Mapping[str, str] = {
    "o": '<circle cx="11" cy="7" r="4.5" {}/>',
    "s": '<rect x="7" y="3" width="8" height="8" {}/>',
    "D": '<path d="M11 1.5L16.5 7L11 12.5L5.5 7Z" {}/>',
    "^": '<path d="M11 2L16 11.5H6Z" {}/>',
    "v": '<path d="M11 12L16 2.5H6Z" {}/>',
    "+": '<path d="M11 0.5V13.5M4.5 7H17.5" {}/>',
    "P": '<path d="M9.5 2.5h3v3h3v3h-3v3h-3v-3h-3v-3h3z" {}/>',
    "X": '<path d="M7 3l2-1 2 3 2-3 2 1-2 4 2 4-2 1-2-3-2 3-2-1 2-4z" {}/>',
    "p": '<path d="M11 1.5L16.2 5.3L14.2 11.5H7.8L5.8 5.3Z" {}/>',
    "h": '<path d="M11 1.5L15.8 4.2V9.8L11 12.5L6.2 9.8V4.2Z" {}/>',
    "*": '<path d="M11 1l1.6 4.2 4.4.2-3.5 2.7 1.2 4.3L11 10l-3.7 2.4 1.2-4.3L5 5.4l4.4-.2z" {}/>',
}
"""Marks as the plotting library names them."""


class Entry(NamedTuple):
    """One sample: a "line", a "band", a "hatch", or a mark by the plotting library's name."""

    kind: str
    colour: str
    words: str
    width: float = 2.4  # of a line [px]
    dashes: str = ""  # of a line
    filled: bool = True


def key(entries: Sequence[Entry]) -> str:
    """Return samples with their words; the page breaks lines where it has to."""
    rows = "".join(
        f'<li><svg viewBox="0 0 22 14" aria-hidden="true">{_sample(each)}</svg>'
        f"{escape(each.words)}</li>"
        for each in entries
    )
    return f'<ul class="key">{rows}</ul>'


def _sample(entry: Entry) -> str:
    colour = f"var(--{THEME[entry.colour]})" if entry.colour in THEME else entry.colour
    if entry.kind == "line":
        dashes = f' stroke-dasharray="{entry.dashes}"' if entry.dashes else ""
        return f'<path d="M0 7H22" stroke="{colour}" stroke-width="{entry.width}"{dashes}/>'
    if entry.kind == "band":
        return f'<rect width="22" height="14" fill="{colour}"/>'
    if entry.kind == "hatch":
        lines = "".join(f"M{x} 14L{x + 14} 0" for x in (-8, -2, 4, 10))
        return f'<path d="{lines}" stroke="{colour}" stroke-width="1.2"/>'
    fill = colour if entry.filled else "none"
    return _SHAPES[entry.kind].format(f'fill="{fill}" stroke="{colour}" stroke-width="1.4"')
