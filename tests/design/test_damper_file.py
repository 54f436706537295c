"""Motor dampers in design.toml: written, read back, refused with whole messages."""

from __future__ import annotations

import dataclasses
import math
import re
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from sheets import design, foot, spacer

from isolator.design import Design
from isolator.design.damper import MotorDamper
from isolator.design.read import read_design
from isolator.design.write import write_design
from isolator.reading.faults import InputError

RING = MotorDamper(
    name="left",
    frame_size=17,
    position=(-0.172, 0.196, 0.421),
    axis="z",
    points=-1,
    body=0.0393,
    shaft=0.0242,
    pull=(0.6, -0.8, 0.0),
    shape="ring",
    first=0.0341,
    second=0.0237,
    circle=0.0,
    rubber=0.0031,
    material="nr-50",
    cast=False,
    motor_plate=0.0036,
    frame_plate=0.0038,
    wedge=0.0012,
    wedge_angle=math.radians(0.4),
    bracket=0.0045,
    travel=0.0007,
    motor_screw=0.006,
    frame_screw=0.012,
    pulley_spacer=0.0117,
    bore=0.005,
    outer=0.0091,
    filament="asa",
)
PADS = replace(
    RING,
    name="right",
    frame_size=23,
    axis="x",
    points=1,
    pull=(0.0, -0.28, 0.96),
    shape="pads",
    first=0.0192,
    second=0.0061,
    circle=0.0243,
    cast=True,
    density=1150.0,
    wedge=0.0,
    wedge_angle=0.0,
)
WITH_FOOT = replace(
    design(foot("cup", "ring", "bolt", "small"), spacers=(spacer("rear"),)),
    motor_dampers=(RING, PADS),
)
NEEDED = {
    field.name for field in dataclasses.fields(MotorDamper) if field.default is dataclasses.MISSING
}
"""What every sheet tells; the rest is left out where it is nothing."""


def dampers(*found: MotorDamper) -> Design:
    return replace(design(), motor_dampers=found)


def written(sheet: Design, tmp_path, *swaps: tuple[str, str]):
    text = write_design(sheet)
    for old, new in swaps:
        assert old in text
        text = text.replace(old, new, 1)
    path = tmp_path / "design.toml"
    path.write_text(text, encoding="utf-8")
    return path


def test_feet_spacers_and_dampers_come_back_as_they_went(tmp_path):
    assert read_design(written(WITH_FOOT, tmp_path)) == WITH_FOOT


def test_every_field_of_a_damper_stands_in_the_file_with_its_meaning():
    table = write_design(dampers(RING)).split("[[motor_damper]]\n")[1]
    lines = table.strip().splitlines()
    keys = [line.split(" = ")[0] for line in lines]
    assert sorted(keys) == sorted(NEEDED)
    bare = [line.split(" = ")[0] for line in lines if " # " not in line]
    assert bare == ["name", "frame_size"]
    assert 'wedge_angle = "0.4 deg" # by which the wedge tilts the motor against the pull' in lines


LENGTH = st.floats(1e-6, 0.5)


@st.composite
def any_damper(draw: st.DrawFn) -> MotorDamper:
    """Return a damper of any size that its file does not contradict."""
    axis, shape = draw(st.sampled_from("xyz")), draw(st.sampled_from(["ring", "pads"]))
    turn = draw(st.floats(0.0, math.tau))
    pull = [math.cos(turn), math.sin(turn)]
    pull.insert("xyz".index(axis), 0.0)
    small, large = draw(LENGTH), draw(st.floats(1.01, 9.0))
    wedge = draw(st.one_of(st.just(0.0), LENGTH))
    bore = draw(LENGTH)
    name = st.text(st.characters(codec="utf-8", exclude_categories=["C", "Z"]), min_size=1)
    return replace(
        RING,
        name=draw(name.map(lambda text: text[:60])),
        axis=axis,
        shape=shape,
        frame_size=draw(st.sampled_from([14, 17, 23])),
        points=draw(st.sampled_from([1, -1])),
        position=draw(st.tuples(*[st.floats(-2.0, 2.0)] * 3)),
        pull=tuple(pull),
        first=small * large,
        second=small,
        circle=0.0 if shape == "ring" else small * large,
        rubber=draw(LENGTH),
        cast=draw(st.booleans()),
        wedge=wedge,
        wedge_angle=draw(st.floats(1e-6, 0.087)) if wedge else 0.0,
        travel=draw(LENGTH),
        pulley_spacer=draw(st.one_of(st.just(0.0), LENGTH)),
        bore=bore,
        outer=bore * large,
    )


@settings(max_examples=100)
@given(damper=any_damper())
def test_any_damper_comes_back_to_the_files_last_digit(tmp_path_factory, damper):
    path = tmp_path_factory.mktemp("damper") / "design.toml"
    text = write_design(dampers(damper))
    path.write_text(text, encoding="utf-8")
    (read,) = read_design(path).motor_dampers
    assert write_design(dampers(read)) == text
    for field in dataclasses.fields(MotorDamper):
        went, came = getattr(damper, field.name), getattr(read, field.name)
        if isinstance(went, (str, int)) or field.name == "pull":
            assert came == went
        else:  # nine digits are written, and nothing below a picometre
            assert came == pytest.approx(went, rel=5.1e-9, abs=1e-12), field.name


