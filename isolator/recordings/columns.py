"""Which column of a file is time and which are accelerations, by name, by order, or as told."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from isolator.physics.arrays import Array
from isolator.reading.command_words import COMMAND_LINE
from isolator.reading.faults import InputError, refused
from isolator.reading.notes import shown
from isolator.recordings.text_table import TextTable
from isolator.recordings.units import OTHERS, split_name

AXES = ("x", "y", "z")
MOST = 8
"""Channels that are read of one file."""
TIME_WORDS = {
    *("time", "t", "timestamp", "stamp", "zeit", "epoch", "unix", "elapsed", "clock", "datetime"),
    *("seconds", "sec", "ms", "millis", "us", "micros", "ns", "nanos", "uptime", "date"),
}
OTHER_WORDS = {
    *("gyro", "gyroscope", "rot", "rotation", "omega", "angular", "mag", "magnetic", "gravity"),
    *("magnetometer", "temp", "temperature", "abs", "absolute", "total", "norm", "magnitude"),
    *("sample", "index", "no", "nr", "count", "counter", "id", "accuracy", "quaternion", "roll"),
    *("pitch", "yaw", "humidity", "pressure", "battery", "gx", "gy", "gz", "mx", "my", "mz", "w"),
}
"""Words in the names of columns that are no acceleration."""
_STUCK = re.compile(r"(?:acc|accel|acceleration|lin|linacc|a|user|g?f)([xyz])|([xyz])acc(?:el)?")


@dataclass(frozen=True, slots=True, kw_only=True)
class Columns:
    """Where in the file everything stands, columns counted from 0."""

    time: int | None
    channels: tuple[int, ...]
    names: tuple[str, ...]  # of the channels
    by_order: bool  # taken as they stand, as the file names nothing


def find_columns(file: str, table: TextTable, asked: str) -> Columns:
    """Return which columns are what; `asked` is the option `--columns`, empty where not given.

    Raises InputError where it cannot be told, or what is asked for is not there.
    """
    if asked:
        return _as_asked(file, table, asked)
    return _by_name(file, table) if table.names else _by_order(file, table)


def _words(name: str) -> list[str]:
    parted = re.sub(r"([a-z])([A-Z])", r"\1 \2", name)
    return re.findall(r"[a-zµ]+", parted.casefold())


def axis_of(name: str) -> str:
    """Return the axis that a column's name tells; empty where it tells none.

    >>> [axis_of(name) for name in ("accX", "Acceleration y (g)", "az", "gyro_x", "time")]
    ['x', 'y', 'z', '', '']
    """
    words = _words(split_name(name)[0])
    if OTHER_WORDS.intersection(words):
        return ""
    for word in reversed(words):
        stuck = _STUCK.fullmatch(word)
        if word in AXES:
            return word
        if stuck:
            return stuck[1] or stuck[2]
    return ""


def _by_name(file: str, table: TextTable) -> Columns:
    units = table.units or tuple(split_name(name)[1] for name in table.names)
    numeric = sorted(table.numeric)
    times = [at for at in numeric if _is_time(table.names[at])]
    rest = [
        at
        for at in numeric
        if at not in times
        and not OTHER_WORDS.intersection(_words(split_name(table.names[at])[0]))
        and not OTHERS.fullmatch(units[at])
    ]
    axes: dict[str, list[int]] = {}
    for at in rest:
        axes.setdefault(axis_of(table.names[at]), []).append(at)
    others = axes.pop("", [])
    if any(len(places) > 1 for places in axes.values()):
        axes = {axis: _likeliest(table, places) for axis, places in axes.items()}
    twice = next((axis for axis, places in axes.items() if len(places) > 1), "")
    if twice:
        names = " and ".join(shown(table.names[at]) for at in axes[twice][:2])
        raise refused(
            file,
            "",
            f"two columns for {twice}, {names}",
            "one column an axis",
            f'say which ones, such as --columns "t={_name(table, times)},'
            f'{twice}={table.names[axes[twice][0]]}"',
        )
    if axes:
        found = sorted((places[0], axis) for axis, places in axes.items())
        channels, names_found = tuple(at for at, _ in found), tuple(axis for _, axis in found)
    else:
        channels = tuple(others[:MOST])
        names_found = tuple(table.names[at] or f"column {at + 1}" for at in channels)
    if not channels:
        known = ", ".join(shown(name) for name in table.names[:MOST])
        empty = [n for at, n in enumerate(table.names) if axis_of(n) and at not in table.numeric]
        if empty:
            got = f"no numbers under {', '.join(shown(name) for name in empty[:MOST])}"
            raise refused(file, "", got, "readings", "check the sensor, and record again")
        raise refused(
            file,
            "",
            f"columns {known}",
            "one of acceleration at least",
            'say which it is, such as --columns "t=1,x=2"',
        )
    return Columns(time=_finest(table, times), channels=channels, names=names_found, by_order=False)


def _name(table: TextTable, times: Sequence[int]) -> str:
    return table.names[times[0]] if times else "1"


def _likeliest(table: TextTable, places: list[int]) -> list[int]:
    """Return those of several columns for one axis whose names speak of acceleration, else all."""
    named = [at for at in places if any("acc" in word for word in _words(table.names[at]))]
    return named or places


def _is_time(name: str) -> bool:
    words = _words(split_name(name)[0])
    return bool(TIME_WORDS.intersection(words)) and not {"x", "y", "z"}.intersection(words)


def _finest(table: TextTable, times: Sequence[int]) -> int | None:
    """Return the column of time that tells most instants apart; None where there is none."""
    return max(times, key=lambda at: len(set(table.columns[at])), default=None)


def _by_order(file: str, table: TextTable) -> Columns:
    """Return the first rising column as time, and those after it as they stand."""
    numeric = sorted(table.numeric)
    rising = [at for at in numeric if _rises(table.columns[at])]
    counted = [at for at in rising if _counts(table.columns[at])]
    times = [at for at in rising if at not in counted] or counted
    time = _finest(table, times)
    rest = tuple(at for at in numeric if at not in rising)
    if not rest:
        raise refused(
            file,
            "",
            "columns without names, none of which looks like a vibration",
            "one of acceleration at least",
            'say which is which, such as --columns "t,x,y,z"',
        )
    if len(rest) > len(AXES):
        raise refused(
            file,
            "",
            f"{len(rest)} columns without names",
            "time and up to three of acceleration",
            'say which is which, with "-" for those to pass over, such as --columns "t,-,x,y,z"',
        )
    names = AXES[: len(rest)] if len(rest) > 1 else ("x",)
    return Columns(time=time, channels=rest, names=names, by_order=True)


def _numbers(cells: Sequence[str]) -> Array:
    try:
        return np.array(cells).astype(float)
    except ValueError:  # dates, or places left empty
        return np.empty(0)


def _rises(cells: Sequence[str]) -> bool:
    values = _numbers(cells)
    if not len(values):
        return ":" in cells[0] or cells[0].count("-") == 2
    steps = np.diff(values)
    # a clock may turn over once or twice, a vibration goes back half the time
    return bool(np.mean(steps >= 0.0) > 0.97 and np.mean(steps > 0.0) > 0.02)


def _counts(cells: Sequence[str]) -> bool:
    values = _numbers(cells)
    return bool(len(values) and np.all(np.diff(values) == 1.0))


def _as_asked(file: str, table: TextTable, asked: str) -> Columns:
    words = [word.strip() for word in asked.split(",")]
    width = len(table.columns)
    time: int | None = None
    channels: list[tuple[int, str]] = []
    for place, word in enumerate(words):
        role, named, where = (part.strip() for part in word.partition("="))
        at = _place(file, table, where) if named else place
        if role in ("", "-"):
            continue
        if at >= width:
            raise _refuse_columns(asked, f"at most {width} names, one a column of {file}")
        if at not in table.numeric:
            raise _refuse_columns(asked, f"columns of numbers: column {at + 1} holds words")
        if role in ("t", "time"):
            time = at
        else:
            channels.append((at, role))
    names = [name for _, name in channels]
    if not channels or len(set(names)) < len(names):
        raise _refuse_columns(asked, "one name at least beside t, each name once")
    return Columns(
        time=time,
        channels=tuple(at for at, _ in channels[:MOST]),
        names=tuple(names[:MOST]),
        by_order=False,
    )


def _place(file: str, table: TextTable, where: str) -> int:
    """Return the column that a name or a number from 1 on means."""
    for at, name in enumerate(table.names):
        if where.casefold() in (name.casefold(), split_name(name)[0].casefold()):
            return at
    if where.isdigit() and 1 <= int(where) <= len(table.columns):
        return int(where) - 1
    known = ", ".join(shown(name) for name in table.names[:MOST]) or "none with a name"
    raise refused(
        file,
        "",
        f"columns {known}, and no {shown(where)}",
        "the column that --columns names",
        f"take one of them, or its number from 1 to {len(table.columns)}",
    )


def _refuse_columns(asked: str, wanted: str) -> InputError:
    advice = 'write it in the file\'s order like "t,x,y,z", or by name like "t=time,x=ax"'
    return refused(COMMAND_LINE, "--columns", shown(asked), wanted, advice)
