"""Keys for words, texts, paths and flags; a stand-in is read where what was typed is wrong."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any, TypeVar, Unpack

from isolator.reading.keys import Key, More
from isolator.reading.notes import Notes, shown
from isolator.reading.words import by_meaning, same_word

Word = TypeVar("Word", bound=str)
MOST_VALUES = 100
YES, NO = ("true", "yes", "on", "1"), ("false", "no", "off", "0", "none")
"""Other words for true and false."""


def choice(
    options: Sequence[Word],
    *default: Any,
    meanings: Mapping[str, str] | None = None,
    otherwise: str = "write one of these words, in quotes",
    **more: Unpack[More],
) -> Key[Word]:
    """Return a key for one of a few words.

    A message puts first what comes nearest by `meanings`; `otherwise` is what to do besides.
    """
    wanted = f"one of {', '.join(options)}"

    def read(notes: Notes, path: str, raw: Any) -> Word:
        for option in options:
            if raw == option:
                return option
        typed = raw if isinstance(raw, str) else ""
        slip = same_word(typed, options)
        meant = by_meaning(typed, options, meanings or {}) if typed and not slip else ""
        advice = otherwise
        if slip:
            advice = f'did you mean "{slip}"?'
        elif meant:
            advice = f"{meant} comes nearest; {otherwise}"
        listed = sorted(options, key=lambda each: each != meant)
        notes.fault(path, shown(raw), f"one of {', '.join(listed)}", advice)
        return options[0]

    return Key(
        read=read,
        wanted=wanted,
        like=f'"{options[0]}"',
        stand_in=options[0],
        default=default,
        **more,
    )


def choices(
    options: Sequence[Word],
    *default: Any,
    meanings: Mapping[str, str] | None = None,
    **more: Unpack[More],
) -> Key[tuple[Word, ...]]:
    """Return a key for some of a few words, each once."""
    some = _some(choice(options, meanings=meanings), *default, **more)
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
        one_alone = isinstance(raw, str) and raw != ""
        advice = (
            f"write it like [{shown(raw)}]" if one_alone else "leave the key out for its default"
        )
        notes.fault(path, shown(raw), wanted, advice)
        return ()

    return Key(read=read, write=lambda words, digits: list(words), default=default, **more)


def flag(*default: Any, **more: Unpack[More]) -> Key[bool]:
    """Return a key for true or false."""
    stand_in = default[:1] == (True,)

    def read(notes: Notes, path: str, raw: Any) -> bool:
        if isinstance(raw, bool):
            return raw
        typed = shown(raw).strip('" ').casefold()
        meant = "true" if typed in YES else "false" if typed in NO else "true or false"
        notes.fault(path, shown(raw), "true or false", f"write it bare, as {meant}")
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
