"""Ready-made buffers against finite elements of their rubber between its metal discs."""

from __future__ import annotations

import numpy as np
import pytest
from pad_finite_elements import round_pad

from isolator.cards import ideal_rubber
from isolator.cards.buffers import trade_buffers
from isolator.cards.pad_law import unloaded
from isolator.cards.pads import pad_state
from isolator.design import BUFFER

MODULUS = 2.1e6
CARD = ideal_rubber(MODULUS)
SIZES = [(8, 8), (15, 15), (20, 15), (30, 20), (40, 40)]


@pytest.mark.parametrize(("diameter", "height"), SIZES)
def test_a_buffer_is_as_stiff_as_its_finite_elements_in_every_direction(
    diameter: float, height: float
) -> None:
    size = next(
        each
        for each in trade_buffers()
        if (each.diameter, each.height) == (diameter / 1e3, height / 1e3)
    )
    sizes = (np.array([size.diameter]), np.array([size.rubber]), np.array([size.height]))
    state = pad_state(unloaded(CARD, BUFFER, sizes), np.array([[0.0]]))
    own = {
        "compression": state.linear[0, 0, 2],
        "shear": state.linear[0, 0, 0],
        "tilt": state.angular[0, 0, 0],
        "twist": state.angular[0, 0, 2],
    }
    for motion, stiff in own.items():
        found = round_pad(size.diameter, 0.0, size.rubber, motion, youngs=MODULUS)
        assert stiff == pytest.approx(found, rel=0.02), motion  # as the pads' forms promise
