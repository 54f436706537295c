"""Properties of mass and stiffness matrices, modes and their names."""

import numpy as np
import pytest

from isolator.physics.bodies.rigid import (
    GROUND,
    MODE_NAMES,
    Support,
    assemble,
    cross_matrix,
    gravity_stiffness,
    mass_matrices,
    mass_matrix,
    mode_names,
    modes,
    preload_matrix,
    support_matrix,
)

INERTIA = np.array([[0.41, 0.013, -0.022], [0.013, 0.37, 0.017], [-0.022, 0.017, 0.29]])
ARMS = np.array([[0.17, 0.19, -0.21], [-0.16, 0.14, -0.2], [0.15, -0.13, -0.22]])
LINEAR = np.array([[2100.0, 1700, 5200], [1900, 2300, 4100], [2500, 1500, 6100]])
ANGULAR = np.array([[1.1, 2.3, 0.7], [3.1, 1.9, 0.9], [0.4, 2.2, 1.7]])


def test_support_matrix_is_the_sum_of_its_definition() -> None:
    expected = np.zeros((6, 6), dtype=complex)
    linear = LINEAR * (1 + 1j * np.array([[0.1], [0.2], [0.3]]))
    for arm, k, t in zip(ARMS, linear, ANGULAR, strict=True):
        motion = np.hstack([np.eye(3), -cross_matrix(arm)])
        expected += motion.T @ np.diag(k) @ motion
        expected[3:, 3:] += np.diag(t)
    found = support_matrix(ARMS, linear, ANGULAR)
    np.testing.assert_allclose(found, expected, rtol=1e-12, atol=1e-12)  # rounding
    np.testing.assert_array_equal(found, found.T)  # reciprocity


def test_one_body_assembles_to_the_support_matrix() -> None:
    com, loads = np.array([0.03, -0.02, 0.31]), np.array([41.0, 33.0, 28.0])
    supports = [
        Support(GROUND, 0, com + arm, np.diag([*k, *t]))
        for arm, k, t in zip(ARMS, LINEAR, ANGULAR, strict=True)
    ]
    found = assemble([com], supports, [np.array([0.0, 0.0, p]) for p in loads])
    expected = support_matrix(ARMS, LINEAR, ANGULAR) + gravity_stiffness(loads, ARMS)
    np.testing.assert_allclose(found, expected, rtol=1e-12, atol=1e-9)  # rounding of sums near 1e4


def test_gravity_takes_weight_times_height_off_rocking() -> None:
    # three feet at one depth whose loads balance about the centre of mass
    arms = np.array([[0.2, 0.1, -0.23], [-0.1, 0.15, -0.23], [-0.05, -0.3, -0.23]])
    loads = np.linalg.solve(np.vstack([np.ones(3), arms[:, :2].T]), [118.0, 0.0, 0.0])
    found = gravity_stiffness(loads, arms)
    expected = np.diag([0.0, 0, 0, -118 * 0.23, -118 * 0.23, 0])
    np.testing.assert_allclose(found, expected, atol=1e-12)  # rounding


def test_preload_is_the_second_order_work_of_the_force() -> None:
    force, arm, turn = np.array([3.0, -5.0, 7.0]), np.array([0.2, 0.1, -0.4]), [0.02, -0.05, 0.03]
    work = force @ np.cross(turn, np.cross(turn, arm)) / 2
    assert turn @ preload_matrix(force, arm) @ turn / 2 == pytest.approx(-work, rel=1e-12)


def two_bodies(shift: np.ndarray) -> np.ndarray:
    coms = [shift + np.array([0.01, 0.02, 0.05]), shift + np.array([0.02, -0.03, 0.4])]
    block = np.diag([1500.0, 1900, 4100, 1.5, 0.7, 2.1]) + 3 * np.ones((6, 6))
    supports = [
        Support(0, 1, shift + np.array([0.1, 0.2, 0.15]), block),
        Support(0, 1, shift + np.array([-0.2, 0.1, 0.12]), 1.3 * block),
        Support(GROUND, 0, shift + np.array([0.2, -0.1, 0.0]), 1.7 * block),
    ]
    loads = [np.array([1.0, 2.0, 60.0]), np.array([-2.0, 1.0, 50.0]), np.array([1.0, -1.0, 270.0])]
    return assemble(coms, supports, loads)


