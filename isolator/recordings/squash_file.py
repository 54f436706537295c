"""The file of a squash test: readings in CSV with a specimen by options, or both in one TOML."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np

from isolator.physics.arrays import Array
from isolator.physics.bodies.statics import G
from isolator.reading.command_words import COMMAND_LINE
from isolator.reading.faults import InputError, refused
from isolator.reading.files import UnreadableError, parse_toml, read_file
from isolator.reading.notes import Notes, shown
from isolator.reading.printable import printable
from isolator.recordings.specimen import Specimen, read_specimen
from isolator.recordings.squash_table import (
    HEIGHT,
    LOAD,
    SQUEEZED,
    TIME,
    Columns,
    read_lists,
    read_table,
)

LARGEST_FILE = 1_000_000
WANTED = "readings of a squash test, CSV or TOML"


@dataclass(frozen=True, slots=True, kw_only=True)
class Readings:
    """What was read, in the order of the file; arrays (n,)."""

    force: Array  # [N]
    place: Array  # height or compression [m]
    height: bool  # whether `place` is the height
    time: Array | None  # [s]
    rows: tuple[str, ...]  # where each stands in the file
    force_step: float  # of the last digit [N]
    place_step: float  # [m]
    file: str


def read_squash(path: Path, options: Mapping[str, Any]) -> tuple[Specimen, Readings]:
    """Return specimen and readings; raises InputError with every fault.

    `options` are keys of [specimen] as typed; they go before those of the file.
    """
    file = printable(str(path))
    try:
        text = read_file(path, LARGEST_FILE)
    except UnreadableError as error:
        at = f"line {error.line}" if error.line else ""
        raise refused(file, at, error.got, WANTED, "check the path") from None
    notes, own = Notes(file), Notes(COMMAND_LINE)
    if path.suffix.lower() == ".toml":
        columns, specimen = _from_toml(text, options, notes)
    else:
        specimen = read_specimen(options, own, options=True)
        columns = read_table(text, notes)
    if notes.faults or own.faults or columns is None or specimen is None:
        raise InputError([*own.faults, *notes.faults])
    return specimen, _readings(columns, specimen, file)


def _from_toml(
    text: str, options: Mapping[str, Any], notes: Notes
) -> tuple[Columns | None, Specimen | None]:
    try:
        document = parse_toml(text)
    except UnreadableError as error:
        notes.fault("", error.got, WANTED, "mend it, or save the readings as CSV")
        return None, None
    for key in document:
        if key not in ("specimen", "readings"):
            notes.fault(
                shown(key).strip('"'), "an unknown key", "[specimen] or [readings]", "drop it"
            )
    tables = []
    for name in ("specimen", "readings"):
        raw = document.get(name, {})
        if not isinstance(raw, dict):
            notes.fault(name, shown(raw), "a table", f"write it under [{name}]")
            raw = {}
        tables.append(raw)
    specimen = read_specimen({**tables[0], **options}, notes, options=False)
    lists = Notes(notes.file)
    columns = read_lists(tables[1], "readings", lists)
    notes.faults += lists.faults
    return columns, specimen


def _readings(columns: Columns, specimen: Specimen, file: str) -> Readings:
    load, place = columns.find(LOAD), columns.find(HEIGHT, SQUEEZED)
    assert load is not None
    assert place is not None
    weight = G if load.unit == "kg" else 1.0
    time = columns.find(TIME)
    step = load.step * weight
    if specimen.scale_step is not None:
        step = specimen.scale_step * G
    return Readings(
        force=weight * np.array(load.values),
        place=np.array(place.values),
        height=place.what == HEIGHT,
        time=None if time is None else np.array(time.values),
        rows=columns.rows,
        force_step=step,
        place_step=place.step if specimen.gauge_step is None else specimen.gauge_step,
        file=file,
    )
