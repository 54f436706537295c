"""Floor force of motor on damper on frame on feet against a multibody code.

The multibody code (exudyn) holds five bodies, frame, motor's shell, rotor and two moving masses;
shell and rotor are joined by a revolute joint, each mass runs on a prismatic one, by constraints.
Its system matrices come from numerical linearisation of finite rotations. The source under test
holds the whole, and motor, turns and travels as coordinates against the frame. Without a belt, and
with one of two strands from the rotor's rim to the tool.
"""

from __future__ import annotations

import numpy as np
import pytest
from multibody import Body, Joint, Spring, linearised, merged, strand, turned_to

from isolator.physics.bodies.condense import condense
from isolator.physics.bodies.rigid import GROUND, mass_matrix, support_matrix
from isolator.physics.drive import chain

TAU = 2.0 * np.pi
SHAFT = np.array([2.0, 3.0, 6.0]) / 7.0  # not along any axis


def about_shaft(along: float, across: float) -> np.ndarray:
    return across * np.eye(3) + (along - across) * np.outer(SHAFT, SHAFT)


SHELL_AT = np.array([-0.16, 0.18, 0.39])
FRAME = Body(
    9.3,
    np.array([0.02, -0.01, 0.17]),
    np.array([[0.41, 0.013, -0.022], [0.013, 0.37, 0.017], [-0.022, 0.017, 0.29]]),
)
SHELL = Body(
    0.23, SHELL_AT, np.array([[1.1e-4, 9e-6, -4e-6], [9e-6, 0.9e-4, 7e-6], [-4e-6, 7e-6, 1.3e-4]])
)
ROTOR_INERTIA = 6.1e-6
ROTOR = Body(0.07, SHELL_AT + 0.011 * SHAFT, about_shaft(ROTOR_INERTIA, 1.7e-5))
TOOL = Body(0.37, np.array([0.03, 0.07, 0.41]), np.diag([2e-4, 3e-4, 4e-4]))
BED = Body(0.81, np.array([-0.05, 0.02, 0.13]), np.diag([4e-3, 5e-3, 9e-3]))
BODIES = (FRAME, SHELL, ROTOR, TOOL, BED)
RUBBER_AT = SHELL_AT + 0.024 * SHAFT + np.array([0.002, -0.001, 0.001])
RUBBER = np.diag([3.1e4, 4.3e4, 2.7e5, 23.0, 31.0, 11.0])
MAGNETIC = 17.0
FEET = np.array([[0.19, 0.17, -0.02], [-0.2, 0.15, -0.015], [-0.16, -0.21, -0.03], [0.2, -0.1, 0]])
LINEAR = np.array([[2.1e3, 3.4e3, 7e3], [2.9e3, 2.3e3, 6e3], [1.7e3, 2.6e3, 8e3], [3e3, 2e3, 5e3]])
ANGULAR = np.array([[0.5, 0.7, 0.9], [1.1, 0.6, 0.8], [0.4, 1.3, 1.2], [0.9, 0.8, 0.7]])
LOSSES = {"feet": 0.17, "rubber": 0.09, "field": 0.05}
RADIUS, BELT, WRAP = 0.0064, 54e3 * (1 + 0.04j), 2.5
PULL = np.cross([1.0, 0.2, -0.4], SHAFT) / np.linalg.norm(np.cross([1.0, 0.2, -0.4], SHAFT))
PULLEY_AT = SHELL_AT + 0.041 * SHAFT
JOINTS = (
    Joint(1, 2, turned_to(SHAFT), [1, 1, 1, 1, 1, 0]),
    Joint(0, 3, np.eye(3), [0, 1, 1, 1, 1, 1]),
    Joint(0, 4, np.eye(3), [1, 0, 1, 1, 1, 1]),
)
SPRINGS = {
    "feet": [
        Spring(GROUND, 0, point, np.diag([*linear, *angular]))
        for point, linear, angular in zip(FEET, LINEAR, ANGULAR, strict=True)
    ],
    "rubber": [Spring(0, 1, RUBBER_AT, RUBBER)],
    "field": [Spring(1, 2, ROTOR.com, np.kron(np.diag([0, MAGNETIC]), np.outer(SHAFT, SHAFT)))],
}