def test_the_origin_does_not_matter() -> None:
    moved = two_bodies(np.array([0.7, -1.3, 2.1]))
    np.testing.assert_allclose(moved, two_bodies(np.zeros(3)), rtol=1e-9, atol=1e-9)  # rounding


def test_assembled_stiffness_is_symmetric() -> None:
    found = two_bodies(np.zeros(3))
    np.testing.assert_allclose(found, found.T, atol=1e-10)  # rounding


def test_moving_as_one_rigid_whole_stores_nothing_between_two_bodies() -> None:
    coms = [np.array([0.01, 0.02, 0.05]), np.array([0.02, -0.03, 0.4])]
    block = np.diag([1500.0, 1900, 4100, 1.5, 0.7, 2.1])
    stiffness = assemble(coms, [Support(0, 1, [0.1, 0.2, 0.15], block)], [np.zeros(3)])
    turn, slide = np.array([0.3, -0.7, 0.2]), np.array([1.1, 0.4, -0.6])
    motion = np.concatenate([np.r_[slide + np.cross(turn, com), turn] for com in coms])
    np.testing.assert_allclose(stiffness @ motion, 0.0, atol=1e-11)  # rounding near 1e3


def test_modes_are_orthogonal_and_keep_their_energy() -> None:
    stiffness, mass = support_matrix(ARMS, LINEAR, ANGULAR), mass_matrix(11.3, INERTIA)
    frequencies, shapes = modes(stiffness, mass)
    assert (np.diff(frequencies) >= 0).all()
    np.testing.assert_allclose(shapes.T @ mass @ shapes, np.eye(6), atol=1e-12)  # rounding
    # potential energy of each mode equals its kinetic energy
    strain = np.diag(shapes.T @ stiffness @ shapes)
    np.testing.assert_allclose(strain, (2 * np.pi * frequencies) ** 2, rtol=1e-11)


def test_a_batch_is_its_members() -> None:
    linear = np.stack([LINEAR, 2.3 * LINEAR, LINEAR[::-1]])
    depth = np.array([0.0, 0.01, 0.03])[:, None]
    arms = ARMS - np.stack([0 * depth, 0 * depth, depth], axis=-1)
    mass = mass_matrix([11.3, 9.1, 12.7], INERTIA)
    batch = modes(support_matrix(arms, linear, ANGULAR), mass)[0]
    for i in range(3):
        alone = modes(support_matrix(arms[i], linear[i], ANGULAR), mass[i])[0]
        np.testing.assert_allclose(batch[i], alone, rtol=1e-12)


def test_an_unstable_body_shows_a_negative_frequency() -> None:
    stiffness = support_matrix(ARMS, LINEAR, ANGULAR)
    stiffness[3, 3] -= 900.0
    frequencies = modes(stiffness, mass_matrix(11.3, INERTIA))[0]
    assert frequencies[0] < 0 < frequencies[1]
    assert np.isfinite(frequencies).all()


def test_each_mode_name_is_given_once() -> None:
    mass = mass_matrix(11.3, INERTIA)
    shapes = modes(support_matrix(ARMS, LINEAR, ANGULAR), mass)[1]
    assert sorted(mode_names(shapes, mass)) == sorted(MODE_NAMES)


def test_uncoupled_modes_carry_their_own_names() -> None:
    mass = mass_matrix(11.3, np.diag([0.41, 0.37, 0.29]))
    frequencies, shapes = modes(np.diag([3e3, 2e3, 9e3, 170.0, 90.0, 210.0]), mass)
    # √(k/m): sway y 2.12, bounce 4.49, sway x 2.59, rocking x 3.24, rocking y 2.48, twist 4.28 Hz
    assert mode_names(shapes, mass) == [
        "sway y",
        "rocking y",
        "sway x",
        "rocking x",
        "twist",
        "bounce",
    ]
    assert frequencies[0] == pytest.approx(np.sqrt(2e3 / 11.3) / 2 / np.pi)


def test_masses_of_two_bodies_do_not_couple() -> None:
    found = mass_matrices([17.0, 11.3], [2 * INERTIA, INERTIA])
    np.testing.assert_array_equal(found[:6, :6], mass_matrix(17.0, 2 * INERTIA))
    np.testing.assert_array_equal(found[6:, 6:], mass_matrix(11.3, INERTIA))
    assert not found[:6, 6:].any()
