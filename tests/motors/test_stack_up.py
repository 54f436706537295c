"""A motor moved back by a stack: spacer, shaft, alternatives."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from motor_samples import bench, motor

from isolator.brief import Brief, Motor
from isolator.motors import shaft
from isolator.motors.outcomes import bolted, plated
from isolator.motors.results import NoDamper
from isolator.motors.shaft import (
    LEAST_SHAFT,
    REACH_MARGIN,
    belt_arm,
    spacer_height,
    stack_of,
)
from isolator.motors.task import build_motor_task
from isolator.report.sentences.checks import advice
from isolator.report.sentences.shaft import shaft_words
from isolator.vibration.band import Check

MM = 1e-3
LAYER = 0.2 * MM
heights = st.integers(0, 60).map(lambda tenths: tenths * LAYER)


def stack_checks(brief: Brief, motor: Motor, stack: float, tolerance: float) -> tuple[Check, ...]:
    return shaft.stack_checks(motor, stack, tolerance, brief.print.layer, brief.motion.belt_tension)


def stack_words(brief: Brief, stack: float) -> tuple[str, ...]:
    task = build_motor_task(brief)
    first = replace(brief.motors[0], spacer_plate=stack)
    return shaft_words(
        plated(task, first) if stack > 0 else bolted(task, first, NoDamper(cause="not wanted"))
    )


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
    assert check.passed == (left * 1e3 >= 1e3 * (LEAST_SHAFT + REACH_MARGIN) - 1e-9)
    assert (advice(check) == "") == check.passed


@given(
    shaft=st.floats(0.012, 0.04),
    standoff=st.floats(0.0, 0.02),
    set_screw=st.floats(0.001, 0.014),
    layer=st.sampled_from([0.1 * MM, 0.15 * MM, 0.28 * MM]),
)
def test_the_tallest_stack_passes_and_a_layer_more_does_not(
    shaft, standoff, set_screw, layer
) -> None:
    brief = bench(shaft_length=shaft, pulley_standoff=standoff, set_screw=set_screw)
    brief = replace(brief, print=replace(brief.print, layer=layer))
    one = brief.motors[0]
    tallest = stack_of(one, 0.0, layer, 0.0).tallest

    def holds(stack: float) -> bool:
        return all(check.passed for check in stack_checks(brief, one, stack, 0.0)[:2])

    assert tallest == 0 or holds(tallest)
    # a micrometre more than a layer: at a whole layer the rounding is a hair's matter
    assert tallest == 0 or not holds(tallest + layer + 1e-6)
    # any lower stack passes too, however its spacer is rounded
    assert tallest == 0 or all(holds(tallest * share) for share in (0.13, 0.5, 0.77, 0.991))


def test_a_set_screw_far_up_the_pulley_needs_more_shaft() -> None:
    brief = bench(set_screw=9 * MM)
    names = {each.name: each for each in stack_checks(brief, brief.motors[0], 11 * MM, 0.0)}
    assert names["shaft under the pulley of left"].passed  # 24 − 15 = 9 mm
    assert not names["shaft under the set screw of left"].passed  # 0 mm past its axis
    # 24 − 10.5 − 0.5 of margin = 13 mm of spacer
    assert stack_of(brief.motors[0], 0.0, LAYER, 0.0).tallest == pytest.approx(9 * MM)


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
    told = stack_words(bench(), 6 * MM)
    assert told[1] == (
        "Belt and idlers keep their planes: the pulley goes up by what the motor goes back. "
        "Without its spacer they would have to move 6 mm to the motor."
    )
    assert stack_words(bench(), 0.0) == ()


def test_radial_load_times_arm_is_held_against_the_data_sheets() -> None:
    brief = bench(radial_limit=42.0, radial_arm=20 * MM)
    found = {each.name: each for each in stack_checks(brief, brief.motors[0], 6 * MM, 0.0)}
    # two strands of 18 N at 10 + 11.5 mm against 42 N at 20 mm
    assert found["radial load of left"].value == pytest.approx(36 * 21.5 / (42 * 20))
    assert dict(found["radial load of left"].figures) == {
        "today": pytest.approx(36 * 15.5 / (42 * 20))
    }
    assert belt_arm(brief.motors[0], 10 * MM) == pytest.approx(21.5 * MM)
    told = stack_words(bench(), 6 * MM)[-1]
    assert told == (
        "The belts pull with 36 N at 21.5 mm from the motor's face (before: 15.5 mm): today "
        f"{36 * 15.5 / (28 * 20):.2f} times the usual limit, then {36 * 21.5 / (28 * 20):.2f} "
        "times. 28 N at 20 mm is usual of this size (from memory); ask the motor's data sheet, and "
        "tell its radial_limit."
    )


def test_a_pulley_off_the_shafts_end_is_told() -> None:
    told = stack_words(bench(), 8 * MM)
    assert told[0] == (
        "The pulley's end stands 4 mm beyond the shaft's; its set screws still hold on 8.5 mm of "
        "shaft past their axis."
    )


def test_belts_at_two_heights_keep_them() -> None:
    own = bench().motors
    assert shaft.two_heights("crossed-belt", own)
    assert not shaft.two_heights("motor-per-axis", own)
    level = bench(pulley_standoff=6.5 * MM).motors
    assert not shaft.two_heights("crossed-belt", level)
