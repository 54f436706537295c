"""Cells say what they hold: on a narrow screen the page shows each row of a table as a card."""

from __future__ import annotations

import re

_TABLE = re.compile(r"<table.*?</table>", re.DOTALL)
_HEAD = re.compile(r"<th[^>]*>(.*?)</th>", re.DOTALL)
_ROW = re.compile(r"<tr.*?</tr>", re.DOTALL)
_CELL = re.compile(r"<td(?![\w-])")


def labelled(page: str) -> str:
    """Return a page whose table cells carry the heading of their column.

    >>> labelled("<table><tr><th>Mode</th><th></th></tr><tr><td>a</td><td>b</td></tr></table>")
    '<table><tr><th>Mode</th><th></th></tr><tr><td data-label="Mode">a</td><td>b</td></tr></table>'
    """
    return _TABLE.sub(lambda found: _table(found[0]), page)


def _table(text: str) -> str:
    heads = [_plain(head) for head in _HEAD.findall(text)]
    return _ROW.sub(lambda found: _row(found[0], heads), text) if heads else text


def _row(text: str, heads: list[str]) -> str:
    names = iter(heads)

    def cell(found: re.Match[str]) -> str:
        name = next(names, "")
        return f'{found[0]} data-label="{name}"' if name else found[0]

    return _CELL.sub(cell, text)


def _plain(head: str) -> str:
    return re.sub(r"<[^>]*>", "", head).replace('"', "&quot;").strip()
