"""Whatever stands in a brief, a command ends in a sensible way and leaves nothing half-written."""

from __future__ import annotations

import tempfile
from pathlib import Path

import pytest
from command import Ran, example, isolator, replaced, tree
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

EXAMPLES = tuple(example(name) for name in ("reading-room", "story-corner", "workshop"))

GIVEN = "".join(
    f'\n[[feet.given]]\nposition = ["{x} mm", "{y} mm", "-9 mm"]\n'
    'stiffness = ["8100 N/m", "7900 N/m", "31000 N/m"]\nloss_factor = 0.17\n'
    for x, y in ((-182, -191), (182, -190), (181, 187), (-182, 186))
)
NOW = (
    '\n[feet.now]\nmaterial = "sponge-3"\nshape = "ring"\nsize = ["42 mm", "18 mm"]\n'
    'thickness = "13 mm"\n'
)
DAMPERS = '\n[damper]\nmaterials = ["nr-50"]\nthicknesses = ["2 mm", "4 mm"]\n'
LOAD = (
    '\n[[load]]\nname = "fan"\nforce = ["0 N", "0 N", "1 N"]\n'
    'position = ["150 mm", "-120 mm", "340 mm"]\nfrequencies = ["12 Hz", "31 Hz"]\n'
)


def with_feet(text: str) -> list[str]:
    """Return a brief whose feet can be checked: there now, or given, with a load."""
    if "[feet.now]" not in text:
        text += NOW
    given = "\n".join(
        line for line in text.splitlines() if not line.startswith(("positions", "count", "inset"))
    )
    return [text + DAMPERS + LOAD, given + DAMPERS + GIVEN]


CHECKED = tuple(text for whole in EXAMPLES for text in with_feet(whole))

VALUES = (
    "nan",
    "-inf",
    "0",
    "-1",
    "1e400",
    "true",
    "[]",
    "{}",
    '""',
    "9" * 400,
    "[" * 60 + "]" * 60,
    '"nan mm"',
    '"inf kg"',
    '"0 mm"',
    '"0 kg"',
    '"-3 mm"',
    '"2*3 mm"',
    '"__import__(1) mm"',
    '"../../../etc/passwd"',
    '"\\u0000"',
    '["1 mm", "1 mm", "1 mm"]',
    # what is read, and far from anything that was meant
    '"1e-9 mm"',
    '"1 um"',
    '"1 mm"',
    '"9 m"',
    '"1e9 m"',
    '"1e-12 kg"',
    '"1 g"',
    '"900 t"',
    '"0.001 mm/s"',
    '"9000 m/s"',
    '"1e12 mm/s^2"',
    '"1e-12 mm/s^2"',
    '"0.01 Hz"',
    '"1e12 Hz"',
    '"1e-9 N/m"',
    '"1e14 N/m"',
    '"0 N"',
    '"1e12 N"',
    '"1e-15 kg*m^2"',
    '"1e9 kg*m^2"',
    '"1e-9 N*m"',
    '"1e9 N*m"',
    '"-270 degC"',
    '"900 degC"',
    "1",
    "6",
    "1000",
    "0.01",
    "2.0",
    '["0.001 mm/s", "9 km/s"]',
    '["1e-9 N/m", "1e-9 N/m", "1e-9 N/m"]',
    '["9 m", "9 m", "9 m"]',
    '["1e-12 kg*m^2", "1e-12 kg*m^2", "1e-12 kg*m^2"]',
    '["-9 m", "0 mm", "9 m"]',
    '["0 kg", "80 t"]',
    '"disc"',
    '"rectangle"',
    '"nr-40"',
    '"vmq-20"',
    '"pu-flexible-30"',
    '"tpu-85-gyroid-15"',
    '"rigid"',
    '"plate"',
    '"moving-bed"',
    '"motor-per-axis"',
    '"tube-end"',
)


def run(command: str, text: str | bytes, *words: str) -> Ran:
    """Run a command in a folder of its own and hold it to what every run must keep."""
    with tempfile.TemporaryDirectory() as name:
        room = Path(name)
        brief, out = room / "brief.toml", room / "out"
        brief.write_bytes(text if isinstance(text, bytes) else text.encode("utf-8", "replace"))
        before = brief.read_bytes()
        ran = isolator(command, brief, "--out", out, *words)
        told = (text, ran.err[-600:])
        assert ran.code in ({0, 1, 2, 3} if command == "design" else {0, 2}), told
        assert "Traceback" not in ran.err, told
        assert sorted(path.name for path in room.iterdir()) in (
            ["brief.toml"],
            ["brief.toml", "out"],
        )
        assert brief.read_bytes() == before
        made = sorted(out.iterdir()) if out.exists() else []
        if ran.code in (2, 3):
            assert ran.out == ""
            assert made == [], told
            assert all(line.isprintable() for line in ran.err.splitlines()), told
        elif command == "check":
            assert made == []
            ran.json()
        else:
            (folder,) = made
            whole = {"manifest.json", "result.json", "report.html", "design.toml"}
            assert whole <= set(tree(folder))
    return ran


NASTY = {
    "empty": b"",
    "5000 brackets": b"a = " + b"[" * 5000,
    "binary": bytes(range(256)) * 40,
    "a null": b'name = "a\0b"',
    "half a letter": b'name = "\xc3',
    "two megabytes": b"# " + b"x" * 2_000_000,
    "a page of the web": b"<html><body>mass</body></html>",
}


