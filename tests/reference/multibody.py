"""Rigid bodies in joints and on springs, linearised by a multibody code (exudyn)."""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from typing import NamedTuple

import numpy as np
import pytest

from isolator.physics.bodies.rigid import GROUND

exu = pytest.importorskip("exudyn")


class Body(NamedTuple):
    mass: float
    com: np.ndarray
    inertia: np.ndarray  # about its own centre


class Joint(NamedTuple):
    first: int
    second: int
    frame: np.ndarray  # rotation of its axes
    fixed: list[int]  # of three shifts and three turns about them
    point: np.ndarray | None = None  # where it is; None: at the second body's centre


class Spring(NamedTuple):
    first: int
    second: int
    point: np.ndarray
    stiffness: np.ndarray  # (6, 6)


def merged(bodies: Sequence[Body]) -> Body:
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
    first = np.cross([0.0, 1.0, 0.0] if abs(axis[1]) < 0.9 else [1.0, 0.0, 0.0], axis)
    first /= np.linalg.norm(first)
    return np.stack([first, np.cross(axis, first), axis], axis=1)


def linearised(
    bodies: Sequence[Body], joints: Sequence[Joint], springs: Sequence[Spring]
) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Mass and stiffness (6b, 6b) of bodies with their springs; free motions (6b, ·) as columns."""
    from exudyn import itemInterface as items  # noqa: N813 - its classes, not a class

    container = exu.SystemContainer()
    system = container.AddSystem()
    ground = system.AddObject(items.ObjectGround())
    objects = []
    for body in bodies:
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
            arm = point if body == GROUND else point - bodies[body].com
            on = ground if body == GROUND else objects[body]
            marker = items.MarkerBodyRigid(bodyNumber=on, localPosition=list(arm))
            found.append(system.AddMarker(marker))
        return found

    for joint in joints:
        place = bodies[joint.second].com if joint.point is None else joint.point
        system.AddObject(
            items.ObjectJointGeneric(
                markerNumbers=ends(joint.first, joint.second, place),
                constrainedAxes=joint.fixed,
                rotationMarker0=joint.frame,
                rotationMarker1=joint.frame,
            )
        )
    for spring in springs:
        system.AddObject(
            items.ObjectConnectorRigidBodySpringDamper(
                markerNumbers=ends(spring.first, spring.second, spring.point),
                stiffness=spring.stiffness,
                damping=np.zeros((6, 6)),
            )
        )
    system.Assemble()
    settings = exu.SimulationSettings()
    settings.staticSolver.newton.numericalDifferentiation.doSystemWideDifferentiation = True
    mass, stiffness, _, _, free = system.ComputeLinearizedSystem(
        simulationSettings=settings, returnConstraintNullspace=True
    )
    return mass, stiffness, free.T


def moved(bodies: Sequence[Body], body: int, point: np.ndarray) -> np.ndarray:
    """Motion (3, 6b) of a point of a body: u + θ × arm; of ground none."""
    rows = np.zeros((3, 6 * len(bodies)))
    if body != GROUND:
        rows[:, 6 * body : 6 * body + 3] = np.eye(3)
        arm = point - bodies[body].com
        rows[:, 6 * body + 3 : 6 * body + 6] = np.cross(np.eye(3), arm).T
    return rows


def strand(bodies: Sequence[Body], path: Sequence[tuple[int, np.ndarray]]) -> np.ndarray:
    """How much longer (6b,) a belt's way through points of bodies grows, straight in between.

    Between its ends it runs freely over idlers of no size and no mass.
    """
    row = np.zeros(6 * len(bodies))
    for (one, here), (two, there) in itertools.pairwise(path):
        way = (there - here) / np.linalg.norm(there - here)
        row += way @ (moved(bodies, two, there) - moved(bodies, one, here))
    return row
