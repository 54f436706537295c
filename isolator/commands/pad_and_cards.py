"""The small commands: one pad, the cards, quantities typed on the command line."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import asdict
from pathlib import Path
from typing import TYPE_CHECKING, Any

from isolator.cards import Material, ideal_rubber, load_card, load_cards
from isolator.cards.one_pad import PadFigures, pad_figures, read_sizes
from isolator.cards.rows import card_rows
from isolator.commands.known_cards import unknown_card
from isolator.reading.command_words import COMMAND_LINE, quantities
from isolator.reading.faults import InputError
from isolator.report.sentences.numbers import banded
from isolator.vibration.band import Band

if TYPE_CHECKING:
    from rich.console import Group


UNITS = {"MPa": 1e6, "N/mm": 1e3, "N*m/rad": 1.0, "%": 1e-2, "": 1.0}
"""In which a pad's figures are told, in SI."""


def find_material(text: str) -> Material:
    """Return the material that is meant: a card's id, a card's file, or a Young's modulus."""
    cards = load_cards()
    if text in cards:
        return cards[text]
    if text.endswith(".toml"):
        return load_card(Path(text))
    if text[:1].isdigit() or text[:1] in "+-.":
        return ideal_rubber(quantities(["MATERIAL"], [text], "Pa")[0])
    raise InputError([unknown_card(COMMAND_LINE, "MATERIAL", text, cards)])


def pad(material: str, shape: str, size: Sequence[str], load: str, *, bonded: bool) -> PadFigures:
    """Return the figures of one pad as typed; raises InputError."""
    card, sizes = find_material(material), read_sizes(shape, size)
    return pad_figures(card, shape, sizes, quantities(["--load"], [load], "N")[0], bonded=bonded)


def pad_json(figures: PadFigures) -> dict[str, Any]:
    """Return a pad's figures as JSON; shear along x, tilt about x, the others beside them."""
    return {
        "shape_factor": figures.shape_factor,
        "apparent_modulus_pa": figures.apparent_modulus,
        "youngs_modulus_pa": figures.youngs_modulus,
        "compression_n_per_m": figures.compression,
        "shear_n_per_m": figures.shear[0],
        "shear_y_n_per_m": figures.shear[1],
        "tilt_nm_per_rad": figures.tilt[0],
        "tilt_y_nm_per_rad": figures.tilt[1],
        "twist_nm_per_rad": figures.twist,
        "strain": figures.strain,
        "load_n": figures.load,
        "dynamic_ratio": figures.dynamic_ratio,
        "warnings": list(figures.warnings),
    }


def pad_title(material: str, shape: str, size: Sequence[str], load: str, bonded: bool) -> str:
    """Return what a pad's table is headed with."""
    faces = "faces bonded" if bonded else "faces slipping"
    return f"{shape} {' × '.join(size)} of {material}, {faces}, carrying {load}"


def pad_rows(figures: PadFigures, card: Material) -> list[tuple[str, str, str]]:
    """Return a pad's figures as rows: name, value with unit, remark.

    Each has the band that the card gives it, and no more digits than that deserves.
    """
    spread, same = card.stiffness_spread, ("x and y", "x")
    alike = figures.shear[0] == figures.shear[1] and figures.tilt[0] == figures.tilt[1]

    def stiff(name: str, value: float, unit: str, remark: str) -> tuple[str, str, str]:
        return name, _spread(value, spread, unit), remark

    rows = [
        ("shape factor", f"{figures.shape_factor:.2g}", "one loaded over the free side area"),
        stiff("Young's modulus", figures.youngs_modulus, "MPa", "of the material"),
        stiff("apparent modulus", figures.apparent_modulus, "MPa", "of this pad"),
        stiff("compression", figures.compression, "N/mm", "at this load, static"),
        stiff(f"shear along {same[not alike]}", figures.shear[0], "N/mm", "faces parallel"),
        *([] if alike else [stiff("shear along y", figures.shear[1], "N/mm", "")]),
        stiff(f"tilt about {same[not alike]}", figures.tilt[0], "N*m/rad", ""),
        *([] if alike else [stiff("tilt about y", figures.tilt[1], "N*m/rad", "")]),
        stiff("twist", figures.twist, "N*m/rad", ""),
        ("strain", _spread(figures.strain, spread, "%"), "under this load"),
        (
            "dynamic ratio",
            _spread(figures.dynamic_ratio, card.dynamic_ratio.spread, ""),
            "times as stiff when shaken",
        ),
    ]
    if spread > 1.0:
        rows.append(("", "", "in brackets: what a piece you buy may have"))
    return rows + [("warning", "", text) for text in figures.warnings]


def _spread(value: float, spread: float, unit: str) -> str:
    """Return a value with its band, ×/÷ `spread`, in one of `UNITS`."""
    told = Band(low=value / spread, nominal=value, high=value * spread)
    low, middle, high = banded(told, 1.0 / UNITS[unit])
    own = f"{middle} {unit.replace('*', '·')}".strip()
    return own if low == high else f"{own} ({low} to {high})"


def cards(ident: str | None, folder: Path | None) -> list[Material]:
    """Return all cards, or the one asked for; raises InputError for one that nobody has."""
    found = load_cards(folder)
    if ident is None:
        return list(found.values())
    if ident.endswith(".toml"):
        return [load_card(Path(ident))]
    if ident not in found:
        raise InputError([unknown_card(COMMAND_LINE, "ID", ident, found)])
    return [found[ident]]


def cards_json(found: Sequence[Material], *, whole: bool) -> dict[str, Any]:
    """Return the cards as JSON: a list in short, or one whole with its sources."""
    if whole:
        told = asdict(found[0])
        told["sources"] = [{"key": key, "cite": cite} for key, cite in found[0].sources]
        return {"materials": [told]}
    return {
        "materials": [{"id": card.id, "name": card.name, "family": card.family} for card in found]
    }


def cards_shown(found: Sequence[Material], *, whole: bool) -> Group:
    """Return the cards as a printable: a table, or one card with its sources."""
    from rich.console import Group
    from rich.text import Text

    from isolator.report.terminal.summary import card_table, materials_table

    if not whole:
        return materials_table([(card.id, card.name, card.family) for card in found])
    card = found[0]
    return Group(
        Text(card.note),
        card_table(f"{card.name} ({card.id}, {card.family})", card_rows(card)),
        Text("\nSources", style="bold"),
        *(Text(f"{key}: {cite}") for key, cite in card.sources),
    )
