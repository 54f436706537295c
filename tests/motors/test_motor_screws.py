"""Screws of a motor on its damper or plate: standard lengths, held deep enough."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from motor_samples import motor
from report_motors import on_damper, sheet

from isolator.brief import Motor
from isolator.design.damper import RECESS, least_frame_screw, motor_screw_room
from isolator.design.faceplates import screw_of
from isolator.design.plate_room import least_frame_plate, least_motor_plate
from isolator.design.screws import LENGTHS, SCREWS
from isolator.motors.screws import (
    LOCKING,
    belt_edge,
    bridge_ratio,
    core_of,
    damper_screws,
    frame_screw_end,
    plate_screws,
)
from isolator.report.sentences.checks import advice
from isolator.report.sentences.dampers import motor_sentences

MM = 1e-3
layers = st.integers(0, 25).map(lambda n: n * 0.2 * MM)


@given(size=st.sampled_from([14, 17]), more=layers, depth=st.floats(0.001, 0.014))
def test_screws_hold_in_blind_holes_or_the_check_says_why(size, more, depth) -> None:
    """Three turns of M3 at least, half a millimetre off the ground and 9 mm at most."""
    one = motor(frame_size=size, screw_depth=depth)
    plate = least_motor_plate(size) + more
    fastened = damper_screws(one, plate, least_frame_plate(size), 0.0)
    screw, check = fastened.screws[0], fastened.checks[0]
    grip = plate - screw_of(size).button_height - RECESS
    deepest = min(depth - 0.5 * MM, 9 * MM)
    assert screw.length in LENGTHS
    assert screw.engagement == pytest.approx(max(0.0, screw.length - grip))
    fits = [x for x in LENGTHS if 1.5 * MM - 1e-9 <= x - grip <= deepest + 1e-9]
    assert check.passed == bool(fits)
    assert (advice(check) == "") == check.passed
    if fits:
        assert screw.length == max(fits)
        assert screw.turns >= 3.0 - 1e-6
    elif "thicker" in advice(check):
        # the plate that is advised does hold
        words = advice(check).split()
        thicker = plate + float(words[words.index("thicker") - 2]) * MM
        mended = damper_screws(one, thicker, least_frame_plate(size), 0.0)
        assert mended.checks[0].passed
        assert f"for {mended.screws[0].length * 1e3:g} mm screws" in advice(check)
    else:
        assert deepest < 1.5 * MM


@given(
    size=st.sampled_from([14, 17, 23]),
    more=layers,
    wedge=layers,
    depth=st.floats(0.003, 0.014),
    bracket=st.floats(0.001, 0.02),
)
def test_screws_that_pass_are_ones_that_the_draughtsman_takes(
    size, more, wedge, depth, bracket
) -> None:
    """Its own bounds are written down apart: deepest hole, flange, filled nuts."""
    depth = 0.0 if size == 23 else depth
    one = motor(frame_size=size, screw_depth=depth, bracket=bracket)
    plates = least_motor_plate(size) + more, least_frame_plate(size) + more / 2
    fastened = damper_screws(one, *plates, wedge)
    drawn = replace(
        sheet(),
        frame_size=size,
        motor_plate=plates[0],
        frame_plate=plates[1],
        wedge=wedge,
        bracket=bracket,
    )
    if all(check.passed for check in fastened.checks):
        least, most = motor_screw_room(drawn)
        assert least - 1e-9 <= fastened.screws[0].length <= most + 1e-9
        assert fastened.screws[1].length >= least_frame_screw(drawn)


def test_the_usual_motor_takes_five_millimetre_screws() -> None:
    """3.6 mm plate, 1.65 mm head sunk by 0.3 mm, 4.5 mm hole: M3 × 6 would go 4.35 mm deep."""
    motor_side, frame_side = damper_screws(motor(), 3.6 * MM, 3.8 * MM, 1.4 * MM).screws
    assert (motor_side.count, motor_side.thread, motor_side.length) == (2, "M3", 5 * MM)
    assert motor_side.head == "button head, ISO 7380-1"
    assert motor_side.engagement == pytest.approx(3.35 * MM)
    assert motor_side.beside == ""
    # floor 1.5 + wedge 1.4 + bracket 4 + washer 0.55 + nut 2.4 + two turns 1.0 = 10.85 mm
    assert (frame_side.count, frame_side.length) == (2, 12 * MM)
    assert frame_side.head == "hexagon head, ISO 4017"
    # 7.45 mm and 4.5 mm of self-locking nut: 11.95 mm
    assert frame_side.beside == (
        "2 nuts ISO 4032 (self-locking ISO 7040 better) and 2 washers ISO 7089"
    )
    assert frame_screw_end(motor(), 3.8 * MM, 1.4 * MM, 12 * MM) == pytest.approx(5.1 * MM)


def test_a_taller_nut_that_asks_for_a_longer_screw_says_so() -> None:
    # floor 1.5 + wedge 2.4 + bracket 4 + washer 0.55 = 8.45; nuts: 11.85 mm, 12.95 mm
    screw = damper_screws(motor(), 3.6 * MM, 3.8 * MM, 2.4 * MM).screws[1]
    assert screw.length == 12 * MM
    assert screw.beside == (
        "2 nuts ISO 4032 (self-locking ISO 7040 better, with 14 mm screws) and 2 washers ISO 7089"
    )


def test_self_locking_nuts_are_the_published_height() -> None:
    """ISO 7040 from memory; top-insert nuts of ASME B18.16.3M, public table: 4.50 and 6.00 mm."""
    assert {size: height * 1e3 for size, height in LOCKING.items()} == pytest.approx(
        {3: 4.5, 4: 6.0}
    )
    # an insert on top of a plain nut
    assert all(LOCKING[size] > SCREWS[size].nut_height for size in LOCKING)


def test_size_23_is_held_by_nuts_behind_its_flange() -> None:
    fastened = damper_screws(motor(frame_size=23, screw_depth=0.0), 4.0 * MM, 4.6 * MM, 0.0)
    screw = fastened.screws[0]
    # grip 4.0 − 2.2 − 0.3 = 1.5, flange 4.8, washer 0.9, nut 3.2, two turns 1.4 = 11.8 mm
    assert (screw.thread, screw.length) == ("M4", 12 * MM)
    # 7.2 mm and 6 mm of self-locking nut
    assert screw.beside == (
        "2 nuts ISO 4032 (self-locking ISO 7040 better, with 14 mm screws) and 2 washers ISO 7089"
    )
    check = fastened.checks[0]
    assert (check.name, check.passed) == ("length of the button head screws of left", True)
    assert (check.value, check.limit) == pytest.approx((12.0, 11.8))


def test_a_bracket_that_no_sold_screw_goes_through_fails() -> None:
    # floor 1.5 + bracket 46 + washer 0.55 + nut 2.4 + two turns 1.0 = 51.45 mm
    fastened = damper_screws(motor(bracket=46 * MM), 3.6 * MM, 3.8 * MM, 0.0)
    check = fastened.checks[1]
    assert (check.name, check.passed) == ("length of the hexagon head screws of left", False)
    assert (check.value, check.limit) == pytest.approx((50.0, 51.45))
    assert advice(check) == (
        "no sold length of M3 reaches through: take thinner plates, or a thinner bracket"
    )
    assert fastened.screws[1].engagement == 0.0
    (thread,) = plate_screws(motor(), 60 * MM).checks
    assert (thread.value, thread.passed) == (0.0, False)
    assert advice(thread) == "no sold length of M3 reaches the motor: take a thinner plate"


def test_a_hole_too_shallow_is_told() -> None:
    check = damper_screws(motor(screw_depth=1.9 * MM), 3.6 * MM, 3.8 * MM, 0.0).checks[0]
    assert advice(check) == (
        "its holes are too shallow for 3 turns of M3 with 0.5 mm to spare: measure screw_depth "
        "again"
    )


def test_no_sold_length_fits_is_told_with_the_plate_that_does() -> None:
    # grip 3.65 mm, room for 1.5 to 1.6 mm of thread: 5 mm is too short, 6 mm too long
    check = damper_screws(motor(screw_depth=2.1 * MM), 5.6 * MM, 3.8 * MM, 0.0).checks[0]
    assert not check.passed
    assert advice(check) == (
        "no sold length of M3 fits: take a plate 0.8 mm thicker for 6 mm screws, or file them to "
        "length"
    )
    assert damper_screws(motor(screw_depth=2.1 * MM), 6.4 * MM, 3.8 * MM, 0.0).checks[0].passed


def test_a_plain_plate_takes_four_longer_screws() -> None:
    (screw,) = plate_screws(motor(), 5 * MM).screws
    assert (screw.count, screw.length) == (4, 12 * MM)  # 4 + 5 mm of grip, 3 mm of thread
    assert screw.turns == pytest.approx(6.0)
    (through,) = plate_screws(motor(frame_size=23, screw_depth=0.0), 5 * MM).screws
    # 9 + 4.8 mm of flange + 0.9 + 3.2 + 1.4 = 19.3 mm; 14.7 + 6 mm with the taller nut
    assert (through.count, through.thread, through.length) == (4, "M4", 20 * MM)
    assert through.beside == (
        "4 nuts ISO 4032 (self-locking ISO 7040 better, with 22 mm screws) and 4 washers ISO 7089"
    )


def test_one_screw_that_bridges_the_rubber_defeats_it() -> None:
    """Derived: M3 of steel, 2.5 mm core, 3 mm free: 3.44e5 N/mm, 153 times a rubber ring."""
    assert bridge_ratio(1.0, 3 * MM, 2.5 * MM) == pytest.approx(3.44e8, rel=2e-3)  # three digits
    assert bridge_ratio(2.24e6, 3 * MM, 2.5 * MM) == pytest.approx(153.0, abs=1.0)  # as above
    # half as long or twice as soft a rubber: twice the harm
    assert bridge_ratio(1.12e6, 3 * MM, 2.5 * MM) == pytest.approx(
        bridge_ratio(2.24e6, 1.5 * MM, 2.5 * MM)
    )


def screw_words(motor: Motor) -> tuple[str, ...]:
    """Sentences about screws on 3 mm of rubber between plates, wedge and screws of one size."""
    damped = on_damper()
    assert damped.damper is not None
    state = replace(
        damped.damper,
        screw_end=frame_screw_end(motor, 3.8 * MM, 1.4 * MM, 12 * MM),
        belt_edge=belt_edge(motor),
        bridge=bridge_ratio(2.24e6, 3 * MM, core_of(screw_of(motor.frame_size))),
    )
    every = motor_sentences(replace(damped, damper=state))
    return tuple(told for told in every if told.startswith(("The frame's screws", "No screw may")))


def test_screws_that_reach_the_belt_are_told_and_the_others_are_not() -> None:
    near = motor(pulley_standoff=4 * MM, belt_offset=7 * MM, bracket=4 * MM)
    told = screw_words(near)
    # belt's middle 7 mm above the bracket, its edge 3 mm lower; stress diameter 2.531 mm:
    # 210 GPa · 5.03 mm² / 3 mm = 3.52e8 N/m
    assert told == (
        "The frame's screws stand 5.1 mm out of the bracket, the belt's edge runs 4.0 mm above it: "
        "see that belt and pulley pass beside them, or file them.",
        "No screw may go from plate to plate: one M3 of steel across the rubber is 157 times as "
        "stiff along the shaft as all of it.",
    )
    far = motor(pulley_standoff=4 * MM, belt_offset=8.2 * MM, bracket=4 * MM)
    assert screw_words(far) == told[1:]
