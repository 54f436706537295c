"""A material card as rows of plain text, for any door to lay out."""

from __future__ import annotations

from typing import NamedTuple

from isolator.cards import Figure, Material, StressCurve, Supply
from isolator.reading.units import format_quantity


class CardRow(NamedTuple):
    """One line of a card; `source` is a key of the card's `sources`, "" for a setting."""

    label: str
    value: str
    spread: str
    kind: str
    source: str


_LABELS = {
    "hardness": "hardness",
    "youngs_modulus": "Young's modulus E0",
    "shear_modulus": "shear modulus G",
    "hardness_factor": "hardness factor k",
    "bulk_modulus": "bulk modulus",
    "poisson": "Poisson's ratio",
    "solid_modulus": "modulus of the solid",
    "infill_factor": "infill law, factor C",
    "infill_power": "infill law, power n",
    "loss_factor": "loss factor",
    "dynamic_ratio": "dynamic over static stiffness",
    "strain_dependence": "stiffness over amplitude",
    "creep": "creep per decade of time",
    "temperature": "stiffness change per kelvin",
    "strain_limit": "largest static compression",
    "density": "density",
    "conductivity": "thermal conductivity",
}
_PERCENT = ("creep", "temperature", "strain_limit")


def card_rows(material: Material) -> list[CardRow]:
    """Return all that a card knows, one row to a number; what is unknown has no row.

    >>> from isolator.cards import ideal_rubber
    >>> tuple(card_rows(ideal_rubber(2e6))[0])
    ("Young's modulus E0", '2 MPa', 'none', 'estimated', 'ideal')
    """
    rows = []
    if material.curve is not None:
        rows.append(_curve_row(material.curve, material.stiffness_spread))
    if material.infill is not None:
        infill = f"{100 * material.infill:g} %"
        told = infill if material.infill == 1 else f"{infill} {material.pattern}"
        rows.append(CardRow("infill", told, "", "", ""))
    if material.wall:
        rows.append(CardRow("solid wall", format_quantity(material.wall, "mm"), "", "", ""))
    for name, label in _LABELS.items():
        figure: Figure | None = getattr(material, name)
        if figure is not None:
            spread = _spread(figure.spread, points=name == "hardness")
            rows.append(
                CardRow(label, _value(name, figure.value), spread, figure.kind, figure.source)
            )
    frequency = format_quantity(material.reference_frequency, "Hz")
    rows.append(CardRow("dynamic figures hold at", frequency, "", "", ""))
    if material.supply.source:
        rows += _supply_rows(material.supply)
    if material.cast:
        known = (material.cast_kind, material.cast_source)
        rows.append(CardRow("can be poured from", material.cast, "", *known))
    return rows


def _supply_rows(supply: Supply) -> list[CardRow]:
    known = (supply.kind, supply.source)
    rows = [CardRow("where it is got", supply.found, "", *known)]
    if supply.sheets:
        sheets = ", ".join(f"{1e3 * sheet:g}" for sheet in supply.sheets) + " mm"
        rows.append(CardRow("sold as sheets of", sheets, "", *known))
    if supply.sizes:
        sizes = ", ".join(f"{1e3 * one:g} × {1e3 * other:g}" for one, other in supply.sizes)
        rows.append(CardRow("sheets measure", sizes + " mm", "", *known))
    if supply.ready:
        rows.append(CardRow("sold as", "cylindrical buffers with studs or threads", "", *known))
    return rows


def _value(name: str, value: float) -> str:
    if name.endswith("modulus"):
        return format_quantity(value, "MPa" if value >= 1e6 else "kPa", 4)
    if name == "density":
        return format_quantity(value, "kg/m^3", 4)
    if name == "conductivity":
        return f"{value:g} W/(m*K)"
    if name in _PERCENT:
        return f"{100 * value:g} %"
    return f"{value:g}"


def _spread(spread: float, *, points: bool) -> str:
    if points:
        return f"±{spread:g}"
    return "none" if spread == 1 else f"×/÷ {spread:.3g}"


def _curve_row(curve: StressCurve, spread: float) -> CardRow:
    """Return the points nearest a quarter and half compression, as far as the curve goes."""
    marks = [
        min(range(1, len(curve.strain)), key=lambda i: abs(curve.strain[i] - mark))
        for mark in (0.1, 0.25, 0.5)
    ]
    points = [
        f"{format_quantity(curve.stress[i], 'kPa', 3)} at {100 * curve.strain[i]:g} %"
        for i in dict.fromkeys(marks)
    ]
    return CardRow(
        "compression curve",
        ", ".join(points),
        _spread(spread, points=False),
        curve.kind,
        curve.source,
    )
