"""Whole commands run in this process: what they print, what they return."""

from __future__ import annotations

import contextlib
import io
import json
import re
import sys
from functools import cache
from importlib import resources
from pathlib import Path
from typing import Any, NamedTuple
from unittest.mock import patch

import typer.main

from isolator.cli import main

_built = cache(typer.main.get_command)
"""Every call would build all commands anew, which takes longer than many of them."""


class Ran(NamedTuple):
    """What a command left behind."""

    code: int
    out: str
    err: str

    def json(self) -> Any:
        """Return what was printed as JSON in the strict sense."""
        return json.loads(self.out, parse_constant=lambda name: 1 / 0)


def isolator(*words: object) -> Ran:
    """Run `isolator` with these words, as a shell would."""
    out, err = io.StringIO(), io.StringIO()
    before, sys.argv = sys.argv, ["isolator", *map(str, words)]
    code = 0
    try:
        with (
            patch.object(typer.main, "get_command", _built),
            contextlib.redirect_stdout(out),
            contextlib.redirect_stderr(err),
        ):
            main()
    except SystemExit as left:
        code = left.code if isinstance(left.code, int) else 0 if left.code is None else 1
    finally:
        sys.argv = before
    return Ran(code, out.getvalue(), err.getvalue())


def example(name: str) -> str:
    """Return the text of a brief that is shipped."""
    return (resources.files("isolator.examples") / f"{name}.toml").read_text(encoding="utf-8")


def quick_room() -> str:
    """Return the reading room's brief with few feet in stock, of which some hold; no dampers."""
    bolted = example("reading-room").replace("pull = ", 'damper = "none"\npull = ')
    return bolted + '\n[stock]\nmaterials = ["pu-visco-50"]\nshapes = ["rectangle"]\n'


def without(text: str, *headers: str) -> str:
    """Return a brief without the tables under these headers."""
    parts = re.split(r"(?m)^(?=\[)", text)
    return "".join(part for part in parts if part.splitlines()[0] not in headers)


def replaced(text: str, key: str, value: str) -> str:
    """Return a brief with the first `key = …` line set to `value`."""
    changed, count = re.subn(rf"(?m)^{key} = .*$", f"{key} = {value}", text, count=1)
    assert count == 1, f"no {key} in the brief"
    return changed


def tree(folder: Path) -> dict[str, bytes]:
    """Return every file below a folder with what it holds."""
    return {
        str(path.relative_to(folder)): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }
