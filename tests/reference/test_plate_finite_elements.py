"""A table top on its edges and on legs against finite elements without modes."""

import numpy as np
import pytest
from scipy.sparse import bmat, csc_matrix
from scipy.sparse.linalg import splu

from isolator.physics.bodies.coupled import contact
from isolator.physics.bodies.plate import Plate, receptance
from isolator.physics.bodies.rigid import cross_matrix, mass_matrix

pytest.importorskip("skfem")
from plate_elements import plate_matrices

BOARD = {"bending": 1814.4, "mass_per_area": 13.14, "poisson": 0.25}
SIZE, LOSS = (1.4, 0.7), 0.05
LEGS = tuple((x, y) for x in (-0.64, 0.64) for y in (-0.29, 0.29))
FEET, WIDTHS = np.array([[-0.2, -0.1], [0.3, 0.15]]), np.array([0.025, 0.03])


@pytest.mark.parametrize("legs", [None, LEGS], ids=["edges", "legs"])
def test_forces_and_moments_on_two_feet(legs: tuple | None) -> None:
    """Own and transfer receptances within 5 % of the feet's own; forces alone within 2.5 %."""
    held = None if legs is None else np.array(legs)
    elements = plate_matrices(SIZE, BOARD, FEET, WIDTHS, held)
    hertz = np.array([4.0, 30.0, 64.0, 120.0, 200.0, 310.0])
    plate = Plate(**BOARD, loss=LOSS, size=SIZE, legs=legs)
    found = receptance(plate, FEET, WIDTHS, hertz)
    for row, each in enumerate(hertz):
        whole = elements.stiffness * (1 + 1j * LOSS) - (2 * np.pi * each) ** 2 * elements.mass
        expected = elements.felt @ splu(whole.tocsc()).solve(elements.felt.T.astype(complex))
        own = np.sqrt(np.abs(np.diag(expected)))
        off = np.abs(found[row] - expected) / np.outer(own, own)
        assert off.max() < 0.05
        assert off[::3, ::3].max() < 0.025


@pytest.mark.parametrize("legs", [None, LEGS], ids=["edges", "legs"])
def test_a_body_on_two_feet_coupled_through_the_plate(legs: tuple | None) -> None:
    """Forces, moments and power of a rigid body on two springs each way, within 2 %.

    The elements carry springs and body as unknowns of one large matrix, no receptance between.
    """
    held = None if legs is None else np.array(legs)
    elements = plate_matrices(SIZE, BOARD, FEET, WIDTHS, held)
    plate = Plate(**BOARD, loss=LOSS, size=SIZE, legs=legs)
    hertz = np.array([7.0, 41.0, 64.0, 120.0, 200.0])
    arms, height = np.column_stack([FEET, [-0.2, -0.2]]), np.array([0.03, 0.025])
    mass = mass_matrix(9.0, np.diag([0.3, 0.25, 0.28]))
    springs = np.array([[3e3, 2e3, 9e3, 2.0, 3.0, 1.0], [2e3, 4e3, 7e3, 1.0, 2.0, 1.5]])
    body = np.concatenate(
        [np.block([[np.eye(3), -cross_matrix(r)], [np.zeros((3, 3)), np.eye(3)]]) for r in arms]
    )
    rides = np.zeros((12, 6))
    for i, h in enumerate(height):
        own = np.array([[0, 0, h], [0, -h, 0], [1, 0, 0], [0, 1, 0], [0, 0, 1], [0, 0, 0]])
        rides[6 * i : 6 * i + 6, 3 * i : 3 * i + 3] = own
    push = np.array([0.3, -0.2, 1.0, 0.04, 0.1, 0.02])
    for scale in (1.0, 1e3):
        k = np.diag((scale * springs * (1 + 0.15j)).ravel())
        lower = csc_matrix(rides @ elements.felt)  # what each spring feels of the elements
        omega = 2 * np.pi * hertz
        found = contact(
            np.asarray(-((omega**2)[None, :, None, None]) * mass, dtype=complex),
            push[None, None, :, None] + 0j,
            arms[None],
            np.broadcast_to(scale * springs * (1 + 0.15j), (1, len(hertz), 2, 6)),
            height[None],
            receptance(plate, FEET, WIDTHS, hertz),
            hertz,
        )
        for row, each in enumerate(omega):
            board = elements.stiffness * (1 + 1j * LOSS) - each**2 * elements.mass
            whole = bmat(
                [
                    [body.T @ k @ body - each**2 * mass, -csc_matrix(body.T @ k) @ lower],
                    [-lower.T @ csc_matrix(k @ body), board + lower.T @ csc_matrix(k) @ lower],
                ]
            )
            right = np.concatenate([push, np.zeros(board.shape[0])]).astype(complex)
            moved = splu(whole.tocsc()).solve(right)
            force = rides.T @ k @ (body @ moved[:6] - lower @ moved[6:])
            motion = elements.felt @ moved[6:]
            power = 0.5 * (1j * each * force.conj() @ motion).real
            off = np.abs(found.force[0, row, :, 0] - force)
            assert off[::3].max() < 0.02 * np.abs(force[::3]).max()
            assert np.delete(off, [0, 3]).max() < 0.02 * np.abs(np.delete(force, [0, 3])).max()
            assert found.power[0, row, 0] == pytest.approx(power, rel=0.02)