FAULTS = [
    ("shape", '"rings"', 'found "rings"; wanted one of ring, pads; did you mean "ring"?'),
    ("axis", '"-z"', 'found "-z"; wanted one of x, y, z; write one of these words, in quotes'),
    (
        "points",
        "0",
        "found 0; wanted 1 or -1; "
        "1 where the shaft points along its axis, -1 where it points against it",
    ),
    ("points", "2", "found 2; wanted a whole number from -1 to 1; check the value"),
    ("frame_size", "18", "found 18; wanted one of 14, 17, 23; write it bare, as 17"),
    (
        "wedge_angle",
        '"0.4 mm"',
        'found "0.4 mm"; wanted an angle, in one of its units; '
        'if it is in deg, write it like "0.4 deg"',
    ),
    (
        "wedge_angle",
        '"-0.4 deg"',
        'found "-0.4 deg"; wanted an angle of zero or more; check the value and its sign',
    ),
    (
        "wedge_angle",
        '"5.1 deg"',
        "found 5.1 deg; wanted no more than 5 deg; "
        "a damper that tilts so far needs stiffer or wider rubber",
    ),
    (
        "second",
        '"34.2 mm"',
        "found 34.2 mm; wanted less than first, 34.1 mm; lower it or raise first",
    ),
    (
        "circle",
        '"2 mm"',
        'found 2 mm; wanted 0 mm for a ring; set it to "0 mm", or the shape to "pads"',
    ),
    ("cast", '"no"', 'found "no"; wanted true or false; write it bare, as false'),
    (
        "pull",
        "[0.6, -0.9, 0]",
        "found [0.6, -0.9, 0]; wanted a vector of length 1 across the shaft, which runs along z; "
        "write the way the belts leave the pulley",
    ),
    (
        "pull",
        "[0.6, 0, -0.8]",
        "found [0.6, 0, -0.8]; wanted a vector of length 1 across the shaft, which runs along z; "
        "write the way the belts leave the pulley",
    ),
    (
        "rubber",
        '"0 mm"',
        'found "0 mm"; wanted a length above zero; check the value and its sign',
    ),
    ("bore", '"9.1 mm"', "found 9.1 mm; wanted less than outer, 9.1 mm; lower it or raise outer"),
]


@pytest.mark.parametrize(("key", "value", "message"), FAULTS)
def test_one_fault_of_a_damper_is_one_line(key, value, message, tmp_path):
    line = re.search(rf"(?m)^{key} = .*$", write_design(dampers(RING)).split("[[motor_damper]]")[1])
    path = written(dampers(RING), tmp_path, (line.group(), f"{key} = {value}"))
    with pytest.raises(InputError) as caught:
        read_design(path)
    told = [fault.line() for fault in caught.value.faults]
    assert told == [f"{path}: motor_damper[1].{key}: {message}"]


def test_every_key_of_a_damper_must_be_there(tmp_path):
    path = written(dampers(), tmp_path)
    path.write_text(path.read_text() + "[[motor_damper]]\n", encoding="utf-8")
    with pytest.raises(InputError) as caught:
        read_design(path)
    told = {fault.key.removeprefix("motor_damper[1]."): fault for fault in caught.value.faults}
    assert told.keys() == NEEDED
    assert all(fault.got == "nothing" for fault in told.values())
    assert told["pull"].line() == (
        f"{path}: motor_damper[1].pull: found nothing; wanted a list of 3, each a plain number "
        "from -1 to 1; add pull = […, …, …]"
    )
    assert told["cast"].suggestion == "add cast = false"


@pytest.mark.parametrize(
    ("swap", "key", "message"),
    [
        (
            ('wedge = "1.2 mm"', 'wedge = "0 mm"'),
            "motor_damper[1].wedge_angle",
            "found 0.4 deg; wanted 0 deg where there is no wedge; "
            'give wedge a thickness, or set the angle to "0 deg"',
        ),
        (
            ('circle = "24.3 mm"', 'circle = "3.05 mm"'),
            "motor_damper[2].circle",
            "found 3.05 mm; wanted more than half of second, 3.05 mm; "
            "it is the distance from the shaft to the middle of a pad",
        ),
        (
            ('name = "right"', 'name = "left"'),
            "motor_damper[2].name",
            'found "left"; wanted a name of its own; rename one',
        ),
        (
            ('name = "right"', 'name = "rear"'),
            "motor_damper[2].name",
            'found "rear"; wanted a name of its own; rename one',
        ),
        (
            ("travel =", "travels ="),
            "motor_damper[1].travels",
            "found an unknown key; wanted a key of [motor_damper[1]]; did you mean travel?",
        ),
    ],
)
def test_what_contradicts_in_a_sheet_is_one_line(swap, key, message, tmp_path):
    path = written(WITH_FOOT, tmp_path, swap)
    with pytest.raises(InputError) as caught:
        read_design(path)
    told = [fault.line() for fault in caught.value.faults if fault.got != "nothing"]
    assert told == [f"{path}: {key}: {message}"]
