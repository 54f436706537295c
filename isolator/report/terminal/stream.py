"""Standard output and error: no letter fails, and a stream that takes nothing says so."""

from __future__ import annotations

import codecs
import errno
import io
import os
import sys
import unicodedata
from collections.abc import Callable
from contextlib import suppress
from typing import Any, BinaryIO, TextIO

PLAIN = {
    "Ω": "ohm",
    "−": "-",
    "–": "-",
    "—": "-",
    "×": "x",
    "·": "*",
    "°": "deg ",
    "≤": "<=",
    "≥": ">=",
    "±": "+-",
    "≈": "about ",
    "→": "->",
    "…": "...",
    "√": "sqrt ",
    "µ": "u",
    "μ": "u",
    "π": "pi",
    "φ": "phi",
    "‘": "'",
    "’": "'",
    "“": '"',
    "”": '"',
    "•": "*",
    "─": "-",
    "━": "=",
    "│": "|",
    "½": "1/2",
    "÷": "/",
    "″": '"',
    "▲": "^",
    "●": "o",
    "■": "#",
    "✓": "ok",
    "✗": "x",
    "ω": "omega",
    "Σ": "sum",
    "⋅": "*",
    "ß": "ss",
    "æ": "ae",
    "ø": "o",
    "ł": "l",
}
"""What is written for a letter that a terminal does not have."""
HANDLER = "isolator-plain"


class PrintError(Exception):
    """A standard stream takes nothing: its disk is full, it is closed, or its reader went away."""


def plain(text: str) -> str:
    """Return `text` in ASCII: by the table, else without accents, else a question mark.

    >>> plain("4 Ω ± 2 %, é, 机")
    '4 ohm +- 2 %, e, ?'
    """
    return "".join(_plain(sign) for sign in text)


def _plain(sign: str) -> str:
    if sign in PLAIN:
        return PLAIN[sign]
    if sign.isascii():
        return sign
    found = unicodedata.normalize("NFKD", sign).encode("ascii", "ignore").decode("ascii")
    return found or "?"


def _replaced(error: UnicodeError) -> tuple[str, int]:
    if not isinstance(error, UnicodeEncodeError):
        raise error
    return plain(error.object[error.start : error.end]), error.end


codecs.register_error(HANDLER, _replaced)


class Stream(io.TextIOWrapper):
    """A standard stream that never fails for a letter; what it cannot write is `PrintError`."""

    def write(self, text: str) -> int:
        """Write `text`."""
        written: int = self._tried(lambda: super(Stream, self).write(text))
        return written

    def flush(self) -> None:
        """Hand on what was written."""
        self._tried(super().flush)

    def _tried(self, do: Callable[[], Any]) -> Any:
        try:
            return do()
        except OSError as error:
            got = "closed" if error.errno == errno.EBADF else error.strerror
            raise PrintError((got or "an error of the disk").lower()) from None


def open_streams() -> None:
    """Put such streams in the place of standard output and error.

    A stream that is closed gets a stand-in that refuses to be written to, so that no file of ours
    takes its number.
    """
    for number, name in ((1, "stdout"), (2, "stderr")):
        there = getattr(sys, name)
        if there is None:
            setattr(sys, name, Stream(_closed(number), encoding="utf-8", errors=HANDLER))
        elif isinstance(there, io.TextIOWrapper) and not isinstance(there, Stream):
            setattr(
                sys,
                name,
                Stream(
                    there.buffer,
                    encoding=there.encoding,
                    errors=HANDLER,
                    line_buffering=there.line_buffering,
                ),
            )


def is_unicode(stream: TextIO) -> bool:
    """Return whether a stream takes every letter."""
    encoding = getattr(stream, "encoding", None) or "utf-8"
    return codecs.lookup(encoding).name.startswith("utf")


def shut(number: int) -> None:
    """Let what is left for a stream go nowhere, so that leaving does not try it once more."""
    with suppress(OSError):
        os.dup2(os.open(os.devnull, os.O_WRONLY), number)


def _closed(number: int) -> BinaryIO:
    opened = os.open(os.devnull, os.O_RDONLY)
    if opened != number:
        os.dup2(opened, number)
        os.close(opened)
    return open(number, "wb", closefd=False)
