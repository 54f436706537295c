"""One table of a file, its keys declared; a wrong key becomes a fault and the reading goes on."""

from __future__ import annotations

import dataclasses
from typing import Any, Generic, Self, TypeVar, cast, overload

from isolator.reading.keys import Key, T
from isolator.reading.notes import Notes, note_unknown, shown

MOST_TABLES = 100
Kind = TypeVar("Kind", bound="Table")
Record = TypeVar("Record")


class Table:
    """A table of a file: a subclass declares its keys and the tables in it, in the file's order.

    An attribute is what was typed, read when first asked for; after a fault it is a stand-in (NaN,
    0, ""). `up` is the table that this one stands in, `number` its place among its like, from 1.
    """

    def __init__(
        self, notes: Notes, where: str, raw: dict[str, Any], up: Any = None, number: int = 1
    ) -> None:
        self.notes, self.where, self.up, self.number = notes, where, up, number
        self._raw = raw
        self._read: dict[str, Any] = {}

    @classmethod
    def declared(cls) -> dict[str, Key[Any] | Within[Any]]:
        """Return the keys and tables of such a table by name, in order."""
        return {name: it for name, it in vars(cls).items() if isinstance(it, (Key, Within))}

    def path(self, name: str) -> str:
        """Return the dotted key of `name` in this table."""
        return f"{self.where}.{name}" if self.where else name

    def has(self, *names: str) -> bool:
        """Return whether the user typed one of `names`."""
        return any(name in self._raw for name in names)

    def raw(self, name: str) -> Any:
        """Return what the user typed for `name`, unread; None for nothing."""
        return self._raw.get(name)

    def check(self, *names: str) -> None:
        """Read some keys for what is wrong with them."""
        for name in names:
            getattr(self, name)

    def value(self, key: Key[T]) -> T:
        """Return the value of `key`, read once; a default is noted as assumed if it has a reason.

        Notes a fault for a key that must be there and is not.
        """
        name = key.name
        if name not in self._read:
            meant: Key[Any] = key
            while meant.depends is not None:
                meant = meant.depends(self)
            self._read[name] = (
                meant.read(self.notes, self.path(name), self._raw[name])
                if name in self._raw
                else self._absent(name, meant)
            )
        return cast(T, self._read[name])

    def _absent(self, name: str, key: Key[Any]) -> Any:
        if not key.default:
            self.fault(name, "nothing", key.wanted, key.advice or f"add {name} = {key.like}")
            return key.stand_in
        value, *reason = (each(self) if callable(each) else each for each in key.default)
        if any(reason):
            self.notes.assume(self.path(name), key.tell(value), reason[0])
        return value

    def inner(self, within: Within[Any]) -> Any:
        """Return the table or tables that `within` declares, made once."""
        if within.name not in self._read:
            find = self._tables if within.many else self._table
            self._read[within.name] = find(within.name, within.kind)
        return self._read[within.name]

    def record(self, kind: type[Record], **more: Any) -> Record:
        """Return a record of what was typed, read in the order of its fields.

        Each is the key of its name, unless it is in `more`: a value, or a function of this table.
        """
        found = {}
        for each in dataclasses.fields(kind):  # type: ignore[arg-type]
            value = more[each.name] if each.name in more else getattr(self, each.name)
            found[each.name] = value(self) if callable(value) else value
        return kind(**found)

    def whole(self, kind: type[Record], **more: Any) -> Record:
        """Return such a record; note every key that is not declared."""
        found = self.record(kind, **more)
        self.done()
        return found

    def fault(self, name: str, got: str, wanted: str, suggestion: str) -> None:
        """Note a fault of the key `name`."""
        self.notes.fault(self.path(name), got, wanted, suggestion)

    def warn(self, name: str, text: str) -> None:
        """Note a doubt about the key `name`."""
        self.notes.warn(self.path(name), text)

    def clean(self, *names: str) -> bool:
        """Return whether nothing under any of the keys `names` is at fault."""
        return self.notes.clean(*(self.path(name) for name in names))

    def done(self) -> None:
        """Note every key that is not declared, with the nearest one that is, and every old one."""
        declared = self.declared()
        old = [name for name, it in declared.items() if isinstance(it, Key) and it.old]
        self.check(*old)
        unknown = [name for name in self._raw if name not in declared]
        note_unknown(self.notes, self.where, unknown, declared.keys() - set(old))

    def _table(self, name: str, kind: type[Table]) -> Table:
        raw = self._raw.get(name, {})
        if not isinstance(raw, dict):
            self.fault(name, shown(raw), "a table", f"write it under [{self.path(name)}]")
            raw = {}
        return kind(self.notes, self.path(name), raw, self)

    def _tables(self, name: str, kind: type[Table]) -> list[Table]:
        raw = self._raw.get(name, [])
        tables = raw if isinstance(raw, list) else [None]
        if len(tables) > MOST_TABLES or not all(isinstance(each, dict) for each in tables):
            self.fault(
                name,
                shown(raw),
                f"up to {MOST_TABLES} tables in double brackets",
                f"write each under [[{self.path(name)}]]",
            )
            return []
        return [
            kind(self.notes, f"{self.path(name)}[{n}]", each, self, n)
            for n, each in enumerate(tables, 1)
        ]


class Within(Generic[T]):
    """A table, or `many` of them, inside another; `aside`: the starter only remarks on it."""

    def __init__(self, kind: type[Table], many: bool, aside: bool, above: str) -> None:
        self.kind, self.many, self.aside, self.above = kind, many, aside, above
        self.name = ""

    def __set_name__(self, owner: type, name: str) -> None:
        self.name = name

    @overload
    def __get__(self, table: None, owner: type) -> Self: ...
    @overload
    def __get__(self, table: Table, owner: type) -> T: ...
    def __get__(self, table: Table | None, owner: type) -> Self | T:
        return self if table is None else cast(T, table.inner(self))


def one(kind: type[Kind], *, aside: bool = False, above: str = "") -> Within[Kind]:
    """Return the table [name], empty where it is absent."""
    return Within(kind, False, aside, above)


def many(kind: type[Kind], *, aside: bool = False, above: str = "") -> Within[list[Kind]]:
    """Return the tables [[name]], none where they are absent."""
    return Within(kind, True, aside, above)
