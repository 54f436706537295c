"""Transmissibility and insertion loss: textbook limits and balances of the general form."""

import numpy as np
import pytest

from isolator.physics.bodies.receiver import effectiveness
from isolator.physics.bodies.response import (
    desk_forces,
    desk_insertion_loss,
    foot_forces,
    force_at,
    frame_response,
    insertion_loss,
    norm,
    rigid_shares,
    transmissibility,
)
from isolator.physics.bodies.rigid import gravity_stiffness, mass_matrix, support_matrix
from isolator.physics.bodies.single import hysteretic_transmissibility, viscous_transmissibility

INERTIA = np.array([[0.41, 0.013, -0.022], [0.013, 0.37, 0.017], [-0.022, 0.017, 0.29]])
ARMS = np.array([[0.17, 0.19, -0.21], [-0.16, 0.14, -0.2], [0.15, -0.13, -0.22]])
LINEAR = np.array([[2100.0, 1700, 5200], [1900, 2300, 4100], [2500, 1500, 6100]]) * (1 + 0.2j)
ANGULAR = np.array([[1.1, 2.3, 0.7], [3.1, 1.9, 0.9], [0.4, 2.2, 1.7]]) * (1 + 0.2j)
MASS = mass_matrix(11.3, INERTIA)
# three equal feet about the centre of mass, level with it
LEVEL = np.array([[0.2, 0.1, 0.0], [-0.1, 0.15, 0.0], [-0.1, -0.25, 0.0]])
EQUAL = np.tile([1700.0, 2300.0, 4100.0], (3, 1))


@pytest.mark.parametrize("axis", [0, 1, 2])
def test_pushed_through_its_centre_one_body_follows_the_textbook(axis: int) -> None:
    push = np.zeros(6)
    push[axis] = 1.0
    natural = np.sqrt(3 * EQUAL[0, axis] / 11.3)
    ratios = np.array([0.4, 0.9, 1.0, 1.7, 4.0])
    omega = natural * ratios
    linear = EQUAL * (1 + 0.3j)
    stiffness = support_matrix(LEVEL, linear, np.zeros((3, 3)))
    found = transmissibility(stiffness, MASS, omega, push, LEVEL, linear)
    np.testing.assert_allclose(found, hysteretic_transmissibility(ratios, 0.3), rtol=1e-10)

    damped = EQUAL * (1 + 2j * 0.1 * omega[:, None, None] / natural)  # k + jωc, c = 2ζk/ω₀
    stiffness = support_matrix(LEVEL, damped, np.zeros((3, 3)))
    found = transmissibility(stiffness, MASS, omega, push, LEVEL, damped)
    # damped feet stand still by their own dynamic stiffness: the reference is the force itself
    np.testing.assert_allclose(found, viscous_transmissibility(ratios, 0.1), rtol=1e-10)


def test_slowly_pushed_nothing_is_gained() -> None:
    stiffness = support_matrix(ARMS, LINEAR, ANGULAR)
    push = np.array([1.0, -0.4, 0.3, 0.05, -0.1, 0.2])
    found = transmissibility(stiffness, MASS, 1e-3, push, ARMS, LINEAR)
    assert found == pytest.approx(1.0, abs=1e-6)


def test_far_above_all_modes_it_falls_by_twelve_decibels_an_octave() -> None:
    stiffness = support_matrix(ARMS, LINEAR, ANGULAR)
    push = np.array([0.0, 0.0, 0.0, 0.05, -0.1, 0.2])
    low, high = transmissibility(stiffness, MASS, [900.0, 1800.0], push, ARMS, LINEAR)
    assert 20 * np.log10(high / low) == pytest.approx(-12.04, abs=0.05)  # modes below 60 rad/s


def test_reciprocity() -> None:
    stiffness = support_matrix(ARMS, LINEAR, ANGULAR)
    response = frame_response(stiffness, MASS, 37.0, np.eye(6))
    np.testing.assert_allclose(response, response.T, rtol=1e-9, atol=1e-18)


def test_power_put_in_is_power_lost_in_the_feet() -> None:
    push, omega = np.array([1.0, -0.4, 0.3, 0.05, -0.1, 0.2]), 31.0
    stiffness = support_matrix(ARMS, LINEAR, np.zeros((3, 3)))
    u = frame_response(stiffness, MASS, omega, push)
    put_in = 0.5 * np.real(push @ np.conj(1j * omega * u))
    forces = foot_forces(u, ARMS, LINEAR)
    lost = 0.5 * np.real((forces * np.conj(1j * omega * forces / LINEAR)).sum())
    assert put_in == pytest.approx(lost, rel=1e-10)


