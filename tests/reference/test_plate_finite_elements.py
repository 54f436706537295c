"""A table top on its edges and on legs against finite elements without modes."""

import numpy as np
import pytest
from scipy.sparse.linalg import splu

from isolator.physics.bodies.plate import Plate, receptance

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
