"""Reads where the material of a card is got, and in which sheets."""

from __future__ import annotations

from isolator.cards.card import Family
from isolator.cards.entries import Table, shown
from isolator.cards.fields import SUPPLY_KEYS
from isolator.cards.parts import Parts
from isolator.cards.supply import UNKNOWN, Supply
from isolator.design.got import FOUND, ORDERED, PRINTED

MOST = 100
"""Entries of one list."""


def read_supply(parts: Parts, document: Table, family: Family) -> Supply:
    """Return the supply of a card; one without the table is ordered, in sheets nobody knows."""
    if "supply" not in document:
        return UNKNOWN
    table = parts.table(document["supply"], "supply")
    if table is None:
        return UNKNOWN
    parts.known(table, SUPPLY_KEYS, "supply")
    found = parts.choice(table, "supply.found", FOUND)
    if found == PRINTED and family in ("rubber", "foam"):
        parts.fault("supply.found", f'"{PRINTED}"', "where it is bought", f"no {family} is printed")
    if family == "printed":
        for key in ("sheets", "sizes"):
            if key in table:
                parts.fault(f"supply.{key}", "it", "none on a printed card", "leave it out")
    sheets = [
        parts.number(row, f"supply.sheets[{i}]", "m", 2e-4, 0.5, '"6 mm"')
        for i, row in enumerate(_rows(parts, table, "sheets", "thicknesses", '["6 mm"]'))
    ]
    sizes = [
        _size(parts, row, f"supply.sizes[{i}]")
        for i, row in enumerate(_rows(parts, table, "sizes", "sizes", '[["200 mm", "300 mm"]]'))
    ]
    ready = table.get("ready", False)
    if not isinstance(ready, bool):
        parts.fault("supply.ready", shown(ready), "true or false", "true: it comes as buffers")
    if ready is True and (family != "rubber" or sheets):
        what = "sheets" if sheets else family
        wanted = "a rubber that comes in no sheets"
        parts.fault("supply.ready", f"true beside {what}", wanted, "give buffers their own card")
    kind, source = parts.origin(table, "supply")
    return Supply(
        found=found or ORDERED,
        sheets=tuple(sorted(sheets)),
        sizes=tuple(sorted(sizes)),
        kind=kind,
        source=source,
        ready=ready is True,
    )


def _rows(parts: Parts, table: Table, key: str, what: str, example: str) -> list[object]:
    if key not in table:
        return []
    rows = table[key]
    if isinstance(rows, list) and 1 <= len(rows) <= MOST:
        return rows
    parts.fault(f"supply.{key}", shown(rows), f"a list of {what}", f"such as {key} = {example}")
    return []


def _size(parts: Parts, row: object, path: str) -> tuple[float, float]:
    if not isinstance(row, list) or len(row) != 2:
        wanted = "the two sides of a sheet"
        parts.fault(path, shown(row), wanted, 'such as ["200 mm", "300 mm"]')
        return 0.0, 0.0
    sides = [parts.number(each, path, "m", 0.02, 20.0, '"300 mm"') for each in row]
    return min(sides), max(sides)
