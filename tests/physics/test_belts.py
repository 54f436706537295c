"""Belts: pitch to tension, pull on a shaft, what a soft motor leaves."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from isolator.physics.drive.belts import shaft_pull, softened_stiffness, tension_of_span


def test_a_span_sounds_as_a_taut_string() -> None:
    """First mode of a string by finite differences, an independent way to the same pitch."""
    length, mass, tension, points = 0.31, 8.4e-3, 23.0, 400
    step = length / points
    stiff = (
        (
            np.diag(np.full(points - 1, 2.0))
            - np.diag(np.ones(points - 2), 1)
            - np.diag(np.ones(points - 2), -1)
        )
        * tension
        / step**2
    )
    pitch = math.sqrt(np.linalg.eigvalsh(stiff)[0] / mass) / math.tau
    # the differences err by (π/points)²/24
    assert tension_of_span(length, pitch, mass) == pytest.approx(tension, rel=1e-4)


@given(tension=st.floats(5.0, 60.0), wrap=st.floats(0.2, math.pi))
def test_the_pull_is_the_sum_of_two_strands(tension, wrap) -> None:
    # a strand leaves the pulley square to its radius, at each end of the wrap
    half = wrap / 2.0
    strands = np.array([[-math.sin(half), math.cos(half)], [-math.sin(half), -math.cos(half)]])
    assert shaft_pull(tension, wrap) == pytest.approx(np.linalg.norm(tension * strands.sum(axis=0)))


def test_half_a_turn_pulls_with_both_strands() -> None:
    assert shaft_pull(21.0, math.pi) == pytest.approx(42.0)


def test_a_rigid_motor_leaves_the_belt_its_stiffness() -> None:
    rigid = softened_stiffness(6e4, 6.4e-3, np.inf, np.inf, np.inf, 0.02)
    assert rigid == pytest.approx(6e4)


def test_a_soft_motor_against_its_equations_of_rest() -> None:
    """A motor that shifts, leans and twists, and a carriage on one strand: four equations."""
    k, r, twist, shear, tilt, arm = 6e4, 6.4e-3, 25.0, 1.5e5, 70.0, 0.021
    # shift, lean, twist (its rotor turns along), carriage; the strand's stretch as a row over them
    stretch = np.array([[-1.0, -arm, -r, 1.0]])
    matrix = np.diag([shear, tilt, twist, 0.0]) + k * stretch.T @ stretch
    carriage = np.linalg.solve(matrix, [0.0, 0.0, 0.0, 1.0])[3]
    assert softened_stiffness(k, r, twist, shear, tilt, arm) == pytest.approx(1.0 / carriage)


def test_where_both_strands_share_the_pull_only_twist_is_felt() -> None:
    """Mid travel: the strands' pulls cancel on the shaft, so one strand is the worst case."""
    k, r, twist, shear, tilt, arm = 6e4, 6.4e-3, 25.0, 1.5e5, 70.0, 0.021
    stretch = np.array([[-1.0, -arm, -r, 1.0], [1.0, arm, -r, 1.0]])
    matrix = np.diag([shear, tilt, twist, 0.0]) + k / 2.0 * stretch.T @ stretch
    middle = 1.0 / np.linalg.solve(matrix, [0.0, 0.0, 0.0, 1.0])[3]
    assert middle == pytest.approx(float(softened_stiffness(k, r, twist, np.inf, np.inf, arm)))
    assert softened_stiffness(k, r, twist, shear, tilt, arm) < middle < k