def test_foot_forces_balance_load_and_inertia() -> None:
    push, omega = np.array([1.0, -0.4, 0.3, 0.05, -0.1, 0.2]), 31.0
    u = frame_response(support_matrix(ARMS, LINEAR, np.zeros((3, 3))), MASS, omega, push)
    forces = foot_forces(u, ARMS, LINEAR)
    moment = np.cross(ARMS, forces).sum(axis=0)
    rest = push + omega**2 * MASS @ u
    np.testing.assert_allclose(np.r_[forces.sum(axis=0), moment], rest, rtol=1e-10)


def test_a_force_beside_the_centre_makes_its_moment() -> None:
    found = force_at([2.0, -3.0, 5.0], [0.1, 0.2, 0.3], [0.4, 0.1, -0.2])
    np.testing.assert_allclose(found, [2, -3, 5, 0.0, -2.2, -1.1], atol=1e-15)


def test_rigid_feet_are_the_limit_of_stiff_ones() -> None:
    push = np.array([1.0, -0.4, 0.3, 0.05, -0.1, 0.2])
    gravity = gravity_stiffness([41.0, 33.0, 36.0], ARMS)
    rigid = rigid_shares(push, ARMS, LINEAR, ANGULAR)
    gaps = []
    for scale in (1e4, 1e5):
        stiffness = support_matrix(ARMS, scale * LINEAR, scale * ANGULAR) + gravity
        u = frame_response(stiffness, MASS, 40.0, push)
        gaps.append(norm(foot_forces(u, ARMS, scale * LINEAR) - rigid) / norm(rigid))
    assert gaps[0] < 1e-2
    assert gaps[0] / gaps[1] == pytest.approx(10.0, rel=0.01)  # first order in 1/scale


def test_insertion_loss_without_gravity_is_minus_transmissibility() -> None:
    push = np.array([1.0, -0.4, 0.3, 0.05, -0.1, 0.2])
    stiffness = support_matrix(ARMS, LINEAR, ANGULAR)
    soft = foot_forces(frame_response(stiffness, MASS, 90.0, push), ARMS, LINEAR)
    loss = insertion_loss(soft, rigid_shares(push, ARMS, LINEAR, ANGULAR))
    share = transmissibility(stiffness, MASS, 90.0, push, ARMS, LINEAR)
    assert loss == pytest.approx(-20 * np.log10(share), abs=1e-9)


@pytest.mark.parametrize("impedance", [1240.0, 900 + 300j, 600j, 1e9])
def test_one_body_on_a_soft_desk(impedance: complex) -> None:
    omega = 2 * np.pi * np.array([31.0, 83.0, 190.0])
    linear = EQUAL * (1 + 0.2j)
    found = desk_insertion_loss(
        np.array([0.0, 0, 1, 0, 0, 0]),
        omega,
        MASS,
        LEVEL,
        linear,
        np.zeros((3, 3)),
        np.zeros((6, 6)),
        np.full((3, 3), 1 / impedance),
    )
    # three feet in parallel: foot and desk have a third of one's mobility
    source = 1 / (1j * omega * 11.3)
    foot = 1j * omega / (3 * linear[0, 2])
    expected = 20 * np.log10(effectiveness(source, foot, 1 / (3 * impedance)))
    np.testing.assert_allclose(found, expected, atol=2e-4)  # [dB]; RIGID for infinity, at 63 dB


def test_a_desk_of_no_mobility_is_a_rigid_floor() -> None:
    push = np.array([1.0, -0.4, 0.3, 0.05, -0.1, 0.2])
    gravity = gravity_stiffness([41.0, 33.0, 36.0], ARMS)
    on_desk = desk_forces(push, 90.0, MASS, ARMS, LINEAR, ANGULAR, gravity, np.zeros((3, 3)))
    stiffness = support_matrix(ARMS, LINEAR, ANGULAR) + gravity
    on_floor = foot_forces(frame_response(stiffness, MASS, 90.0, push), ARMS, LINEAR)
    np.testing.assert_allclose(on_desk, on_floor, rtol=1e-12)


def test_a_batch_is_its_members() -> None:
    linear = np.stack([LINEAR, 1.7 * LINEAR])
    push = np.array([[1.0, -0.4, 0.3, 0.05, -0.1, 0.2], [0.2, 0.5, -0.7, 0.1, 0.3, -0.2]])
    batch = transmissibility(
        support_matrix(ARMS, linear, ANGULAR), MASS, [40.0, 70.0], push, ARMS, linear
    )
    for i, omega in enumerate((40.0, 70.0)):
        held = support_matrix(ARMS, linear[i], ANGULAR)
        alone = transmissibility(held, MASS, omega, push[i], ARMS, linear[i])
        assert batch[i] == pytest.approx(alone, rel=1e-12)
