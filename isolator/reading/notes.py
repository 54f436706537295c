"""What is noticed while a brief is read: faults, defaults taken, doubts."""

from __future__ import annotations

import difflib
import json
import re
from collections.abc import Collection, Sequence
from dataclasses import dataclass

from isolator.reading.faults import Fault
from isolator.reading.printable import printable
from isolator.reading.words import ALIKE

LONGEST_SHOWN = 40
"""Characters of a user's own text that a message repeats."""
MOST_UNKNOWN = 20
"""How many unknown keys of one table are named one by one."""


VERBS = ("is ", "lies ", "add up ")
"""With which a doubt about a key goes on from its name."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Assumed:
    """What was taken because the brief is silent."""

    key: str  # dotted, as the user would type it
    value: str
    why: str


class Notes:
    """Collects faults, assumptions and warnings in the order in which they are met."""

    def __init__(self, file: str) -> None:
        self.file = file
        self.faults: list[Fault] = []
        self.assumed: list[Assumed] = []
        self.warnings: list[str] = []

    def fault(self, key: str, got: str, wanted: str, suggestion: str) -> None:
        """Add a fault of this file."""
        self.faults.append(
            Fault(file=printable(self.file), key=key, got=got, wanted=wanted, suggestion=suggestion)
        )

    def assume(self, key: str, value: str, why: str) -> None:
        """Add a default that was taken."""
        self.assumed.append(Assumed(key=key, value=value, why=why))

    def warn(self, key: str, text: str) -> None:
        """Add a doubt about `key`; a `text` that begins with one of `VERBS` goes on from it."""
        self.warnings.append(f"{key}{' ' if text.startswith(VERBS) else ': '}{text}")

    def clean(self, *keys: str) -> bool:
        """Return whether nothing under any of the dotted `keys` is at fault."""
        return not any(
            fault.key == key or fault.key.startswith((f"{key}.", f"{key}["))
            for fault in self.faults
            for key in keys
        )


def shown(value: object) -> str:
    """Return a value as a message shows it: short, on one line, never deeper than one level.

    >>> shown("2*3 mm"), shown(0.3), shown([1, 2]), shown({"a": 1})
    ('"2*3 mm"', '0.3', 'a list of 2', 'a table')
    """
    if isinstance(value, str):
        text = value if len(value) <= LONGEST_SHOWN else value[: LONGEST_SHOWN - 1] + "…"
        return printable(json.dumps(text, ensure_ascii=False))
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, int):
        return str(value) if value.bit_length() <= 64 else "a huge number"
    if isinstance(value, float):
        return str(value)
    if isinstance(value, list):
        return f"a list of {len(value)}"
    return "a table" if isinstance(value, dict) else "a date or time"


def shown_key(key: str) -> str:
    """Return a key of a table as a message shows it, quoted where TOML would quote it."""
    return key if re.fullmatch(r"[A-Za-z0-9_-]{1,40}", key) else shown(key)


def note_unknown(notes: Notes, where: str, keys: Sequence[str], known: Collection[str]) -> None:
    """Note every one of `keys` of the table `where` that is not known, with the nearest one."""
    unknown = [key for key in keys if key not in known]
    table = f"[{where}]" if where else "the brief"
    for key in unknown[:MOST_UNKNOWN]:
        near = difflib.get_close_matches(
            key[:LONGEST_SHOWN].lower(), sorted(known), n=1, cutoff=ALIKE
        )
        advice = f"did you mean {near[0]}?" if near else f"it knows {', '.join(sorted(known))}"
        path = f"{where}.{shown_key(key)}" if where else shown_key(key)
        notes.fault(path, "an unknown key", f"a key of {table}", advice)
    if len(unknown) > MOST_UNKNOWN:
        more = f"{len(unknown) - MOST_UNKNOWN} more unknown keys"
        notes.fault(where, more, f"keys of {table}", "remove them")
