"""Keys for words, texts, paths and flags; a stand-in is read where what was typed is wrong."""

from __future__ import annotations

import difflib
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any, TypeVar, Unpack

from isolator.reading.keys import Key, More
from isolator.reading.notes import Notes, shown

Word = TypeVar("Word", bound=str)
MOST_VALUES = 100


def choice(options: Sequence[Word], *default: Any, **more: Unpack[More]) -> Key[Word]:
    """Return a key for one of a few words."""
    wanted = f"one of {', '.join(options)}"

    def read(notes: Notes, path: str, raw: Any) -> Word:
        for option in options:
            if raw == option:
                return option
        typed = raw[:40].lower() if isinstance(raw, str) else ""
        near = difflib.get_close_matches(typed, options, n=1)
        advice = f'did you mean "{near[0]}"?' if near else f'write it like "{options[0]}"'
        notes.fault(path, shown(raw), wanted, advice)
        return options[0]

    return Key(
        read=read,
        wanted=wanted,
        like=f'"{options[0]}"',
        stand_in=options[0],
        default=default,
        **more,
    )


def choices(options: Sequence[Word], *default: Any, **more: Unpack[More]) -> Key[tuple[Word, ...]]:
    """Return a key for some of a few words, each once."""
    some = _some(choice(options), *default, **more)
    return replace(
        some, read=lambda notes, path, raw: tuple(dict.fromkeys(some.read(notes, path, raw)))
    )


def text(*default: Any, most: int = 80, **more: Unpack[More]) -> Key[str]:
    """Return a key for a printable text of one line, not empty, of at most `most` characters."""
    wanted = f"a text of 1 to {most} characters on one line"

    def read(notes: Notes, path: str, raw: Any) -> str:
        if isinstance(raw, str) and raw.strip() and len(raw) <= most and raw.isprintable():
            return raw.strip()
        notes.fault(path, shown(raw), wanted, 'write it like "front left"')
        return ""

    return Key(read=read, wanted=wanted, like='"…"', stand_in="", default=default, **more)


def texts(*default: Any, **more: Unpack[More]) -> Key[tuple[str, ...]]:
    """Return a key for a list of texts."""
    return _some(text(), *default, **more)


def _some(one: Key[Word], *default: Any, **more: Unpack[More]) -> Key[tuple[Word, ...]]:
    """Return a key for a list, neither empty nor endless, of which every entry is read as `one`."""
    wanted = f"a list of 1 to {MOST_VALUES}, each {one.wanted}"

    def read(notes: Notes, path: str, raw: Any) -> tuple[Word, ...]:
        if isinstance(raw, list) and 1 <= len(raw) <= MOST_VALUES:
            return one.each(notes, path, raw)
        notes.fault(path, shown(raw), wanted, "leave the key out for its default")
        return ()

    return Key(read=read, write=lambda words, digits: list(words), default=default, **more)


def flag(*default: Any, **more: Unpack[More]) -> Key[bool]:
    """Return a key for true or false."""
    stand_in = default[:1] == (True,)

    def read(notes: Notes, path: str, raw: Any) -> bool:
        if isinstance(raw, bool):
            return raw
        notes.fault(path, shown(raw), "true or false", "write it bare, as true")
        return stand_in

    return Key(
        read=read, wanted="true or false", like="false", stand_in=False, default=default, **more
    )


def beside(*default: Any, folder: bool, **more: Unpack[More]) -> Key[Path]:
    """Return a key for the path of a file or folder, relative to the file that is read."""
    wanted = "a folder that is there" if folder else "a file that is there"
    name = text(most=300)

    def read(notes: Notes, path: str, raw: Any) -> Path:
        typed = name.read(notes, path, raw)
        place = Path(notes.file).parent / typed
        try:
            there = place.is_dir() if folder else place.is_file()
        except OSError:  # a name too long, a folder that may not be entered
            there = False
        if typed and not there:
            notes.fault(path, f'"{typed}"', wanted, "write it relative to the brief's own folder")
        return place

    return Key(read=read, default=default, **more)
