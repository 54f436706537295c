"""Every fault of a brief as the user reads it."""

from __future__ import annotations

import pytest
from briefs import PLACES, SPEEDS, faults, swapped

ONE_FAULT = [
    (
        'mass = "11.8 kg"',
        "mass = 0.3",
        'printer.mass: found 0.3; wanted a mass with its unit; write it like "0.3 kg"',
    ),
    (
        'mass = "11.8 kg"',
        'mass = "11.8 mm"',
        'printer.mass: found "11.8 mm"; wanted a mass, in one of its units; '
        'if it is in kg, write it like "11.8 kg"',
    ),
    (
        'mass = "11.8 kg"',
        'mass = "-11.8 kg"',
        'printer.mass: found "-11.8 kg"; wanted a mass above zero; check the value and its sign',
    ),
    (
        'mass = "11.8 kg"',
        "mass = nan",
        'printer.mass: found nan; wanted a mass with its unit; write it like "… kg"',
    ),
    (
        '["420 mm", "440 mm", "480 mm"]',
        '["420 mm", "440 mm"]',
        "printer.size: found a list of 2; wanted a list of 3 (width, depth and height), each a "
        'length with its unit; write it like ["… mm", "… mm", "… mm"]',
    ),
    (
        '"0.47 kg*m^2", "0.44 kg*m^2", "0.40 kg*m^2"',
        '"0.47 kg*m^2", "0.44 kg*m^2", "1.40 kg*m^2"',
        "printer.inertia: found principal moments 0.4391 kg*m^2, 0.4704 kg*m^2, 1.4 kg*m^2; "
        "wanted three above zero, none larger than the other two together; "
        "check the order xx yy zz xy xz yz and the signs",
    ),
    (
        '"0.004 kg*m^2", "-0.012 kg*m^2"',
        '"0.9 kg*m^2", "-0.012 kg*m^2"',
        "printer.inertia: found principal moments -0.4456 kg*m^2, 0.4005 kg*m^2, 1.355 kg*m^2; "
        "wanted three above zero, none larger than the other two together; "
        "check the order xx yy zz xy xz yz and the signs",
    ),
    (
        'mass = ["0 kg", "1.2 kg"]',
        'mass = ["1.2 kg", "0 kg"]',
        "printer.extra[1].mass: found 1.2 kg before 0 kg; "
        "wanted the lightest first, then the heaviest; turn them round",
    ),
    (
        "tool_mass",
        "tool_masss",
        "motion.tool_masss: found an unknown key; wanted a key of [motion]; "
        "did you mean tool_mass?",
    ),
    (
        'layout = "crossed-belt"',
        'layout = "Crossed belt"',
        'motion.layout: found "Crossed belt"; wanted one of crossed-belt, motor-per-axis, '
        'moving-bed; did you mean "crossed-belt"?',
    ),
    (
        "pulley_teeth = 20",
        "pulley_teeth = 0",
        "motion.pulley_teeth: found 0; wanted a whole number from 6 to 1000; check the value",
    ),
    (
        "pulley_teeth = 20",
        'pulley_teeth = "20"',
        'motion.pulley_teeth: found "20"; wanted a whole number from 6 to 1000; '
        "write it bare, as 20",
    ),
    (
        SPEEDS,
        'speeds = ["40 mm/s", "2*30 mm/s"]',
        'motion.speeds[2]: found "2*30 mm/s"; wanted a speed with its unit; write it like "… mm/s"',
    ),
    (
        'name = "right"',
        'name = "left"',
        'motor[2].name: found "left" again; wanted a name of its own; call it something else',
    ),
    (
        "frame_size = 17",
        "frame_size = 16",
        "motor[1].frame_size: found 16; wanted 14, 17 or 23; "
        "measure its face: 14 is 35 mm, 17 is 42 mm, 23 is 56 mm wide",
    ),
    (
        'attachment = "slot-20"',
        'attachment = "tube-end"',
        'feet.tube: found nothing; wanted a length with its unit; add tube = "… mm"',
    ),
    (
        PLACES,
        'positions = [["182 mm", "187 mm"], ["-182 mm", "187 mm"]]',
        "feet.positions: found 2 feet; wanted three feet or more; add places",
    ),
    (
        PLACES,
        'positions = [["-30 mm", "-61 mm"], ["20 mm", "39 mm"], ["70 mm", "139 mm"]]',
        "feet.positions: found feet in one line; wanted feet that span an area; "
        "move one of them off the line",
    ),
    (
        '["4 mm", "11 mm", "214 mm"]',
        '["4 mm", "-199 mm", "214 mm"]',
        "feet.positions: found feet that leave the centre of mass of the printer at "
        "(4 mm, -199 mm) outside; wanted feet all round the centre of mass; "
        "it tips: move feet out by more than 8 mm there",
    ),
    (
        PLACES,
        "count = [4, 5]",
        "feet.count: found 4, 5; wanted 3, 4 or 6, or a list of these; "
        "write other numbers of feet as positions",
    ),
    (
        PLACES,
        'count = 4\ninset = "25 cm"',
        "feet.inset: found 250 mm; wanted less than half of 420 mm; "
        "it is the distance from the printer's outside to a foot's middle",
    ),
    (
        'material = "mdf"',
        'material = "MDFF"',
        'desk.material: found "MDFF"; wanted one of mdf, chipboard, plywood, solid-wood, '
        'hollow-board, glass, steel, stone, concrete; did you mean "mdf"?',
    ),
    (
        'temperature_low = "17 degC"',
        'temperature_low = "90 degF"',
        "room.temperature_low: found 32.2222 degC; "
        "wanted no more than temperature_high, 28 degC; turn them round",
    ),
    (
        "[desk]",
        "[stock]\nwidths = ['10 mm', '90 mm', '0.1 mm']\n[desk]",
        "stock.widths: found 10 mm, 90 mm, 0.1 mm; wanted smallest, largest and step, "
        'in at most 200 steps; write it like ["14 mm", "60 mm", "2 mm"]',
    ),
    (
        "[limits]",
        "[limits]\nfoot_width = '12 mm'",
        "limits.foot_width: found 12 mm; wanted no less than the smallest pad, 14 mm; "
        "raise it, or lower the first of stock.widths",
    ),
]


@pytest.mark.parametrize(("old", "new", "message"), ONE_FAULT)
def test_one_fault_is_one_line(old: str, new: str, message: str) -> None:
    assert faults(swapped((old, new))) == [f"brief.toml: {message}"]


def test_all_faults_come_at_once() -> None:
    assert faults("[printer]\nmass = '3'\nsise = 1\n[motion]\nlayout = 4\n[[load]]\n") == [
        "brief.toml: name: found nothing; wanted a text of 1 to 80 characters on one line; "
        'add name = "…"',
        'brief.toml: printer.mass: found "3"; wanted a mass with its unit; write it like "3 kg"',
        "brief.toml: printer.size: found nothing; wanted a list of 3 (width, depth and height), "
        'each a length with its unit; add size = ["… mm", "… mm", "… mm"]',
        "brief.toml: printer.sise: found an unknown key; wanted a key of [printer]; "
        "did you mean size?",
        "brief.toml: motion.layout: found 4; wanted one of crossed-belt, motor-per-axis, "
        "moving-bed; write one of these words, in quotes",
        "brief.toml: motion.speeds: found nothing; wanted a list of 1 to 50, each a speed with "
        'its unit; add speeds = ["… mm/s"]',
        "brief.toml: load[1].force: found no force and no moment; wanted one of them; "
        'write it like ["0 N", "0 N", "1 N"]',
    ]
