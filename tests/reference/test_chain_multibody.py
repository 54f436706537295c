"""Floor force of motor on damper on frame on feet against a multibody code.

The multibody code (exudyn) holds five bodies, frame, motor's shell, rotor and two moving masses;
shell and rotor are joined by a revolute joint, each mass runs on a prismatic one, by constraints.
Its system matrices come from numerical linearisation of finite rotations. The chain under test
holds the frame and the motor with all they carry, and turns and travels as inner coordinates.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
import pytest

from isolator.physics.bodies.rigid import GROUND, Support, assemble, mass_matrices
from isolator.physics.drive import chain

exu = pytest.importorskip("exudyn")

TAU = 2.0 * np.pi
SHAFT = np.array([2.0, 3.0, 6.0]) / 7.0  # not along any axis


class Body(NamedTuple):
    mass: float
    com: np.ndarray
    inertia: np.ndarray  # about its own centre


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


def merged(bodies: list[Body]) -> Body:
    """Several bodies as one."""
    mass = sum(each.mass for each in bodies)
    com = sum((each.mass * each.com for each in bodies), np.zeros(3)) / mass
    inertia = np.zeros((3, 3))
    for each in bodies:
        arm = each.com - com
        inertia += each.inertia + each.mass * (arm @ arm * np.eye(3) - np.outer(arm, arm))
    return Body(mass, com, inertia)


def turned_to(axis: np.ndarray) -> np.ndarray:
    """A rotation matrix whose z axis is `axis`."""
    first = np.cross([0.0, 1.0, 0.0], axis)
    first /= np.linalg.norm(first)
    return np.stack([first, np.cross(axis, first), axis], axis=1)


def linearised(parts: set[str]) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Mass and stiffness (30, 30) of the five bodies with some of the springs; free motions."""
    from exudyn import itemInterface as items  # noqa: N813 - its classes, not a class

    container = exu.SystemContainer()
    system = container.AddSystem()
    ground = system.AddObject(items.ObjectGround())
    objects = []
    for body in BODIES:
        j = body.inertia
        six = [j[a, b] for a, b in ((0, 0), (1, 1), (2, 2), (1, 2), (0, 2), (0, 1))]
        node = system.AddNode(
            items.NodeRigidBodyRxyz(referenceCoordinates=[*body.com, 0.0, 0.0, 0.0])
        )
        made = items.ObjectRigidBody(mass=body.mass, inertia=six, nodeNumber=node)
        objects.append(system.AddObject(made))

    def ends(first: int, second: int, point: np.ndarray) -> list[int]:
        found = []
        for body in (first, second):
            arm = point if body == GROUND else point - BODIES[body].com
            on = ground if body == GROUND else objects[body]
            marker = items.MarkerBodyRigid(bodyNumber=on, localPosition=list(arm))
            found.append(system.AddMarker(marker))
        return found

    def spring(first: int, second: int, point: np.ndarray, stiffness: np.ndarray) -> None:
        system.AddObject(
            items.ObjectConnectorRigidBodySpringDamper(
                markerNumbers=ends(first, second, point),
                stiffness=stiffness,
                damping=np.zeros((6, 6)),
            )
        )

    def joint(first: int, second: int, frame: np.ndarray, fixed: list[int]) -> None:
        system.AddObject(
            items.ObjectJointGeneric(
                markerNumbers=ends(first, second, BODIES[second].com),
                constrainedAxes=fixed,
                rotationMarker0=frame,
                rotationMarker1=frame,
            )
        )

    joint(1, 2, turned_to(SHAFT), [1, 1, 1, 1, 1, 0])
    joint(0, 3, np.eye(3), [0, 1, 1, 1, 1, 1])
    joint(0, 4, np.eye(3), [1, 0, 1, 1, 1, 1])
    if "feet" in parts:
        for point, linear, angular in zip(FEET, LINEAR, ANGULAR, strict=True):
            spring(GROUND, 0, point, np.diag([*linear, *angular]))
    if "rubber" in parts:
        spring(0, 1, RUBBER_AT, RUBBER)
    if "field" in parts:
        block = np.zeros((6, 6))
        block[3:, 3:] = MAGNETIC * np.outer(SHAFT, SHAFT)
        spring(1, 2, ROTOR.com, block)
    system.Assemble()
    settings = exu.SimulationSettings()
    settings.staticSolver.newton.numericalDifferentiation.doSystemWideDifferentiation = True
    mass, stiffness, _, _, free = system.ComputeLinearizedSystem(
        simulationSettings=settings, returnConstraintNullspace=True
    )
    return mass, stiffness, free.T


def multibody_forces(frequency: np.ndarray) -> np.ndarray:
    """Norm (f,) of the feet's forces under 1 N·m between rotor and shell."""
    whole = np.zeros((30, 30), dtype=complex)
    for part, loss in LOSSES.items():
        mass, stiffness, free = linearised({part})
        whole += stiffness * (1 + 1j * loss)
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


def chain_forces(frequency: np.ndarray) -> np.ndarray:
    frame, motor = merged([FRAME, TOOL, BED]), merged([SHELL, ROTOR])
    feet, rubber = 1 + 1j * LOSSES["feet"], 1 + 1j * LOSSES["rubber"]
    supports = [
        Support(GROUND, 0, point, np.diag([*linear, *angular]) * feet)
        for point, linear, angular in zip(FEET, LINEAR, ANGULAR, strict=True)
    ]
    supports.append(Support(0, 1, RUBBER_AT, RUBBER * rubber))
    stiffness = assemble([frame.com, motor.com], supports, [np.zeros(3)] * 5)
    mass = mass_matrices([frame.mass, motor.mass], [frame.inertia, motor.inertia])
    drive = chain.Drive(
        axis=SHAFT,
        rotor_inertia=ROTOR_INERTIA,
        pulley_radius=0.0064,
        belt_stiffness=0.0,
        magnetic_stiffness=MAGNETIC * (1 + 1j * LOSSES["field"]),
        pulls=np.array([1.0, 0.0]),
    )
    moving = chain.Carriage(
        masses=np.array([TOOL.mass, BED.mass]), points=np.array([TOOL.com, BED.com])
    )
    k, m = chain.augment(stiffness, mass, frame.com, [drive], moving)
    motion, _ = chain.response(k, m, TAU * frequency, np.ones((len(frequency), 1, 1)))
    return chain.floor_force(motion, FEET - frame.com, LINEAR * feet)


def test_the_floor_feels_what_five_bodies_in_joints_make_it_feel() -> None:
    # the feet's modes lie at 3 to 10 Hz, the motor's twist on its rubber near 43 Hz, its rotor's
    # own near 270 Hz
    frequency = np.array([1.3, 3.9, 6.2, 17.0, 38.0, 44.0, 47.0, 61.0, 120.0, 265.0, 330.0])
    expected, found = multibody_forces(frequency), chain_forces(frequency)
    # 1 % is asked; what is left is the code's numerical differentiation
    np.testing.assert_allclose(found, expected, rtol=3e-5)
    assert np.ptp(np.log10(expected)) > 1  # peaks and valleys, not one level
