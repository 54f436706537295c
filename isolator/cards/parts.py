"""Reads the tables of one card: figures, print settings, what is poured."""

from __future__ import annotations

from collections.abc import Mapping
from typing import cast

from isolator.cards.card import KINDS, Family, Figure, Kind
from isolator.cards.entries import Entries, Table, shown
from isolator.cards.fields import (
    CAST_KEYS,
    FIELDS,
    FIGURE_KEYS,
    GONE,
    PRINT_KEYS,
    SPREAD_KEYS,
    Field,
)

NO_KIND = "no number without kind and source: say how it is known"
NO_SOURCE = "no number without kind and source: say where it is from"


class Parts(Entries):
    """Reads the parts of one card; `used` gathers the source keys met, in order.

    `sources` are the keys that may be used, with their citations.
    """

    def __init__(self, file: str, sources: Mapping[str, str]) -> None:
        super().__init__(file)
        self.sources = dict(sources)
        self.used: list[str] = []

    def origin(self, table: Table, path: str) -> tuple[Kind, str]:
        """Return kind and source of a number."""
        if "kind" in table:
            kind = self.choice(table, f"{path}.kind", KINDS)
        else:
            kind = ""
            self.fault(f"{path}.kind", "nothing", f"one of {', '.join(KINDS)}", NO_KIND)
        source = table.get("source")
        if not isinstance(source, str) or not source:
            self.fault(f"{path}.source", shown(source), "the key of a source", NO_SOURCE)
            return cast(Kind, kind), ""
        if source not in self.sources:
            self.fault(
                f"{path}.source",
                shown(source),
                "the key of a source",
                f'add [[sources]] with key = {shown(source)} and cite = "…"',
            )
        elif source not in self.used:
            self.used.append(source)
        return cast(Kind, kind), source

    def figures(self, document: Table, family: Family) -> dict[str, Figure]:
        """Return all single figures of the card."""
        found: dict[str, Figure] = {}
        for key, (why, mend) in GONE.items():
            if key in document:
                self.fault(key, "it typed", f"none: {why}", mend)
        for key, field in FIELDS.items():
            if key not in document:
                if family in field.needed:
                    self.fault(
                        key,
                        "nothing",
                        f"a figure that every {family} card needs",
                        f"add [{key}] with value (such as {field.example}), spread, kind, source",
                    )
                continue
            self.belongs(key, family, field.families)
            table = self.table(document[key], key)
            if table is not None:
                found[key] = self.figure(table, key, field)
        return found

    def figure(self, table: Table, key: str, field: Field) -> Figure:
        """Return one figure."""
        self.known(table, SPREAD_KEYS if field.spread_alone else FIGURE_KEYS, key)
        given = 1.0 if field.spread_alone else table.get("value")
        value = self.number(given, f"{key}.value", field.unit, field.low, field.high, field.example)
        spread = self.spread(table, key, points=field.in_points)
        kind, source = self.origin(table, key)
        return Figure(
            value=value,
            spread=spread,
            kind=kind,
            source=source,
            conditions=self.conditions(table, key),
        )

    def conditions(self, table: Table, key: str) -> str:
        """Return the conditions under which a number holds; "" where none are given."""
        return self.text(table, f"{key}.conditions", "20 °C, 10 Hz", default=" ").strip()

    def belongs(self, key: str, family: str, families: tuple[Family, ...]) -> None:
        """Note a table that a card of this family cannot hold."""
        if family and family not in families:
            wanted = f"it on a {' or '.join(families)} card only"
            self.fault(key, f"it on a {family} card", wanted, "leave it out")

    def own(
        self, document: Table, key: str, family: str, owner: Family, wanted: str, advice: str
    ) -> Table | None:
        """Return the table `key` of a family that needs it; None where it is missing or wrong."""
        if key not in document:
            if family == owner:
                self.fault(key, "nothing", wanted, advice)
            return None
        table = self.table(document[key], key)
        if table is not None:
            self.belongs(key, family, (owner,))
        return table

    def spread(self, table: Table, key: str, *, points: bool = False) -> float:
        """Return a spread: a factor of at least 1, or ± points."""
        low, high, example = (0, 30, "5") if points else (1, 10, "1.2, which means ×/÷ 1.2")
        return self.number(table.get("spread"), f"{key}.spread", "", low, high, example)

    def print_settings(
        self, document: Table, family: Family
    ) -> tuple[float | None, float | None, str]:
        """Return infill [0..1], wall [m] and pattern of a print: settings, not properties."""
        row = 'add [print] with pattern = "gyroid", infill = 0.25, wall = "0.9 mm"'
        wanted = "the print settings that every printed card needs"
        table = self.own(document, "print", family, "printed", wanted, row)
        if table is None:
            return None, None, ""
        self.known(table, PRINT_KEYS, "print")
        pattern = self.text(table, "print.pattern", "gyroid")
        infill = self.number(table.get("infill"), "print.infill", "", 0.02, 1, "0.25")
        wall = self.number(table.get("wall", "0 mm"), "print.wall", "m", 0, 0.02, '"0.9 mm"')
        return infill, wall, pattern

    def cast(self, document: Table, family: Family) -> tuple[str, Kind, str]:
        """Return what a rubber is poured from, with kind and source; "" where it is not."""
        if "cast" not in document:
            return "", "estimated", ""
        self.belongs("cast", family, ("rubber",))
        table = self.table(document["cast"], "cast")
        if table is None:
            return "", "estimated", ""
        self.known(table, CAST_KEYS, "cast")
        return self.text(table, "cast.system", "two-part silicone"), *self.origin(table, "cast")
