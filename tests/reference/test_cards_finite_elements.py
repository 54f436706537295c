"""Pads of shipped cards against finite elements of the card's own moduli.

What a relation from hardness or a test gives is Young's modulus, E = 3G: nothing may be taken off
the bulging that finite elements find.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
from pad_finite_elements import round_pad

from isolator.cards import Material, load_cards
from isolator.cards.pad_law import is_solid, pad_modulus

PLAIN = {
    card.id: card for card in load_cards().values() if is_solid(card) and not card.hardness_factor
}
"""Cards whose modulus is Young's; the rest have that of the published table."""


def youngs(card: Material) -> float:
    figure = card.youngs_modulus or card.solid_modulus
    assert figure is not None
    return figure.value


def test_the_table_alone_has_a_factor() -> None:
    solid = {card.id for card in load_cards().values() if is_solid(card)}
    buffers = {f"nr-buffer-{each}" for each in (40, 55, 70)}
    assert solid - set(PLAIN) == {"nr-40", "nr-50", "nr-60", "nr-70"} | buffers


@pytest.mark.parametrize("card", PLAIN.values(), ids=list(PLAIN))
@pytest.mark.parametrize("s", [0.5, 1.0, 2.0])
def test_pads_press_as_finite_elements_of_their_modulus(card: Material, s: float) -> None:
    modulus = youngs(card)
    bulk = np.inf if card.bulk_modulus is None else card.bulk_modulus.value
    t = 1.0 / (4.0 * s)
    truth = round_pad(1.0, 0.0, t, "compression", poisson=0.5 - modulus / (6.0 * bulk))
    own = float(pad_modulus(card, "disc", (np.array(1.0), np.array(0.0), np.array(t)))) / modulus
    assert own == pytest.approx(truth * t / (math.pi / 4.0), rel=0.02)  # as the pads' forms promise
