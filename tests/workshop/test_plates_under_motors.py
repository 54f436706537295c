"""Plain plates under motors: their filament, and the screws that go through them."""

from __future__ import annotations

from dataclasses import replace

import pytest
from command import example
from sheets import design, spacer

from geometry.draw import draw
from isolator.brief import read_brief_text
from isolator.commands.to_design import to_design
from isolator.motors.outcomes import plated
from isolator.motors.task import build_motor_task
from isolator.workshop.assembly import assembly_steps
from isolator.workshop.shopping import shopping_items

NOTHING = {"pads": [], "parts": []}


def rows(*spacers) -> dict[str, tuple[float, str]]:
    found = shopping_items(design(spacers=spacers), NOTHING)
    return {each.name: (each.quantity, each.remark) for each in found}


def test_plates_and_spacers_are_of_the_motors_filament_whatever_the_feet_are_of():
    parts = draw(design(spacers=(spacer(), replace(spacer("right"), filament="abs"))))
    found = {(part.role, part.owner): part.material for part in parts}
    assert found == {
        ("motor-plate", "left"): "asa",
        ("motor-plate", "right"): "abs",
        ("pulley-spacer", "left"): "asa",
        ("pulley-spacer", "right"): "abs",
    }


def test_the_list_has_the_screws_of_plain_plates_with_their_new_length():
    long = replace(spacer(), motor_screw=0.014)
    flanged = replace(spacer("rear", 23), motor_screw=0.025)
    found = rows(long, replace(long, name="right"), flanged)
    told = "through bracket and spacer plate of 5.2 mm into motor"
    assert found["screw M3 x 14, button head, ISO 7380-1"] == (8, f"{told} left, right")
    assert found["screw M4 x 25, button head, ISO 7380-1"] == (4, f"{told} rear")
    assert found["nut M4, ISO 4032"] == (4, "behind the flange of motor rear")
    assert found["washer M4, ISO 7089"] == (4, "behind the flange of motor rear")
    plate = next(part for part in draw(design(spacers=(long,))) if part.role == "motor-plate")
    assert "between motor and bracket; four screws M3 x 14" in plate.notes
    steps = {step.title: step for step in assembly_steps(design(spacers=(long,)), {})}
    assert steps["Put the spacer plates in"].uses == ("4 × screw M3 x 14, button head, ISO 7380-1",)


def test_steps_set_a_pulley_by_its_gauge_while_the_motor_is_bare():
    gauged, ringed = replace(spacer(), gauge=True), replace(spacer("rear"), pulley_spacer=0.0154)
    steps = assembly_steps(design(spacers=(gauged, ringed)), {})
    titles = [step.title for step in steps]
    at = titles.index("Set the pulleys by their gauge")
    assert titles[at - 1 : at + 3] == [
        "Take motors left and rear off",
        "Set the pulleys by their gauge",
        "Put the spacer plates in",
        "Put pulleys back on their spacers: motor rear",
    ]
    told = " ".join(steps[at].words)
    assert "11.2 mm for motor left" in told
    assert "pull the gauge out by its grip. It does not stay" in told
    alone = assembly_steps(design(spacers=(gauged,)), {})
    assert not any("on their spacers" in step.title for step in alone)


@pytest.mark.parametrize("set_by", ["spacer", "gauge"])
def test_a_brief_may_choose_a_gauge_instead_of_the_ring(set_by):
    text = example("reading-room").replace(
        "pull = [0.8, -1, 0]", f'spacer_plate = "3.2 mm"\npulley_set_by = "{set_by}"'
    )
    (one,) = to_design(read_brief_text(text, "brief.toml"), ()).motor_spacers
    assert one.gauge == (set_by == "gauge")
    roles = [part.role for part in draw(design(spacers=(one,)))]
    assert roles == ["motor-plate", f"pulley-{set_by}"]


@pytest.mark.parametrize("height", [3.2, 6.0])
def test_a_plate_is_drawn_with_the_screws_that_its_report_tells(height):
    text = example("reading-room").replace("pull = [0.8, -1, 0]", f'spacer_plate = "{height} mm"')
    text = text.replace("[feet]", '[print]\nmotor_material = "abs"\nmaterial = "pla"\n\n[feet]')
    brief = read_brief_text(text, "brief.toml")
    (one,) = to_design(brief, ()).motor_spacers
    task = build_motor_task(brief)
    (screws,) = plated(task, task.motors[0]).screws
    assert (one.name, one.filament) == ("left", "abs")
    assert one.motor_screw == screws.length
    # a bracket of 4 mm; three turns of M3 at least, and half a millimetre short of 4.5 mm deep
    assert 1.5 <= one.motor_screw * 1e3 - 4.0 - height <= 4.0


@pytest.mark.parametrize("made", ["printed", "steel"])
def test_a_plain_spacer_and_its_pulleys_are_printed_whatever_dampers_are_of(made):
    """4.4 mm of plate lift a pulley that sat 4 mm off the motor's face to 8.4 mm."""
    text = example("reading-room").replace("pull = [0.8, -1, 0]", 'spacer_plate = "4.4 mm"')
    brief = read_brief_text(f"{text}\n[damper]\nplates = '{made}'", "brief.toml")
    drawn = draw(to_design(brief, ()))
    assert [(part.role, part.box[2], part.cut) for part in drawn] == [
        ("motor-plate", pytest.approx(4.4), False),
        ("pulley-spacer", pytest.approx(4.0 + 4.4), False),
    ]
