"""The brief: what is read, what is assumed, and every fault as the user reads it."""

from __future__ import annotations

import dataclasses
import re
import time
from importlib import resources
from pathlib import Path

import numpy as np
import pytest

from isolator.brief import Brief, foot_positions, read_brief, read_brief_text
from isolator.brief.read import slug
from isolator.brief.starter import starter_text
from isolator.faults import InputError

EXAMPLES = resources.files("isolator.examples")
ROOM = (EXAMPLES / "reading-room.toml").read_text(encoding="utf-8")
PLACES = re.search(r"(?m)^positions = .*$", ROOM).group()  # type: ignore[union-attr]
BARE = """
name = "Bare printer"
[printer]
mass = "9 kg"
size = ["380 mm", "410 mm", "450 mm"]
[motion]
layout = "moving-bed"
speeds = ["50 mm/s"]
"""


def faults(text: str) -> list[str]:
    with pytest.raises(InputError) as refusal:
        read_brief_text(text, "brief.toml")
    return [fault.line() for fault in refusal.value.faults]


def swapped(*pairs: tuple[str, str], text: str = ROOM) -> str:
    for old, new in pairs:
        assert old in text
        text = text.replace(old, new, 1)
    return text


@pytest.mark.parametrize(
    ("name", "layout", "mass", "motors"),
    [
        ("reading-room", "crossed-belt", 11.8, 2),
        ("story-corner", "moving-bed", 7.4, 2),
        ("workshop", "motor-per-axis", 12.2 + 13.1 + 2.9 + 4.7 + 3.4, 3),
    ],
)
def test_the_examples_are_read_without_a_doubt(
    name: str, layout: str, mass: float, motors: int
) -> None:
    with resources.as_file(EXAMPLES / f"{name}.toml") as path:
        begin = time.perf_counter()
        brief = read_brief(path)
        taken = time.perf_counter() - begin
    assert brief.warnings == ()
    assert brief.motion.layout == layout
    assert brief.printer.mass == pytest.approx(mass, rel=1e-14)  # sum of decimals
    assert len(brief.motors) == motors
    assert taken < 0.15  # half the 0.3 s a reader notices; about 0.01 s on a quiet machine


def test_values_arrive_in_si_with_their_places() -> None:
    brief = read_brief_text(ROOM, "brief.toml")
    xx, yy, zz, xy, xz, yz = 0.47, 0.44, 0.40, 0.004, -0.012, 0.017
    assert brief.printer.inertia == ((xx, xy, xz), (xy, yy, yz), (xz, yz, zz))
    assert brief.printer.center_of_mass == (0.004, 0.011, 0.214)
    assert brief.motion.acceleration == 2.5
    assert brief.motion.speeds == (0.04, 0.06, 0.1, 0.15)
    assert brief.motors[1].position == (0.172, 0.196, 0.409)
    assert brief.motors[0].rotor_inertia == 54e-7
    assert brief.fans[0].speed == 80.0
    assert brief.feet.count == (4,)
    assert brief.feet.now is not None
    assert (brief.feet.now.first, brief.feet.now.thickness) == (0.019, 0.008)


def test_every_default_is_named_with_its_reason() -> None:
    brief = read_brief_text(BARE, "brief.toml")
    told = {assumed.key: assumed.value_text for assumed in brief.assumed}
    assert told["motion.tool_mass"] == "0.35 kg"
    assert told["printer.center_of_mass"] == "0 mm, 0 mm, 202.5 mm"
    assert told["motor"] == "two of frame size 17"
    assert told["motor[2].drives"] == "y"
    assert told["desk.kind"] == "rigid"
    assert told["room.temperature_high"] == "30 degC"
    assert all(assumed.why for assumed in brief.assumed)
    said = swapped(('speeds = ["50 mm/s"]', 'speeds = ["50 mm/s"]\ntool_mass = "13 oz"'), text=BARE)
    fuller = read_brief_text(said, "brief.toml")
    assert told.keys() - {each.key for each in fuller.assumed} == {"motion.tool_mass"}


def test_the_starter_passes_and_its_comments_tell_the_true_defaults() -> None:
    brief = read_brief_text(starter_text(), "brief.toml")
    assert brief.warnings == ()
    typed = re.sub(r"(?m)^# (?=[a-z_]+ = )", "", starter_text())
    typed_brief = read_brief_text(typed, "brief.toml")
    for field in dataclasses.fields(Brief):
        if field.name not in ("assumed", "motors"):
            assert getattr(typed_brief, field.name) == getattr(brief, field.name), field.name
    for typed_motor, motor in zip(typed_brief.motors, brief.motors, strict=True):
        # a share of the size and the same length typed differ in their last digit
        assert np.allclose(typed_motor.position, motor.position, rtol=1e-12)
        assert dataclasses.replace(typed_motor, position=motor.position) == motor
    left = {each.key for each in typed_brief.assumed if not each.key.startswith("motor[2]")}
    assert left == {
        "printer.inertia",
        "limits.static_strain",
        "stock.thicknesses",
        "stock.materials",
        "damper.materials",
        "motor[1].pull",
    }


