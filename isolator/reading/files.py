"""Text files of the user's: plain files alone, never more of one than can be meant, TOML parsed."""

from __future__ import annotations

import os
import stat
import tomllib
from pathlib import Path
from typing import Any

from isolator.reading.printable import printable

NO_TOML = "a line that is no TOML: "
MOST_DOTS = 250
"""In one line. The TOML reader's memory grows with the square of a dotted key's parts."""


class UnreadableError(Exception):
    """A file that cannot be read: what was `got`, of which `kind` that is, and the line if any."""

    def __init__(self, kind: str, got: str, line: int = 0) -> None:
        self.kind, self.got, self.line = kind, got, line
        super().__init__(got)


def read_file(path: Path, most: int) -> str:
    """Return the text of a file of at most `most` bytes, whatever its size is said to be.

    Raises UnreadableError; its kind is "missing", "folder", "special" (a pipe, a device), "system"
    (any other error), "large" or "bytes".
    """
    raw = _read_bytes(path, most)
    if len(raw) > most:
        told = f"{most // 1_000_000} MB" if most >= 1_000_000 else f"{most // 1_000} kB"
        raise UnreadableError("large", f"more than {told}")
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = raw[: error.start].count(b"\n") + 1
        raise UnreadableError("bytes", "bytes that are no text", line) from None


def _read_bytes(path: Path, most: int) -> bytes:
    try:
        # a pipe that nobody writes to would keep an ordinary open waiting
        patient = getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0)
        number = os.open(path, os.O_RDONLY | patient)
        with os.fdopen(number, "rb") as stream:
            mode = os.fstat(number).st_mode
            if stat.S_ISDIR(mode):
                raise UnreadableError("folder", "a folder")
            if not stat.S_ISREG(mode):
                raise UnreadableError("special", "a pipe or a device")
            return stream.read(most + 1)
    except FileNotFoundError:
        raise UnreadableError("missing", "no such file") from None
    except IsADirectoryError:
        raise UnreadableError("folder", "a folder") from None
    except (OSError, ValueError) as error:  # a null byte in the path
        reason = error.strerror if isinstance(error, OSError) and error.strerror else "no path"
        raise UnreadableError("system", reason.lower()) from None


def parse_toml(text: str) -> dict[str, Any]:
    """Return the document; raises UnreadableError of kind "toml", "twice", "dots",
    "deep" or "digits"."""
    if max(line.count(".") for line in text.split("\n")) > MOST_DOTS:
        raise UnreadableError("dots", f"a line of more than {MOST_DOTS} dots")
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        kind = "twice" if "twice" in str(error) else "toml"
        raise UnreadableError(kind, f"{NO_TOML}{printable(str(error))}") from None
    except RecursionError:
        raise UnreadableError("deep", "brackets nested too deep") from None
    except ValueError:  # from the digit limit of int()
        raise UnreadableError("digits", "a number of thousands of digits") from None
