"""Names of tables of one kind: no two alike."""

from __future__ import annotations

from collections.abc import Sequence

from isolator.reading.notes import Notes


def refuse_twins(notes: Notes, key: str, names: Sequence[str]) -> None:
    """Note a fault for every name that came before among the tables [[key]]."""
    for index, name in enumerate(names):
        if name and name in names[:index]:
            notes.fault(
                f"{key}[{index + 1}].name",
                f'"{name}" again',
                "a name of its own",
                "call it something else",
            )
