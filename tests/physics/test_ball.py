"""Half-balls on a desk: limits, properties, and the pad laws that carry them."""

from __future__ import annotations

from math import sqrt

import numpy as np
import pytest

from isolator.cards import load_cards
from isolator.cards.pad_law import unloaded
from isolator.cards.pads import pad_state
from isolator.design import BALL
from isolator.physics.rubber import ball

E, G = 1.7e6, 0.55e6
R = 0.0235
RANGE = np.linspace(0.002, 0.31, 155) * R
WALLS = np.array([[0.1], [0.13], [0.22], [0.4], [0.71], [1.0]]) * R


def test_a_small_sag_is_hertz_contact() -> None:
    # K. L. Johnson, Contact Mechanics, 1985, from memory: F = 4/3·E/(1 − ν²)·√R·δ^1.5
    sag = 2e-4 * R
    found, slope = ball.force(R, R, sag, youngs_modulus=E)
    hertz = 4 / 3 * E / 0.75 * sqrt(R) * sag**1.5
    assert found == pytest.approx(hertz, rel=0.02)  # the correction grows with √(sag/R) = 1.4 %
    assert slope == pytest.approx(1.5 * hertz / sag, rel=0.03)


def test_a_thin_wall_is_a_shell_under_a_point_load() -> None:
    # E. Reissner, J. Math. Phys. 25 (1946) 80, from memory: k = 4·E·t²/(R·√(3(1 − ν²)))
    wall = 0.1 * R
    reissner = 4 * E * wall**2 / (R * sqrt(3 * 0.75))
    slope = ball.force(R, wall, 0.4 * wall, youngs_modulus=E)[1]
    assert slope == pytest.approx(reissner, rel=0.1)  # a limit for t/R → 0; here 0.1


def test_sideways_starts_as_mindlin_and_tilting_as_rolling() -> None:
    # R. D. Mindlin, J. Appl. Mech. 16 (1949) 259, from memory: 8·G·a/(2 − ν), stuck; torsion of
    # a stuck disc 16/3·G·a³; a dome that rolls by θ shifts its contact by R·θ under the load
    sag, e = 1e-4 * R, 3 * G
    found = ball.tangents(R, R, sag, youngs_modulus=e, shear_modulus=G)
    load, a = ball.force(R, R, sag, youngs_modulus=e)[0], sqrt(R * sag)
    # yielding of the ball beyond the patch: of the order of a/R = 1 %
    assert found.shear == pytest.approx(8 * G * a / 1.5, rel=0.04)
    assert found.tilt == pytest.approx(load * R, rel=0.03)
    assert found.twist == pytest.approx(16 / 3 * G * a**3, rel=0.04)
    # the load leans by θ as the ball rolls, which moves it by W·θ/k
    assert found.centre == pytest.approx(-load / found.shear, rel=0.05)


def test_force_rises_its_slope_is_its_derivative_and_it_turns_back() -> None:
    found, slope = ball.force(R, WALLS, RANGE, youngs_modulus=E)
    assert np.all(slope > 0)
    assert np.all(np.diff(found, axis=1) > 0)
    step = 1e-6 * R
    near = [ball.force(R, WALLS, RANGE + d, youngs_modulus=E)[0] for d in (-step, step)]
    smooth = np.abs(RANGE / R - ball.FURTHEST) > 1e-3  # the straight continuation's kink
    # central differences: 1e-6 of the radius against sags from 0.002 of it
    assert ((near[1] - near[0]) / (2 * step))[:, smooth] == pytest.approx(
        slope[:, smooth], rel=1e-5
    )
    back = ball.sag_under(found, R, WALLS, youngs_modulus=E)
    assert back == pytest.approx(np.broadcast_to(RANGE, back.shape), rel=1e-9)  # rounding


def test_thicker_walls_carry_more_and_stand_stiffer() -> None:
    found = ball.tangents(R, WALLS, RANGE, youngs_modulus=E, shear_modulus=G)
    load = ball.force(R, WALLS, RANGE, youngs_modulus=E)[0]
    for value in (load, found.shear):
        rise = np.diff(value, axis=0) / value[1:]
        assert np.all(rise[:-1] > 0.05)
        # at a small sag the core hardly carries: what it adds is as small as the fit's miss
        assert np.all(rise[-1] > -0.02)
    assert np.all(found.shear > 0)
    assert np.all(found.tilt > 0)
    assert np.all(found.twist > 0)
    assert np.all(found.centre < 0)


