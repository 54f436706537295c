"""The starter brief: what a user fills in, with every optional key, its meaning and its default.

It is made from the keys as they are declared: what must be said is said, what would be assumed
is shown as a remark with the value that reading the rest assumes, and so is what may be said
besides.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any

from isolator.brief.brief import BriefTable
from isolator.brief.read import read_brief_text
from isolator.reading.files import parse_toml
from isolator.reading.keys import Key
from isolator.reading.notes import Notes
from isolator.reading.table import Table, Within

_HEAD = """\
# A brief: what is known about one printer, and what its feet must do.
#
# Quantities are "number unit"; any unit of the right kind is taken (mm, in, thou, g, lb, rpm ...).
# x runs to the right, y to the back, z up; the origin is the middle of the feet, on the underside
# of the printer's frame.
#
# Lines that begin "# key =" show what is assumed where nothing is said: remove "# " to change it.
# Lines that begin "#key =" or "#[table]" show what may be said besides: remove "#" to say it.
# The report lists everything that was assumed.

"""
_COMMENTS = 49
"""Column at which comments begin."""
_MOTORS = 2
_OF_OTHERS = ("name", "frame_size", "position")
"""What is shown of a motor after the first."""


def starter_text() -> str:
    """Return a commented brief that can be read as it stands.

    Uncommenting any line that begins "# key =" changes nothing but what counts as assumed.
    """
    said = "\n".join(_lines(BriefTable(Notes(""), "", {"motor": [{}] * _MOTORS}), None))
    assumed = {each.key for each in read_brief_text(said, "").assumed}
    return _HEAD + "\n".join(_lines(BriefTable(Notes(""), "", parse_toml(said)), assumed)) + "\n"


def _lines(table: Table, assumed: set[str] | None, aside: bool = False) -> Iterator[str]:
    """Yield the lines of a table; only what must be said where `assumed` is None."""
    for key in table.declared().values():
        if isinstance(key, Within):
            yield from _inner(table, key, assumed, aside)
        elif key.said is not None and not aside:
            yield _line("", key, key.said(table) if callable(key.said) else key.said, table)
        elif assumed is not None:
            yield from _remark(table, key, assumed)


def _inner(
    table: Table, within: Within[Any], assumed: set[str] | None, aside: bool
) -> Iterator[str]:
    """Yield the lines of the tables that are there; of one that is not, where it is a remark."""
    name, aside = table.path(within.name), aside or within.aside
    if aside:
        found = [] if assumed is None else [within.kind(table.notes, name, {}, table)]
    else:
        found = getattr(table, within.name) if within.many else [getattr(table, within.name)]
    for inner in found:
        yield ""
        yield from _above(within.above)
        yield f"{'#' * aside}[[{name}]]" if within.many else f"{'#' * aside}[{name}]"
        yield from _lines(inner, assumed, aside)


def _remark(table: Table, key: Key[Any], assumed: set[str]) -> Iterator[str]:
    """Yield a key as a remark, if there is anything to show of it."""
    if table.number > 1 and key.name not in _OF_OTHERS:
        return
    yield from _above(key.above)
    if key.example is not None:
        yield _line("#", key, key.example, table)
    elif key.default:
        default = key.default[0](table) if callable(key.default[0]) else key.default[0]
        if default is not None:
            mark = "# " if table.path(key.name) in assumed else "#"
            yield _line(mark, key, key.write(default, 6), table)


def _line(mark: str, key: Key[Any], value: Any, table: Table) -> str:
    line = f"{mark}{key.name} = {json.dumps(value, ensure_ascii=False)}"
    if not key.comment or table.number > 1:
        return line
    first, *more = key.comment.split("\n")
    gap = _COMMENTS - len(line) if len(line) < _COMMENTS else 3
    return "\n".join((f"{line}{' ' * gap}# {first}", *(f"## {each}" for each in more)))


def _above(text: str) -> Iterator[str]:
    for line in text.splitlines():
        yield f"## {line}"
