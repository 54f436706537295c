"""Whatever stands in a brief, reading it gives a brief or a list of faults, nothing else."""

from __future__ import annotations

import math
import re
from importlib import resources

import pytest
from command import without
from hypothesis import given, settings
from hypothesis import strategies as st

from isolator.brief import Brief, read_brief_text
from isolator.brief.starter import starter_text
from isolator.reading.faults import InputError

EXAMPLES = tuple(
    (resources.files("isolator.examples") / f"{name}.toml").read_text(encoding="utf-8")
    for name in ("reading-room", "story-corner", "workshop")
)


def said_whole() -> str:
    """Return the starter with all its lines said but those that exclude each other."""
    said = re.sub(r"(?m)^# ?(?=\[|[a-zA-Z_.]+ = )", "", starter_text())
    said = re.sub(
        r"(?m)^[a-z]+\.(belt_tension|bed_mass|bed_height|design|count|inset|cards|weights) = .*\n",
        "",
        said,
    )
    # a mount tells its stiffness, or loads and sags
    said = re.sub(r"(?m)^(\w+_)?(loads|sags|torques|angles) = .*\n", "", said)
    return without(said, "[[feet.given]]")


WHOLE = said_whole()
MUTATED = (*EXAMPLES, WHOLE)

NASTY_VALUES = (
    "nan",
    "-inf",
    "0",
    "-1",
    "1e400",
    "0x" + "f" * 5000,
    "true",
    "1979-05-27T07:32:00Z",
    '""',
    '"0 kg"',
    '"0 mm"',
    '"-3 mm"',
    '"nan mm"',
    '"1e15 mm"',
    '"1e-15 kg"',
    '"2*3 mm"',
    '"3 mm^9"',
    '"9**9**9 mm"',
    '"__import__(1) mm"',
    '"3 parsec/fortnight"',
    '"-300 degC"',
    '"0 A"',
    '"1e15 A"',
    '"1e-15 ohm"',
    '"1e15 mH"',
    '"0 deg"',
    '"400 deg"',
    '"1e-15 deg"',
    "[1e-300, 0, 0]",
    "[1e6, 0, 1e6]",
    "[0, nan, 1]",
    '"../../../etc/passwd"',
    '"\\u0000"',
    '"' + "ä" * 400 + '"',
    "[]",
    "[[], [[]], {}]",
    '["1 mm", "1 mm", "1 mm"]',
    '["0 kg*m^2", "0 kg*m^2", "0 kg*m^2"]',
    "[" * 60 + "]" * 60,
    "{}",
    "{a = {b = {c = 1}}}",
)

NASTY_BRIEFS = {
    "empty": "",
    "a comment": "# nothing",
    "5000 brackets": "a = " + "[" * 5000,
    "5000 closed brackets": "a = " + "[" * 5000 + "]" * 5000,
    "5000 tables deep": "a." * 5000 + "b = 1",
    "tables 250 deep": "\n".join(f"[t{n}{'.a' * 250}]" for n in range(350)),
    "5000 unknown keys": "\n".join(f"key{number} = 1" for number in range(5000)),
    "5000 digits": "a = " + "9" * 5000,
    "not TOML": "<html><body>mass</body></html>",
    "terminal codes": '"\\u001b[31mred" = 1',
    "a table where a list is": "[printer.lump]\n[motor]\n[feet.given]",
    "a list where a table is": "[[printer]]\n[[motion]]\n[[desk]]",
    "101 motors": "[[motor]]\n" * 101,
    "words for tables": "printer = 1\nmotion = 'x'\nfeet = []\nfan = 3\nroom = true",
}


def read(text: str) -> Brief | InputError:
    try:
        return read_brief_text(text, "brief.toml")
    except InputError as error:
        return error


@pytest.mark.parametrize("name", sorted(NASTY_BRIEFS))
def test_a_nasty_brief_is_refused_in_lines_that_can_be_shown(name: str) -> None:
    found = read(NASTY_BRIEFS[name])
    assert isinstance(found, InputError)
    assert 1 <= len(found.faults) <= 60
    for fault in found.faults:
        assert fault.line().isprintable()
        assert len(fault.line()) < 400


