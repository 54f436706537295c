"""Writes a material card as a file that reads back as the same card."""

from __future__ import annotations

import json
from collections.abc import Iterator

from isolator.cards.card import Figure, Material, StressCurve
from isolator.cards.fields import FIELDS
from isolator.cards.supply import Supply

DIGITS = 5
"""Of a number in a card; none is known better."""


def card_text(card: Material) -> str:
    """Return a card as TOML; its id is the name of the file that this goes into.

    A card that stands for a ready-made mount has no file. Raises ValueError for one.
    """
    if card.mount is not None:
        raise ValueError(f"{card.id}: a mount's data sheet stands in a brief, not in a card")
    blocks = [_head(card)]
    if card.infill is not None:
        lines = [f"pattern = {_text(card.pattern)}", f"infill = {_plain(card.infill)}"]
        blocks.append(["[print]", *lines, f'wall = "{_plain(1e3 * (card.wall or 0.0))} mm"'])
    if card.curve is not None:
        blocks.append(_curve(card.curve, card.stiffness_spread))
    for name in FIELDS:
        figure: Figure | None = getattr(card, name)
        first_slope = name == "youngs_modulus" and card.curve is not None
        if figure is not None and not first_slope:
            blocks.append(_figure(name, figure))
    if card.supply.source:
        blocks.append(_supply(card.supply))
    if card.cast:
        cast = [f"kind = {_text(card.cast_kind)}", f"source = {_text(card.cast_source)}"]
        blocks.append(["[cast]", f"system = {_text(card.cast)}", *cast])
    blocks += [
        ["[[sources]]", f"key = {_text(key)}", f"cite = {_text(cite)}"]
        for key, cite in card.sources
    ]
    return "\n\n".join("\n".join(block) for block in blocks) + "\n"


def _head(card: Material) -> list[str]:
    note = [f"note = {_text(card.note)}"] if card.note else []
    frequency = f'reference_frequency = "{_plain(card.reference_frequency)} Hz"'
    return [f"name = {_text(card.name)}", f"family = {_text(card.family)}", *note, frequency]


def _figure(name: str, figure: Figure) -> list[str]:
    field = FIELDS[name]
    lines = [f"[{name}]"]
    if not field.spread_alone:
        value = f'"{_quantity(figure.value, field.unit)}"' if field.unit else _plain(figure.value)
        lines.append(f"value = {value}")
    lines.append(f"spread = {_plain(figure.spread)}")
    return [*lines, *_origin(figure.kind, figure.source), *_conditions(figure.conditions)]


def _quantity(value: float, unit: str) -> str:
    """Return a figure with its unit; moduli in kPa."""
    return f"{_plain(value / 1e3)} kPa" if unit == "Pa" else f"{_plain(value)} {unit}"


def _curve(curve: StressCurve, spread: float) -> list[str]:
    return [
        "[curve]",
        'unit = "kPa"',
        f"strain = [{', '.join(_plain(each) for each in curve.strain)}]",
        f"stress = [{', '.join(_plain(each / 1e3) for each in curve.stress)}]",
        f"spread = {_plain(spread)}",
        *_origin(curve.kind, curve.source),
        *_conditions(curve.conditions),
    ]


def _supply(supply: Supply) -> list[str]:
    lines = ["[supply]", f"found = {_text(supply.found)}"]
    if supply.sheets:
        lines.append(f"sheets = [{', '.join(_length(each) for each in supply.sheets)}]")
    if supply.sizes:
        sizes = (f"[{_length(one)}, {_length(other)}]" for one, other in supply.sizes)
        lines.append(f"sizes = [{', '.join(sizes)}]")
    if supply.ready:
        lines.append("ready = true")
    return [*lines, f"kind = {_text(supply.kind)}", f"source = {_text(supply.source)}"]


def _origin(kind: str, source: str) -> Iterator[str]:
    yield f"kind = {_text(kind)}"
    yield f"source = {_text(source)}"


def _conditions(told: str) -> list[str]:
    return [f"conditions = {_text(told)}"] if told else []


def _length(value: float) -> str:
    return f'"{_plain(1e3 * value)} mm"'


def _plain(value: float) -> str:
    """Return a number as TOML and the reader of quantities take it: no exponent."""
    text = f"{float(f'{value:.{DIGITS}g}'):.12f}".rstrip("0").rstrip(".")
    return text or "0"


def _text(value: str) -> str:
    return json.dumps(value, ensure_ascii=False)