def test_ends_meet_and_no_load_is_no_sag() -> None:
    for x in (ball.TOUCH, ball.FURTHEST):
        low, high = (
            ball.force(R, 0.3 * R, x * R * f, youngs_modulus=E)[0] for f in (1 - 1e-9, 1 + 1e-9)
        )
        assert low == pytest.approx(high, rel=1e-8)  # twice the step
    none, slope = ball.force(R, 0.3 * R, 0.0, youngs_modulus=E)
    assert none == 0.0
    assert slope > 0
    loads = np.array([0.0, -3.0, 1e-7, 900.0])
    sags = ball.sag_under(loads, R, 0.3 * R, youngs_modulus=E)
    assert list(sags[:2]) == [0.0, 0.0]
    assert ball.force(R, 0.3 * R, sags[2:], youngs_modulus=E)[0] == pytest.approx(loads[2:])


def test_sizes_and_moduli_scale_as_dimensions_ask() -> None:
    one = ball.tangents(0.02, 0.006, 0.003, youngs_modulus=E, shear_modulus=G)
    two = ball.tangents(0.06, 0.018, 0.009, youngs_modulus=5 * E, shear_modulus=5 * G)
    for name, factor in (("shear", 15), ("tilt", 135), ("twist", 135), ("centre", 3)):
        assert getattr(two, name) == pytest.approx(factor * getattr(one, name), rel=1e-12)


def test_only_thin_walls_dimple() -> None:
    loads = ball.stop_load(R, np.array([0.11, 0.3, 0.45]) * R, youngs_modulus=E)
    at = ball.force(R, 0.11 * R, 0.275 * R, youngs_modulus=E)[0]
    assert loads[0] == pytest.approx(at)
    assert loads[1] > ball.force(R, 0.3 * R, 0.3 * R, youngs_modulus=E)[0]
    assert np.isinf(loads[2])


def test_a_wall_outside_the_range_is_refused() -> None:
    with pytest.raises(ValueError) as caught:  # noqa: PT011 - the whole message is held below
        ball.force(R, 0.0019, 0.001, youngs_modulus=E)
    assert str(caught.value) == (
        "a half-ball's wall must be 0.1 to 1 times its outer radius; got 0.0809 to 0.0809"
    )


CARDS = load_cards()
FIRST, SECOND = np.array([0.041, 0.0537]), np.array([0.0, 0.0371])
LOADS = np.array([[7.0, 13.0, 29.0], [4.0, 11.0, 17.0]])


def test_pads_of_half_balls_carry_their_loads() -> None:
    card = CARDS["nr-40"]
    pads = unloaded(card, BALL, (FIRST, SECOND, FIRST / 2))
    state = pad_state(pads, LOADS)
    sag = state.strain * pads.thickness
    force, tangent = pads.pressed(sag)
    assert force == pytest.approx(LOADS, rel=1e-9)  # Newton to rounding
    assert state.linear[..., 2] == pytest.approx(tangent, rel=1e-9)
    assert state.linear[..., 0] == pytest.approx(state.linear[..., 1])
    # the elastic centre lies under the desk: deeper than what is left of the half-ball
    assert np.all(state.depth > pads.thickness - sag)
    assert np.all(state.buckling[0] == 0.0)
    assert np.all((state.buckling[1] > 0.0) & (state.buckling[1] < 1.0))
    # by hand for the solid one: W = E·R²·(Hertz and its rise) at its sag
    assert card.youngs_modulus is not None
    hertz = 16 / 9 * card.youngs_modulus.value * sqrt(0.0205) * sag[0] ** 1.5
    assert np.all((force[0] / hertz > 1.0) & (force[0] / hertz < 1.35))


def test_a_stiffer_end_is_that_many_pads_and_rows_can_be_taken() -> None:
    pads = unloaded(CARDS["nr-40"], BALL, (FIRST, SECOND, FIRST / 2))
    stiff = pad_state(pads, 1.3 * LOADS, modulus_factor=1.3)
    plain = pad_state(pads, LOADS)
    assert stiff.strain == pytest.approx(plain.strain)
    assert stiff.linear == pytest.approx(1.3 * plain.linear)
    assert stiff.depth == pytest.approx(plain.depth)
    second = pad_state(pads.take(np.array([1])), LOADS[1:])
    assert second.angular == pytest.approx(plain.angular[1:])
    sag = plain.strain * pads.thickness
    assert pads.pressed(sag, 1.3)[0] == pytest.approx(1.3 * LOADS, rel=1e-9)


def test_a_half_ball_is_of_rubber() -> None:
    with pytest.raises(ValueError) as caught:  # noqa: PT011 - the whole message is held below
        unloaded(CARDS["pe-30"], BALL, (FIRST, SECOND, FIRST / 2))
    assert str(caught.value) == "pe-30: a half-ball is of rubber, not foam"
