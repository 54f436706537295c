"""A printer in two bodies against a multibody code: modes, forced motion, blocked force.

The multibody code (exudyn) holds base, top and a mass that slides on the top; base and top are
joined so that the top may only shift along x and y and twist about z, by constraints, on springs at
the top's centre. Its system matrices come from numerical linearisation of finite rotations.
"""

from __future__ import annotations

import numpy as np
import pytest
from multibody import Body, Joint, Spring, linearised, merged

from isolator.physics.bodies.condense import condense
from isolator.physics.bodies.frame import Top, bend, bent_push, held_stiffness, racking
from isolator.physics.bodies.rigid import GROUND, mass_matrix, modes, support_matrix

TAU = 2.0 * np.pi


BASE = Body(
    6.9,
    np.array([0.02, -0.01, 0.12]),
    np.array([[0.21, 0.013, -0.012], [0.013, 0.19, 0.017], [-0.012, 0.017, 0.23]]),
)
TOP = Body(
    4.1,
    np.array([-0.03, 0.04, 0.37]),
    np.array([[0.13, -0.007, 0.011], [-0.007, 0.11, 0.009], [0.011, 0.009, 0.17]]),
)
TOOL = Body(0.37, np.array([0.05, 0.07, 0.41]), np.diag([2e-4, 3e-4, 4e-4]))
BODIES = (BASE, TOP, TOOL)
RACKING = np.array([2.3e4, 3.1e4, 1.9e3])  # along x, along y, about z
BELT = 5.2e4  # holds the tool on the top, along x
FEET = np.array([[0.19, 0.17, -0.02], [-0.2, 0.15, -0.015], [-0.16, -0.21, -0.03], [0.2, -0.1, 0]])
LINEAR = np.array([[4.1e3, 5.4e3, 9e3], [4.9e3, 4.3e3, 8e3], [3.7e3, 4.6e3, 9e3], [5e3, 4e3, 7e3]])
ANGULAR = np.array([[0.5, 0.7, 0.9], [1.1, 0.6, 0.8], [0.4, 1.3, 1.2], [0.9, 0.8, 0.7]])
LOSSES = {"feet": 0.17, "frame": 0.06, "belt": 0.05}
FAN_AT = np.array([0.11, -0.13, 0.33])  # on the top
FAN = np.array([0.6, 0.8, -0.3])


UPPER, WHOLE = merged([TOP, TOOL]), merged(BODIES)
# racking is taken at the centre of the top with all that rides on it
JOINTS = (
    Joint(0, 1, np.eye(3), [0, 0, 1, 1, 1, 0], UPPER.com),
    Joint(1, 2, np.eye(3), [0, 1, 1, 1, 1, 1]),
)


def springs_of(part: str) -> list[Spring]:
    """The springs of one part of the three bodies."""
    if part == "feet":
        return [
            Spring(GROUND, 0, point, np.diag([*linear, *angular]))
            for point, linear, angular in zip(FEET, LINEAR, ANGULAR, strict=True)
        ]
    if part == "frame":
        x, y, twist = RACKING
        return [Spring(0, 1, UPPER.com, np.diag([x, y, 0.0, 0.0, 0.0, twist]))]
    return [Spring(1, 2, TOOL.com, np.diag([BELT, 0.0, 0.0, 0.0, 0.0, 0.0]))]


def multibody() -> tuple[np.ndarray, np.ndarray, np.ndarray, np.ndarray]:
    """Mass, stiffness with its losses, both of what is free to move; pushes; free motions."""
    whole = np.zeros((18, 18), dtype=complex)
    for part, loss in LOSSES.items():
        mass, stiffness, free = linearised(BODIES, JOINTS, springs_of(part))
        whole += stiffness * (1 + 1j * loss)
    push = np.zeros((18, 2))
    push[12, 0], push[6, 0] = 1.0, -1.0  # tool against top, along x, at the tool's place
    push[9:12, 0] = -np.cross(TOOL.com - TOP.com, [1.0, 0.0, 0.0])
    push[6:9, 1], push[9:12, 1] = FAN, np.cross(FAN_AT - TOP.com, FAN)
    return free.T @ mass @ free, free.T @ whole @ free, free.T @ push, free


def built(stiff: float = 1.0) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Stiffness, mass and pushes of frame (6), tool's travel, racking (3); no feet."""
    held = np.array([UPPER.mass, UPPER.mass, UPPER.inertia[2, 2]])
    frequency = np.sqrt(stiff * RACKING / held) / TAU
    top = Top(*UPPER)
    lossy = held_stiffness(top, frequency) * (1 + 1j * LOSSES["frame"])
    frame = racking(top, WHOLE.com, lossy)
    stiffness, mass = np.zeros((7, 7), dtype=complex), np.zeros((7, 7))
    mass[:6, :6] = mass_matrix(WHOLE.mass, WHOLE.inertia)
    stiffness[6, 6] = BELT * (1 + 1j * LOSSES["belt"])
    along = np.array([1.0, 0.0, 0.0])
    mass[6, 6] = TOOL.mass
    mass[:3, 6] = mass[6, :3] = TOOL.mass * along
    mass[3:6, 6] = mass[6, 3:6] = TOOL.mass * np.cross(TOOL.com - WHOLE.com, along)
    push = np.zeros((7, 2))
    push[6, 0] = 1.0
    push[:3, 1], push[3:6, 1] = FAN, np.cross(FAN_AT - WHOLE.com, FAN)
    bent, inertia = bend(stiffness, mass, frame, [6])
    return bent, inertia, bent_push(push, frame, [False, True])


