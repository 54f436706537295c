"""What is told of a motor's drive."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from motor_samples import bench

from isolator.brief import Brief, Driver, Motor
from isolator.motors.consequences import belt_of
from isolator.motors.drive import estimate_drive
from isolator.motors.results import DriveEstimates
from isolator.motors.task import build_motor_task
from isolator.report.sentences.drive import drive_words


def drive(brief: Brief, motor: Motor) -> DriveEstimates:
    return estimate_drive(build_motor_task(brief), motor)


def test_a_diagonal_turns_one_of_two_crossed_motors_faster() -> None:
    brief = bench()
    row = drive(brief, brief.motors[0]).rows[0]
    # 52 mm/s on 40 mm a turn, 400 steps a turn
    assert row.turns == pytest.approx(math.sqrt(2.0) * 1.3)
    assert row.electrical == pytest.approx(row.turns * 100)
    own = replace(brief, motion=replace(brief.motion, layout="motor-per-axis"))
    assert drive(own, own.motors[0]).rows[0].turns == pytest.approx(1.3)


def test_steps_in_micrometres_and_their_accuracy() -> None:
    """Five percent of a 1.8° step are 10 µm on 40 mm a turn; half of that on a 0.9° motor."""
    brief = bench()
    told = drive(brief, brief.motors[0])
    assert told.step == pytest.approx(40e-3 / (400 * 16))
    assert told.step_angle == pytest.approx(math.radians(0.9) / 16)
    assert told.accuracy == pytest.approx(5e-6)
    coarse = replace(brief, motion=replace(brief.motion, steps_per_turn=200))
    assert drive(coarse, coarse.motors[0]).accuracy == pytest.approx(10e-6)


def test_less_current_is_cooler_and_weaker_but_no_smoother_in_its_detent() -> None:
    brief = bench()
    full, less = drive(brief, brief.motors[0]).currents[:2]
    assert (full.share, less.share) == (1.0, 0.8)
    assert less.margin == pytest.approx(0.8 * full.margin)
    assert less.power == pytest.approx(0.64 * full.power)
    assert less.ripple_db == pytest.approx(20 * math.log10(0.8))
    assert less.detent_db == 0.0


def test_one_microstep_pushes_with_what_the_set_current_gives() -> None:
    """T·sin(90°/µ): a sixteenth of a step makes 9.80171 % (published table)."""
    brief = bench(holding_torque=0.44, current=0.9, rated_current=1.6)
    told = drive(brief, brief.motors[0])
    assert told.step_torque == pytest.approx(0.0980171 * 0.44 / math.sqrt(2.0) * 0.9 / 1.6)


def test_each_motor_moves_the_mass_of_its_own_axis() -> None:
    """m·a·r and J·a/r by hand: 40 mm a turn is a radius of 6.3662 mm."""
    brief = bench(drives="x", rotor_inertia=6e-6)
    first, other = brief.motors
    other = replace(other, drives="y", rotor_inertia=2e-6)
    motion = replace(
        brief.motion, layout="moving-bed", tool_mass=0.3, bed_mass=0.9, acceleration=4.0
    )
    brief = replace(brief, motion=motion, motors=(other, first))
    radius = 40e-3 / math.tau
    for motor, mass, inertia in ((first, 0.3, 6e-6), (other, 0.9, 2e-6)):
        needed = drive(brief, motor).rows[0].needed
        assert needed == pytest.approx(mass * 4.0 * radius + inertia * 4.0 / radius)


def test_the_margin_is_that_of_the_worst_speed() -> None:
    brief = bench()
    brief = replace(
        brief,
        motion=replace(brief.motion, speeds=(0.15, 0.05, 0.11)),
        driver=replace(brief.driver, voltage=8.0),
    )
    told = drive(brief, brief.motors[0])
    margins = [row.available / row.needed for row in told.rows]
    assert 0.0 < margins[0] < margins[2] <= margins[1]  # the supply binds where it turns fast
    assert told.currents[0].margin == pytest.approx(margins[0])
    # where the supply binds, a little less current takes nothing away
    assert told.currents[1].margin == pytest.approx(margins[0])
    more = replace(brief, driver=replace(brief.driver, voltage=12.0))
    assert drive(more, more.motors[0]).currents[0].margin > 1.2 * margins[0]


def test_the_reference_voltage_needs_resistor_and_gain() -> None:
    brief = bench(current=0.9)
    assert drive(brief, brief.motors[0]).reference_voltage is None
    told = replace(brief, driver=Driver(voltage=24.0, current_shunt=0.05, gain=8.0))
    assert drive(told, told.motors[0]).reference_voltage == pytest.approx(0.36)


def test_a_motor_that_may_lose_steps_is_told() -> None:
    brief = bench(current=0.1, rated_current=1.5)
    brief = replace(brief, motion=replace(brief.motion, acceleration=12.0))
    (told,) = drive_words(drive(brief, brief.motors[0]), "left")
    assert told.startswith("An estimate: at 52 mm/s the torque at hand is 0.")
    assert told.endswith(
        "times what the acceleration needs (friction left out), less than 1.5: motor left may lose "
        "steps. Raise its current or lower the acceleration."
    )


def test_where_the_supply_binds_no_more_current_is_advised() -> None:
    brief = bench()
    brief = replace(
        brief,
        motion=replace(brief.motion, speeds=(0.19,), acceleration=9.0),
        driver=replace(brief.driver, voltage=8.0),
    )
    (told,) = drive_words(drive(brief, brief.motors[0]), "left")
    assert told.endswith(
        "less than 1.5: motor left may lose steps. The supply's voltage holds it back, not its "
        "current: print slower, or lower the acceleration."
    )


def test_no_less_than_six_tenths_of_the_current_are_advised() -> None:
    brief = bench()
    (told,) = drive_words(drive(brief, brief.motors[0]), "left")
    assert told.startswith("An estimate: at 60 % of its current motor left still has ")


@pytest.mark.parametrize(
    ("margin", "start"),
    [
        (1.49, "An estimate: at 52 mm/s the torque at hand is 1.4 times what"),
        (1.6, None),  # enough, yet nothing to give away
        (3.6, None),  # at 80 % it is 2.9 times, less than 3 = twice 1.5
        (3.9, "An estimate: at 80 % of its current motor left still has 3 times"),
        (5.2, "An estimate: at 60 % of its current motor left still has 3 times"),
    ],
)
def test_what_is_advised_follows_from_the_margin(margin, start) -> None:
    """1.5 and 60 % are conventions without a source; torque needed goes with acceleration."""
    brief = bench()
    (row, *_) = drive(brief, brief.motors[0]).rows
    faster = brief.motion.acceleration * row.available / row.needed / margin
    brief = replace(brief, motion=replace(brief.motion, acceleration=faster))
    told = drive_words(drive(brief, brief.motors[0]), "left")
    assert [words.startswith(start or "never") for words in told] == (
        [] if start is None else [True]
    )


def test_a_motor_that_drives_no_belt_is_told_of_too() -> None:
    brief = bench()
    third = replace(brief.motors[0], name="third")
    brief = replace(brief, motors=(*brief.motors, third))
    assert drive(brief, third).rows[0].needed > 0


def test_both_belts_of_two_motors_on_an_axis_hold_what_it_moves() -> None:
    """√(2·60 N/mm over 1.34 kg)/2π; one belt alone would ring at 33.7 Hz. Derived."""
    brief = bench()
    left, right = brief.motors
    third = replace(right, name="third")
    motion = replace(
        brief.motion,
        layout="motor-per-axis",
        belt_stiffness=60e3,
        tool_mass=0.34,
        gantry_mass=1.0,
    )
    motors = (replace(left, drives="x"), replace(right, drives="y"), replace(third, drives="y"))
    task = build_motor_task(replace(brief, motion=motion, motors=motors))
    told = [belt_of(task, motor, 0.0, None).resonance_before for motor in motors]
    assert told[0] == pytest.approx(math.sqrt(60e3 / 0.34) / math.tau)
    assert told[1:] == [pytest.approx(47.63, abs=0.005)] * 2
    # crossed belts hold both ways of moving together
    crossed = replace(brief, motion=replace(motion, layout="crossed-belt"))
    found = belt_of(build_motor_task(crossed), left, 0.0, None)
    assert found.resonance_before == pytest.approx(47.63, abs=0.005)
