"""Putting readings of the fit coupon into a brief, everything else in it left as it was typed."""

from __future__ import annotations

import glob
import os
import tempfile
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from isolator.brief.locked import locked
from isolator.design.coupon import BY_LETTER
from isolator.reading.faults import InputError, refused
from isolator.reading.files import parse_toml
from isolator.reading.printable import printable

TABLE = "fit"
BOM = b"\xef\xbb\xbf"
LEFTOVER = ".isolator-tmp"


def store_readings(
    path: Path, readings: Mapping[str, str], filament: str | None = None, usual: str = ""
) -> None:
    """Write `readings` ("3.21 mm" by letter) into the brief's [fit]; other letters there stay.

    With a `filament` they go where its readings are: into [fit] itself where that is told to be
    of it, or tells none and is empty or the `usual` one's; else into a table of its own in [fit].

    Comments, order, line ends, a byte order mark, owner, group and mode are kept; the file is
    replaced in one step, what a link points to rather than the link. Runs at the same time wait
    for each other, and what an editor saved meanwhile is read again. Raises InputError where the
    file may not be written or holds [fit] in a way that cannot be edited; it is untouched then.
    """
    real = Path(os.path.realpath(path))
    try:
        with locked(real.parent) as alone:
            if alone:
                _clear_leftovers(real)
            while not _stored(path, real, readings, filament, usual):
                pass
    except OSError as error:
        reason = (error.strerror or "an error of the disk").lower()
        raise _unwritable(path, reason, readings) from None


def _stored(
    path: Path, real: Path, readings: Mapping[str, str], filament: str | None, usual: str
) -> bool:
    """Store the readings; False where somebody else wrote the file since it was read."""
    raw, there = real.read_bytes(), real.stat()
    if not there.st_mode & 0o222 or not os.access(real, os.W_OK):
        raise _unwritable(path, "a file that may only be read", readings)
    mark, body = (BOM, raw[len(BOM) :]) if raw.startswith(BOM) else (b"", raw)
    text = with_readings(body.decode("utf-8"), readings, filament, usual)
    if text is None:
        raise _unwritable(path, "a [fit] that cannot be added to", readings)
    return _replace(real, raw, mark + text.encode("utf-8"), there)


def with_readings(
    text: str, readings: Mapping[str, str], filament: str | None = None, usual: str = ""
) -> str | None:
    """Return a brief's text with `readings` in [fit]; None where that cannot be done safely."""
    windows = "\r\n" in text and text.count("\r\n") == text.count("\n")
    plain = text.replace("\r\n", "\n") if windows else text
    try:
        wanted = parse_toml(plain)
        told: Mapping[str, Any] = wanted.get(TABLE, {})
        within = _within(told, filament, usual)
        if filament is not None and within is None and "filament" not in told:
            readings = {"filament": filament, **readings}
        edited = _edited(plain, readings, within)
        got = parse_toml(edited)
    except Exception:  # the library raises a dozen kinds, all of them: it cannot edit this
        return None
    own = {**wanted.get(TABLE, {})}
    if within is None:
        own |= readings
    else:
        own[within] = {**own.get(within, {}), **readings}
    wanted[TABLE] = own
    if got != wanted:
        return None
    return edited.replace("\n", "\r\n") if windows else edited


def _within(told: Mapping[str, Any], filament: str | None, usual: str) -> str | None:
    """Return the table inside [fit] that readings in a filament go into, None for [fit] itself."""
    if filament is None or told.get("filament") == filament:
        return None
    untold = "filament" not in told
    empty = not any(letter in told for letter in BY_LETTER)
    return None if untold and (empty or filament == usual) else filament


def _edited(text: str, readings: Mapping[str, str], within: str | None) -> str:
    import tomlkit  # some 30 ms: loaded when first needed

    document = tomlkit.parse(text)
    if TABLE not in document:
        document[TABLE] = tomlkit.table()
    table: Any = document[TABLE]
    if within is not None:
        if within not in table:
            table[within] = tomlkit.table()
        table = table[within]
    fresh = sum(letter not in table for letter in readings)
    for letter, value in readings.items():
        table[letter] = value  # one that is there keeps its place and comment
    if isinstance(table, tomlkit.items.Table):
        _before_the_next_head(table.value.body, fresh)
    return tomlkit.dumps(document)


def _before_the_next_head(body: list[Any], fresh: int) -> None:
    """Move the last `fresh` entries up to where the table's own lines end.

    A comment after a blank line heads the next table, and must stay with it.
    """
    old, new = body[: len(body) - fresh], body[len(body) - fresh :]
    end = len(old)
    while end > 0 and old[end - 1][0] is None:
        end -= 1
    # a comment right below the last reading is the reading's
    while end < len(old) and old[end][1].as_string().strip():
        end += 1
    body[:] = old[:end] + new + old[end:]


def _replace(path: Path, before: bytes, content: bytes, there: os.stat_result) -> bool:
    """Put `content` in the place of `before`; False, and nothing done, where that has changed."""
    number, name = tempfile.mkstemp(prefix=f".{path.name}-", suffix=LEFTOVER, dir=path.parent)
    try:
        with os.fdopen(number, "wb") as stream:
            stream.write(content)
            stream.flush()
            os.fsync(stream.fileno())
        owned = _give(Path(name), there)
        if path.read_bytes() != before:
            return False
        if owned:
            os.replace(name, path)
        else:  # a new file would be another's: write into the one that is there
            path.write_bytes(content)
        return True
    finally:
        Path(name).unlink(missing_ok=True)


def _give(file: Path, there: os.stat_result) -> bool:
    """Give `file` owner, group and mode of what it replaces; return whether that could be done."""
    made = file.stat()
    if (made.st_uid, made.st_gid) != (there.st_uid, there.st_gid):
        try:
            os.chown(file, there.st_uid, there.st_gid)
        except OSError:
            return False
    file.chmod(there.st_mode & 0o7777)  # last: a change of owner clears bits of the mode
    return True


def _clear_leftovers(path: Path) -> None:
    """Remove what a run that was killed left beside the brief."""
    for file in path.parent.glob(f".{glob.escape(path.name)}-*{LEFTOVER}"):
        file.unlink(missing_ok=True)


def _unwritable(path: Path, got: str, readings: Mapping[str, str]) -> InputError:
    lines = ", ".join(f'{letter} = "{value}"' for letter, value in readings.items())
    return refused(
        printable(str(path)),
        TABLE,
        got,
        "a brief that readings can be stored in",
        f"make it writable, or add these under [fit] by hand: {lines}",
    )
