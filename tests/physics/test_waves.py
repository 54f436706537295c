"""Waves in a pad against a chain of many small springs and masses."""

from __future__ import annotations

import numpy as np
import pytest

from isolator.physics.rubber.waves import wave_factor


def chain(omega: float, mass: float, stiffness: complex, parts: int = 400) -> complex:
    """Return the force on a held end for a unit of motion of the other, over the stiffness."""
    spring, lump = stiffness * parts, mass / parts
    inner = parts - 1
    matrix = np.diag(np.full(inner, 2.0 * spring - omega**2 * lump))
    matrix = matrix.astype(complex) - spring * (np.eye(inner, k=1) + np.eye(inner, k=-1))
    push = np.zeros(inner, dtype=complex)
    push[0] = spring
    moved = np.linalg.solve(matrix, push)
    return complex(spring * moved[-1] / stiffness)


@pytest.mark.parametrize("share", [0.2, 0.9, 1.0, 1.7])
def test_a_bar_against_a_chain(share: float) -> None:
    mass, stiffness = 0.013, 74e3 * (1 + 0.23j)
    omega = share * np.pi * np.sqrt(stiffness.real / mass)  # of the first half wave
    assert wave_factor(omega, mass, stiffness) == pytest.approx(
        chain(omega, mass, stiffness), rel=3e-3
    )


def test_a_pad_without_mass_is_a_spring() -> None:
    assert wave_factor(5e3, 0.0, 3e4 * (1 + 0.1j)) == pytest.approx(1.0)
