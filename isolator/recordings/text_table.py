"""A text file as columns of cells under names, whatever stands before its data."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from isolator.reading.faults import refused
from isolator.recordings.layout import (
    COMMENT,
    Layout,
    find_layout,
    refuse_double_comma,
    split,
    told,
)
from isolator.recordings.units import is_unit_line

FEWEST = 32
"""Samples below which nothing can be told of a vibration."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TextTable:
    """Columns of cells, and what is said of them."""

    names: tuple[str, ...]  # one a column; empty where the file has none
    units: tuple[str, ...]  # of a second line of the header, one a column; or empty
    columns: tuple[tuple[str, ...], ...]  # of numbers, decimals with a point; or of dates
    numeric: frozenset[int]  # columns that hold numbers, dates or times
    lines: tuple[int, ...]  # of the file, one a row, counted from 1
    cut: bool  # the last line broke off and was left out


def read_table(file: str, text: str) -> TextTable:
    """Return the table in a text; raises InputError where it is none, or a line breaks it."""
    lines = text.splitlines()
    layout = find_layout(file, lines)
    first = next(i for i, line in enumerate(lines) if layout.is_data(layout.split(line)))
    names, units = _header(file, layout, lines[:first], first)
    rows, numbers, cut = _rows(file, layout, lines, first, names)
    if len(rows) < FEWEST:
        raise refused(
            file,
            "",
            f"{len(rows)} samples",
            f"at least {FEWEST}, better some seconds of them",
            "record for longer",
        )
    return TextTable(
        names=names,
        units=units,
        columns=tuple(
            tuple(cell.replace(",", ".") for cell in column) if layout.comma else column
            for column in zip(*rows, strict=True)
        ),
        numeric=layout.numeric,
        lines=tuple(numbers),
        cut=cut,
    )


def _header(
    file: str, layout: Layout, before: Sequence[str], first: int
) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Return names and units from the lines before the data, each as wide as the data or empty."""
    heads = [COMMENT.sub("", line, count=1) for line in before if line.strip()]
    if not heads:
        return (), ()
    separators = (layout.separator, ";", "\t", ",", "")
    last = _wide(heads[-1], layout.width, separators)
    if last and is_unit_line(last) and len(heads) > 1:
        names = _wide(heads[-2], layout.width, separators)
        return names, last
    if not last:
        refuse_double_comma(file, layout, len(split(heads[-1], ",")), first + 1)
    return last, ()


def _wide(line: str, width: int, separators: Sequence[str]) -> tuple[str, ...]:
    """Return the cells of a line that has `width` of them by one of the separators, else none."""
    for separator in separators:
        cells = split(line, separator)
        while len(cells) > width and not cells[-1]:
            cells.pop()
        if len(cells) == width:
            return tuple(cells)
    return ()


def _rows(
    file: str, layout: Layout, lines: Sequence[str], first: int, names: tuple[str, ...]
) -> tuple[list[list[str]], list[int], bool]:
    """Return the rows, the line of each, and whether the last one broke off."""
    rows: list[list[str]] = []
    numbers: list[int] = []
    end = max(i for i, line in enumerate(lines) if line.strip())
    for at in range(first, end + 1):
        line = lines[at]
        if not line.strip() or COMMENT.match(line):
            continue
        cells = layout.split(line)
        if len(cells) != layout.width:
            if at == end:
                return rows, numbers, True
            raise refused(
                file,
                f"line {at + 1}",
                f"{'one column' if len(cells) == 1 else f'{len(cells)} columns'}, "
                f"{told(line.strip())}",
                f"{layout.width}, as in the lines before",
                "mend or delete this line",
            )
        if names and tuple(cells) == names:
            advice = "split the file there, or delete this line"
            raise refused(file, f"line {at + 1}", "the header again", "one recording", advice)
        rows.append(cells)
        numbers.append(at + 1)
    return rows, numbers, False
