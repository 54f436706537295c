"""Motors, belts, dampers and driver of a brief: what is read, assumed and doubted."""

from __future__ import annotations

import math
from importlib import resources

import numpy as np
import pytest
from briefs import BARE, with_motor
from hypothesis import assume, given
from hypothesis import strategies as st

from isolator.brief import Brief, read_brief_text


def read(motor: str = "", motion: str = "", more: str = "") -> Brief:
    return read_brief_text(with_motor(motor, motion, more), "brief.toml")


def told(brief: Brief) -> dict[str, str]:
    return {each.key: each.value for each in brief.assumed}


@pytest.mark.parametrize(
    ("typed", "axis", "points"),
    [
        ("x", "x", 1),
        ("-x", "x", -1),
        ("y", "y", 1),
        ("-y", "y", -1),
        ("z", "z", 1),
        ("-z", "z", -1),
    ],
)
def test_a_sign_says_which_way_the_shaft_points(typed: str, axis: str, points: int) -> None:
    motor = read(f"axis = '{typed}'").motors[0]
    assert (motor.axis, motor.points) == (axis, points)


def test_an_unsaid_axis_is_named_with_the_way_it_points() -> None:
    why = {each.key: each.why for each in read_brief_text(BARE, "brief.toml").assumed}
    assert why["motor[1].axis"] == "usual of the layout; its shaft points back"
    assert why["motor[2].axis"] == "usual of the layout; its shaft points right"


@pytest.mark.parametrize(
    ("frame", "length", "depth"),
    [(14, "28 mm", "4.5 mm"), (17, "40 mm", "4.5 mm"), (23, "45 mm", "0 mm")],
)
def test_defaults_go_by_frame_size_and_are_all_named(frame: int, length: str, depth: str) -> None:
    brief = read(f"frame_size = {frame}")
    named = told(brief)
    assert (named["motor[1].body_length"], named["motor[1].screw_depth"]) == (length, depth)
    why = {each.key: each.why for each in brief.assumed}
    for key in ("body_length", "rated_current", "winding_resistance", "winding_inductance"):
        assert why[f"motor[1].{key}"] == f"usual of frame size {frame}; estimated, from memory"
    alike = {
        "pulley_length": "16 mm",
        "set_screw": "3.5 mm",
        "belt_offset": "11.5 mm",
        "wrap": "180 deg",
        "bracket": "4 mm",
        "bracket_material": "aluminium",
        "bracket_area": "100 cm^2",
        "radial_arm": "20 mm",
        "damper": "auto",
    }
    assert {key: named[f"motor[1].{key}"] for key in alike} == alike
    assert brief.motors[0].radial_limit is None
    assert brief.motors[0].wrap == math.pi


def test_the_set_current_follows_the_rated_one() -> None:
    brief = read("rated_current = '1.7 A'")
    assert brief.motors[0].current == 0.85 * 1.7
    assert told(brief)["motor[1].current"] == "1.445 A"


def test_dampers_and_driver_have_named_defaults() -> None:
    named = told(read())
    assert {key: named[key] for key in named if key.startswith(("damper", "driver"))} == {
        "damper.materials": "all rubbers; of those that are cast all that can be poured",
        "damper.shapes": "ring, pads",
        "damper.thicknesses": "0.5 mm, 1 mm, 1.5 mm, 2 mm, 3 mm, 4 mm, 5 mm",
        "damper.plates": "printed",
        "damper.plate": "0 mm",
        "damper.tilt_limit": "0.25 deg",
        "damper.wedge": "true",
        "damper.belt_ring": "0.75",
        "damper.rubber": "sheet",
        "driver.voltage": "24 V",
    }
    assert named["print.motor_material"] == "asa"
    assert named["motion.belt_tension"] == "20 N"


def test_sheet_metal_has_a_usual_thickness_and_printed_plates_what_screws_need() -> None:
    for made, usual, typed in (("steel", 1.5e-3, 1.2e-3), ("printed", 0.0, 5e-3)):
        named = read(more=f"[damper]\nplates = '{made}'").damper
        assert (named.plates, named.plate) == (made, usual)
        more = f"[damper]\nplates = '{made}'\nplate = '{typed * 1e3:g} mm'"
        assert read(more=more).damper.plate == pytest.approx(typed)


def test_what_is_typed_arrives_in_si() -> None:
    brief = read(
        "body_length = '38.5 mm'\nset_screw = '12 mm'\nwrap = '2.9 rad'\nbracket_area = '84 cm²'\n"
        "winding_inductance = '2.8 mH'\nradial_limit = '29 N'\nbracket_material = 'steel'",
        more="[damper]\nmaterials = ['nr-40']\nshapes = ['pads']\n"
        "thicknesses = ['0.0625 in', '2 mm']\nrubber = 'cast'\nwedge = false\n"
        "tilt_limit = '0.2 deg'\n[driver]\nvoltage = '19 V'\ncurrent_shunt = '75 mΩ'\ngain = 2.5",
    )
    motor, damper, driver = brief.motors[0], brief.damper, brief.driver
    assert (motor.body_length, motor.set_screw, motor.wrap) == (0.0385, 0.012, 2.9)
    assert (motor.bracket_area, motor.winding_inductance) == (0.0084, 0.0028)
    assert (motor.radial_limit, motor.bracket_material) == (29.0, "steel")
    assert (damper.materials, damper.shapes, damper.cast, damper.wedge) == (
        ("nr-40",),
        ("pads",),
        True,
        False,
    )
    assert damper.thicknesses == (0.0015875, 0.002)
    assert damper.tilt_limit == pytest.approx(0.2 * math.pi / 180, rel=1e-15)  # double rounding
    assert (driver.voltage, driver.gain) == (19.0, 2.5)
    assert driver.current_shunt == pytest.approx(0.075, rel=1e-15)  # double rounding


