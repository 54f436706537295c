"""Keys of a file set on the command line: KEY=VALUE, put into what was parsed before it is read."""

from __future__ import annotations

import copy
import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

from isolator.reading.command_words import COMMAND_LINE
from isolator.reading.faults import Fault, InputError
from isolator.reading.files import UnreadableError, parse_toml
from isolator.reading.notes import Notes, shown

OPTION = "--set"
LIKE = 'write it like --set printer.mass="12 kg"'
_PART = r"[A-Za-z0-9_-]+(?:\[\d+\])*"
_CHANGE = re.compile(rf"\s*({_PART}(?:\.{_PART})*)\s*=(.*)", re.DOTALL)
Step = str | int


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """One key and what it is set to."""

    key: str  # dotted; entries of lists are counted from 1: "motor[2].mass"
    value: Any
    why: str = ""  # what is said of it; empty: that it was typed

    @property
    def steps(self) -> tuple[Step, ...]:
        """The names and places (from 0) on the way to it."""
        found = re.findall(r"([A-Za-z0-9_-]+)|\[(\d+)\]", self.key)
        # "motor[0]" asks for no entry, as they are counted from 1
        return tuple(name or int(number) - 1 for name, number in found)

    @property
    def told(self) -> str:
        """What is said of it."""
        return f"{self.key}: {self.why or f'set to {shown(self.value)} on the command line'}"


def read_changes(texts: Sequence[str]) -> tuple[Change, ...]:
    """Return what is typed; raises InputError with a fault for every text that is no KEY=VALUE.

    A value is TOML where it can be: a number, true, a list; else it is a text, as quotes do not
    outlive a shell.
    """
    notes, found = Notes(COMMAND_LINE), []
    for text in texts:
        split = _CHANGE.fullmatch(text)
        if split is None:
            notes.fault(OPTION, shown(text), "a key, an equals sign and a value", LIKE)
            continue
        key, typed = split[1], split[2].strip()
        if typed:
            found.append(Change(key=key, value=_value(typed)))
        else:
            notes.fault(f"{OPTION} {key}", "nothing", "a value", LIKE)
    if notes.faults:
        raise InputError(notes.faults)
    return tuple(found)


def _value(typed: str) -> Any:
    try:
        read = parse_toml(f"value = {typed}")
    except UnreadableError:
        return typed
    return read["value"] if list(read) == ["value"] else typed


def changed(table: dict[str, Any], changes: Sequence[Change]) -> dict[str, Any]:
    """Return a parsed file with every change in it; raises InputError where one has no place."""
    table, notes = copy.deepcopy(table), Notes(COMMAND_LINE)
    for change in changes:
        _put(table, change, notes)
    if notes.faults:
        raise InputError(notes.faults)
    return table


def _put(table: Any, change: Change, notes: Notes) -> None:
    """Put one change in its place, or note why it has none."""
    at, where = table, ""
    for step in change.steps:
        here = f"{where}[{step + 1}]" if isinstance(step, int) else f"{where}.{step}".lstrip(".")
        wrong = _misfit(at, step, where)
        if wrong:
            notes.fault(f"{OPTION} {change.key}", *wrong)
            return
        if here == change.key:
            at[step] = change.value
            return
        where = here
        at = at.setdefault(step, {}) if isinstance(step, str) else at[step]


def _misfit(at: Any, step: Step, where: str) -> tuple[str, str, str] | None:
    """Return what is found, what is wanted and what to do where `at` has no such place."""
    if isinstance(step, int) and isinstance(at, list):
        if 0 <= step < len(at):
            return None
        few = f"{len(at)} entries" if len(at) != 1 else "1 entry"
        return f"{few} in {where}", "an entry that is there", f"count from {where}[1]"
    if isinstance(step, str) and isinstance(at, dict):
        return None
    if isinstance(at, list):
        return f"a list in {where}", "one of its entries", f"name it: {where}[1].{step}"
    if isinstance(at, dict):
        return f"no list in {where}", "a list to count in", "leave out the number in brackets"
    return f"{shown(at)} in {where}", "a table of keys", f"set {where} itself"


def faults_of(
    faults: Sequence[Fault], before: dict[str, Any], changes: Sequence[Change]
) -> list[Fault]:
    """Return faults, those of keys that were set as faults of the command line.

    `before` is the file as it was: a table that only a change has made is the change's.
    """
    return [_own(fault, before, changes) for fault in faults]


def _own(fault: Fault, before: dict[str, Any], changes: Sequence[Change]) -> Fault:
    for change in reversed(changes):
        inside = fault.key == change.key or fault.key.startswith(
            (f"{change.key}.", f"{change.key}[")
        )
        new = fault.key.partition(".")[0] not in before
        above = new and change.key.startswith(f"{fault.key}.")
        if fault.key and (inside or above):
            key = fault.key if inside else change.key
            return replace(fault, file=COMMAND_LINE, key=f"{OPTION} {key}")
    return fault
