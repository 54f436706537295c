"""Figures of a card as the laws of pads take them."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from isolator.cards import Material

Array = NDArray[np.float64]


def card_moduli(material: Material) -> dict[str, float]:
    """Return a solid's moduli as the rubber forms take them; a lacking G follows from E = 3G."""
    figure = material.youngs_modulus or material.solid_modulus
    if figure is None:
        raise ValueError(f"{material.id}: a solid needs youngs_modulus or solid_modulus")
    shear, factor, bulk = material.shear_modulus, material.hardness_factor, material.bulk_modulus
    return {
        "youngs_modulus": figure.value,
        "shear_modulus": figure.value / 3.0 if shear is None else shear.value,
        "hardness_factor": 1.0 if factor is None else factor.value,
        "bulk_modulus": np.inf if bulk is None else bulk.value,
    }


def card_poisson(material: Material, default: float) -> float:
    """Return a card's Poisson's ratio [-], `default` where it has none."""
    return default if material.poisson is None else material.poisson.value


def card_curve(material: Material) -> tuple[Array, Array]:
    """Return a foam card's static curve: strain [-] and stress [Pa]."""
    if material.curve is None:
        raise ValueError(f"{material.id}: a foam card needs a curve")
    return np.array(material.curve.strain), np.array(material.curve.stress)
