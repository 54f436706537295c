"""Cylindrical buffers against the forms that handbooks give for bonded cylinders."""

from __future__ import annotations

import math

import numpy as np
import pytest

from isolator.cards import load_cards
from isolator.cards.buffers import trade_buffers
from isolator.cards.pad_law import unloaded
from isolator.cards.pads import pad_state
from isolator.design import BUFFER
from isolator.design.ends import STUD, ReadyMade

CARDS = load_cards()
BOTH = [each for each in trade_buffers() if (each.ends.upper, each.ends.lower) == (STUD, STUD)]
NAMES = [f"{each.diameter * 1e3:g}x{each.height * 1e3:g}" for each in BOTH]


@pytest.mark.parametrize("hardness", [40, 55, 70])
@pytest.mark.parametrize("size", BOTH, ids=NAMES)
def test_a_buffer_is_as_stiff_as_the_handbooks_bonded_cylinder(
    size: ReadyMade, hardness: int
) -> None:
    """Compression E0(1 + 2kS²)A/h, S = D/4h (A. N. Gent, P. B. Lindley, Proc. Inst. Mech. Eng. 173
    (1959) 111); shear GA/h over 1 + h²/36r², r = D/4, for its bending (P. B. Lindley 1978, from
    memory)."""
    card = CARDS[f"nr-buffer-{hardness}"]
    wide, high = size.diameter, size.rubber
    sizes = (np.array([wide]), np.array([high]), np.array([size.height]))
    state = pad_state(unloaded(card, BUFFER, sizes), np.array([[0.0]]))
    assert card.youngs_modulus is not None
    assert card.shear_modulus is not None
    assert card.hardness_factor is not None
    area, shape = math.pi / 4.0 * wide**2, wide / (4.0 * high)
    bulging = 1.0 + 2.0 * card.hardness_factor.value * shape**2
    pressed = card.youngs_modulus.value * bulging * area / high
    sheared = card.shear_modulus.value * area / high / (1.0 + high**2 / (36.0 * (wide / 4.0) ** 2))
    # the plain forms leave out what finite elements find: held against those to 2 % elsewhere
    assert state.linear[0, 0, 2] == pytest.approx(pressed, rel=0.06)
    assert state.linear[0, 0, 0] == pytest.approx(sheared, rel=0.10)
    assert state.linear[0, 0, 0] == state.linear[0, 0, 1]
    # bent it is stiffer than a free rod and softer than one that bulges as if it were pressed
    bent = card.youngs_modulus.value * math.pi / 64.0 * wide**4 / high
    assert bent < state.angular[0, 0, 0] < bent * (1.0 + 2.0 * shape**2)
