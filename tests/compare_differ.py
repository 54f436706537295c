"""What two folders of output differ in, told shortly."""

from __future__ import annotations

import json
import textwrap
from collections.abc import Iterator, Sequence
from itertools import takewhile
from pathlib import Path, PurePath
from typing import Any

Tree = dict[str, bytes]
"""What every file below a folder holds, by its path within it."""

RANK = (".code", ".err", ".out", ".toml", ".csv", ".json", ".txt", ".html", ".svg")
"""Files that can be read, those that tell most first."""
MOST_FILES, MOST_LINES, WIDEST, BEFORE = 6, 4, 110, 30
"""Files and differences shown in short, characters of a line, those before its first difference."""


def read_tree(folder: Path) -> Tree:
    """Return every file below `folder`."""
    paths = sorted(path for path in folder.rglob("*") if path.is_file())
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in paths}


def differences(old: Tree, new: Tree) -> list[str]:
    """Return lines that tell which files differ and how; none where all are the same."""
    lines = [f"only in OLD: {name}" for name in sorted(old.keys() - new.keys())]
    lines += [f"only in NEW: {name}" for name in sorted(new.keys() - old.keys())]
    unlike = [name for name in sorted(old.keys() & new.keys()) if old[name] != new[name]]
    if unlike:
        names = textwrap.wrap(", ".join(unlike), WIDEST, break_on_hyphens=False)
        lines += [f"{len(unlike)} of {len(old)} differ:", *(f"  {line}" for line in names)]
    read = [name for name in unlike if PurePath(name).suffix in RANK]
    for name in sorted(read, key=lambda each: RANK.index(PurePath(each).suffix))[:MOST_FILES]:
        shown = list(_shown(old[name], new[name]))
        more = [f"  … {len(shown) - MOST_LINES} more"] if len(shown) > MOST_LINES else []
        lines += [f"{name}:", *(f"  {line}" for line in shown[:MOST_LINES]), *more]
    return lines


def _shown(old: bytes, new: bytes) -> Iterator[str]:
    """Yield what differs in a text: keys of JSON, otherwise lines."""
    texts = [data.decode("utf-8", errors="replace") for data in (old, new)]
    try:
        yield from _keys(*(dict(_flat(json.loads(text))) for text in texts))
    except ValueError:
        yield from _lines(*(text.splitlines() for text in texts))


def _keys(old: dict[str, str], new: dict[str, str]) -> Iterator[str]:
    for key in dict.fromkeys((*old, *new)):
        before, after = old.get(key, "nothing"), new.get(key, "nothing")
        if before != after:
            yield f"{key}: {' → '.join(_windows(before, after))}"


def _flat(value: Any, key: str = "") -> Iterator[tuple[str, str]]:
    """Yield the dotted key and the text of every plain value; places in lists count from 0."""
    if isinstance(value, dict | list) and value:
        for name, each in value.items() if isinstance(value, dict) else enumerate(value):
            yield from _flat(each, f"{key}.{name}" if key else str(name))
    else:
        yield key, json.dumps(value, ensure_ascii=False)


def _lines(old: list[str], new: list[str]) -> Iterator[str]:
    """Yield lines that differ, after those that both begin with and before those they end with."""
    first = _alike(old, new)
    last = _alike(old[first:][::-1], new[first:][::-1])
    before, after = old[first : len(old) - last], new[first : len(new) - last]
    if len(before) == len(after):
        for number, (one, other) in enumerate(zip(before, after, strict=True), first + 1):
            if one != other:
                left, right = _windows(one, other)
                yield f"line {number}: {left}"
                yield f"{'→':>{len(f'line {number}:')}} {right}"
    else:
        yield f"line {first + 1}: {len(before)} lines → {len(after)} lines"
        yield from (f"- {line[:WIDEST]}" for line in before[:2])
        yield from (f"+ {line[:WIDEST]}" for line in after[:2])


def _windows(one: str, other: str) -> tuple[str, str]:
    """Return both texts cut to half a line about where they begin to differ."""
    half = WIDEST // 2
    start = max(0, _alike(one, other) - BEFORE) if max(len(one), len(other)) > half else 0
    left, right = (f"{'…' if start else ''}{text[start : start + half]}" for text in (one, other))
    return left, right


def _alike(one: Sequence[str], other: Sequence[str]) -> int:
    """Return how many of their first signs or lines are the same."""
    return sum(1 for _ in takewhile(lambda pair: pair[0] == pair[1], zip(one, other, strict=False)))