def test_the_starters_optional_lines_are_all_known_keys() -> None:
    everything = re.sub(r"(?m)^#(?=\[|[a-z_]+ = )", "", starter_text())
    assert faults(everything) == [
        'brief.toml: feet.design: found "out/my-printer/design.toml"; wanted a file that is there; '
        "write it relative to the brief's own folder",
        "brief.toml: feet: found positions and given and design; wanted one way to say where the "
        "feet are; keep design or positions alone",
        'brief.toml: stock.cards: found "my-cards"; wanted a folder that is there; '
        "write it relative to the brief's own folder",
    ]


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
        'write it like "11.8 kg"',
    ),
    (
        'mass = "11.8 kg"',
        'mass = "-11.8 kg"',
        'printer.mass: found "-11.8 kg"; wanted a mass above zero; check the value and its sign',
    ),
    (
        'mass = "11.8 kg"',
        "mass = nan",
        'printer.mass: found nan; wanted a mass with its unit; write it like "1 kg"',
    ),
    (
        '["420 mm", "440 mm", "480 mm"]',
        '["420 mm", "440 mm"]',
        "printer.size: found a list of 2; wanted a list of 3, each a length with its unit; "
        'write it like ["10 mm", "20 mm", "30 mm"]',
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
        "write it bare, without quotes or unit",
    ),
    (
        '"40 mm/s", "60 mm/s"',
        '"40 mm/s", "2*30 mm/s"',
        'motion.speeds[2]: found "2*30 mm/s"; wanted a speed with its unit; write it like "2 mm/s"',
    ),
    (
        'name = "right"',
        'name = "left"',
        'motor[2].name: found "left" again; wanted a name of its own; call it something else',
    ),
    (
        "frame_size = 17",
        "frame_size = 16",
        "motor[1].frame_size: found 16; wanted 14, 17 or 23; take the nearest",
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
        'desk.material: found "MDFF"; wanted one of mdf, chipboard, plywood, solid-wood, glass, '
        'steel, stone, concrete; did you mean "mdf"?',
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
        "brief.toml: printer.size: found nothing; wanted a list of 3, each a length with its "
        'unit; add size = ["… mm", "… mm", "… mm"]',
        "brief.toml: printer.sise: found an unknown key; wanted a key of [printer]; "
        "did you mean size?",
        "brief.toml: motion.layout: found 4; wanted one of crossed-belt, motor-per-axis, "
        'moving-bed; write it like "crossed-belt"',
        "brief.toml: motion.speeds: found nothing; wanted a list of 1 to 50, each a speed with "
        'its unit; add speeds = ["… mm/s"]',
        "brief.toml: load[1].force: found no force and no moment; wanted one of them; "
        'write it like ["0 N", "0 N", "1 N"]',
    ]


def test_lumps_and_a_typed_mass_must_agree() -> None:
    text = (EXAMPLES / "workshop.toml").read_text(encoding="utf-8")
    agreeing = swapped(("[printer]", "[printer]\nmass = '36.9 kg'"), text=text)
    assert read_brief_text(agreeing, "brief.toml").printer.mass == 36.9  # 1.7 % off the sum
    assert faults(swapped(("[printer]", "[printer]\nmass = '37.1 kg'"), text=text)) == [
        "brief.toml: printer.mass: found 37.1 kg; wanted the sum of the lumps, 36.3 kg, "
        "within 2 %; leave mass out, or add the lump that is missing"
    ]


def test_what_is_unusual_is_doubted_and_kept() -> None:
    text = swapped(('mass = "11.8 kg"', 'mass = "41 kg"'), ('"2500 mm/s^2"', '"25 m/s^2"'))
    text = swapped(('["4 mm", "11 mm", "214 mm"]', '["4 mm", "11 mm", "514 mm"]'), text=text)
    brief = read_brief_text(text, "brief.toml")
    assert brief.printer.mass == 41.0
    assert brief.warnings == (
        "printer.mass: 41 kg is outside the usual 4 kg to 30 kg; check it",
        "printer.center_of_mass: lies outside the printer; check it",
        "motion.acceleration: 25000 mm/s^2 is outside the usual 500 mm/s^2 to 20000 mm/s^2; "
        "check it",
    )


def test_counts_on_which_it_would_tip_are_left_out() -> None:
    text = swapped((PLACES, "count = [3, 4]"), ('["4 mm", "11 mm"', '["122 mm", "53 mm"'))
    brief = read_brief_text(text, "brief.toml")
    assert brief.feet.count == (4,)
    assert brief.warnings == (
        "feet.count: 3 is left out: the centre of mass lies outside such feet",
    )


