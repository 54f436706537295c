"""What is told of a shaft too short for its stack: every alternative recomputed."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from motor_samples import bench, motor

from isolator.brief import Brief, Motor
from isolator.motors import shaft
from isolator.motors.shaft import (
    LEAST_SHAFT,
    SCREW_HALF,
    needed_shaft,
    turned_fits,
    turned_spacer,
)
from isolator.report.sentences.checks import advice
from isolator.report.sentences.shaft import short_words
from isolator.vibration.band import Check

MM = 1e-3
LAYER = 0.2 * MM
heights = st.integers(0, 60).map(lambda tenths: tenths * LAYER)


def stack_checks(brief: Brief, motor: Motor, stack: float, tolerance: float) -> tuple[Check, ...]:
    return shaft.stack_checks(motor, stack, tolerance, brief.print.layer, brief.motion.belt_tension)


def alternatives(motor: Motor, stack: float, layer: float) -> tuple[str, ...]:
    return short_words(motor.name, shaft.short_shaft(motor, stack, layer))


@given(shaft=st.floats(0.012, 0.03), standoff=heights, stack=heights.filter(lambda each: each > 0))
def test_the_shaft_that_is_asked_for_is_enough(shaft, standoff, stack) -> None:
    one = motor(shaft_length=shaft, pulley_standoff=standoff)
    told = next(each for each in alternatives(one, stack, LAYER) if "of shaft would do" in each)
    asked = float(told.removeprefix("A motor with ").split()[0]) * MM
    longer = bench(shaft_length=asked, pulley_standoff=standoff)
    assert all(check.passed for check in stack_checks(longer, longer.motors[0], stack, 0.0)[:2])
    assert asked < needed_shaft(one, stack, LAYER) + 0.1 * MM  # told in tenths


@given(
    shaft=st.floats(0.012, 0.03),
    standoff=heights,
    stack=heights,
    length=st.floats(0.008, 0.02),
    screw=st.floats(0.0, 1.0),
    belt=st.floats(0.0, 1.0),
)
def test_a_turned_pulley_that_is_offered_fits(shaft, standoff, stack, length, screw, belt) -> None:
    """The pulley described anew from its other end must pass as if it had been built so."""
    one = motor(
        shaft_length=shaft,
        pulley_standoff=standoff,
        pulley_length=length,
        set_screw=screw * length,
        belt_offset=belt * length,
    )
    spacer = turned_spacer(one, stack, LAYER)
    turned = bench(
        shaft_length=shaft,
        pulley_standoff=spacer,
        pulley_length=length,
        set_screw=length - one.set_screw,
        belt_offset=length - one.belt_offset,
    )
    passed = all(check.passed for check in stack_checks(turned, turned.motors[0], 0.0, 0.0)[:2])
    assert turned_fits(one, stack, LAYER) == (spacer >= 0 and passed)
    told = alternatives(one, stack, LAYER)[1]
    assert ("find shaft" in told) == turned_fits(one, stack, LAYER)
    if spacer >= 0:
        # the belt keeps its plane within half a layer
        plane = spacer + length - one.belt_offset
        assert plane == pytest.approx(standoff + stack + one.belt_offset, abs=LAYER / 2 + 1e-9)
    if "does not help" in told:
        # what it says it needs is more than there is
        needed = float(told.split("would need ")[1].split()[0]) * MM
        assert needed > shaft
        assert needed >= spacer + max(LEAST_SHAFT, length - one.set_screw + SCREW_HALF) - 1e-9


def test_alternatives_are_told_with_numbers_that_fit() -> None:
    one = motor(
        shaft_length=20.5 * MM,
        pulley_standoff=8 * MM,
        pulley_length=14 * MM,
        belt_offset=4 * MM,
        set_screw=10 * MM,
    )
    first, second, third, fourth = alternatives(one, 9 * MM, LAYER)
    # 20.5 − 11.5 − 0.5 of margin − 8 = 0.5 mm, and 8.4 mm of spacer is the most in whole layers
    assert first == (
        "The shaft of left is too short for a stack of 9 mm: 0.4 mm is the tallest that fits."
    )
    # 8 + 9 + 2·4 − 14 = 11 mm of spacer, set screws 14 − 10 = 4 mm into the pulley
    assert turned_spacer(one, 9 * MM, LAYER) == pytest.approx(11 * MM)
    assert second == (
        "Turned round, with its hub towards the motor, the pulley keeps the belt's plane on a "
        "spacer of 11 mm, and its set screws find shaft."
    )
    # 8 + 4 − 4 mm of bracket
    assert third == (
        "The other side of the bracket is none: bolted there the shaft points away from the belt, "
        "and 40 mm of body do not go below a belt 8 mm above the bracket."
    )
    # 17 mm of spacer, set screws 10 mm up, half of one beyond and the margin
    assert fourth == (
        "A motor with 29 mm of shaft would do; or else the belt's plane and its idlers come 9 mm "
        "closer to the motor, and no spacer is needed."
    )


def test_turning_the_pulley_round_is_not_offered_where_it_does_not_help() -> None:
    one = motor(shaft_length=18.5 * MM, pulley_standoff=8 * MM)
    first, second, *_ = alternatives(one, 9 * MM, LAYER)
    assert first.endswith("2 mm is the tallest that fits.")
    # 8 + 9 + 23 − 16 = 24 mm of spacer, set screws 12.5 mm up, half of one beyond, the margin
    assert second == (
        "Turning the pulley round does not help: on the 24 mm that keep the belt's plane it would "
        "need 38.5 mm of shaft."
    )
    none = alternatives(motor(shaft_length=15 * MM, pulley_standoff=8 * MM), 9 * MM, LAYER)
    assert none[0].endswith("no stack of any height fits.")


def test_a_pulley_that_would_sink_into_the_motor_is_told() -> None:
    one = motor(
        pulley_standoff=1 * MM,
        pulley_length=16 * MM,
        belt_offset=3 * MM,
        set_screw=12.5 * MM,
        shaft_length=15 * MM,
    )
    # 1 + 5 + 6 − 16 mm
    assert alternatives(one, 5 * MM, LAYER)[1] == (
        "Turned round, the pulley would have to sit 4 mm below the motor's face to keep the "
        "belt's plane: that is none."
    )


def test_a_belt_beyond_a_short_body_is_no_plain_no() -> None:
    one = motor(body_length=12 * MM, pulley_standoff=8 * MM, belt_offset=11 * MM, bracket=3 * MM)
    assert alternatives(one, 5 * MM, LAYER)[2] == (
        "On the other side of its bracket the motor's 12 mm of body end below the belt, 16 mm "
        "above the bracket, but its face would need a bracket there."
    )


def test_what_to_do_about_a_short_shaft_is_told_with_the_check() -> None:
    # the usual pulley, hub towards the motor: turning it asks for more shaft, not for less
    brief = bench(shaft_length=17 * MM)
    for check in stack_checks(brief, brief.motors[0], 9 * MM, 0.0)[:1]:
        # spacer 13 mm, of which 8.4 mm may be
        wanted = "take a stack at least 4.6 mm thinner, or a motor with 21.5 mm of shaft"
        assert advice(check) == wanted
    away = bench(shaft_length=21.5 * MM, set_screw=12.5 * MM, belt_offset=4 * MM)
    check = stack_checks(away, away.motors[0], 7.8 * MM, 0.0)[1]
    # 4 + 7.8 + 8 − 16 mm of spacer turned round, set screws 3.5 mm up
    assert not check.passed
    assert advice(check) == (
        "take the pulley turned round, or a stack at least 4.8 mm thinner, or a motor with 26.3 mm "
        "of shaft"
    )
    none = bench(shaft_length=11 * MM)
    check = stack_checks(none, none.motors[0], 9 * MM, 0.0)[0]
    assert advice(check) == "take a motor with 21.5 mm of shaft"
