"""Forced response of a body on feet: balances of forces and power, and the limit of rigid feet."""

import numpy as np
import pytest
from feet_response import foot_forces, frame_response, rigid_shares

from isolator.physics.bodies.rigid import gravity_stiffness, mass_matrix, support_matrix

INERTIA = np.array([[0.41, 0.013, -0.022], [0.013, 0.37, 0.017], [-0.022, 0.017, 0.29]])
ARMS = np.array([[0.17, 0.19, -0.21], [-0.16, 0.14, -0.2], [0.15, -0.13, -0.22]])
LINEAR = np.array([[2100.0, 1700, 5200], [1900, 2300, 4100], [2500, 1500, 6100]]) * (1 + 0.2j)
ANGULAR = np.array([[1.1, 2.3, 0.7], [3.1, 1.9, 0.9], [0.4, 2.2, 1.7]]) * (1 + 0.2j)
MASS = mass_matrix(11.3, INERTIA)


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


def test_rigid_feet_are_the_limit_of_stiff_ones() -> None:
    push = np.array([1.0, -0.4, 0.3, 0.05, -0.1, 0.2])
    gravity = gravity_stiffness([41.0, 33.0, 36.0], ARMS)
    rigid = rigid_shares(push, ARMS, LINEAR, ANGULAR)
    gaps = []
    for scale in (1e4, 1e5):
        stiffness = support_matrix(ARMS, scale * LINEAR, scale * ANGULAR) + gravity
        u = frame_response(stiffness, MASS, 40.0, push)
        gaps.append(
            np.linalg.norm(foot_forces(u, ARMS, scale * LINEAR) - rigid) / np.linalg.norm(rigid)
        )
    assert gaps[0] < 1e-2
    assert gaps[0] / gaps[1] == pytest.approx(10.0, rel=0.01)  # first order in 1/scale
