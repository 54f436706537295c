"""Zigzag reversals: how long one takes, overshoot of a step, slip and tip."""

import numpy as np
import pytest

from isolator.physics.bodies.reversal import (
    period,
    slip_margin,
    step_factor,
    stroke_of_period,
    tip_margin,
)

A = 2.5


def test_period_of_both_kinds_of_zigzag() -> None:
    assert period(0.03, 0.1, A) == pytest.approx(2 * (0.3 + 0.04))
    assert period(0.001, 0.1, A) == pytest.approx(4 * np.sqrt(0.001 / A))  # never reaches 0.1 m/s
    edge = 0.1**2 / A  # where both forms meet
    assert period(edge, 0.1, A) == pytest.approx(4 * np.sqrt(edge / A))
    for stroke in (0.001, 0.004, 0.03):
        back = stroke_of_period(period(stroke, 0.1, A), 0.1, A)
        assert back == pytest.approx(stroke, rel=1e-12)


def test_step_factor() -> None:
    assert step_factor(0.0) == 2.0
    # Rao, Mechanical Vibrations: overshoot of a step, 52.7 % at ζ = 0.2 (from memory)
    assert step_factor(0.2) == pytest.approx(1.527, abs=5e-4)


def test_slip_margin_is_friction_over_push() -> None:
    assert slip_margin(0.75, 2.5, 115.0, 0.6) == pytest.approx(0.6 * 115 / 1.875)


SQUARE = np.array([[0.2, 0.15], [-0.2, 0.15], [0.2, -0.15], [-0.2, -0.15]])


def test_tip_margin_of_a_rectangle_by_levers() -> None:
    com = np.array([0.04, -0.03])
    # moment to tip about the right edge: W·(0.2 − 0.04) against F·h
    right = tip_margin(SQUARE, com, 115.0, [3.0, 0.0], 0.42)
    assert right == pytest.approx(115 * 0.16 / (3.0 * 0.42))
    back = tip_margin(SQUARE, com, 115.0, [0.0, 3.0], 0.42)
    assert back == pytest.approx(115 * 0.18 / (3.0 * 0.42))


def test_tip_margin_leaves_out_a_foot_inside_the_outline() -> None:
    inside = np.vstack([SQUARE, [[0.05, 0.02]]])
    force = np.array([[3.0, 1.0], [-2.0, 2.5], [0.5, -3.0]])
    com = np.array([[0.04, -0.03], [0.0, 0.02], [-0.1, 0.0]])
    with_it = tip_margin(inside, com, 115.0, force, 0.42)
    np.testing.assert_allclose(with_it, tip_margin(SQUARE, com, 115.0, force, 0.42), rtol=1e-12)


def test_tip_margin_is_negative_outside_the_feet() -> None:
    assert tip_margin(SQUARE, [0.25, 0.0], 115.0, [3.0, 0.0], 0.42) < 0
