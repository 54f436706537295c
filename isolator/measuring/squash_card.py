"""The material card that follows from a squash test; what it does not tell is lent by another."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields, replace
from typing import Any

import numpy as np

from isolator.cards import Figure, Material, StressCurve, Supply
from isolator.cards.pad_law import is_solid
from isolator.measuring.squash_fit import Fit
from isolator.measuring.squash_runs import Runs
from isolator.physics.rubber.section import section
from isolator.physics.rubber.viscoelastic import temperature_factor
from isolator.reading.units import format_quantity
from isolator.recordings.specimen import FOAM, RUBBER, Specimen
from isolator.recordings.squash_file import Readings
from isolator.vibration.supports import ROOM

PIECE = 1.1
"""×/÷ from one piece of a sheet or a print to the next; estimated, no source."""
WALLS = 1.2
"""×/÷ for how a print's walls and infill share the load, which one piece does not tell; estimated,
no source."""
SOURCE = "squash-test"
SHARED = ("loss_factor", "dynamic_ratio", "strain_dependence", "creep", "temperature")
LENT = (*SHARED, "strain_limit", "density", "conductivity", "poisson", "bulk_modulus")
"""Figures that the other card lends."""


def usual_card(specimen: Specimen, runs: Runs, cards: Mapping[str, Material]) -> Material:
    """Return a card to begin with: of rubber any, of foam the one nearest to the last reading."""
    area = float(section(specimen.shape, specimen.first, specimen.second).area)
    last = max(runs.used, key=lambda leg: float(leg.force[-1]))
    strain, stress = last.squeezed[-1] / specimen.height, last.force[-1] / area

    def apart(card: Material) -> float:
        if card.curve is None:
            return 0.0
        own = np.interp(strain, card.curve.strain, card.curve.stress)
        return abs(float(np.log(own / stress)))

    return min(_in_sheets(specimen.family, cards), key=apart)


def nearest_rubber(modulus: float, cards: Mapping[str, Material]) -> Material:
    """Return the rubber whose card comes nearest to Young's modulus [Pa]."""

    def apart(card: Material) -> float:
        assert card.youngs_modulus is not None
        return abs(float(np.log(card.youngs_modulus.value / modulus)))

    return min(_in_sheets(RUBBER, cards), key=apart)


def _in_sheets(family: str, cards: Mapping[str, Material]) -> list[Material]:
    return [
        card
        for card in cards.values()
        if card.family == family and card.in_sheets and not card.supply.ready
    ]


def stiffness_spread(fit: Fit, base: Material, temperature: float) -> float:
    """Return ×/÷ on the stiffness of the next piece: 95 % lie within, as in every card."""
    slope = base.temperature
    doubt = abs(slope.value * (temperature - ROOM)) * (slope.spread - 1.0) / 1.96
    return float(np.exp(1.96 * np.hypot(fit.error, np.hypot(np.log(PIECE) / 1.96, doubt))))


def card_of(
    specimen: Specimen, base: Material, fit: Fit, runs: Runs, readings: Readings
) -> Material:
    """Return the card of a squash test."""
    warmth = float(temperature_factor(specimen.temperature, base.temperature.value, ROOM))
    spread = round(stiffness_spread(fit, base, specimen.temperature), 3)
    runs_told = f"{len(runs.legs)} run{'s' if len(runs.legs) != 1 else ''} up or down"
    piece = f"{specimen.shape} of {_sizes(specimen)}, {specimen.faces} faces"
    cite = (
        f"Squash test of one's own, {readings.file}: {len(readings.force)} readings in "
        f"{runs_told}, {piece}, {specimen.temperature:g} °C"
    )
    own = f"squash test at {specimen.temperature:g} °C, told at {ROOM:g} °C; {piece}"
    changed: dict[str, Any] = {name: _lent(getattr(base, name), base.id) for name in LENT}
    if runs.creep is not None and runs.creep > 0:
        changed["creep"] = _measured(min(runs.creep, 1.0), 1.5, "loads held, as timed")
    if specimen.family == FOAM:
        strain, stress = fit.curve
        strains = tuple(float(f"{each:.5g}") for each in strain)
        curve = StressCurve(
            strain=strains,
            stress=tuple(float(f"{each / warmth:.5g}") for each in stress),
            kind="measured",
            source=SOURCE,
            conditions=own,
        )
        limit = changed["strain_limit"]
        changed["strain_limit"] = replace(limit, value=min(limit.value, strains[-1]))
        slope = curve.stress[1] / curve.strain[1]
        changed |= {"curve": curve, "youngs_modulus": _measured(slope, spread, own)}
    elif specimen.family == RUBBER:
        changed["youngs_modulus"] = _measured(fit.solid / warmth, spread, own)
        changed |= {"shear_modulus": None, "hardness_factor": None, "hardness": None}
    else:
        changed["solid_modulus"] = _measured(fit.solid / warmth, spread, own)
        law = WALLS if base.wall and not is_solid(base) else 1.0
        changed["infill_factor"] = replace(_lent(base.infill_factor, base.id), spread=law)
        changed["infill_power"] = _lent(base.infill_power, base.id)
        spread = float(np.exp(np.hypot(np.log(spread), np.log(law))))
    card = replace(
        base,
        id=specimen.id,
        name=specimen.name or f"Own squash test, {specimen.id}",
        note=f"Measured by a squash test; what that does not tell is lent by the card {base.id}.",
        stiffness_spread=spread,
        **changed,
    )
    figures = (getattr(card, each.name) for each in fields(card))
    used = {
        figure.source for figure in figures if isinstance(figure, Figure | StressCurve | Supply)
    }
    lent = tuple(row for row in base.sources if row[0] in used | {card.cast_source})
    return replace(card, sources=((SOURCE, cite), *lent))


def _sizes(specimen: Specimen) -> str:
    sizes = [specimen.first, specimen.second] if specimen.second else [specimen.first]
    across = " × ".join(format_quantity(each, "mm", 4) for each in sizes)
    layers = f"{specimen.layers} × " if specimen.layers > 1 else ""
    return f"{across}, {layers}{format_quantity(specimen.thickness, 'mm', 4)} high"


def _measured(value: float, spread: float, conditions: str) -> Figure:
    return Figure(
        value=float(f"{value:.5g}"),
        spread=spread,
        kind="measured",
        source=SOURCE,
        conditions=conditions,
    )


def _lent(figure: Any, ident: str) -> Any:
    """Return another card's figure: of this material it is an estimate."""
    if figure is None:
        return None
    return replace(
        figure, kind="estimated", conditions=f"as {ident}: {figure.conditions}".rstrip(": ")
    )
