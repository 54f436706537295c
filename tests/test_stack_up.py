"""A motor moved back by a stack: spacer, shaft, alternatives."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from motors import bench, motor

from isolator.stack_up import (
    LEAST_SHAFT,
    SCREW_HALF,
    alternatives,
    belt_arm,
    height_words,
    needed_shaft,
    spacer_height,
    stack_checks,
    stack_of,
    stack_words,
    turned_fits,
    turned_spacer,
)

MM = 1e-3
LAYER = 0.2 * MM
heights = st.integers(0, 60).map(lambda tenths: tenths * LAYER)


@given(standoff=heights, stack=heights)
def test_five_millimetres_of_stack_raise_the_spacer_by_five(standoff, stack) -> None:
    """Common practice, no source: whatever the motor, the pulley goes up by what it goes back."""
    one = motor(pulley_standoff=standoff, shaft_length=0.2)
    raised = spacer_height(one, stack + 5 * MM, LAYER) - spacer_height(one, stack, LAYER)
    assert raised == pytest.approx(5 * MM, abs=1e-9)  # whole layers on both sides


def test_unequal_motors_get_unequal_spacers() -> None:
    left, right = bench().motors
    assert spacer_height(left, 5 * MM, LAYER) == pytest.approx(9 * MM)
    # 11.5 mm is no whole number of 0.2 mm layers
    assert spacer_height(right, 5 * MM, LAYER) == pytest.approx(11.6 * MM)
    assert stack_of(right, 5 * MM, LAYER, 0.0).belt_error == pytest.approx(0.1 * MM)


def test_shaft_left_is_its_length_less_the_stack() -> None:
    """A 24 mm shaft behind 6 mm of stack shows 18 mm; derived, no source."""
    one = motor(shaft_length=24 * MM, pulley_standoff=0.0)
    assert one.shaft_length - spacer_height(one, 6 * MM, LAYER) == pytest.approx(18 * MM)


@given(shaft=st.floats(0.012, 0.04), standoff=heights, stack=heights)
def test_a_stack_is_refused_exactly_when_the_shaft_runs_out(shaft, standoff, stack) -> None:
    brief = bench(shaft_length=shaft, pulley_standoff=standoff)
    left = shaft - spacer_height(brief.motors[0], stack, LAYER)
    check = stack_checks(brief, brief.motors[0], stack, 0.0)[0]
    assert check.name == "shaft under the pulley of left"
    assert check.passed == (left * 1e3 >= LEAST_SHAFT * 1e3 - 1e-9)
    assert (check.advice == "") == check.passed


@given(
    shaft=st.floats(0.012, 0.04), standoff=st.floats(0.0, 0.02), set_screw=st.floats(0.001, 0.014),
    layer=st.sampled_from([0.1 * MM, 0.15 * MM, 0.28 * MM]),
)  # fmt: skip
def test_the_tallest_stack_passes_and_a_layer_more_does_not(
    shaft, standoff, set_screw, layer
) -> None:
    brief = bench(shaft_length=shaft, pulley_standoff=standoff, set_screw=set_screw)
    brief = replace(brief, print=replace(brief.print, layer=layer))
    one = brief.motors[0]
    tallest = stack_of(one, 0.0, layer, 0.0).tallest

    def held(stack: float) -> bool:
        return all(check.passed for check in stack_checks(brief, one, stack, 0.0)[:2])

    assert tallest == 0 or held(tallest)
    # a micrometre more than a layer: at a whole layer the rounding is a hair's matter
    assert tallest == 0 or not held(tallest + layer + 1e-6)
    # any lower stack passes too, however its spacer is rounded
    assert tallest == 0 or all(held(tallest * share) for share in (0.13, 0.5, 0.77, 0.991))


@given(shaft=st.floats(0.012, 0.03), standoff=heights, stack=heights.filter(lambda each: each > 0))
def test_the_shaft_that_is_asked_for_is_enough(shaft, standoff, stack) -> None:
    one = motor(shaft_length=shaft, pulley_standoff=standoff)
    told = next(each for each in alternatives(one, stack, LAYER) if "of shaft would do" in each)
    asked = float(told.removeprefix("A motor with ").split()[0]) * MM
    longer = bench(shaft_length=asked, pulley_standoff=standoff)
    assert all(check.passed for check in stack_checks(longer, longer.motors[0], stack, 0.0)[:2])
    assert asked < needed_shaft(one, stack, LAYER) + 0.1 * MM  # told in tenths


@given(
    shaft=st.floats(0.012, 0.03), standoff=heights, stack=heights, length=st.floats(0.008, 0.02),
    screw=st.floats(0.0, 1.0), belt=st.floats(0.0, 1.0),
)  # fmt: skip
def test_a_turned_pulley_that_is_offered_fits(shaft, standoff, stack, length, screw, belt) -> None:
    """The pulley described anew from its other end must pass as if it had been built so."""
    one = motor(
        shaft_length=shaft, pulley_standoff=standoff, pulley_length=length,
        set_screw=screw * length, belt_offset=belt * length,
    )  # fmt: skip
    spacer = turned_spacer(one, stack, LAYER)
    turned = bench(
        shaft_length=shaft, pulley_standoff=spacer, pulley_length=length,
        set_screw=length - one.set_screw, belt_offset=length - one.belt_offset,
    )  # fmt: skip
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


def test_a_set_screw_far_up_the_pulley_needs_more_shaft() -> None:
    brief = bench(set_screw=9 * MM)
    names = {each.name: each for each in stack_checks(brief, brief.motors[0], 11 * MM, 0.0)}
    assert names["shaft under the pulley of left"].passed  # 24 − 15 = 9 mm
    assert not names["shaft under the set screw of left"].passed  # 0 mm past its axis
    # 24 − 10.5 = 13.5 mm, of which 13.4 mm are whole layers
    assert stack_of(brief.motors[0], 0.0, LAYER, 0.0).tallest == pytest.approx(9.4 * MM)


def test_alternatives_are_told_with_numbers_that_fit() -> None:
    one = motor(
        shaft_length=20 * MM, pulley_standoff=8 * MM, pulley_length=14 * MM, belt_offset=4 * MM,
        set_screw=10 * MM,
    )  # fmt: skip
    first, second, third, fourth = alternatives(one, 9 * MM, LAYER)
    # 20 − 11.5 − 8 = 0.5 mm, and 8.4 mm of spacer is the most in whole layers
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
    # 17 mm of spacer, set screws 10 mm up and half of one beyond
    assert fourth == (
        "A motor with 28.5 mm of shaft would do; or else the belt's plane and its idlers come 9 mm "
        "closer to the motor, and no spacer is needed."
    )


def test_turning_the_pulley_round_is_not_offered_where_it_does_not_help() -> None:
    one = motor(shaft_length=18 * MM, pulley_standoff=8 * MM)
    first, second, *_ = alternatives(one, 9 * MM, LAYER)
    assert first.endswith("2 mm is the tallest that fits.")
    # 8 + 9 + 23 − 16 = 24 mm of spacer, set screws 12.5 mm up, half of one beyond
    assert second == (
        "Turning the pulley round does not help: on the 24 mm that keep the belt's plane it would "
        "need 38 mm of shaft."
    )
    none = alternatives(motor(shaft_length=15 * MM, pulley_standoff=8 * MM), 9 * MM, LAYER)
    assert none[0].endswith("no stack of any height fits.")


def test_a_pulley_that_would_sink_into_the_motor_is_told() -> None:
    one = motor(
        pulley_standoff=1 * MM, pulley_length=16 * MM, belt_offset=3 * MM, set_screw=12.5 * MM,
        shaft_length=15 * MM,
    )  # fmt: skip
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
    brief = bench(shaft_length=16.5 * MM)
    for check in stack_checks(brief, brief.motors[0], 9 * MM, 0.0)[:1]:
        # spacer 13 mm, of which 8.4 mm may be
        assert (
            check.advice == "take a stack at least 4.6 mm thinner, or a motor with 21.0 mm of shaft"
        )
    away = bench(shaft_length=21 * MM, set_screw=12.5 * MM, belt_offset=4 * MM)
    check = stack_checks(away, away.motors[0], 7.8 * MM, 0.0)[1]
    # 4 + 7.8 + 8 − 16 mm of spacer turned round, set screws 3.5 mm up
    assert not check.passed
    assert check.advice == (
        "take the pulley turned round, or a stack at least 4.8 mm thinner, or a motor with 25.8 mm "
        "of shaft"
    )
    none = bench(shaft_length=11 * MM)
    check = stack_checks(none, none.motors[0], 9 * MM, 0.0)[0]
    assert check.advice == "take a motor with 21.0 mm of shaft"


@given(tolerance=st.floats(0.0, 0.8e-3), standoff=st.floats(0.003, 0.008))
def test_the_belts_plane_is_held_to_half_a_millimetre(tolerance, standoff) -> None:
    """Convention, no source: half a layer of rounding and the tolerance, together."""
    brief = bench(pulley_standoff=standoff)
    check = stack_checks(brief, brief.motors[0], 5 * MM, tolerance)[2]
    off = abs(spacer_height(brief.motors[0], 5 * MM, LAYER) - standoff - 5 * MM)
    assert off <= LAYER / 2 + 1e-9
    assert check.value == pytest.approx((off + tolerance) * 1e3)
    assert check.passed == (check.value <= 0.5 + 1e-9)


def test_idlers_are_told_both_ways() -> None:
    told = stack_words(bench(), bench().motors[0], 6 * MM)
    assert told[1] == (
        "Belt and idlers keep their planes: the pulley goes up by what the motor goes back. "
        "Without its spacer they would have to move 6 mm to the motor."
    )
    assert stack_words(bench(), bench().motors[0], 0.0) == ()


def test_radial_load_times_arm_is_held_against_the_data_sheets() -> None:
    brief = bench(radial_limit=42.0, radial_arm=20 * MM)
    found = {each.name: each for each in stack_checks(brief, brief.motors[0], 6 * MM, 0.0)}
    # two strands of 18 N at 10 + 11.5 mm against 42 N at 20 mm
    assert found["radial load of left"].value == pytest.approx(36 * 21.5 / (42 * 20))
    assert belt_arm(brief.motors[0], 10 * MM) == pytest.approx(21.5 * MM)
    told = stack_words(bench(), bench().motors[0], 6 * MM)[-1]
    assert told == (
        "The belts pull with 36 N at 21.5 mm from the motor's face (before: 15.5 mm): ask the "
        "motor's data sheet, and tell its radial_limit; 28 N at 20 mm is usual of this size (from "
        "memory)."
    )


def test_a_pulley_off_the_shafts_end_is_told() -> None:
    told = stack_words(bench(), bench().motors[0], 8 * MM)
    assert told[0] == (
        "The pulley's end stands 4 mm beyond the shaft's; its set screws still hold on 8.5 mm of "
        "shaft past their axis."
    )


def test_belts_at_two_heights_keep_them() -> None:
    assert height_words(bench()).startswith("The two belts run at heights of their own")
    assert height_words(bench(pulley_standoff=6.5 * MM)) == ""
