"""Eigenvalues of rigid bodies on springs against a multibody code, and against exact energy.

The multibody code (exudyn) linearises full nonlinear equations of motion numerically; its springs
are preloaded by the weight they carry, so that the geometric stiffness comes out of its own
kinematics. The energy is that of finite rotations, differentiated numerically.
"""

from collections.abc import Callable

import numpy as np
import pytest
from scipy.spatial.transform import Rotation

from isolator.physics.bodies.rigid import (
    GROUND,
    Support,
    assemble,
    gravity_stiffness,
    mass_matrices,
    mass_matrix,
    modes,
    support_matrix,
)

exu = pytest.importorskip("exudyn")

GRAVITY = 9.80665
MASSES = (17.0, 11.3)
INERTIAS = (
    np.array([[0.31, 0.005, 0.012], [0.005, 0.27, -0.007], [0.012, -0.007, 0.55]]),
    np.array([[0.41, 0.013, -0.022], [0.013, 0.37, 0.017], [-0.022, 0.017, 0.29]]),
)
CENTRES = (np.array([0.01, 0.02, 0.05]), np.array([0.02, -0.03, 0.40]))
FEET = np.array([[0.19, 0.16, 0.19], [-0.14, 0.11, 0.2], [0.17, -0.16, 0.18], [-0.1, -0.21, 0.21]])
PADS = np.array([[0.19, 0.21, 0.02], [-0.2, 0.18, 0.01], [0.17, -0.2, 0.03], [-0.18, -0.22, 0.0]])


def stiffnesses(seed: int) -> np.ndarray:
    random = np.random.default_rng(seed)
    low = [1300, 1500, 3700, 0.4, 0.6, 0.7]
    high = [2500, 2900, 6100, 3.1, 2.3, 3.3]
    return random.uniform(low, high, (4, 6))


def shares(points: np.ndarray, centre: np.ndarray, weight: float) -> np.ndarray:
    """Loads that balance the weight, whatever else they are."""
    rows = np.vstack([np.ones(len(points)), (points - centre)[:, :2].T])
    return np.linalg.lstsq(rows, np.array([weight, 0.0, 0.0]), rcond=None)[0]


Supports = list[tuple[Support, np.ndarray]]


def multibody_frequencies(bodies: list[int], supports: Supports, gravity: float) -> np.ndarray:
    """Natural frequencies [Hz], negative where unstable, by exudyn."""
    from exudyn import itemInterface as items  # noqa: N813 - its classes, not a class

    container = exu.SystemContainer()
    system = container.AddSystem()
    ground = system.AddObject(items.ObjectGround())
    objects = []
    for b in bodies:
        tensor = INERTIAS[b]
        six = [tensor[i, j] for i, j in ((0, 0), (1, 1), (2, 2), (1, 2), (0, 2), (0, 1))]
        place = [*CENTRES[b], 0.0, 0.0, 0.0]
        node = system.AddNode(items.NodeRigidBodyRxyz(referenceCoordinates=place))
        made = items.ObjectRigidBody(mass=MASSES[b], inertia=six, nodeNumber=node)
        objects.append(system.AddObject(made))
        marker = system.AddMarker(items.MarkerBodyMass(bodyNumber=objects[-1]))
        pull = items.LoadMassProportional(markerNumber=marker, loadVector=[0, 0, -gravity])
        system.AddLoad(pull)
    for support, force in supports:
        markers = []
        for end in (support.first, support.second):
            on = ground if end == GROUND else objects[end]
            arm = np.asarray(support.point) - (0 if end == GROUND else CENTRES[bodies[end]])
            made = items.MarkerBodyRigid(bodyNumber=on, localPosition=list(arm))
            markers.append(system.AddMarker(made))
        wrench = np.concatenate([force, np.zeros(3)])
        offset = np.linalg.solve(np.asarray(support.stiffness), wrench)
        spring = items.ObjectConnectorRigidBodySpringDamper(
            markerNumbers=markers,
            stiffness=support.stiffness,
            damping=np.zeros((6, 6)),
            offset=list(offset),
        )
        system.AddObject(spring)
    system.Assemble()
    settings = exu.SimulationSettings()
    settings.staticSolver.newton.numericalDifferentiation.doSystemWideDifferentiation = True
    values = system.ComputeODE2Eigenvalues(simulationSettings=settings)[0]
    return np.sign(values) * np.sqrt(np.abs(values)) / (2 * np.pi)


