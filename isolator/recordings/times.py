"""A column of time as seconds from the first sample on: dates, epochs, and units told or not."""

from __future__ import annotations

import re
from collections.abc import Sequence

import numpy as np

from isolator.physics.arrays import Array
from isolator.reading.command_words import COMMAND_LINE
from isolator.reading.faults import InputError, refused
from isolator.reading.notes import shown
from isolator.recordings.cells import CLOCK, DATE, kind_of
from isolator.recordings.layout import told
from isolator.recordings.recording import Note
from isolator.recordings.units import TIMES, spelled

SLOWEST, FASTEST = 20.0, 8000.0
"""Rates [Hz] of accelerometers; a unit of time is told from the interval where only one fits."""
BY_SIZE = {"s": 1.0, "ms": 1e-3, "us": 1e-6, "ns": 1e-9}
EPOCHS = {"s": 1e9, "ms": 1e12, "us": 1e15, "ns": 1e18}
"""Times since 1970 are from this size on to four times of it (the years 2001 to 2096)."""
DAY = 86400.0
WRAPS = (2.0**16, 2.0**32)
"""Where counters turn over."""
A_DATE = "a date and time such as 2026-03-07T10:11:12.345"
_ZONE = re.compile(r"(Z|[+-]\d\d:?\d\d)$")


def seconds(
    file: str, cells: Sequence[str], lines: Sequence[int], unit: str, asked: str
) -> tuple[Array, tuple[Note, ...]]:
    """Return the time (n,) of each sample [s] from 0 on, and what was noted.

    `unit` is what the file says, empty where it does not; `asked` the option `--time-unit`, which
    goes before it. `lines` are those of the file. Raises InputError for what is no time.
    """
    if asked and spelled(asked) not in TIMES:
        advice = "write --time-unit ms"
        raise refused(COMMAND_LINE, "--time-unit", shown(asked), "s, ms, us or ns", advice)
    kind = kind_of(cells[0], comma=False)
    if kind == DATE:
        return _dates(file, cells, lines), ()
    if kind == CLOCK:
        return _time_of_day(file, cells, lines), ()
    first, values = _numbers(file, cells, lines)
    values, notes = _turned_over(values, first)
    if asked:
        return values * TIMES[spelled(asked)], notes
    if unit in TIMES:
        return values * TIMES[unit], notes
    name, known = _by_size(values, first)
    if not name:
        step = float(np.median(np.diff(values)))
        raise refused(
            file,
            "",
            f"times in steps of {step:.6g} without a unit",
            "the unit of time",
            "say it with --time-unit ms (or s, us, ns), or the rate with --rate 100",
        )
    guessed = () if known else (Note(f"time-unit-{name}"),)
    return values * BY_SIZE[name], (*notes, *guessed)


def _by_size(values: Array, first: float) -> tuple[str, bool]:
    """Return the unit of time and whether it is sure; empty where more than one fits, or none."""
    for name, least in EPOCHS.items():
        if least <= first < 4.0 * least:
            return name, True
    interval = float(values[-1]) / (len(values) - 1)
    if interval == 1.0 and np.all(values == np.round(values)):  # a counter, or ms at 1 kHz
        return "", False
    # the last stamp may be the first again: an interval of 0 has no rate
    least, most = 1.0 / FASTEST, 1.0 / SLOWEST
    fits = [name for name, size in BY_SIZE.items() if least <= interval * size <= most]
    return (fits[0], False) if len(fits) == 1 else ("", False)


def _numbers(file: str, cells: Sequence[str], lines: Sequence[int]) -> tuple[float, Array]:
    """Return the first cell as a number, and all from it on, whole ones to the last digit."""
    values: np.ndarray
    try:
        # an epoch in nanoseconds has more digits than a float
        values = np.array(cells).astype(np.int64 if "".join(cells[:9]).isdigit() else np.float64)
    except (ValueError, OverflowError):
        values = np.array([_number(file, cell, n) for cell, n in zip(cells, lines, strict=True)])
    endless = np.flatnonzero(~np.isfinite(values))
    if len(endless):
        raise _bad(file, lines[endless[0]], cells[endless[0]], "a time")
    return float(values[0]), (values - values[0]).astype(np.float64)


def _number(file: str, cell: str, line: int) -> float:
    try:
        return float(cell)
    except ValueError:
        raise _bad(file, line, cell, "a time") from None


def _bad(file: str, line: int, cell: str, wanted: str) -> InputError:
    return refused(file, f"line {line}", told(cell), wanted, "mend or delete this line")


def _turned_over(values: Array, first: float) -> tuple[Array, tuple[Note, ...]]:
    """Return times of a counter that turned over as if it had not, and a note of it."""
    back = np.diff(values)
    for most in WRAPS:
        over = back < -0.9 * most
        if over.any() and float(np.max(values)) + first < most:
            turns = np.concatenate(([0.0], np.cumsum(over)))
            return values + most * turns, (Note("counter-turned-over", float(over.sum())),)
    return values, ()


def _dates(file: str, cells: Sequence[str], lines: Sequence[int]) -> Array:
    for cell, line in zip(cells, lines, strict=True):
        if kind_of(cell, comma=False) != DATE:
            raise _bad(file, line, cell, A_DATE)
    zones = {found.group() if (found := _ZONE.search(cell[10:])) else "" for cell in cells}
    if len(zones) > 1:
        raise refused(
            file,
            "",
            f"times of {len(zones)} time zones",
            "one zone in a recording",
            "cut the file where the clock was changed",
        )
    stamps = [_iso(cell) for cell in cells]
    try:
        times = np.array(stamps, dtype="datetime64[ns]")
    except ValueError:
        for stamp, cell, line in zip(stamps, cells, lines, strict=True):
            try:
                np.datetime64(stamp)
            except ValueError:
                raise _bad(file, line, cell, A_DATE) from None
        raise
    return np.asarray((times - times[0]) / np.timedelta64(1, "ns")) * 1e-9


def _iso(cell: str) -> str:
    return cell[:10] + _ZONE.sub("", cell[10:]).replace(",", ".").replace(" ", "T")


def _time_of_day(file: str, cells: Sequence[str], lines: Sequence[int]) -> Array:
    found = []
    for cell, line in zip(cells, lines, strict=True):
        if kind_of(cell, comma=False) != CLOCK:
            raise _bad(file, line, cell, "a time of day such as 10:11:12.345")
        hours, minutes, secs = cell.replace(",", ".").split(":")
        found.append(int(hours) * 3600.0 + int(minutes) * 60.0 + float(secs))
    values = np.array(found)
    midnights = np.concatenate(([0.0], np.cumsum(np.diff(values) < -DAY / 2)))
    return np.asarray(values + DAY * midnights)