def strands() -> list[np.ndarray]:
    """Two strands from the rotor's rim: to a far idler and along x to the tool, either way.

    They leave on the sides of the arc round which the belt lies, away from the pull; the first is
    tightened as the rotor turns on.
    """
    side = np.cross(SHAFT, PULL)
    rows = []
    for hand, end in ((1.0, 0.3), (-1.0, -0.3)):
        out = -np.cos(WRAP / 2) * PULL + hand * np.sin(WRAP / 2) * side
        way = np.sin(WRAP / 2) * PULL + hand * np.cos(WRAP / 2) * side
        rim = PULLEY_AT + RADIUS * out
        idlers = [rim + 0.2 * way, TOOL.com + np.array([end, 0.0, 0.0])]
        path = [(2, rim), *((0, each) for each in idlers), (3, TOOL.com)]
        rows.append(strand(BODIES, path))
    return rows


def multibody_forces(frequency: np.ndarray, *, belted: bool) -> np.ndarray:
    """Norm (f,) of the feet's forces under 1 N·m between rotor and shell."""
    whole = np.zeros((30, 30), dtype=complex)
    for part, loss in LOSSES.items():
        mass, stiffness, free = linearised(BODIES, JOINTS, SPRINGS[part])
        whole += stiffness * (1 + 1j * loss)
    if belted:
        whole += sum(BELT / 2 * np.outer(row, row) for row in strands())
    push = np.zeros(30)
    push[15:18], push[9:12] = SHAFT, -SHAFT
    found = []
    for w in TAU * frequency:
        dynamic = free.T @ (whole - w**2 * mass) @ free
        moved = (free @ np.linalg.solve(dynamic, free.T @ push))[:6]
        at_feet = moved[:3] + np.cross(moved[3:], FEET - FRAME.com)
        forces = LINEAR * (1 + 1j * LOSSES["feet"]) * at_feet
        found.append(np.linalg.norm(forces))
    return np.array(found)


def source_forces(frequency: np.ndarray, *, belted: bool) -> np.ndarray:
    printer, motor = merged(BODIES), merged([SHELL, ROTOR])
    feet, rubber = 1 + 1j * LOSSES["feet"], RUBBER * (1 + 1j * LOSSES["rubber"])
    mounted = chain.Mounted(
        drive=0,
        com=motor.com,
        mass=mass_matrix(motor.mass, motor.inertia),
        stiffness=support_matrix(
            (RUBBER_AT - motor.com)[None], rubber.diagonal()[None, :3], rubber.diagonal()[None, 3:]
        ),
        belt=PULLEY_AT - motor.com,
        pull=PULL,
        wrap=WRAP,
    )
    drive = chain.Drive(
        axis=SHAFT,
        rotor_inertia=ROTOR_INERTIA,
        pulley_radius=RADIUS,
        belt_stiffness=BELT if belted else 0.0,
        magnetic_stiffness=MAGNETIC * (1 + 1j * LOSSES["field"]),
        pulls=np.array([1.0, 0.0]),
    )
    moving = chain.Carriage(
        masses=np.array([TOOL.mass, BED.mass]), points=np.array([TOOL.com, BED.com])
    )
    held = mass_matrix(printer.mass, printer.inertia)
    k, m = chain.augment(held, printer.com, [drive], moving, [mounted])
    push = np.zeros((15, 1))
    push[12] = 1.0
    source = condense(k, m, TAU * frequency, push)
    arms = FEET - printer.com
    stands = support_matrix(arms, LINEAR * feet, ANGULAR * feet)
    moved = np.linalg.solve(stands + source.dynamic, source.blocked)[..., 0]
    at_feet = moved[:, None, :3] + np.cross(moved[:, None, 3:], arms)
    return np.linalg.norm((LINEAR * feet * at_feet).reshape(len(frequency), -1), axis=1)


@pytest.mark.parametrize("belted", [False, True])
def test_the_floor_feels_what_five_bodies_in_joints_make_it_feel(belted: bool) -> None:
    # the feet's modes lie at 3 to 10 Hz, the motor's twist on its rubber near 43 Hz, its rotor's
    # own near 270 Hz
    frequency = np.array([1.3, 3.9, 6.2, 17.0, 38.0, 44.0, 47.0, 61.0, 120.0, 265.0, 330.0])
    expected = multibody_forces(frequency, belted=belted)
    found = source_forces(frequency, belted=belted)
    # 1 % is asked; what is left is the code's numerical differentiation
    np.testing.assert_allclose(found, expected, rtol=3e-5)
    assert np.ptp(np.log10(expected)) > 1  # peaks and valleys, not one level
