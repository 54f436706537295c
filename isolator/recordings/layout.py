"""How a text file is laid out: what parts its columns, and how decimals are written."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from isolator.reading.faults import refused
from isolator.reading.notes import shown
from isolator.recordings.cells import CLOCK, DATE, EMPTY, NUMBER, WORDS, kind_of

SEPARATORS = (";", "\t", ",", "")
"""What may part columns; the empty one is any number of blanks."""
LOOKED_AT = 60
"""Lines from which the layout is told."""
LEAST_NUMERIC = 0.5
"""Share of cells that must be numbers, dates or empty."""
COMMENT = re.compile(r"\s*(#|%|//|!|\*)\s*")


DIGIT = re.compile(r"[0-9]")


@dataclass(frozen=True, slots=True, kw_only=True)
class Layout:
    """How lines of data are read."""

    separator: str  # empty: blanks
    comma: bool  # decimals are written with a comma
    width: int  # columns
    numeric: frozenset[int]  # columns that hold numbers, dates or times

    def split(self, line: str) -> list[str]:
        """Return the cells of a line."""
        return split(line, self.separator)

    def is_data(self, cells: Sequence[str]) -> bool:
        """Return whether the cells are a line of data: numbers where there should be some."""
        if len(cells) != self.width:
            return False
        kinds = [kind_of(cells[at], self.comma) for at in self.numeric]
        return WORDS not in kinds and kinds.count(EMPTY) < len(kinds)


def split(line: str, separator: str) -> list[str]:
    """Return the cells of a line, bare of blanks and quotes."""
    cells = line.split(separator) if separator else line.split()
    if '"' not in line and "'" not in line:
        return [cell.strip() for cell in cells]
    return [cell.strip().strip("\"'").strip() for cell in cells]


def find_layout(file: str, lines: Sequence[str]) -> Layout:
    """Return the layout of the lines of a file; raises InputError where there are no numbers."""
    data = [line for line in lines if line.strip() and not COMMENT.match(line)]
    # what stands in the second half is data if anything is; the last line may be cut off
    later = data[len(data) // 2 : -1] or data
    looked = later[:: max(1, len(later) // LOOKED_AT)]
    best: tuple[float, Layout] | None = None
    for separator in SEPARATORS:
        for comma in (False, True):
            if not looked or (separator == "," and comma):
                continue
            found = _try(looked, separator, comma)
            # of equals the one with more columns: "1,2" is two numbers
            if found and (best is None or _rank(found) > _rank(best)):
                best = found
    if best is None or best[0] < LEAST_NUMERIC:
        raise refused(
            file,
            "",
            _instead(data),
            "samples of an accelerometer, one a line, or a WAV file",
            "export the recording as CSV",
        )
    return best[1]


def _instead(data: Sequence[str]) -> str:
    """Return what a file holds that holds no lines of numbers."""
    if not data:
        return "nothing in it"
    # two lines tell too little of which is a head
    lone = len(data) == 2 and DIGIT.search(data[1])
    return "one line of numbers at most" if lone else "no lines of numbers"


def _rank(found: tuple[float, Layout]) -> tuple[float, int]:
    return found[0], found[1].width


def _try(lines: Sequence[str], separator: str, comma: bool) -> tuple[float, Layout] | None:
    """Return how well a layout fits, 0 to 1, and the layout; None where it cannot be one."""
    rows = [split(line, separator) for line in lines]
    width, often = Counter(map(len, rows)).most_common(1)[0]
    rows = [row for row in rows if len(row) == width]
    kinds = list(zip(*([kind_of(cell, comma) for cell in row] for row in rows), strict=True))
    numeric = frozenset(
        at
        for at, column in enumerate(kinds)
        if 2 * column.count(WORDS) < len(rows) and column.count(EMPTY) < len(rows)
    )
    if not numeric:
        return None
    good = sum(kind in (NUMBER, DATE, CLOCK, EMPTY) for column in kinds for kind in column)
    share = good / (width * len(rows)) * often / len(lines)
    return share, Layout(separator=separator, comma=comma, width=width, numeric=numeric)


def refuse_double_comma(file: str, layout: Layout, names: int, line: int) -> None:
    """Raise InputError where commas part columns and decimals both: twice as many cells."""
    if layout.separator == "," and layout.width in (2 * names, 2 * names - 1) and names > 1:
        raise refused(
            file,
            f"line {line}",
            f"{layout.width} numbers under {names} names",
            "commas that part columns or decimals, not both",
            "export it with semicolons or tabs between columns, or with decimal points",
        )


def told(cell: str) -> str:
    """Return a cell as a message shows it."""
    return shown(cell) if cell else "an empty place"
