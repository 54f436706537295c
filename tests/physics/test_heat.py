"""Two bodies that cool to the room: balance and limits."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from isolator.physics.drive.heat import two_nodes

watts = st.floats(0.1, 20.0)
conductance = st.floats(0.01, 1.0)
joint = st.floats(0.01, 100.0)


@given(power=watts, case=conductance, resistance=joint, bracket=conductance)
def test_what_is_made_is_given_off(power, case, resistance, bracket) -> None:
    room = 23.0
    hot, cool = (float(each) for each in two_nodes(power, case, resistance, bracket, room))
    assert case * (hot - room) + bracket * (cool - room) == pytest.approx(power, rel=1e-9)
    assert (hot - cool) / resistance == pytest.approx(bracket * (cool - room), rel=1e-6)
    assert hot >= cool >= room


def test_a_motor_cut_off_cools_by_itself_and_one_joined_well_with_its_bracket() -> None:
    alone, _ = two_nodes(3.1, 0.09, 1e12, 0.13, 21.0)
    assert alone == pytest.approx(21.0 + 3.1 / 0.09)
    hot, cool = two_nodes(3.1, 0.09, 1e-12, 0.13, 21.0)
    assert hot == pytest.approx(21.0 + 3.1 / (0.09 + 0.13))
    assert cool == pytest.approx(float(hot))


def test_the_worse_the_joint_the_warmer_the_case() -> None:
    case, bracket = two_nodes(2.7, 0.08, np.array([0.5, 3.0, 20.0]), 0.11, 25.0)
    assert np.all(np.diff(case) > 0)
    assert np.all(np.diff(bracket) < 0)
