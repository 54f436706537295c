"""Squash tests made up: pieces with sizes that are a little off, scale and gauge with steps."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

import numpy as np

from isolator.cards import Material
from isolator.cards.moduli import card_curve
from isolator.measuring.squash_law import UNIT, law_of
from isolator.physics.arrays import Array
from isolator.physics.rubber import foam
from isolator.physics.rubber.section import section
from isolator.recordings.specimen import Specimen
from isolator.recordings.squash_file import Readings

G = 9.80665
GRAM, TENTH = 1e-3, 5e-5
"""Steps of a kitchen scale [kg] and of callipers on something soft [m]."""

PIECE = Specimen(
    shape="disc",
    first=0.030,
    second=0.0,
    thickness=0.010,
    layers=1,
    faces="bonded",
    temperature=20.0,
    family="rubber",
    id="mine",
    name="",
    like="",
    size_error=0.2e-3,
    scale_step=None,
    gauge_step=None,
)


def piece(**changed: Any) -> Specimen:
    return replace(PIECE, **changed)


def rubber_block(true: Specimen, base: Material, modulus: float, held: float) -> Any:
    """Compression [m] under a force [N] of a block of this modulus, its faces so far held."""
    law = law_of(true, base, held)
    return lambda force: law.squeezed(np.array([np.log(modulus / UNIT)]), np.asarray(force))


def foam_piece(true: Specimen, card: Material) -> Any:
    """Compression [m] under a force [N] of a piece that follows a card's curve."""
    area = float(section(true.shape, true.first, true.second).area)
    curve = card_curve(card)
    return lambda force: foam.strain_under(np.asarray(force) / area, *curve) * true.height


def off(specimen: Specimen, rng: np.random.Generator) -> Specimen:
    """A piece whose true sizes differ from what was measured, as its size error says."""
    error = specimen.size_error
    first, thick = rng.normal(0.0, [error, error / 2])
    return replace(specimen, first=specimen.first + first, thickness=specimen.thickness + thick)


def readings(
    squeezed: Callable[[Any], Any],
    kilograms: Any,
    rng: np.random.Generator | None = None,
    runs: int = 2,
    height: float = 0.0,
) -> Readings:
    """Readings of runs up, each with a zero of its own; exact ones without `rng`."""
    masses: Array = np.tile(np.array(kilograms, dtype=np.float64), runs)
    found: Array = np.array(squeezed(G * masses), dtype=np.float64)
    if rng is not None:
        zeros = np.repeat(rng.normal(0.0, 0.05e-3, runs), len(kilograms))
        uneven = 1.0 + rng.normal(0.0, 0.01, len(found))  # loads stand off the middle, pieces lean
        found = found * uneven + zeros + rng.normal(0.0, 0.02e-3, len(found))
        found = np.round(found / TENTH) * TENTH
        masses = np.round(masses * (1.0 + rng.normal(0.0, 0.005)) / GRAM) * GRAM
    return Readings(
        force=G * masses,
        place=height - found if height else found,
        height=bool(height),
        time=None,
        rows=tuple(f"line {n}" for n in range(2, len(masses) + 2)),
        force_step=GRAM * G,
        place_step=TENTH if rng is not None else 1e-6,
        file="made-up.csv",
    )


def csv(found: Readings, separator: str = ";", comma: bool = True) -> str:
    """The text of such readings: grams and millimetres."""
    name = "height" if found.height else "compression"
    lines = [f"mass [g]{separator}{name} [mm]"]
    for force, place in zip(found.force, found.place, strict=True):
        cells = f"{1e3 * force / G:.0f}{separator}{1e3 * place:.3f}"
        lines.append(cells.replace(".", ",") if comma else cells)
    return "\n".join(lines) + "\n"