@pytest.mark.parametrize("command", ["design", "check", "draw"])
@pytest.mark.parametrize("what", NASTY)
def test_a_file_that_is_no_brief(command: str, what: str) -> None:
    assert run(command, NASTY[what]).code == 2


@pytest.mark.parametrize("value", VALUES)
def test_one_nasty_value_anywhere(value: str) -> None:
    """Every 29th key of one brief, another brief and another start for every value."""
    lines = CHECKED[VALUES.index(value) % len(CHECKED)].splitlines()
    keyed = [index for index, line in enumerate(lines) if " = " in line]
    for index in keyed[VALUES.index(value) % 29 :: 29]:
        key = lines[index].split(" = ")[0]
        text = "\n".join([*lines[:index], f"{key} = {value}", *lines[index + 1 :]])
        run("check", text, "--json")


FAR = {
    "belt_pitch": ('"101 mm"', "found 101 mm; wanted a pitch of no more than 100 mm"),
    "gantry_height": ('"101 m"', 'found "101 m"; wanted a length of no more than 100 m'),
    "holding_torque": ('"9e-7 N*m"', 'found "9e-7 N*m"; wanted a torque of 0.000001 N*m to'),
    "speeds": ('["9e-4 mm/s"]', 'found "9e-4 mm/s"; wanted a speed of 0.001 mm/s to 100 m/s'),
    "stiffness": ('["1 N/m", "1 N/m", "2e9 N/m"]', 'found "2e9 N/m"; wanted a stiffness of no'),
}


@pytest.mark.parametrize("key", FAR)
def test_what_would_drown_in_rounding_is_refused(key: str) -> None:
    value, told = FAR[key]
    ran = run("check", replaced(CHECKED[1], key, value))
    assert ran.code == 2
    assert told in ran.err


MUTATED = {"suppress_health_check": list(HealthCheck), "derandomize": True}


@settings(max_examples=25, **MUTATED)
@given(data=st.data())
def test_a_mutated_brief_is_checked_or_refused(data: st.DataObject) -> None:
    run("check", mutated(data), "--json")


@pytest.mark.slow
@settings(max_examples=250, **MUTATED)
@given(data=st.data())
def test_many_mutated_briefs_are_checked_or_refused(data: st.DataObject) -> None:
    run("check", mutated(data), "--json")


def mutated(data: st.DataObject) -> str:
    """Return a brief with up to three of its lines changed."""
    lines = data.draw(st.sampled_from(CHECKED)).splitlines()
    for _ in range(data.draw(st.integers(1, 3))):
        at = data.draw(st.integers(0, len(lines) - 1))
        how = data.draw(
            st.sampled_from(["value", "value", "value", "number", "drop", "double", "cut"])
        )
        if how == "value" and " = " in lines[at]:
            lines[at] = f"{lines[at].split(' = ')[0]} = {data.draw(st.sampled_from(VALUES))}"
        elif how == "number":
            digits = data.draw(st.sampled_from(["0", "1e-6", "1e6", "-1", "1e-12", "1e12"]))
            first = next((i for i, letter in enumerate(lines[at]) if letter.isdigit()), None)
            if first is not None:
                rest = lines[at][first:].lstrip("0123456789.")
                lines[at] = lines[at][:first] + digits + rest
        elif how == "drop" and len(lines) > 1:
            del lines[at]
        elif how == "double":
            lines.insert(at, lines[at])
        elif how == "cut":
            lines[at] = lines[at][: data.draw(st.integers(0, len(lines[at])))]
    return "\n".join(lines)


FEW = (
    '\n[stock]\nmaterials = ["sponge-2", "nr-40"]\nshapes = ["disc"]\n'
    'widths = ["18 mm", "42 mm", "8 mm"]\n'
)
READING = EXAMPLES[0] + FEW
STIFF = READING.replace('radial_limit = "65 N"', 'radial_limit = "65 N"\ndamper = "none"')
"""Without dampers, where what is nasty concerns the feet."""


@pytest.mark.parametrize(
    "text",
    [
        replaced(STIFF, "name", '"../../../etc/passwd"'),
        replaced(STIFF, "mass", '"3 g"'),
        replaced(STIFF, "acceleration", '"1e9 mm/s^2"'),
        replaced(STIFF, "foot_height", '"1 mm"'),
        STIFF.replace('"18 mm", "42 mm", "8 mm"', '"1 mm", "2 mm", "0.5 mm"'),
        STIFF.replace('"18 mm", "42 mm", "8 mm"', '"900 mm", "990 mm", "20 mm"'),
        READING.replace("[room]", '[print]\nnozzle = "5 mm"\nlayer = "4 mm"\n[room]'),
        READING.replace("pull = [0.8, -1, 0]", 'spacer_plate = "30 mm"'),
        READING.replace("pull = [0.8, -1, 0]", 'damper = "always"\nshaft_length = "9 mm"'),
        replaced(READING, "belt_tension", '"900 N"'),
    ],
    ids=lambda text: None,
)
def test_a_nasty_brief_is_designed_or_refused(text: str) -> None:
    run("design", text, "--quiet")
