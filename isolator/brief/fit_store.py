"""Putting readings of the fit coupon into a brief, everything else in it left as it was typed."""

from __future__ import annotations

import os
import tempfile
import tomllib
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from isolator.reading.faults import InputError, refused
from isolator.reading.notes import printable

TABLE = "fit"
BOM = b"\xef\xbb\xbf"


def store_readings(path: Path, readings: Mapping[str, str]) -> None:
    """Write `readings` ("3.21 mm" by letter) into the brief's [fit]; other letters there stay.

    Comments, order, line ends and a byte order mark are kept; the file is replaced in one step,
    what a link points to rather than the link. Raises InputError where the file may not be written
    or holds [fit] in a way that cannot be edited; it is untouched then.
    """
    real = Path(os.path.realpath(path))
    try:
        raw, mode = real.read_bytes(), real.stat().st_mode
        if not mode & 0o222 or not os.access(real, os.W_OK):
            raise _unwritable(path, "a file that may only be read", readings)
        mark, body = (BOM, raw[len(BOM) :]) if raw.startswith(BOM) else (b"", raw)
        text = with_readings(body.decode("utf-8"), readings)
        if text is None:
            raise _unwritable(path, "a [fit] that cannot be added to", readings)
        _replace(real, mark + text.encode("utf-8"), mode)
    except OSError as error:
        reason = (error.strerror or "an error of the disk").lower()
        raise _unwritable(path, reason, readings) from None


def with_readings(text: str, readings: Mapping[str, str]) -> str | None:
    """Return a brief's text with `readings` in [fit]; None where that cannot be done safely."""
    windows = "\r\n" in text and text.count("\r\n") == text.count("\n")
    plain = text.replace("\r\n", "\n") if windows else text
    try:
        edited = _edited(plain, readings)
        wanted, got = tomllib.loads(plain), tomllib.loads(edited)
    except Exception:  # the library raises a dozen kinds, all of them: it cannot edit this
        return None
    wanted[TABLE] = {**wanted.get(TABLE, {}), **readings}
    if got != wanted:
        return None
    return edited.replace("\n", "\r\n") if windows else edited


def _edited(text: str, readings: Mapping[str, str]) -> str:
    import tomlkit  # some 30 ms: loaded when first needed

    document = tomlkit.parse(text)
    if TABLE not in document:
        document[TABLE] = tomlkit.table()
    table: Any = document[TABLE]
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


def _replace(path: Path, content: bytes, mode: int) -> None:
    number, name = tempfile.mkstemp(prefix=f".{path.name}-", dir=path.parent)
    try:
        with os.fdopen(number, "wb") as stream:
            stream.write(content)
            stream.flush()
            os.fsync(stream.fileno())
        os.chmod(name, mode & 0o7777)
        os.replace(name, path)
    except BaseException:
        Path(name).unlink(missing_ok=True)
        raise


def _unwritable(path: Path, got: str, readings: Mapping[str, str]) -> InputError:
    lines = ", ".join(f'{letter} = "{value}"' for letter, value in readings.items())
    return refused(
        printable(str(path)),
        TABLE,
        got,
        "a brief that readings can be stored in",
        f"make it writable, or add these under [fit] by hand: {lines}",
    )
