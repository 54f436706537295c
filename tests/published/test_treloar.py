"""Rubber that was measured and published: L. R. G. Treloar, Trans. Faraday Soc. 40 (1944) 59.

Rows as the documentation of the general library FElupe carries them (its example of fitting to
uniaxial and biaxial tension), stretch and nominal stress in kgf/cm². Stretching a sheet both ways
by λ_b is squashing it to λ = λ_b⁻² where volume stays; its nominal stress is P·λ_b³ (derived).
"""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from command import isolator
from squashed import G

from isolator.physics.rubber.large_strain import stress_ratio

KGF = 98_066.5  # [Pa] a kgf/cm²
SHEAR = 0.39e6  # [Pa] the neo-Hookean modulus usually fitted to these data; from memory
ONE_WAY = np.array([(1.02, 0.26), (1.125, 1.37), (1.24, 2.30)])
BOTH_WAYS = np.array(
    [(1.0, 0.0), (1.03, 0.95), (1.07, 1.60), (1.12, 2.42), (1.14, 2.62), (1.20, 3.32), (1.31, 4.43)]
)
ACROSS, THICK = 30.0, 10.0  # [mm] a disc between greased plates


def squashed(folder: Path) -> Path:
    stretch, pulled = BOTH_WAYS.T
    stress, squeezed = KGF * pulled * stretch**3, THICK * (1.0 - stretch**-2)
    area = np.pi / 4 * (1e-3 * ACROSS) ** 2
    rows = [f"{1e3 * s * area / G:.0f}, {c:.2f}" for s, c in zip(stress, squeezed, strict=True)]
    path = folder / "published.csv"
    path.write_text("\n".join(["mass [g], compression [mm]", *rows]) + "\n", encoding="utf-8")
    return path


def test_a_squash_test_of_the_published_rubber_is_fitted_within_five_per_cent(
    tmp_path: Path,
) -> None:
    words = "--family rubber --shape disc --size 30mm --thickness 10mm --slipping --id own-rubber"
    # stretches are read to 0.01, which is 0.02 of the height squashed
    words += f" --gauge {0.02 * THICK:g}mm --out {tmp_path} --json"
    ran = isolator("squash", squashed(tmp_path), *words.split())
    assert (ran.code, ran.err) == (0, "")
    found = ran.json()["squash"]
    assert found["card"]["youngs_modulus_pa"]["nominal"] == pytest.approx(3 * SHEAR, rel=0.05)
    assert found["fit"]["rms"] < 0.05
    (way,) = found["fit"]["ways"]
    fitted = np.interp(way["strain"], found["fit"]["strain"], found["fit"]["stress_pa"])
    # the first stretch is coarse: a step is a third of it
    assert fitted[2:] == pytest.approx(way["stress_pa"][2:], rel=0.05)


def test_the_law_of_blocks_follows_it_when_pulled_too() -> None:
    stretch, pulled = ONE_WAY.T
    told = -3.0 * SHEAR * stress_ratio(1.0 - stretch)
    # 5 %: up to a stretch of 1.24; beyond, chains and not this law rule
    assert told[1:] == pytest.approx(KGF * pulled[1:], rel=0.05)
    # the first is read to two digits, of a strain of 0.02
    assert told[0] == pytest.approx(KGF * pulled[0], rel=0.12)
