"""Equal motors of several axes get one damper where neither sounds worse for it."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from isolator.brief import Brief, read_brief_text
from isolator.cards import load_cards
from isolator.feet.ranking import EQUAL_DB
from isolator.motors.confirm import Equal
from isolator.motors.preferred import points_of
from isolator.motors.sampled import Drawn
from isolator.motors.sharing import equal_motors, felt
from isolator.motors.task import build_motor_task
from isolator.vibration.excitation import build_excitation
from isolator.vibration.own_feet import build_bumpers
from isolator.vibration.printer import build_printer
from isolator.vibration.sampled import sampled
from isolator.vibration.spreads import draw

CARDS = load_cards()
TEXT = """
name = "Sorting table"
[printer]
mass = "11.4 kg"
size = ["400 mm", "420 mm", "460 mm"]
[motion]
layout = "motor-per-axis"
speeds = ["60 mm/s", "120 mm/s"]
steps_per_turn = 200
belt_tension = "9 N"
[[motor]]
name = "x"
shaft_length = "24 mm"
pulley_standoff = "3 mm"
[[motor]]
name = "y"
shaft_length = "24 mm"
pulley_standoff = "3 mm"
[damper]
materials = ["nr-40", "vmq-30"]
shapes = ["ring"]
thicknesses = ["1 mm"]
"""


def drawn_of(brief: Brief) -> Drawn:
    printer = build_printer(brief)
    samples = draw(printer.extras, 8)
    stand = build_bumpers(brief, CARDS)
    feet = sampled(stand, printer, build_excitation(brief), samples, "feet")
    return Drawn(samples=samples, feet=feet)


def found_of(brief: Brief) -> tuple[Equal, ...]:
    return tuple(equal_motors(build_motor_task(brief), CARDS, drawn_of(brief)))


@pytest.fixture(scope="module")
def brief() -> Brief:
    return read_brief_text(TEXT, "brief.toml")


def test_equal_motors_of_two_axes_share_one_rubber_that_costs_neither_a_decibel(
    brief: Brief,
) -> None:
    (shared,) = found_of(brief)
    one, other = (shared.offer[index].offered for index in (0, 1))
    for name in ("first", "second", "rubber", "twist"):
        np.testing.assert_array_equal(getattr(one, name), getattr(other, name))
    assert one.material == other.material
    apart = felt(build_motor_task(brief), shared.apart, drawn_of(brief))
    assert apart.keys() == {0, 1}
    for index, own in apart.items():
        assert points_of(shared.offer[index]) >= points_of(own) - EQUAL_DB


def test_unequal_motors_have_their_own(brief: Brief) -> None:
    first, second = brief.motors
    heavier = replace(brief, motors=(first, replace(second, mass=1.3 * second.mass)))
    assert [each.indices for each in found_of(heavier)] == [(0,), (1,)]