def feet(scale: complex = 1.0) -> np.ndarray:
    return scale * support_matrix(FEET - WHOLE.com, LINEAR, ANGULAR)


def test_modes() -> None:
    mass, stiffness, _, _ = multibody()
    expected = modes(stiffness, mass)[0]
    own, inertia, _ = built()
    own[:6, :6] += feet()
    found = modes(own, inertia)[0]
    # 0.5 % is asked; what is left is the code's numerical differentiation
    np.testing.assert_allclose(found, expected, rtol=2e-6)
    rigid = modes(feet(), mass_matrix(WHOLE.mass, WHOLE.inertia))[0]
    assert np.abs(found[:6] / rigid - 1).max() > 0.02  # bending lowers the printer's own modes


FREQUENCY = np.array([1.1, 4.3, 6.9, 9.7, 12.0, 16.0, 19.5, 24.0, 40.0, 60.0, 110.0])


def test_forced_motion_of_the_base_and_foot_forces() -> None:
    mass, stiffness, push, free = multibody()
    own, inertia, forces = built()
    found = condense(own, inertia, TAU * FREQUENCY, forces)
    moved = np.linalg.solve(feet(1 + 1j * LOSSES["feet"]) + found.dynamic, found.blocked)
    for index, w in enumerate(TAU * FREQUENCY):
        solved = free @ np.linalg.solve(stiffness - w**2 * mass, push)
        # the code tells the base's own centre; carry it to that of the whole
        expected = solved[:6].copy()
        expected[:3] += np.cross(solved[3:6], WHOLE.com - BASE.com, axis=0)
        scale = np.abs(expected).max(axis=0)
        assert np.abs(moved[index] - expected).max() / scale.max() < 1e-5
        np.testing.assert_allclose(moved[index] / scale, expected / scale, atol=3e-5)


STIFF = 1e7


def test_blocked_force_is_what_a_held_base_feels() -> None:
    own, inertia, forces = built()
    blocked = condense(own, inertia, TAU * FREQUENCY, forces).blocked
    mass, stiffness, push, free = multibody()
    # held by feet so stiff that the base stands still: what they pass on
    held = stiffness + STIFF * (free.T @ linearised(BODIES, JOINTS, springs_of("feet"))[1] @ free)
    for index, w in enumerate(TAU * FREQUENCY):
        fixed = free @ np.linalg.solve(held - w**2 * mass, push)
        felt = STIFF * _feet_of_base() @ fixed[:6]
        scale = np.abs(felt).max(axis=0)
        np.testing.assert_allclose(blocked[index] / scale, felt / scale, atol=1e-4)


def _feet_of_base() -> np.ndarray:
    """The feet's matrix, force and moment about the whole's centre, on the base's own motion."""
    carry = np.eye(6)
    x, y, z = WHOLE.com - BASE.com
    carry[:3, 3:] = -np.array([[0, -z, y], [z, 0, -x], [-y, x, 0]])
    return feet() @ carry


def test_a_frame_that_hardly_gives_is_a_rigid_one() -> None:
    own, inertia, forces = built(stiff=1e12)
    rigid = condense(own[:7, :7], inertia[:7, :7], TAU * FREQUENCY, forces[:7])
    found = condense(own, inertia, TAU * FREQUENCY, forces)
    np.testing.assert_allclose(found.dynamic, rigid.dynamic, rtol=1e-7, atol=1e-4)
    np.testing.assert_allclose(found.blocked, rigid.blocked, rtol=1e-7, atol=1e-9)
    # and with the tool's travel held as well, −ω²M exactly
    bare = [*range(6), 7, 8, 9]
    grid = np.ix_(bare, bare)
    locked = condense(own[grid], inertia[grid], TAU * FREQUENCY, forces[bare])
    expected = -((TAU * FREQUENCY) ** 2)[:, None, None] * mass_matrix(WHOLE.mass, WHOLE.inertia)
    np.testing.assert_allclose(locked.dynamic, expected, rtol=1e-7, atol=1e-4)


def test_at_low_frequency_the_whole_mass_moves() -> None:
    own, inertia, forces = built()
    w = TAU * 0.01
    found = condense(own, inertia, w, forces)
    whole = mass_matrix(WHOLE.mass, WHOLE.inertia)
    np.testing.assert_allclose(found.dynamic / -(w**2), whole, rtol=1e-5, atol=1e-5)
    # far above every mode only the base is left
    high = condense(own, inertia, TAU * 1e5, forces).dynamic / -((TAU * 1e5) ** 2)
    assert high[0, 0].real == pytest.approx(BASE.mass, rel=1e-4)
    assert high[2, 2].real == pytest.approx(WHOLE.mass, rel=1e-6)  # posts do not shorten