def test_a_nasty_name_stays_a_name() -> None:
    text = EXAMPLES[0].replace('"Reading-room printer"', '"../../../etc/passwd"')
    found = read(text)
    assert isinstance(found, Brief)
    assert found.slug == "etc-passwd"


def test_the_mutated_briefs_say_every_key_of_motors_and_dampers() -> None:
    assert isinstance(read(WHOLE), Brief)
    for key in (
        "belt_span",
        "belt_pluck",
        "belt_line_mass",
        "axis",
        "pull",
        "wrap",
        "set_screw",
        "belt_offset",
        "screw_depth",
        "bracket",
        "bracket_material",
        "bracket_area",
        "radial_limit",
        "radial_arm",
        "rated_current",
        "current",
        "winding_resistance",
        "winding_inductance",
        "damper",
        "spacer_plate",
        "motor_material",
        "thicknesses",
        "plate",
        "tilt_limit",
        "wedge",
        "rubber",
        "voltage",
        "current_shunt",
        "gain",
    ):
        assert re.search(rf"(?m)^(?:[a-z]+\.)?{key} = ", WHOLE), key


@pytest.mark.parametrize("value", NASTY_VALUES)
def test_a_nasty_value_anywhere_is_a_brief_or_faults(value: str) -> None:
    for example in MUTATED:
        for line in re.finditer(r"(?m)^[\w.]+ = .*$", example):
            key = line.group().split(" = ")[0]
            text = f"{example[: line.start()]}{key} = {value}{example[line.end() :]}"
            check(read(text))


@settings(max_examples=200)
@given(data=st.data())
def test_a_mutated_brief_is_a_brief_or_faults(data: st.DataObject) -> None:
    lines = data.draw(st.sampled_from(MUTATED)).splitlines()
    for _ in range(data.draw(st.integers(1, 4))):
        at = data.draw(st.integers(0, len(lines) - 1))
        how = data.draw(st.sampled_from(["drop", "double", "value", "cut", "insert", "swap"]))
        if how == "drop" and len(lines) > 1:
            del lines[at]
        elif how == "double":
            lines.insert(at, lines[at])
        elif how == "value" and " = " in lines[at]:
            value = data.draw(st.sampled_from(NASTY_VALUES))
            lines[at] = f"{lines[at].split(' = ')[0]} = {value}"
        elif how == "cut":
            lines[at] = lines[at][: data.draw(st.integers(0, len(lines[at])))]
        elif how == "insert":
            place = data.draw(st.integers(0, len(lines[at])))
            lines[at] = lines[at][:place] + data.draw(st.text(max_size=3)) + lines[at][place:]
        elif how == "swap":
            other = data.draw(st.integers(0, len(lines) - 1))
            lines[at], lines[other] = lines[other], lines[at]
    check(read("\n".join(lines)))


def check(found: Brief | InputError) -> None:
    """Hold what was read against what every later step relies on."""
    if isinstance(found, InputError):
        assert found.faults
        assert all(fault.line().isprintable() for fault in found.faults)
        return
    assert re.fullmatch(r"[a-z0-9-]+", found.slug)
    assert found.printer.mass > 0.0
    assert min(found.printer.size) > 0.0
    assert min(found.motion.speeds) > 0.0
    assert found.motion.pulley_teeth > 0
    assert found.motors
    assert found.motion.belt_tension > 0.0
    for motor in found.motors:
        assert motor.pull["xyz".index(motor.axis)] == 0.0
        assert abs(math.hypot(*motor.pull) - 1.0) < 2e-12  # kept to 12 decimals
        assert motor.points in (1, -1)
        assert 0.0 < motor.wrap <= math.tau
        assert max(motor.set_screw, motor.belt_offset) <= motor.pulley_length
        assert min(motor.current, motor.winding_resistance, motor.winding_inductance) > 0.0
        assert motor.damper != "always" or motor.spacer_plate == 0.0
    assert min(found.damper.thicknesses) > 0.0
    assert found.driver.voltage > 0.0
    assert found.feet.design is not None or found.feet.count
    assert re.search(r"\b(nan|inf)[,)]", repr(found)) is None
