"""Names of tables of one kind: no two alike."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Protocol

from isolator.reading.notes import Notes


class Named(Protocol):
    """Something with a name."""

    @property
    def name(self) -> str:
        """Return the name."""


def refuse_twins(notes: Notes, key: str, named: Sequence[Named]) -> None:
    """Note a fault for every name that came before among the tables [[key]]."""
    names = [each.name for each in named]
    for index, name in enumerate(names):
        if name and name in names[:index]:
            notes.fault(
                f"{key}[{index + 1}].name",
                f'"{name}" again',
                "a name of its own",
                "call it something else",
            )
