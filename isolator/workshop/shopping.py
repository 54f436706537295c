"""The shopping list: what a drawing needs, less what the user owns."""

from __future__ import annotations

import csv
import difflib
import io
import math
from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from isolator.brief import Owned
from isolator.cards import Material
from isolator.design import Design
from isolator.design.filaments import sold_as
from isolator.design.naming import slug
from isolator.workshop.bought_dampers import bought_rows
from isolator.workshop.damper_hardware import cut_rows, damper_rows, plate_rows
from isolator.workshop.foot_hardware import NO_CARDS, foot_rows
from isolator.workshop.glue import glue_rows
from isolator.workshop.sheets import sheet_rows

FILAMENT = 1.75e-3
"""Diameter of the usual filament [m]."""
FORMULA = ("=", "+", "-", "@", "\t", "\r")
"""What a table program takes for the beginning of a formula."""
DIGITS = {"pieces": 0, "m": 1, "cm^2": 0, "cm^3": 1, "g": 0}


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """One line of the list."""

    name: str
    quantity: float
    unit: str  # "pieces", "m", "cm^2", "cm^3" or "g"
    remark: str
    owned: float = 0.0
    motors: bool = False  # for what goes under motors alone

    @property
    def to_buy(self) -> float:
        """What is left to buy."""
        return max(0.0, self.quantity - self.owned)

    def shown(self, value: float) -> str:
        """Return a quantity as it is written, never less than it is."""
        digits = DIGITS[self.unit]
        return f"{math.ceil(value * 10**digits - 1e-6) / 10**digits:.{digits}f}"


def shopping_items(
    drawing: Design,
    manifest: dict[str, Any],
    owned: Sequence[Owned] = (),
    cards: Mapping[str, Material] = NO_CARDS,
) -> list[Item]:
    """Return everything to buy for a drawing: sheet, screws, wires, glue, filament.

    Filament is counted as parts are filled. What is `owned` is taken off the line of its name;
    `cards` tell in which sheets materials are sold.
    """
    items = [*goods(drawing, manifest["pads"], cards), *_filament(manifest)]
    return with_owned(items, owned)


def goods(
    drawing: Design, pads: Sequence[Mapping[str, Any]], cards: Mapping[str, Material]
) -> list[Item]:
    """Return everything to buy but filament, which only drawn parts tell; `pads` are of
    `isolator.design.cut_list`."""
    boxes = _boxes(drawing)
    under = {damper.material for damper in drawing.motor_dampers}
    under -= {foot.pad.material for foot in drawing.feet}
    sheets = [
        (sheet_rows(of, [_box(pad, boxes) for pad in of], cards), alone)
        for of, alone in (
            ([pad for pad in pads if pad["material"] not in under], False),
            ([pad for pad in pads if pad["material"] in under], True),
        )
    ]
    own_glue = {row[0] for row in glue_rows(replace(drawing, motor_dampers=()))}
    bought = (
        *sheets,
        (foot_rows(drawing.feet, drawing.slab, drawing.print.layer, cards), False),
        (bought_rows(drawing.motor_dampers), True),
        (damper_rows(drawing.motor_dampers), True),
        (plate_rows(drawing.motor_spacers), True),
        (cut_rows(drawing.motor_dampers), True),
    )
    glue = [(row, row[0] not in own_glue) for row in glue_rows(drawing)]
    return [
        Item(name=name, quantity=float(quantity), unit=unit, remark=remark, motors=alone)
        for (name, quantity, unit, remark), alone in (
            *((row, alone) for rows, alone in bought for row in rows),
            *glue,
        )
    ]


def with_owned(items: Sequence[Item], owned: Sequence[Owned]) -> list[Item]:
    """Return items with what is owned of each."""
    have = {_plain(each.item): each.quantity for each in owned}
    return [replace(each, owned=have.get(_plain(each.name), 0.0)) for each in items]


def unmatched(items: Sequence[Item], owned: Sequence[Owned]) -> list[str]:
    """Return a sentence for everything owned that no line asks for, with the nearest line."""
    names = {_plain(each.name): each.name for each in items}
    told = []
    for each in owned:
        if _plain(each.item) in names:
            continue
        near = difflib.get_close_matches(_plain(each.item), names, 1, 0.5)
        mend = f'; did you mean "{names[near[0]]}"?' if near else ""
        told.append(f'"{each.item}", which you own, is on no line of the list{mend}')
    return told


_SIGNS = ((" x ", " × "), ("^2", "²"), ("^3", "³"))
"""What the list writes, so that any table program reads it, and what pages show."""


def as_shown(text: str) -> str:
    """Return a text of the list as pages show it.

    >>> as_shown("wire, 0.75 mm^2"), as_shown("slab 400 x 400 x 40 mm")
    ('wire, 0.75 mm²', 'slab 400 × 400 × 40 mm')
    """
    for plain, sign in _SIGNS:
        text = text.replace(plain, sign)
    return text


def _plain(name: str) -> str:
    """Return a name as names are compared, typed from the list or from a page."""
    name = name.casefold()
    for plain, sign in _SIGNS:
        name = name.replace(sign, plain)
    return name


def shopping_csv(items: Sequence[Item]) -> str:
    """Return the list as CSV."""
    text = io.StringIO()
    rows = csv.writer(text, lineterminator="\n")
    rows.writerow(["item", "quantity", "unit", "remark", "owned", "to buy"])
    for each in items:
        numbers = (each.shown(each.owned), each.shown(each.to_buy))
        told = [each.name, each.shown(each.quantity), each.unit, each.remark, *numbers]
        rows.writerow([_cell(one) for one in told])
    return text.getvalue()


def _cell(text: str) -> str:
    """Return a cell that no table program takes for a formula: an apostrophe goes before it."""
    return f"'{text}" if text.startswith(FORMULA) else text


def _boxes(drawing: Design) -> dict[str, tuple[float, float]]:
    """Return the box (x, y) [m] of every kind of pad by its template's name."""
    boxes = {slug(foot.name, "pad"): foot.pad.widths for foot in drawing.feet}
    for damper in drawing.motor_dampers:
        deep = damper.first if damper.shape == "ring" else damper.second
        boxes[slug(damper.name, "rubber")] = (damper.first, deep)
    return boxes


def _box(pad: Mapping[str, Any], boxes: dict[str, tuple[float, float]]) -> tuple[float, float]:
    """Return a pad's box; a template that several motors share is found by the first of them."""
    name = pad["name"]
    return boxes[name] if name in boxes else boxes[slug(pad["owner"], "rubber")]


def _filament(manifest: dict[str, Any]) -> list[Item]:
    mass, volume = defaultdict[str, float](float), defaultdict[str, float](float)
    hollow: set[str] = set()
    for part in manifest["parts"]:
        if part["print_mass_kg"] is not None:
            sold = sold_as(part["material"])
            mass[sold] += part["print_mass_kg"] * part["quantity"]
            volume[sold] += part["filament_m3"] * part["quantity"]
            if part["filament_m3"] < part["volume_m3"]:
                hollow.add(sold)
    area = math.pi / 4.0 * FILAMENT**2
    return [
        Item(
            name=f"{name} filament",
            quantity=mass[name] * 1e3,
            unit="g",
            remark=f"{volume[name] / area:.1f} m of {FILAMENT * 1e3:g} mm, printed "
            f"{'with the infill that its parts ask for' if name in hollow else 'solid'}; brims "
            "and what is wiped off come on top",
        )
        for name in mass
    ]