def test_given_feet_are_where_they_say() -> None:
    feet = "\n".join(
        f"[[feet.given]]\nposition = ['{x} mm', '{y} mm', '-14 mm']\n"
        "stiffness = ['7 N/mm', '8 N/mm', '21 N/mm']\nloss_factor = 0.2"
        for x, y in ((-170, -180), (160, -175), (10, 190))
    )
    brief = read_brief_text(swapped((PLACES, ""), ("[desk]", f"{feet}\n[desk]")), "brief.toml")
    assert brief.feet.given[1].position == (0.16, -0.175, -0.014)
    assert brief.feet.given[1].stiffness == (7000.0, 8000.0, 21000.0)
    assert brief.feet.positions == ((-0.17, -0.18), (0.16, -0.175), (0.01, 0.19))


def test_feet_stand_where_the_inset_puts_them() -> None:
    feet = read_brief_text(BARE, "brief.toml").feet
    size, x, y = (0.38, 0.41, 0.45), 0.16, 0.175
    four = sorted(foot_positions(feet, size, 4))
    assert np.allclose(four, [(-x, -y), (-x, y), (x, -y), (x, y)], rtol=1e-14)  # double rounding
    six = np.array(foot_positions(feet, size, 6))
    assert np.allclose(six.mean(axis=0), 0.0, atol=1e-15)  # double rounding
    assert sorted(abs(six[:, 1])) == pytest.approx([0, 0, y, y, y, y])
    with pytest.raises(ValueError, match="no rule for 5 feet; 3, 4 and 6 have one"):
        foot_positions(feet, size, 5)


@pytest.mark.parametrize(
    ("name", "folder"),
    [
        ("Reading-room printer", "reading-room-printer"),
        ("../../etc/passwd", "etc-passwd"),
        ("Ünser Drucker №3", "unser-drucker-no3"),
        ("図書館", "printer"),
        ("NUL", "printer-nul"),
        ("..", "printer"),
        ("a" * 79, "a" * 60),
    ],
)
def test_a_name_becomes_a_folder_and_never_a_path(name: str, folder: str) -> None:
    assert slug(name) == folder


def test_files_that_are_no_brief_are_told_so(tmp_path: Path) -> None:
    def refusal(path: Path) -> str:
        with pytest.raises(InputError) as error:
            read_brief(path)
        return str(error.value).replace(str(tmp_path), "DIR")

    (tmp_path / "binary.toml").write_bytes(b"name = 1\n\x00\xff\xfe\x7fELF")
    (tmp_path / "large.toml").write_text("# long\n" * 30_000)
    (tmp_path / "line.toml").write_text('name = "a"\n[printer]\nmass = 11.8 kg\n')
    (tmp_path / "deep.toml").write_text("a = " + "[" * 5000)
    (tmp_path / "dots.toml").write_text("a." * 90_000 + "b = 1")  # 32 GB to a naive reader
    (tmp_path / "digits.toml").write_text("a = " + "9" * 5000)
    assert refusal(tmp_path) == "DIR: found a folder; wanted a brief; name the file inside it"
    assert refusal(tmp_path / "none.toml") == (
        "DIR/none.toml: found no such file; wanted a brief; "
        "check the path, or write a starter with `isolator start FILE`"
    )
    assert refusal(tmp_path / "binary.toml") == (
        "DIR/binary.toml: found bytes that are no text in line 2; wanted text in UTF-8; "
        "save it as UTF-8 text"
    )
    assert refusal(tmp_path / "large.toml") == (
        "DIR/large.toml: found more than 200 kB; wanted a brief; is this the right file?"
    )
    assert refusal(tmp_path / "line.toml") == (
        "DIR/line.toml: found a line that is no TOML: Expected newline or end of document after "
        "a statement (at line 3, column 13); wanted TOML; "
        "quantities and texts stand in quotes, names of tables in [brackets]"
    )
    assert refusal(tmp_path / "deep.toml") == (
        "DIR/deep.toml: found brackets nested too deep; wanted TOML; remove them"
    )
    assert refusal(tmp_path / "dots.toml") == (
        "DIR/dots.toml: found a line of more than 250 dots; wanted a brief; is this the right file?"
    )
    assert refusal(tmp_path / "digits.toml") == (
        "DIR/digits.toml: found a number of thousands of digits; wanted TOML; shorten it"
    )


def test_a_design_beside_the_brief_is_found(tmp_path: Path) -> None:
    (tmp_path / "out").mkdir()
    (tmp_path / "out" / "design.toml").write_text("")
    (tmp_path / "brief.toml").write_text(swapped((PLACES, 'design = "out/design.toml"')))
    assert read_brief(tmp_path / "brief.toml").feet.design == tmp_path / "out" / "design.toml"
