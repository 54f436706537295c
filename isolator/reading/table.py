"""One table of a brief, read key by key; a wrong key becomes a fault and the reading goes on."""

from __future__ import annotations

import math
from collections.abc import Sequence

from isolator.reading.notes import Notes, note_unknown, shown
from isolator.reading.units import KINDS, format_quantity, shown_unit, write_like
from isolator.reading.values import (
    Sign,
    Word,
    list_wanted,
    number_wanted,
    read_list,
    read_number,
    read_quantities,
    read_quantity,
    read_text,
    read_word,
    text_wanted,
    warn_unusual,
)

MOST_TABLES = 100


class Section:
    """A table of the brief. Each getter returns a stand-in (NaN, 0, "") after noting a fault.

    A getter with a `default` notes it as assumed, with its reason `why`, where the key is absent;
    one without notes a fault. `usual` is a range outside which a doubt is noted. Indices in keys
    count from 1.
    """

    def __init__(self, notes: Notes, key: str, table: dict[str, object]) -> None:
        self.notes = notes
        self.key = key
        self._table = table
        self._known: set[str] = set()

    def path(self, name: str) -> str:
        """Return the dotted key of `name` in this table."""
        return f"{self.key}.{name}" if self.key else name

    def has(self, name: str) -> bool:
        """Return whether the user typed `name`."""
        self._known.add(name)
        return name in self._table

    def quantity(
        self,
        name: str,
        unit: str,
        default: float | None = None,
        why: str = "",
        *,
        sign: Sign = "positive",
        usual: tuple[float, float] | None = None,
        show: str | None = None,
    ) -> float:
        """Return a quantity in `unit`; `show` is the unit in which messages tell it."""
        show = show or shown_unit(unit)
        if not self.has(name):
            if default is None:
                self._missing(name, f"{KINDS[unit]} with its unit", write_like("…", unit))
                return math.nan
            self.notes.assume(self.path(name), format_quantity(default, show), why)
            return default
        value = read_quantity(self.notes, self.path(name), self._table[name], unit, sign)
        if usual is not None:
            warn_unusual(self.notes, self.path(name), value, usual, show)
        return value

    def quantities(
        self,
        name: str,
        unit: str,
        default: tuple[float, ...] | None = None,
        why: str = "",
        *,
        lengths: Sequence[int],
        sign: Sign = "positive",
        show: str | None = None,
    ) -> tuple[float, ...]:
        """Return a list of quantities in `unit`; its length must be one of `lengths`."""
        show = show or shown_unit(unit)
        if not self.has(name):
            if default is None:
                each = ", ".join([write_like("…", unit)] * lengths[0])
                self._missing(name, list_wanted(unit, lengths), f"[{each}]")
                return (math.nan,) * lengths[0]
            texts = ", ".join(format_quantity(value, show) for value in default)
            self.notes.assume(self.path(name), texts or "none", why)
            return default
        return read_quantities(self.notes, self.path(name), self._table[name], unit, lengths, sign)

    def triple(
        self,
        name: str,
        unit: str,
        default: tuple[float, float, float] | None = None,
        why: str = "",
        *,
        sign: Sign = "any",
    ) -> tuple[float, float, float]:
        """Return three quantities in `unit`, along x, y and z."""
        first, second, third = self.quantities(name, unit, default, why, lengths=(3,), sign=sign)
        return (first, second, third)

    def number(
        self,
        name: str,
        default: float | None,
        why: str = "",
        *,
        within: tuple[float, float],
        whole: bool = False,
        usual: tuple[float, float] | None = None,
    ) -> float:
        """Return a plain number `within` two ends, a whole one on demand."""
        if self.has(name):
            return read_number(self.notes, self.path(name), self._table[name], within, whole, usual)
        if default is None:
            self._missing(name, number_wanted(within, whole), "…")
            return math.nan
        self.notes.assume(self.path(name), f"{default:g}", why)
        return default

    def numbers(self, name: str, count: int, *, within: tuple[float, float]) -> tuple[float, ...]:
        """Return `count` plain numbers `within` two ends; the key must be there."""
        wanted = f"a list of {count}, each {number_wanted(within, False)}"
        if not self.has(name):
            self._missing(name, wanted, f"[{', '.join(['…'] * count)}]")
            return (math.nan,) * count
        raw = self._table[name]
        if isinstance(raw, list) and len(raw) == count:
            return tuple(
                read_number(self.notes, f"{self.path(name)}[{index}]", each, within, False, None)
                for index, each in enumerate(raw, 1)
            )
        self.notes.fault(
            self.path(name),
            shown(raw),
            wanted,
            f"write it like [{', '.join('0' if n else '1' for n in range(count))}]",
        )
        return (math.nan,) * count

    def integer(
        self,
        name: str,
        default: int | None,
        why: str = "",
        *,
        within: tuple[int, int],
        usual: tuple[float, float] | None = None,
    ) -> int:
        """Return a whole number `within` two ends."""
        value = self.number(name, default, why, within=within, whole=True, usual=usual)
        return within[0] if math.isnan(value) else int(value)

    def choice(
        self, name: str, options: Sequence[Word], default: Word | None = None, why: str = ""
    ) -> Word:
        """Return one of a few words."""
        wanted = f"one of {', '.join(options)}"
        if not self.has(name):
            if default is None:
                self._missing(name, wanted, f'"{options[0]}"')
                return options[0]
            self.notes.assume(self.path(name), default, why)
            return default
        return read_word(self.notes, self.path(name), self._table[name], options)

    def choices(
        self, name: str, options: Sequence[Word], default: tuple[Word, ...], why: str
    ) -> tuple[Word, ...]:
        """Return some of a few words, each once."""
        if not self.has(name):
            self.notes.assume(self.path(name), ", ".join(default), why)
            return default
        wanted = f"one of {', '.join(options)}"
        return tuple(
            dict.fromkeys(
                read_word(self.notes, f"{self.path(name)}[{index}]", word, options)
                for index, word in enumerate(self._listed(name, wanted), 1)
            )
        )

    def text(self, name: str, default: str | None = None, why: str = "", most: int = 80) -> str:
        """Return a text of one line, not empty, of at most `most` characters."""
        if not self.has(name):
            if default is None:
                self._missing(name, text_wanted(most), '"…"')
                return ""
            if why:
                self.notes.assume(self.path(name), default, why)
            return default
        return read_text(self.notes, self.path(name), self._table[name], most)

    def texts(self, name: str, empty_means: str, why: str) -> tuple[str, ...]:
        """Return a list of texts, empty where the key is absent."""
        if not self.has(name):
            self.notes.assume(self.path(name), empty_means, why)
            return ()
        wanted = text_wanted()
        return tuple(
            read_text(self.notes, f"{self.path(name)}[{index}]", word)
            for index, word in enumerate(self._listed(name, wanted), 1)
        )

    def flag(self, name: str, default: bool | None = None, why: str = "") -> bool:
        """Return true or false."""
        if not self.has(name):
            if default is None:
                self._missing(name, "true or false", "false")
                return False
            self.notes.assume(self.path(name), shown(default), why)
            return default
        raw = self._table[name]
        if not isinstance(raw, bool):
            self.notes.fault(self.path(name), shown(raw), "true or false", "write it bare, as true")
            return bool(default)
        return raw

    def raw(self, name: str) -> object:
        """Return what the user typed for `name`, unread."""
        return self._table[name]

    def section(self, name: str) -> Section:
        """Return the table [name], empty where it is absent."""
        raw = self._table.get(name, {}) if self.has(name) else {}
        if not isinstance(raw, dict):
            self.notes.fault(
                self.path(name), shown(raw), "a table", f"write it under [{self.path(name)}]"
            )
            raw = {}
        return Section(self.notes, self.path(name), raw)

    def sections(self, name: str) -> list[Section]:
        """Return the tables [[name]], none where they are absent."""
        raw = self._table[name] if self.has(name) else []
        tables = raw if isinstance(raw, list) else [None]
        if len(tables) > MOST_TABLES or not all(isinstance(each, dict) for each in tables):
            self.notes.fault(
                self.path(name),
                shown(raw),
                f"up to {MOST_TABLES} tables in double brackets",
                f"write each under [[{self.path(name)}]]",
            )
            return []
        return [
            Section(self.notes, f"{self.path(name)}[{index}]", each)
            for index, each in enumerate(tables, 1)
        ]

    def done(self) -> None:
        """Note every key that no getter asked for, with the nearest known one."""
        note_unknown(self.notes, self.key, list(self._table), self._known)

    def _missing(self, name: str, wanted: str, example: str) -> None:
        self.notes.fault(self.path(name), "nothing", wanted, f"add {name} = {example}")

    def _listed(self, name: str, wanted: str) -> list[object]:
        return read_list(self.notes, self.path(name), self._table[name], wanted)
