"""Tables of weights and heights as people type them: any separator, decimal comma, units in the
header."""

from __future__ import annotations

import re
from dataclasses import dataclass

from isolator.reading.notes import Notes, shown
from isolator.reading.units import NotReadError, amount

LOAD, HEIGHT, SQUEEZED, TIME = "load", "height", "compression", "time"
NAMES = {
    **dict.fromkeys(("mass", "weight", "load", "force"), LOAD),
    **dict.fromkeys(("height", "thickness"), HEIGHT),
    **dict.fromkeys(("compression", "deflection", "displacement", "travel", "squeeze"), SQUEEZED),
    **dict.fromkeys(("time", "elapsed"), TIME),
}
"""What columns are called, and what each is."""
UNITS = {LOAD: ("kg", "N"), HEIGHT: ("m",), SQUEEZED: ("m",)}
TIMES = {"s": 1.0, "sec": 1.0, "min": 60.0, "h": 3600.0}
SUCH = {
    LOAD: "one of mass or force, such as g or N",
    HEIGHT: "one of length, such as mm",
    SQUEEZED: "one of length, such as mm",
    TIME: "one of time, such as s",
}
"""Units that are wanted, by what a column holds."""
LIKE = 'head the columns with name and unit, such as "mass [g]; height [mm]"'
PREAMBLE = 50
"""Lines in which a header is looked for."""
MOST_ROWS = 5000

_HEAD = re.compile(r"([a-z]+)[ _]*(?:(?:in |[\[(/,]) *)?([^\])\s]*) *[\])]?", re.IGNORECASE)
_NUMBER = re.compile(r"[+-]?(?:[0-9]+(?:\.([0-9]*))?|\.([0-9]+))(?:[eE]([+-]?[0-9]{1,2}))?")
_SEPARATORS = (";", "\t", ",", None)


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """One column: `what` of `NAMES`, its numbers in SI, and the step of its last digit."""

    what: str
    unit: str  # used inside: "kg", "N", "m" or "s"
    values: tuple[float, ...]
    step: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Columns:
    """All known columns, as long as each other, and where each row stands in the file."""

    columns: tuple[Column, ...]
    rows: tuple[str, ...]

    def find(self, *whats: str) -> Column | None:
        """Return the first column that is one of `whats`."""
        return next((each for each in self.columns if each.what in whats), None)


def read_table(text: str, notes: Notes) -> Columns | None:
    """Return the columns of a text; None with a fault where it holds none."""
    lines = [(number, line.strip()) for number, line in enumerate(text.splitlines(), 1)]
    lines = [(number, line) for number, line in lines if line and line[0] not in "#%"]
    for at, (number, line) in enumerate(lines[:PREAMBLE]):
        for separator in _SEPARATORS:
            heads = _heads(_cells(_tight(line), separator))
            kinds = [what for what, _ in heads]
            if LOAD not in kinds or not {HEIGHT, SQUEEZED} & {*kinds}:
                continue
            below = lines[at + 1 :]
            if not any(unit for _, unit in heads) and below:
                units = [cell.strip("[]()") for cell in _cells(below[0][1], separator)]
                if len(units) == len(heads) and all(_plain(cell) is None for cell in units):
                    heads = [(what, unit) for (what, _), unit in zip(heads, units, strict=True)]
                    below = below[1:]
            return _columns(heads, below, separator, f"line {number}", notes)
    got = shown(lines[0][1]) if lines else "nothing"
    notes.fault("header", got, "a column of mass or force and one of height or compression", LIKE)
    return None


def read_lists(table: dict[str, object], where: str, notes: Notes) -> Columns | None:
    """Return the columns of a table of lists, each under a header as in a text."""
    heads = _heads(list(table))
    found = []
    for (what, unit), (key, raw) in zip(heads, table.items(), strict=True):
        if not what:
            known = "mass, force, height, compression or time"
            notes.fault(f"{where}.{key}", "an unknown column", known, LIKE)
        elif raw == [] and what in (HEIGHT, SQUEEZED):
            notes.fault(f"{where}.{key}", f"no {what}s yet", "one for each mass", "type them in")
        elif not isinstance(raw, list) or not raw:
            notes.fault(f"{where}.{key}", shown(raw), "a list of numbers", "write it in brackets")
        else:
            cells = [str(each).strip() for each in raw]
            found.append((what, unit, key, cells))
    lengths = {len(cells) for *_, cells in found}
    if len(lengths) > 1:
        told = " and ".join(str(each) for each in sorted(lengths))
        notes.fault(where, f"lists of {told}", "lists of one length", "one entry a reading")
    if notes.faults:
        return None
    columns = [
        _column(what, unit, f"{where}.{key}", cells, notes) for what, unit, key, cells in found
    ]
    rows = tuple(f"{where}[{n}]" for n in range(1, max(lengths, default=0) + 1))
    return _whole([each for each in columns if each is not None], rows, where, notes)