@pytest.mark.parametrize("gravity", [0.0, GRAVITY], ids=["weightless", "loaded"])
def test_one_body_on_unequal_feet(gravity: float) -> None:
    arms, k = FEET - CENTRES[1], stiffnesses(3)
    loads = shares(FEET, CENTRES[1], MASSES[1] * gravity)
    supports = [
        (Support(GROUND, 0, point, np.diag(own)), np.array([0.0, 0.0, load]))
        for point, own, load in zip(FEET, k, loads, strict=True)
    ]
    whole = support_matrix(arms, k[:, :3], k[:, 3:]) + gravity_stiffness(loads, arms)
    found = modes(whole, mass_matrix(MASSES[1], INERTIAS[1]))[0]
    expected = multibody_frequencies([1], supports, gravity)
    np.testing.assert_allclose(found, expected, rtol=2e-7)  # its numerical differentiation


def test_gravity_matters_in_that_case() -> None:
    arms, k = FEET - CENTRES[1], stiffnesses(3)
    loads = shares(FEET, CENTRES[1], MASSES[1] * GRAVITY)
    held, mass = support_matrix(arms, k[:, :3], k[:, 3:]), mass_matrix(MASSES[1], INERTIAS[1])
    without, loaded = modes(held, mass)[0], modes(held + gravity_stiffness(loads, arms), mass)[0]
    assert (without - loaded).max() > 0.02  # [Hz], five orders above the tolerance above
    tall = gravity_stiffness(40 * loads, arms)
    assert modes(held + tall, mass)[0][0] < 0  # tips, and says so


def printer_on_slab(gravity: float) -> Supports:
    """Slab on pads, printer on feet on the slab: all unequal."""
    total = sum(MASSES)
    centre = (MASSES[0] * CENTRES[0] + MASSES[1] * CENTRES[1]) / total
    lower = shares(PADS, centre, total * gravity)
    upper = shares(FEET, CENTRES[1], MASSES[1] * gravity)
    return [
        (Support(first, second, point, np.diag(own)), np.array([0.0, 0.0, load]))
        for points, first, second, loads, seed in (
            (PADS, GROUND, 0, lower, 7),
            (FEET, 0, 1, upper, 11),
        )
        for point, own, load in zip(points, stiffnesses(seed), loads, strict=True)
    ]


def test_printer_on_a_slab_unloaded() -> None:
    supports = printer_on_slab(0.0)
    whole = assemble(CENTRES, [s for s, _ in supports], [f for _, f in supports])
    found = modes(whole, mass_matrices(MASSES, INERTIAS))[0]
    expected = multibody_frequencies([0, 1], supports, 0.0)
    np.testing.assert_allclose(found, expected, rtol=2e-7)  # its numerical differentiation


def energy(supports: Supports, gravity: float) -> Callable[[np.ndarray], float]:
    """Potential energy of finite motion: u and a rotation vector for each body."""

    def potential(state: np.ndarray) -> float:
        total = sum(m * gravity * q[2] for m, q in zip(MASSES, state.reshape(-1, 6), strict=True))
        for support, force in supports:
            ends = []
            for body in (support.first, support.second):
                if body == GROUND:
                    ends.append((np.asarray(support.point), Rotation.identity()))
                    continue
                q = state[6 * body : 6 * body + 6]
                turn = Rotation.from_rotvec(q[3:])
                arm = np.asarray(support.point) - CENTRES[body]
                ends.append((CENTRES[body] + q[:3] + turn.apply(arm), turn))
            k = np.asarray(support.stiffness)
            inward = ends[0][1].inv()
            sag = inward.apply(ends[1][0] - ends[0][0]) - force / np.diag(k)[:3]
            twist = (inward * ends[1][1]).as_rotvec()
            total += 0.5 * (np.diag(k)[:3] @ sag**2 + np.diag(k)[3:] @ twist**2)
        return float(total)

    return potential


def hessian(function: Callable[[np.ndarray], float], size: int, step: float) -> np.ndarray:
    unit = step * np.eye(size)
    out = np.empty((size, size))
    for i in range(size):
        for j in range(i + 1):
            a, b = unit[i], unit[j]
            cross = function(a + b) - function(a - b) - function(b - a) + function(-a - b)
            out[i, j] = out[j, i] = cross / (4 * step**2)
    return out


def test_printer_on_a_slab_loaded() -> None:
    supports = printer_on_slab(GRAVITY)
    whole = assemble(CENTRES, [s for s, _ in supports], [f for _, f in supports])
    expected = hessian(energy(supports, GRAVITY), 12, 1e-4)
    # differences of energies near 1 J over steps of 1e-4: 1e-15/1e-8, and the fourth derivative
    np.testing.assert_allclose(whole, expected, atol=2e-3)
    elastic = assemble(CENTRES, [s for s, _ in supports], [0 * f for _, f in supports])
    assert np.abs(whole - elastic).max() > 10  # the preload is seen
