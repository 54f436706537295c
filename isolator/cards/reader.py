"""One card file → `Material`, or every fault in it."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Any, cast

from isolator.cards.card import FAMILIES, Family, Figure, Kind, Material, StressCurve
from isolator.cards.curve import read_curve
from isolator.cards.entries import Entries, Table, shown
from isolator.cards.fields import CARD_KEYS, GONE, SOURCE_KEYS
from isolator.cards.parts import Parts
from isolator.cards.read_supply import read_supply
from isolator.physics.rubber.hardness import HARDNESS as TABLE_HARDNESS
from isolator.physics.rubber.hardness import table_factor
from isolator.reading.faults import InputError
from isolator.reading.files import NO_TOML, UnreadableError, parse_toml

HARDNESS_TABLE = "lindley-1978"
"""Key of the source whose E0 exceeds 3G and comes with a hardness factor."""
FACTOR_SPREAD = 1.1
"""×/÷ on the table's hardness factor; estimated, no source."""


def parse_card(text: str, entries: Entries) -> Table:
    """Return the document; raises `InputError` where it is not TOML."""
    try:
        return parse_toml(text)
    except UnreadableError as error:
        reason = shown(error.got.removeprefix(NO_TOML)).strip('"')
        entries.fault("", "text that is not TOML", "a card in TOML", reason)
        raise InputError(entries.faults) from error


def read_sources(document: Table, entries: Entries) -> dict[str, str]:
    """Return key → citation of a document's `[[sources]]`."""
    found: dict[str, str] = {}
    rows = document.get("sources", [])
    if not isinstance(rows, list):
        entries.fault("sources", shown(rows), "a list of tables", 'begin each with "[[sources]]"')
        return found
    for index, row in enumerate(rows):
        path = f"sources[{index}]"
        table = entries.table(row, path)
        if table is None:
            continue
        entries.known(table, SOURCE_KEYS, path)
        key = entries.text(table, f"{path}.key", "my-test")
        if key in found:
            entries.fault(f"{path}.key", shown(key), "each key once", "give one another key")
        found[key] = entries.text(table, f"{path}.cite", "squash test of my own, 12 May")
    return found


def read_card(text: str, *, card_id: str, file: str, shared: Mapping[str, str]) -> Material:
    """Return the card in `text`; raises `InputError` with every fault.

    `shared` are the citations that any card may use without giving them again.
    """
    parts = Parts(file, shared)
    document = parse_card(text, parts)
    parts.known({key: 0 for key in document if key not in GONE}, CARD_KEYS, "")
    name = parts.text(document, "name", "Natural rubber, 50 Shore A")
    family = cast(Family, parts.choice(document, "family", FAMILIES))
    note = parts.text(document, "note", "", default=" ").strip()
    frequency = parts.number(
        document.get("reference_frequency", "10 Hz"),
        "reference_frequency",
        "Hz",
        0.1,
        1000,
        '"10 Hz"',
    )
    parts.sources |= read_sources(document, parts)
    figures = parts.figures(document, family)
    factor = _hardness_factor(parts, figures)
    curve, curve_spread = read_curve(parts, document, family)
    infill, wall, pattern = parts.print_settings(document, family)
    supply = read_supply(parts, document, family)
    poured, cast_kind, cast_source = parts.cast(document, family)
    if parts.faults:
        raise InputError(parts.faults)
    if curve is not None and "youngs_modulus" not in figures:
        figures["youngs_modulus"] = _first_slope(curve, curve_spread)
    return Material(
        id=card_id,
        name=name,
        family=family,
        note=note,
        hardness_factor=factor,
        curve=curve,
        infill=infill,
        wall=wall,
        pattern=pattern,
        reference_frequency=frequency,
        supply=supply,
        cast=poured,
        cast_kind=cast_kind,
        cast_source=cast_source,
        stiffness_spread=_stiffness_spread(family, figures, curve_spread),
        sources=tuple((key, parts.sources[key]) for key in parts.used),
        **cast("dict[str, Any]", figures),
    )


def _hardness_factor(parts: Parts, figures: Mapping[str, Figure]) -> Figure | None:
    """Return the k of a card whose E0 is the published table's; None where k is 1."""
    modulus, hardness = figures.get("youngs_modulus"), figures.get("hardness")
    if modulus is None or modulus.source != HARDNESS_TABLE:
        return None
    low, high = TABLE_HARDNESS[0], TABLE_HARDNESS[-1]
    if hardness is not None and math.isnan(hardness.value):
        return None  # noted already
    if hardness is None or not low <= hardness.value <= high:
        parts.fault(
            "hardness",
            "nothing" if hardness is None else f"{hardness.value:g}",
            f"the hardness from {low:g} to {high:g} of the row that E0 is from",
            "the table's E0 holds only with the hardness factor of its row",
        )
        return None
    return Figure(
        value=float(table_factor(hardness.value)),
        spread=FACTOR_SPREAD,
        kind=modulus.kind,
        source=modulus.source,
        conditions="of the row that E0 is from",
    )


def _first_slope(curve: StressCurve, spread: float) -> Figure:
    # a standard fixes one point of a curve, seldom its first slope
    kind: Kind = "estimated" if curve.kind == "standard" else curve.kind
    return Figure(
        value=curve.stress[1] / curve.strain[1],
        spread=spread,
        kind=kind,
        source=curve.source,
        conditions="slope of the curve's first stretch",
    )


def _stiffness_spread(family: Family, figures: Mapping[str, Figure], curve_spread: float) -> float:
    if family == "rubber":
        return figures["youngs_modulus"].spread
    if family == "foam":
        return curve_spread
    law = math.log(figures["infill_factor"].spread)
    # independent factors: their logarithms add as squares
    return math.exp(math.hypot(math.log(figures["solid_modulus"].spread), law))