def _columns(
    heads: list[tuple[str, str]],
    lines: list[tuple[int, str]],
    separator: str | None,
    where: str,
    notes: Notes,
) -> Columns | None:
    rows = []
    for number, line in lines[: MOST_ROWS + 1]:
        cells = _cells(line, separator)
        if separator == "," and len(cells) == 2 * len(heads):
            got = f"{len(cells)} numbers under {len(heads)} heads"
            notes.fault(f"line {number}", got, "one a column", "part columns by ; or a tab")
            return None
        wanted = max(at for at, (what, _) in enumerate(heads) if what) + 1
        if len(cells) < wanted:
            got = f"{len(cells)} of {len(heads)} cells"
            notes.fault(f"line {number}", got, "a number a column", "complete the row or drop it")
            return None
        rows.append((f"line {number}", cells))
    if len(rows) > MOST_ROWS:
        notes.fault("", f"over {MOST_ROWS} rows", "readings of a squash test", "leave rows out")
        return None
    columns = []
    for at, (what, unit) in enumerate(heads):
        if what:
            cells = [row[at] if separator == "," else row[at].replace(",", ".") for _, row in rows]
            column = _column(what, unit, where, cells, notes, [name for name, _ in rows])
            if column is None:
                return None
            columns.append(column)
    return _whole(columns, tuple(name for name, _ in rows), where, notes)


def _whole(found: list[Column], rows: tuple[str, ...], where: str, notes: Notes) -> Columns | None:
    for what in (LOAD, TIME):
        if sum(each.what == what for each in found) > 1:
            notes.fault(where, f"two columns of {what}", "one", "leave one out")
    if sum(each.what in (HEIGHT, SQUEEZED) for each in found) > 1:
        notes.fault(where, "two columns of heights", "height or compression", "leave one out")
    whats = {each.what for each in found}
    if not notes.faults and (LOAD not in whats or not whats & {HEIGHT, SQUEEZED}):
        wanted = "a column of mass or force and one of height or compression"
        notes.fault(where, "another", wanted, LIKE)
    return None if notes.faults else Columns(columns=tuple(found), rows=rows)


def _column(
    what: str, unit: str, where: str, cells: list[str], notes: Notes, rows: list[str] | None = None
) -> Column | None:
    scale, inside = _scale(what, unit)
    if not scale:
        got = f'the unit "{unit}"' if unit else "no unit"
        notes.fault(where, f"{what} with {got}", SUCH[what], LIKE)
        return None
    values, step = [], 1.0
    for number, cell in enumerate(cells):
        found = _plain(cell)
        if found is None:
            at = f"{where}[{number + 1}]" if rows is None else rows[number]
            got = shown(cell) if cell else "an empty cell"
            notes.fault(at, got, f"a number under {what}", "type it anew, or drop the row")
            return None
        values.append(found[0] * scale)
        step = min(step, found[1])
    return Column(what=what, unit=inside, values=tuple(values), step=step * scale)


def _scale(what: str, unit: str) -> tuple[float, str]:
    """Return a unit in SI and the SI unit; 0 where it is none of this column."""
    if what == TIME:
        return TIMES.get(unit, 0.0), "s"
    for inside in UNITS[what]:
        try:
            return amount(f"1 {unit}", inside), inside
        except NotReadError:
            continue
    return 0.0, ""


def _plain(cell: str) -> tuple[float, float] | None:
    """Return a number and the step of its last digit; None for anything else."""
    match = _NUMBER.fullmatch(cell.strip().replace("−", "-"))
    if match is None:
        return None
    digits = len(match.group(1) or match.group(2) or "")
    power = int(match.group(3) or 0)
    return float(match.group(0)), 10.0 ** (power - digits)


def _tight(line: str) -> str:
    """Return a header with no blank before a unit in brackets."""
    return re.sub(r"\s+(?=[\[(])", "", line)


def _cells(line: str, separator: str | None) -> list[str]:
    return [cell.strip().strip('"').strip() for cell in line.split(separator)]


def _heads(cells: list[str]) -> list[tuple[str, str]]:
    """Return what each column is, "" for one nobody asked for, and its unit as typed."""
    found = []
    for cell in cells:
        match = _HEAD.fullmatch(cell.replace("_", " "))
        name = match.group(1).lower() if match else ""
        found.append((NAMES.get(name, ""), match.group(2) if match else ""))
    return found
