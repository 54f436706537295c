"""A structure condensed to its feet: the whole solved at once, and limits."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from isolator.physics.bodies.condense import condense


def structure(seed: int, inner: int) -> tuple[np.ndarray, np.ndarray]:
    """Complex symmetric stiffness and symmetric mass of six kept and some inner coordinates."""
    random = np.random.default_rng(seed)
    size = 6 + inner
    springs, masses = random.normal(size=(2, size, size))
    stiffness = 1e3 * springs @ springs.T * (1 + 0.1j)
    return stiffness, masses @ masses.T + np.eye(size)


@given(seed=st.integers(0, 2**32 - 1), inner=st.integers(0, 9), sources=st.integers(1, 4))
def test_on_its_feet_it_moves_as_the_whole_does(seed: int, inner: int, sources: int) -> None:
    stiffness, mass = structure(seed, inner)
    random = np.random.default_rng(seed + 1)
    push = random.normal(size=(6 + inner, sources)) + 1j * random.normal(size=(6 + inner, sources))
    feet = np.diag(random.uniform(1e2, 1e4, 6)) * (1 + 0.2j)
    omega = np.array([3.0, 41.0, 600.0])
    found = condense(stiffness, mass, omega, push)
    moved = np.linalg.solve(feet + found.dynamic, found.blocked)
    whole = stiffness - omega[:, None, None] ** 2 * mass
    whole[:, :6, :6] += feet
    expected = np.linalg.solve(whole, np.broadcast_to(push, (3, *push.shape)))[:, :6]
    size = np.abs(expected).max(axis=(1, 2), keepdims=True)
    assert np.abs((moved - expected) / size).max() < 1e-8  # rounding


def test_nothing_inside_is_the_mass_itself() -> None:
    _, mass = structure(5, 0)
    push = np.arange(6.0)[:, None]
    found = condense(np.zeros((6, 6)), mass, np.array([7.0, 90.0]), push)
    np.testing.assert_allclose(found.dynamic[1], -(90.0**2) * mass)
    assert found.blocked.shape == (2, 6, 1)
    np.testing.assert_array_equal(found.blocked[0], push)


def test_held_still_it_pushes_with_the_blocked_force() -> None:
    stiffness, mass = structure(11, 4)
    push = np.arange(1.0, 11.0)[:, None]
    omega = np.array([13.0])
    found = condense(stiffness, mass, omega, push)
    whole = stiffness - omega[0] ** 2 * mass
    inner = np.linalg.solve(whole[6:, 6:], push[6:])
    # what holds it: its own push less what the inner coordinates take of it
    np.testing.assert_allclose(found.blocked[0], push[:6] - whole[:6, 6:] @ inner)


@pytest.mark.parametrize("factor", [1e6, 1e9])
def test_stiff_inner_springs_lock_it(factor: float) -> None:
    """A mass on a stiff spring rides along: its mass counts as the frame's."""
    stiffness = np.zeros((7, 7))
    stiffness[6, 6] = factor
    mass = np.diag([5.0, 5.0, 5.0, 0.1, 0.2, 0.3, 0.7])
    mass[0, 0], mass[0, 6], mass[6, 0] = 5.7, 0.7, 0.7  # relative travel along x
    omega = np.array([50.0])
    found = condense(stiffness, mass, omega, np.zeros((7, 1)))
    expected = -(omega[0] ** 2) * mass[:6, :6]
    np.testing.assert_allclose(found.dynamic[0].real, expected, rtol=1e4 / factor, atol=1e-9)
