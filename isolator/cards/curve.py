"""Reads the compression curve of a foam card."""

from __future__ import annotations

import math

from isolator.cards.card import Family, StressCurve
from isolator.cards.entries import Table, shown
from isolator.cards.fields import CURVE_KEYS
from isolator.cards.parts import Parts


def read_curve(parts: Parts, document: Table, family: Family) -> tuple[StressCurve | None, float]:
    """Return the compression curve [-, Pa] and its spread, a factor.

    None and NaN where the card has no curve; faults are noted in `parts`.
    """
    wanted = "a curve that every foam card needs"
    advice = "add [curve] with unit, strain, stress, spread, kind, source"
    table = parts.own(document, "curve", family, "foam", wanted, advice)
    if table is None:
        return None, math.nan
    parts.known(table, CURVE_KEYS, "curve")
    unit = parts.text(table, "curve.unit", "kPa")
    scale = parts.number(f"1 {unit}", "curve.unit", "Pa", 0, 1e9, '"kPa"') if unit else 1.0
    strain = _points(parts, table, "strain", highest=0.99)
    stress = _points(parts, table, "stress", highest=1e9)
    if strain and stress and len(strain) != len(stress):
        parts.fault(
            "curve.stress",
            f"{len(stress)} points",
            f"{len(strain)}, one to each strain",
            "give both lists the same length",
        )
    spread = parts.spread(table, "curve")
    kind, source = parts.origin(table, "curve")
    curve = StressCurve(
        strain=strain,
        stress=tuple(point * scale for point in stress),
        kind=kind,
        source=source,
        conditions=parts.conditions(table, "curve"),
    )
    return curve, spread


def _points(parts: Parts, table: Table, name: str, *, highest: float) -> tuple[float, ...]:
    """Return one list of a curve: from 0, rising at every step, three points at least.

    Empty with a fault where it is no such list.
    """
    key = f"curve.{name}"
    rows = table.get(name)
    if not isinstance(rows, list) or not 3 <= len(rows) <= 1000:
        parts.fault(key, shown(rows), "a list of 3 to 1000 numbers", "start it with 0, then rising")
        return ()
    before = len(parts.faults)
    points = tuple(
        parts.number(row, f"{key}[{i}]", "", 0, highest, "0.25") for i, row in enumerate(rows)
    )
    if len(parts.faults) > before:
        return ()
    if points[0] != 0:
        parts.fault(f"{key}[0]", shown(rows[0]), "0", "start the curve unloaded")
    for i in range(1, len(points)):
        if points[i] <= points[i - 1]:
            parts.fault(
                f"{key}[{i}]",
                shown(rows[i]),
                f"more than {shown(rows[i - 1])}",
                "a curve rises at every point",
            )
    return points
