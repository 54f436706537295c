"""One card file → `Material`, or every fault in it."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Any, cast

from isolator.cards.card import FAMILIES, Family, Figure, Kind, Material, StressCurve
from isolator.cards.curve import read_curve
from isolator.cards.entries import Entries, Table, shown
from isolator.cards.fields import CARD_KEYS, SOURCE_KEYS
from isolator.cards.parts import Parts
from isolator.reading.faults import InputError
from isolator.reading.files import NO_TOML, UnreadableError, parse_toml


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
    parts.known(document, CARD_KEYS, "")
    name = parts.text(document, "name", "Natural rubber, 50 IRHD")
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
    curve, curve_spread = read_curve(parts, document, family)
    infill, wall = parts.print_settings(document, family)
    thicknesses, stock_kind, stock_source = parts.stock(document)
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
        curve=curve,
        infill=infill,
        wall=wall,
        reference_frequency=frequency,
        thicknesses=thicknesses,
        stock_kind=stock_kind,
        stock_source=stock_source,
        cast=poured,
        cast_kind=cast_kind,
        cast_source=cast_source,
        stiffness_spread=_stiffness_spread(family, figures, curve_spread),
        sources=tuple((key, parts.sources[key]) for key in parts.used),
        **cast("dict[str, Any]", figures),
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
