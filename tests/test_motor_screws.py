"""Screws of a motor on its damper or plate: standard lengths, held deep enough."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from motors import motor

from isolator.design.damper import RECESS, least_frame_plate, least_motor_plate
from isolator.design.faceplates import LENGTHS, screw_of
from isolator.motor_screws import bridge_ratio, damper_screws, frame_screw_end, plate_screws

MM = 1e-3
layers = st.integers(0, 25).map(lambda n: n * 0.2 * MM)


@given(size=st.sampled_from([14, 17]), more=layers, depth=st.floats(0.001, 0.012))
def test_screws_hold_in_blind_holes_or_the_check_says_why(size, more, depth) -> None:
    one = motor(frame_size=size, screw_depth=depth)
    plate = least_motor_plate(size) + more
    fastened = damper_screws(one, plate, least_frame_plate(size), 0.0)
    screw, check = fastened.screws[0], fastened.checks[0]
    grip = plate - screw_of(size).button_height - RECESS
    assert screw.length in LENGTHS
    assert screw.engagement == pytest.approx(screw.length - grip)
    fits = [x for x in LENGTHS if 1.5 * MM - 1e-9 <= x - grip <= depth - 0.5 * MM + 1e-9]
    assert check.passed == bool(fits)
    assert (check.advice == "") == check.passed
    if fits:
        assert screw.length == max(fits)
        assert screw.turns >= 3.0 - 1e-6


def test_the_usual_motor_takes_six_millimetre_screws() -> None:
    """M3 × 6: 3.6 mm plate, 1.65 mm head sunk by 0.3 mm, 4.5 mm hole: 4.35 mm would be too deep."""
    motor_side, frame_side = damper_screws(motor(), 3.6 * MM, 3.8 * MM, 1.4 * MM).screws
    assert (motor_side.count, motor_side.thread, motor_side.length) == (2, "M3", 5 * MM)
    assert motor_side.engagement == pytest.approx(3.35 * MM)
    # floor 1.5 + wedge 1.4 + bracket 4 + washer 0.55 + nut 2.4 + two turns 1.0 = 10.85 mm
    assert (frame_side.count, frame_side.length) == (2, 12 * MM)
    assert frame_screw_end(motor(), 3.8 * MM, 1.4 * MM, 12 * MM) == pytest.approx(5.1 * MM)


def test_size_23_is_held_by_nuts_behind_its_flange() -> None:
    fastened = damper_screws(motor(frame_size=23, screw_depth=0.0), 4.0 * MM, 4.6 * MM, 0.0)
    screw = fastened.screws[0]
    assert fastened.checks == ()
    # grip 4.0 − 2.2 − 0.3 = 1.5, flange 4.8, washer 0.9, nut 3.2, two turns 1.4 = 11.8 mm
    assert (screw.thread, screw.length) == ("M4", 12 * MM)
    assert "2 nuts" in screw.beside


def test_a_hole_too_shallow_is_told() -> None:
    check = damper_screws(motor(screw_depth=1.9 * MM), 3.6 * MM, 3.8 * MM, 0.0).checks[0]
    assert check.advice == (
        "its holes are too shallow for 3 turns of M3 with 0.5 mm to spare: measure screw_depth "
        "again"
    )


def test_no_sold_length_fits_is_told_with_the_plate_that_does() -> None:
    # grip 3.65 mm, room for 1.5 to 1.6 mm of thread: 5 mm is too short, 6 mm too long
    check = damper_screws(motor(screw_depth=2.1 * MM), 5.6 * MM, 3.8 * MM, 0.0).checks[0]
    assert not check.passed
    assert check.advice == (
        "no sold length of M3 fits: take a plate 0.8 mm thicker for 6 mm screws, or file them to "
        "length"
    )
    assert damper_screws(motor(screw_depth=2.1 * MM), 6.4 * MM, 3.8 * MM, 0.0).checks[0].passed


def test_a_plain_plate_takes_four_longer_screws() -> None:
    (screw,) = plate_screws(motor(), 5 * MM).screws
    assert (screw.count, screw.length) == (4, 12 * MM)  # 4 + 5 mm of grip, 3 mm of thread
    assert screw.turns == pytest.approx(6.0)


def test_one_screw_that_bridges_the_rubber_defeats_it() -> None:
    """Derived: M3 of steel, 2.5 mm core, 3 mm free: 3.44e5 N/mm, 153 times a rubber ring."""
    rubber = 2.24e6
    assert bridge_ratio(rubber, 3 * MM, 2.5 * MM) * rubber == pytest.approx(3.44e8, rel=2e-3)
