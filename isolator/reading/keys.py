"""Keys: one declaration says how a key is read, what is assumed without it, how it is written.

A declared key is an attribute of its table (`isolator.reading.table`): its name is the
attribute's, its value what the user typed, read when first asked for.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field, replace
from typing import Any, Generic, Protocol, Self, TypedDict, TypeVar, cast, overload

from isolator.reading.notes import Notes, shown

T = TypeVar("T")
Why = str | Callable[[Any], str]


class Source(Protocol):
    """What keys are read from: `isolator.reading.table.Table`."""

    def value(self, key: Key[T]) -> T:
        """Return the value of `key`, read once."""


class More(TypedDict, total=False):
    """What is said of a key of any kind; see `Key`."""

    told: str
    comment: str
    above: str
    said: Any
    example: Any


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Key(Generic[T]):
    """One key of a table.

    `read` takes notes, the dotted key and what was typed. A message says what is `wanted` and how
    to write it: `like`, or a whole `advice`. `stand_in` stands for what is missing; `write` gives
    what stands in a file for a value, numbers of so many digits.
    `default` is empty where the key must be there; otherwise a value, and the reason why it is
    assumed where that is to be noted, each as such or as a function of the table; it is noted as
    `told` where its value says little.
    `comment` stands beside a key in a file and `above` over it; the starter brief says `said` (a
    value or a function of the table), otherwise it remarks on the `example`, or on the default.
    `depends` returns, by the table, the key that is meant. An `old` key is taken no more.
    """

    read: Callable[[Notes, str, Any], T]
    wanted: str = ""
    like: str = "…"
    advice: str = ""
    stand_in: Any = math.nan
    write: Callable[[Any, int], Any] = field(default=lambda value, digits: value)
    default: tuple[Any, ...] = ()
    told: str = ""
    comment: str = ""
    above: str = ""
    said: Any = None
    example: Any = None
    depends: Callable[[Any], Key[T]] | None = None
    old: bool = False
    name: str = field(init=False, default="")

    def __set_name__(self, owner: type, name: str) -> None:
        object.__setattr__(self, "name", name)

    @overload
    def __get__(self, table: None, owner: type) -> Self: ...
    @overload
    def __get__(self, table: Source, owner: type) -> T: ...
    def __get__(self, table: Source | None, owner: type) -> Self | T:
        return self if table is None else table.value(self)

    def each(self, notes: Notes, path: str, raw: Iterable[Any]) -> tuple[T, ...]:
        """Return what a list says of which every entry is read as this key."""
        return tuple(self.read(notes, f"{path}[{n}]", one) for n, one in enumerate(raw, 1))

    def tell(self, value: Any) -> str:
        """Return how a default of this value is told."""
        written = self.told or self.write(value, 6)
        if isinstance(written, (list, tuple)):
            return ", ".join(each if isinstance(each, str) else shown(each) for each in written)
        return written if isinstance(written, str) else shown(written)


def maybe(key: Key[T], why: Why = "", told: str = "") -> Key[T | None]:
    """Return a key that may be left out: None then, noted as assumed where there is a reason."""
    return cast("Key[T | None]", replace(key, default=(None, why), told=told))


def gone(advice: str) -> Key[None]:
    """Return a key that was taken once and is no more; where it is typed, `advice` is told."""
    return Key(
        read=lambda notes, path, raw: notes.fault(path, "an old key", "none here", advice),
        default=(None,),
        old=True,
    )


def renamed(new: str) -> Key[None]:
    """Return a key that is now called `new`; where it is typed, the new name is told."""
    return Key(
        read=lambda notes, path, raw: notes.fault(
            path, "an old name", f"its new name, {new}", f"write {new} = {shown(raw)}"
        ),
        default=(None,),
        old=True,
    )


def by(pick: Callable[[Any], bool], yes: Key[T], no: Key[T]) -> Key[T]:
    """Return a key that is `yes` or `no` by other keys of its table; `yes` is what is shown."""
    return replace(yes, depends=lambda table: yes if pick(table) else no)
