"""Equilibrium of a plate on feet: exact linear cases, one-sided and stiffening feet."""

import numpy as np
import pytest

from isolator.physics.bodies.rigid import support_matrix
from isolator.physics.bodies.statics import equal_shares, settle

PLACE = np.array([[0.18, 0.19], [-0.17, 0.19], [0.18, -0.16], [-0.15, -0.2]])


def linear(stiffness: np.ndarray):
    return lambda sag: (stiffness * sag, np.broadcast_to(stiffness, sag.shape))


def stiffening(sag: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """A foam's way: soft after a knee, then hard."""
    force = 60 * np.tanh(400 * sag) + 2e8 * sag**3
    return force, 60 * 400 / np.cosh(400 * sag) ** 2 + 6e8 * sag**2


def test_equal_shares_balance() -> None:
    com, weight = np.array([0.02, -0.03]), 117.0
    loads = equal_shares(PLACE, com, weight)
    assert loads.sum() == pytest.approx(weight)
    np.testing.assert_allclose(loads @ (PLACE - com), 0.0, atol=1e-12)


def test_equal_shares_of_a_rectangle_by_levers() -> None:
    # closed form for a rectangle a × b: W/4 · (1 ± x/a)(…) without the product term
    place = np.array([[0.2, 0.1], [-0.2, 0.1], [0.2, -0.1], [-0.2, -0.1]])
    loads = equal_shares(place, [0.05, -0.02], 100.0)
    expected = 25 * (1 + np.sign(place[:, 0]) * 0.05 / 0.2 - np.sign(place[:, 1]) * 0.02 / 0.1)
    np.testing.assert_allclose(loads, expected, rtol=1e-12)


def test_three_feet_carry_what_the_levers_say() -> None:
    place = PLACE[:3]
    wanted = np.linalg.solve(np.vstack([np.ones(3), place.T]), [90.0, 90 * 0.03, 90 * 0.02])
    found = settle(place, [0.03, 0.02], 90.0, stiffening)
    np.testing.assert_allclose(found.loads, wanted, rtol=1e-8)  # the solver's own tolerance


def test_linear_feet_settle_as_the_stiffness_matrix_says() -> None:
    k, com = np.array([3100.0, 4700.0, 5300.0, 3900.0]), np.array([0.03, -0.02])
    found = settle(PLACE, com, 117.0, linear(k))
    arms = np.column_stack([PLACE - com, np.zeros(4)])
    push = np.column_stack([np.zeros((4, 2)), k])
    keep = np.ix_([2, 3, 4], [2, 3, 4])
    motion = np.linalg.solve(support_matrix(arms, push, np.zeros((4, 3)))[keep], [-117.0, 0, 0])
    assert found.tilt_x == pytest.approx(motion[1], rel=1e-8)
    assert found.tilt_y == pytest.approx(motion[2], rel=1e-8)
    down = -(motion[0] - motion[2] * arms[:, 0] + motion[1] * arms[:, 1])
    np.testing.assert_allclose(found.sags, down, rtol=1e-8)
    np.testing.assert_allclose(found.tangents, k)


def test_nonlinear_feet_balance_in_a_batch() -> None:
    com = np.array([[0.0, 0.0], [0.03, -0.02], [-0.06, 0.04]])
    weight = np.array([60.0, 140.0, 260.0])
    found = settle(PLACE, com, weight, stiffening)
    np.testing.assert_allclose(found.loads.sum(axis=-1), weight, rtol=1e-8)
    moment = np.einsum("ns,nsk->nk", found.loads, PLACE - com[:, None])
    assert np.abs(moment).max() < 1e-8 * 260  # solver's tolerance times the feet's spread
    np.testing.assert_allclose(stiffening(found.sags)[0], found.loads, rtol=1e-12)
    # all feet touch one plane
    plane = np.column_stack([np.ones(4), PLACE])
    for sag in found.sags:
        assert np.linalg.lstsq(plane, sag, rcond=None)[1].item() < 1e-20


def test_feet_pressed_against_their_wall_balance() -> None:
    # a plateau, then a wall at 10 mm, past which the curve has no value
    def walled(sag: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
        room = np.where(sag < 0.01, 1 - sag / 0.01, np.nan)
        force = 2 * np.tanh(1500 * sag) + 3 * (1 / room - 1)
        return force, 3000 / np.cosh(1500 * sag) ** 2 + 300 / room**2

    random = np.random.default_rng(4)
    com, weight = random.uniform(-0.1, 0.1, (500, 2)), random.uniform(3.0, 900.0, 500)
    found = settle(PLACE, com, weight, walled)
    np.testing.assert_allclose(found.loads.sum(axis=-1), weight, rtol=1e-8)  # solver's tolerance
    assert found.sags.max() < 0.01
    assert found.sags.max() > 0.0098  # some stand hard against it


def test_a_foot_that_lifts_carries_nothing() -> None:
    com = np.array([0.12, 0.13])
    assert equal_shares(PLACE, com, 117.0).min() < 0  # two-sided springs would pull
    found = settle(PLACE, com, 117.0, linear(np.array([4100.0, 4700.0, 5300.0, 3900.0])))
    assert found.loads[3] == 0.0
    assert found.tangents[3] == 0.0
    assert found.sags[3] < 0
    assert found.loads[:3].min() > 0
    assert found.loads.sum() == pytest.approx(117.0)


def test_tilts_are_right_handed() -> None:
    # weight to the right: the right side sinks, which is a positive turn about y
    assert settle(PLACE, [0.05, 0.0], 117.0, stiffening).tilt_y > 0
    # weight to the back: the back sinks, a negative turn about x
    assert settle(PLACE, [0.0, 0.05], 117.0, stiffening).tilt_x < 0


def test_outside_the_feet_there_is_no_equilibrium() -> None:
    with pytest.raises(ArithmeticError) as told:
        settle(PLACE, [0.3, 0.0], 117.0, stiffening)
    assert str(told.value).startswith("no static equilibrium after 60 steps: ")
    assert str(told.value).endswith(
        " of the weight is left unbalanced; the centre of mass must lie inside the feet and every "
        "foot must carry its load"
    )


def test_feet_that_cannot_carry_are_told() -> None:
    def weak(sag: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
        return 20 * np.tanh(100 * sag), 2000 / np.cosh(100 * sag) ** 2

    with pytest.raises(ArithmeticError, match="no static equilibrium"):
        settle(PLACE, [0.0, 0.01], 117.0, weak)
