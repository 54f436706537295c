"""The numbers that formulas of pads take from a card."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from isolator.cards import Material

Array = NDArray[np.float64]


def card_moduli(material: Material) -> dict[str, float]:
    """Return the moduli of a rubber or a print by the names of `elastomer.apparent_modulus`.

    E0, G and K [Pa], k [-]. Where the card has none, G = E/3 (volume kept), k = 1, K infinite.
    Raises ValueError for a card without youngs_modulus and solid_modulus.
    """
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


FURTHER = 4.0
"""So many times its last strain is a mount's curve carried on along its last slope."""


def mount_curve(material: Material) -> tuple[Array, Array]:
    """Return a data sheet's curve: strain (m,) [-] and load (m,) [N], carried on past its end.

    Raises ValueError for a material that is known by no data sheet.
    """
    sheet = material.mount
    if sheet is None:
        raise ValueError(f"{material.id}: no data sheet of a mount")
    strain, load = np.array(sheet.strain), np.array(sheet.load)
    slope = (load[-1] - load[-2]) / (strain[-1] - strain[-2])
    far = (FURTHER - 1.0) * strain[-1]
    return np.append(strain, strain[-1] + far), np.append(load, load[-1] + slope * far)


def card_curve(material: Material) -> tuple[Array, Array]:
    """Return a foam card's static curve: strain (m,) [-] and engineering stress (m,) [Pa].

    Raises ValueError for a card without one.
    """
    if material.curve is None:
        raise ValueError(f"{material.id}: a foam card needs a curve")
    return np.array(material.curve.strain), np.array(material.curve.stress)
