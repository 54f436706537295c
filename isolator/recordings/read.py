"""A recording read from a file, whatever its shape."""

from __future__ import annotations

import stat
from itertools import compress
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from isolator.physics.arrays import Array
from isolator.reading.faults import refused
from isolator.reading.files import UnreadableError, read_file
from isolator.reading.printable import printable
from isolator.recordings.cells import EMPTY, kind_of
from isolator.recordings.clock import read_clock
from isolator.recordings.columns import Columns, find_columns
from isolator.recordings.layout import told
from isolator.recordings.options import ReadOptions
from isolator.recordings.recording import COUNTS, Note, Recording
from isolator.recordings.repeats import repeated
from isolator.recordings.scale import asked_scale, find_scale
from isolator.recordings.sound_file import MAGIC, read_sound
from isolator.recordings.text_table import FEWEST, TextTable, read_table
from isolator.recordings.times import seconds
from isolator.recordings.units import spelled, split_name
from isolator.recordings.verdict import judge

MOST_BYTES = 200_000_000
MEND = "mend or delete this line"
WANTED = "a recording as CSV or WAV"
FOREIGN = {
    b"PK\x03\x04": ("a zip file or a spreadsheet", "unpack it, or save the sheet as CSV"),
    b"ID3": ("compressed sound", "save it as WAV"),
    b"OggS": ("compressed sound", "save it as WAV"),
    b"fLaC": ("compressed sound", "save it as WAV"),
    b"\x1f\x8b": ("a packed file", "unpack it"),
    b"\x89PNG": ("a picture", "name the recording"),
    b"\xff\xd8\xff": ("a picture", "name the recording"),
    b"%PDF": ("a PDF file", "export the numbers as CSV"),
}
"""Files of other kinds by how they begin."""
ADVICE = {
    "missing": "check its name",
    "folder": "name a file in it",
    "special": "save it into a file first",
    "large": "cut it, or record for less time",
    "bytes": "save it as CSV in UTF-8",
}


def read_recording(path: Path, options: ReadOptions | None = None) -> Recording:
    """Return what a file of an accelerometer or a sound recorder says, with the verdict on it.

    Raises InputError for a file that cannot be read, and for what the file does not tell and no
    option says; the message names the option.
    """
    options = options or ReadOptions()
    file = printable(str(path))
    head = _head(path)
    if head.startswith(MAGIC):
        return read_sound(path, options)
    for magic, (got, advice) in FOREIGN.items():
        if head.startswith(magic) or (magic == b"ID3" and head[4:8] == b"ftyp"):
            raise refused(file, "", got, WANTED, advice)
    return _from_text(file, _text(path, file), options)


def _head(path: Path) -> bytes:
    try:
        if not stat.S_ISREG(path.stat().st_mode):
            return b""
        with path.open("rb") as stream:
            return stream.read(12)
    except (OSError, ValueError):
        return b""  # told when the text is read


def _text(path: Path, file: str) -> str:
    try:
        return read_file(path, MOST_BYTES)
    except UnreadableError as error:
        got = error.got
        if error.kind == "bytes":
            try:
                return _other_code(path)
            except UnicodeError:
                pass
        raise refused(file, "", got, WANTED, ADVICE.get(error.kind, "check the file")) from None


def _other_code(path: Path) -> str:
    """Return the text of a file that is not UTF-8; raises UnicodeError where it is no text."""
    raw = path.read_bytes()
    if raw.startswith((b"\xff\xfe", b"\xfe\xff")):
        return raw.decode("utf-16")
    if b"\0" in raw:
        raise UnicodeError
    return raw.decode("cp1252")


def _from_text(file: str, text: str, options: ReadOptions) -> Recording:
    table = read_table(file, text)
    columns = find_columns(file, table, options.columns)
    notes = [Note("last-line-cut")] if table.cut else []
    if columns.by_order:
        notes.append(Note("columns-by-order"))
    samples, full = _samples(file, table, columns)
    if not full.all():
        notes.append(Note("empty", float(np.count_nonzero(~full))))
    stamps, noted = _stamps(file, table, columns.time, full, options)
    new = ~repeated(samples, stamps)
    samples, stamps = samples[new], stamps[new]
    if len(samples) < FEWEST:
        got = f"{len(new)} samples of which all but {len(samples)} repeat the one before"
        raise refused(file, "", got, f"at least {FEWEST}", "check that the sensor was running")
    lines = list(compress(compress(table.lines, full), new))
    clock = read_clock(file, stamps, lines)
    samples = samples[clock.order]
    units = [_unit(table, at) for at in columns.channels]
    scale = asked_scale(options.unit, COUNTS) if options.unit else find_scale(units, samples)
    samples = samples * scale.factor
    notes += [*noted, *clock.notes, *scale.notes]
    return Recording(
        clock=clock.time,
        samples=samples,
        channels=columns.names,
        unit=scale.unit,
        calibrated=scale.calibrated,
        verdict=judge(clock, samples, int(np.count_nonzero(~new)), tuple(notes)),
    )


def _samples(file: str, table: TextTable, columns: Columns) -> tuple[Array, NDArray[np.bool_]]:
    """Return the samples (n, k) of rows that have them all, and which rows those are."""
    found = np.column_stack([_numbers(file, table, at) for at in columns.channels])
    full = np.asarray(~np.isnan(found).any(axis=1))
    if columns.time is not None:
        full &= np.array([bool(cell) for cell in table.columns[columns.time]])
    if np.count_nonzero(full) < FEWEST:
        got = f"{np.count_nonzero(full)} lines with a reading in every column"
        advice = "name fewer columns with --columns, or export one sensor alone"
        raise refused(file, "", got, f"at least {FEWEST}", advice)
    return found[full], full


def _numbers(file: str, table: TextTable, at: int) -> Array:
    """Return a column as floats; NaN where a place is empty."""
    cells = table.columns[at]
    try:
        found = np.array(cells).astype(float)
    except ValueError:
        found = np.array(
            [_number(file, cell, n) for cell, n in zip(cells, table.lines, strict=True)]
        )
    endless = np.flatnonzero(np.isinf(found))
    if len(endless):
        line = table.lines[endless[0]]
        raise refused(file, f"line {line}", "an endless number", "a reading", MEND)
    return found


def _number(file: str, cell: str, line: int) -> float:
    if kind_of(cell, comma=False) == EMPTY:
        return float("nan")
    try:
        return float(cell)
    except ValueError:
        raise refused(file, f"line {line}", told(cell), "a number", MEND) from None


def _stamps(
    file: str,
    table: TextTable,
    at: int | None,
    full: NDArray[np.bool_],
    options: ReadOptions,
) -> tuple[Array, tuple[Note, ...]]:
    """Return the times [s] of the rows that are full, and what was noted."""
    if options.rate is not None:
        return np.flatnonzero(full) / options.rate, ()
    if at is None:
        wanted = "time, or the rate of evenly spaced samples"
        advice = "say it with --rate 100, or name the column with --columns"
        raise refused(file, "", "no column of time", wanted, advice)
    cells = list(compress(table.columns[at], full))
    lines = list(compress(table.lines, full))
    return seconds(file, cells, lines, _unit(table, at), options.time_unit)


def _unit(table: TextTable, at: int) -> str:
    """Return the unit that the header tells for a column; empty where it tells none."""
    if table.units:
        return spelled(table.units[at])
    return split_name(table.names[at])[1] if table.names else ""
