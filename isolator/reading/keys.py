"""Keys: one declaration says how a key is read, what is assumed without it, how it is written.

A declared key is an attribute of its table (`isolator.reading.table`): its name is the
attribute's, its value what the user typed, read when first asked for.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any, Generic, Protocol, Self, TypedDict, TypeVar, Unpack, cast, overload

from isolator.reading.notes import Notes, shown
from isolator.reading.quantities import QuantityError, parse_quantity
from isolator.reading.units import KINDS, format_quantity, shown_unit, write_like
from isolator.reading.values import (
    Sign,
    Word,
    bare,
    list_wanted,
    number_wanted,
    read_list,
    read_number,
    read_path,
    read_places,
    read_quantities,
    read_quantity,
    read_text,
    read_word,
    text_wanted,
    warn_unusual,
)

CHECK = "check the value and its unit"
T = TypeVar("T")
Range = tuple[float, float]
Pair = tuple[float, float]
Triple = tuple[float, float, float]
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


def quantity(
    unit: str,
    *default: Any,
    sign: Sign = "positive",
    usual: Range | None = None,
    within: Range | None = None,
    show: str = "",
    **more: Unpack[More],
) -> Key[float]:
    """Return a key for a quantity in `unit`; `show` is the unit in which it is told.

    `usual` is a range outside which a doubt is noted, for this and other numbers; what is not
    `within` two ends is refused.
    """
    told = show or shown_unit(unit)

    def read(notes: Notes, path: str, raw: Any) -> float:
        value = read_quantity(notes, path, raw, unit, sign, told)
        if within is not None and math.isnan(value):
            _hold_suggestion(notes, unit, within)
        elif within is not None and not within[0] <= value <= within[1]:
            ends = " to ".join(format_quantity(each, told) for each in within)
            notes.fault(path, shown(raw), f"{KINDS[unit]} of {ends}", CHECK)
            return math.nan
        if usual is not None:
            warn_unusual(notes, path, value, usual, told)
        return value

    return Key(
        read=read,
        wanted=f"{KINDS[unit]} with its unit",
        like=write_like("…", unit, told),
        write=lambda value, digits: format_quantity(value, told, digits),
        default=default,
        **more,
    )


def _hold_suggestion(notes: Notes, unit: str, within: Range) -> None:
    """Suggest no quantity in the last fault that would be refused in its turn."""
    last = notes.faults[-1]
    for text in re.findall(r'"([^"]*)"', last.suggestion):
        with suppress(QuantityError):
            if not within[0] <= parse_quantity(text, unit) <= within[1]:
                notes.faults[-1] = replace(last, suggestion=CHECK)


def quantities(
    unit: str,
    lengths: Sequence[int],
    *default: Any,
    sign: Sign = "positive",
    usual: Range | None = None,
    **more: Unpack[More],
) -> Key[tuple[float, ...]]:
    """Return a key for a list of quantities in `unit`; its length must be one of `lengths`."""
    told = shown_unit(unit)

    def read(notes: Notes, path: str, raw: Any) -> tuple[float, ...]:
        values = read_quantities(notes, path, raw, unit, lengths, sign, told)
        if usual is not None:
            for value in values:
                warn_unusual(notes, path, value, usual, told)
        return values

    return Key(
        read=read,
        wanted=list_wanted(unit, lengths),
        like=f"[{', '.join([write_like('…', unit)] * lengths[0])}]",
        stand_in=(math.nan,) * lengths[0],
        write=lambda values, digits: [format_quantity(each, told, digits) for each in values],
        default=default,
        **more,
    )


def pair(unit: str, *default: Any, sign: Sign = "positive", **more: Unpack[More]) -> Key[Pair]:
    """Return a key for two quantities, along x and y or from one to the other."""
    return cast("Key[Pair]", quantities(unit, (2,), *default, sign=sign, **more))


def triple(
    unit: str, *default: Any, sign: Sign = "any", usual: Range | None = None, **more: Unpack[More]
) -> Key[Triple]:
    """Return a key for three quantities, along x, y and z."""
    return cast("Key[Triple]", quantities(unit, (3,), *default, sign=sign, usual=usual, **more))


def places(
    least: int,
    most: int,
    *default: Any,
    wanted: str = "",
    like: str = '[["180 mm", "190 mm"]]',
    **more: Unpack[More],
) -> Key[tuple[Pair, ...]]:
    """Return a key for a list of places (x, y) [m]."""
    wanted = wanted or f"a list of {least} to {most} places"
    return Key(
        read=lambda notes, path, raw: read_places(notes, path, raw, (least, most), wanted, like),
        wanted=wanted,
        advice=f"write it like {like}",
        stand_in=(),
        write=lambda rows, digits: [
            [format_quantity(x, "mm", digits) for x in row] for row in rows
        ],
        default=default,
        **more,
    )


def number(
    within: Range, *default: Any, usual: Range | None = None, **more: Unpack[More]
) -> Key[float]:
    """Return a key for a plain number `within` two ends."""
    return Key(
        read=lambda notes, path, raw: read_number(notes, path, raw, within, False, usual),
        wanted=number_wanted(within, False),
        write=lambda value, digits: int(value) if value == int(value) else value,
        default=default,
        **more,
    )


def one_of(
    numbers: tuple[int, ...], otherwise: str, *default: Any, **more: Unpack[More]
) -> Key[int]:
    """Return a key for one of a few whole numbers; `otherwise` is what to do with another."""
    wanted = f"{', '.join(map(str, numbers[:-1]))} or {numbers[-1]}"

    def read(notes: Notes, path: str, raw: Any) -> int:
        if type(raw) is int and raw in numbers:
            return raw
        advice = bare(raw, (numbers[0], numbers[-1]), True)
        meant = advice.rsplit(" ", 1)[-1] in map(str, numbers)
        notes.fault(path, shown(raw), wanted, advice if meant else otherwise)
        return numbers[0]

    return Key(read=read, wanted=wanted, stand_in=numbers[0], default=default, **more)


def integer(
    within: tuple[int, int], *default: Any, usual: Range | None = None, **more: Unpack[More]
) -> Key[int]:
    """Return a key for a whole number `within` two ends."""

    def read(notes: Notes, path: str, raw: Any) -> int:
        value = read_number(notes, path, raw, within, True, usual)
        return within[0] if math.isnan(value) else int(value)

    return Key(
        read=read, wanted=number_wanted(within, True), stand_in=within[0], default=default, **more
    )


def vector(within: Range, *default: Any, **more: Unpack[More]) -> Key[Triple]:
    """Return a key for three plain numbers `within` two ends, along x, y and z."""
    wanted = f"a list of 3, each {number_wanted(within, False)}"

    def read(notes: Notes, path: str, raw: Any) -> Triple:
        if not (isinstance(raw, list) and len(raw) == 3):
            notes.fault(path, shown(raw), wanted, "write it like […, …, …]")
            return (math.nan, math.nan, math.nan)
        x, y, z = (
            read_number(notes, f"{path}[{index}]", each, within, False, None)
            for index, each in enumerate(raw, 1)
        )
        return (x, y, z)

    return Key(
        read=read,
        wanted=wanted,
        like="[…, …, …]",
        stand_in=(math.nan,) * 3,
        write=lambda value, digits: list(value),
        default=default,
        **more,
    )


def choice(
    options: Sequence[Word],
    *default: Any,
    meanings: Mapping[str, str] | None = None,
    otherwise: str = "write one of these words, in quotes",
    **more: Unpack[More],
) -> Key[Word]:
    """Return a key for one of a few words; `meanings` and `otherwise` as in `read_word`."""
    return Key(
        read=lambda notes, path, raw: read_word(notes, path, raw, options, meanings, otherwise),
        wanted=f"one of {', '.join(options)}",
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
    wanted = f"one of {', '.join(options)}"

    def read(notes: Notes, path: str, raw: Any) -> tuple[Word, ...]:
        each = enumerate(read_list(notes, path, raw, wanted), 1)
        return tuple(
            dict.fromkeys(
                read_word(notes, f"{path}[{n}]", word, options, meanings) for n, word in each
            )
        )

    return Key(read=read, write=lambda words, digits: list(words), default=default, **more)


def text(*default: Any, most: int = 80, **more: Unpack[More]) -> Key[str]:
    """Return a key for a text of one line, not empty, of at most `most` characters."""
    return Key(
        read=lambda notes, path, raw: read_text(notes, path, raw, most),
        wanted=text_wanted(most),
        like='"…"',
        stand_in="",
        default=default,
        **more,
    )


def texts(*default: Any, **more: Unpack[More]) -> Key[tuple[str, ...]]:
    """Return a key for a list of texts."""

    def read(notes: Notes, path: str, raw: Any) -> tuple[str, ...]:
        each = enumerate(read_list(notes, path, raw, text_wanted()), 1)
        return tuple(read_text(notes, f"{path}[{n}]", word) for n, word in each)

    return Key(read=read, write=lambda words, digits: list(words), default=default, **more)


YES, NO = ("true", "yes", "on", "1"), ("false", "no", "off", "0", "none")
"""Other words for true and false."""


def flag(*default: Any, **more: Unpack[More]) -> Key[bool]:
    """Return a key for true or false."""
    stand_in = default[:1] == (True,)

    def read(notes: Notes, path: str, raw: Any) -> bool:
        if isinstance(raw, bool):
            return raw
        typed = str(raw).strip().casefold()
        meant = "true" if typed in YES else "false" if typed in NO else "true or false"
        notes.fault(path, shown(raw), "true or false", f"write it bare, as {meant}")
        return stand_in

    return Key(
        read=read, wanted="true or false", like="false", stand_in=False, default=default, **more
    )


def beside(*default: Any, folder: bool, **more: Unpack[More]) -> Key[Path]:
    """Return a key for the path of a file or folder, relative to the file that is read."""
    return Key(
        read=lambda notes, path, raw: read_path(notes, path, raw, folder), default=default, **more
    )