# A span of 271 mm and 7.9 g/m under T sounds its first mode at √(T/µ)/(2·L) (taut string, any
# textbook of acoustics); tuned to 93 Hz it carries the tension that is asked for.
def test_a_plucked_span_gives_the_tension_that_makes_it_sound_so() -> None:
    said = "belt_span = '271 mm'\nbelt_pluck = '93 Hz'\nbelt_line_mass = '7.9 g/m'"
    tension = read(motion=said).motion.belt_tension
    assert math.sqrt(tension / 7.9e-3) / (2 * 0.271) == pytest.approx(93.0, rel=1e-12)  # rounding
    assert tension == pytest.approx(20.072, abs=5e-4)  # worked by hand, three decimals
    usual = read(motion=said.rsplit("\n", 1)[0])
    assert told(usual)["motion.belt_line_mass"] == "8.4 g/m"
    assert usual.motion.belt_tension == pytest.approx(tension * 8.4 / 7.9, rel=1e-12)  # rounding


def test_the_pull_is_assumed_towards_the_middle_across_the_shaft() -> None:
    brief = read("axis = 'z'\nposition = ['-120 mm', '160 mm', '300 mm']")
    assert brief.motors[0].pull == (0.6, -0.8, 0.0)  # 120, 160, 200: a Pythagorean triangle
    assert told(brief)["motor[1].pull"] == "[0.6, -0.8, 0]"
    assert read("axis = 'x'\nposition = ['12 mm', '171 mm', '52 mm']").motors[0].pull == (0, -1, 0)
    for axis in "xyz":
        middle = read(f"axis = '{axis}'\nposition = ['0 mm', '0 mm', '52 mm']").motors[0]
        assert middle.pull["xyz".index(axis)] == 0.0
        assert math.hypot(*middle.pull) == 1.0


@given(
    axis=st.sampled_from("xyz"),
    pull=st.tuples(*[st.floats(-1e6, 1e6, allow_subnormal=False)] * 3),
)
def test_a_typed_pull_is_made_a_unit_vector_across_the_shaft(
    axis: str, pull: tuple[float, float, float]
) -> None:
    along = "xyz".index(axis)
    across = np.array(pull) * (np.arange(3) != along)
    assume(np.linalg.norm(across) > 1e-6)
    brief = read(f"axis = '{axis}'\npull = {[float(each) for each in pull]}")
    found = np.array(brief.motors[0].pull)
    assert found[along] == 0.0
    assert np.allclose(found, across / np.linalg.norm(across), atol=2e-12)  # kept to 12 decimals
    warned = f"motor[1].pull: its part along the shaft ({axis}) is left out"
    assert (warned in brief.warnings) == (abs(pull[along]) > 1e-9)


def test_what_is_unusual_of_a_motor_is_doubted_and_kept() -> None:
    brief = read(
        "winding_resistance = '12 ohm'\nbracket = '0.8 mm'\nwrap = '40 deg'\n"
        "rated_current = '1.2 A'\ncurrent = '1.75 A'",
        motion="belt_span = '300 mm'\nbelt_pluck = '30 Hz'",
        more="[damper]\nthicknesses = ['0.2 mm']\ntilt_limit = '2 deg'\n[driver]\nvoltage = '3 V'",
    )
    assert brief.motors[0].current == 1.75
    assert brief.warnings == (
        "motion.belt_pluck: 2.7216 N is outside the usual 9 N to 45 N; check it",
        "motor[1].wrap: 40 deg is outside the usual 60 deg to 220 deg; check it",
        "motor[1].bracket: 0.8 mm is outside the usual 1 mm to 12 mm; check it",
        "motor[1].current: 36.8 W of heat in its windings is more than the usual 30 W; "
        "check current and winding_resistance",
        "motor[1].current: 1.75 A is more than 1.41 times rated_current, 1.2 A; check it",
        "damper.thicknesses: 0.2 mm is outside the usual 0.3 mm to 10 mm; check it",
        "damper.tilt_limit: 2 deg is outside the usual 0.05 deg to 1 deg; check it",
        "driver.voltage: 3 V is outside the usual 5 V to 60 V; check it",
    )


def test_the_reading_rooms_motors_stand_as_they_are_told() -> None:
    example = (resources.files("isolator.examples") / "reading-room.toml").read_text("utf-8")
    left, right = read_brief_text(example, "brief.toml").motors
    assert left.pull == tuple(np.round(np.array((0.8, -1, 0)) / math.hypot(0.8, 1), 12))
    assert (left.points, left.pulley_standoff, right.pulley_standoff) == (1, 0.004, 0.005)
    assert left.pull[0] == -right.pull[0]
