"""A motor that a layout needs and nobody told of: it is assumed at its usual place, and named."""

from __future__ import annotations

from pathlib import Path

import pytest
from briefs import BARE
from command import isolator

from isolator.brief import read_brief_text
from isolator.commands.design import solve
from isolator.commands.known_cards import known_cards

NOW = """
[feet.now]
material = "nr-40"
shape = "disc"
size = ["20 mm"]
thickness = "8 mm"
"""
ONE = (("x", "y"), ("y", "x"))  # told, missing
LAYOUTS = ("motor-per-axis", "moving-bed")


def motors(layout: str, *drives: str) -> str:
    """Return a bare brief of a layout with motors that drive these axes."""
    told = "".join(f'[[motor]]\ndrives = "{axis}"\n' for axis in drives)
    return BARE.replace("moving-bed", layout) + told


@pytest.mark.parametrize("layout", LAYOUTS)
@pytest.mark.parametrize(("told", "missing"), ONE)
def test_the_motor_of_the_other_axis_is_assumed_where_it_usually_sits(
    layout: str, told: str, missing: str
) -> None:
    brief = read_brief_text(motors(layout, told), "brief.toml")
    usual = {motor.drives: motor for motor in read_brief_text(motors(layout), "b.toml").motors}
    assert [(motor.name, motor.drives) for motor in brief.motors] == [
        (told, told),
        (missing, missing),
    ]
    assert {motor.drives: motor for motor in brief.motors} == usual
    (why,) = (each for each in brief.assumed if each.key == "motor[2]")
    assert (why.value, why.why) == (
        f"one of frame size 17 that drives {missing}",
        "none of this axis was given",
    )


def test_two_motors_on_one_axis_leave_the_other_to_be_assumed() -> None:
    brief = read_brief_text(motors("moving-bed", "y", "y"), "brief.toml")
    assert [(each.name, each.drives) for each in brief.motors] == [
        ("y", "y"),
        ("y 2", "y"),
        ("x", "x"),
    ]
    (why,) = (each for each in brief.assumed if each.key == "motor[3]")
    assert why.value == "one of frame size 17 that drives x"


def test_an_assumed_motor_takes_no_name_that_is_taken() -> None:
    text = motors("moving-bed", "x").replace('drives = "x"', 'drives = "x"\nname = "y"')
    assert [each.name for each in read_brief_text(text, "brief.toml").motors] == ["y", "y 2"]


@pytest.mark.parametrize("layout", LAYOUTS)
@pytest.mark.parametrize("drives", [("x",), ("y",), ("x", "x"), ("y", "y")])
def test_such_a_printer_is_checked(tmp_path: Path, layout: str, drives: tuple[str, ...]) -> None:
    brief = tmp_path / "brief.toml"
    # so gentle that its checks hold, and no paver is tried
    text = motors(layout, *drives).replace("speeds", 'acceleration = "900 mm/s^2"\nspeeds')
    brief.write_text(text + NOW, encoding="utf-8")
    ran = isolator("check", brief, "--json")
    assert (ran.code, ran.err) == (0, "")
    missing = "y" if "x" in drives else "x"
    assert ran.json()["motors"][-1]["name"] == missing


def test_such_a_printer_is_designed() -> None:
    few = (
        '\n[stock]\nmaterials = ["sponge-2"]\nshapes = ["disc"]\n'
        'widths = ["18 mm", "42 mm", "8 mm"]\n'
    )
    brief = read_brief_text(motors("moving-bed", "y") + few, "brief.toml")
    found = solve(brief, known_cards(brief), lambda what, done, total: None)
    assert [motor.name for motor in found.motors] == ["y", "x"]
