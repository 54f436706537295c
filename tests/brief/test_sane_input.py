"""What cannot well be meant is doubted in one line, and what is assumed is told as assumed."""

from __future__ import annotations

import pytest
from briefs import BARE, PLACES, ROOM, swapped

from isolator.brief import read_brief_text
from isolator.reading.faults import InputError
from isolator.report.sentences.notes import level_rests_on

SIZE = 'size = ["420 mm", "440 mm", "480 mm"]'
CENTRE = 'center_of_mass = ["4 mm", "11 mm", "214 mm"]\n'


def warnings(*pairs: tuple[str, str], text: str = ROOM) -> tuple[str, ...]:
    return read_brief_text(swapped(*pairs, text=text), "brief.toml").warnings


def test_a_slab_smaller_than_the_stance_is_doubted() -> None:
    slab = '[slab]\nsize = ["340 mm", "395 mm", "41 mm"]\nlip = "0 mm"\n\n[desk]'
    pairs = ((PLACES, ""), ('attachment = "slot-20"', ""), ("[desk]", slab))
    assert warnings(*pairs) == (
        "slab.size: 340 mm along x is less than the printer's own feet need: they stand 360 mm "
        "apart, as far as is known; measure them",
    )
    lying = slab.replace("lip", 'gap = "0 mm"\nlip')
    assert warnings(*pairs[:2], ("[desk]", lying)) == ()


def test_a_printer_as_wide_as_a_room_and_a_frame_of_ten_beds_are_doubted() -> None:
    assert warnings((SIZE, SIZE.replace("420 mm", "3.5 m"))) == (
        "printer.size: 3500 mm is outside the usual 150 mm to 1200 mm; check it",
        "printer.inertia is far from that of a box of this mass and size; check it",
    )
    bed = '\n[print]\nbed = ["41 mm", "60 mm", "70 mm"]\n'
    assert warnings(text=ROOM + bed) == (
        "printer.size: 420 mm along x is more than 10 times the bed of 41 mm in print.bed; "
        "check both",
    )
    assert warnings(text=ROOM + bed.replace("41 mm", "43 mm")) == ()


@pytest.mark.parametrize(
    ("typed", "found", "advice"),
    [("9000 kg", "9000 kg", "did you mean 9 kg?"), ("0.35 t", "350 kg", "weigh it again")],
)
def test_a_printer_that_no_desk_carries_is_refused(typed: str, found: str, advice: str) -> None:
    with pytest.raises(InputError) as caught:
        warnings(('mass = "11.8 kg"', f'mass = "{typed}"'))
    assert caught.value.faults[0].line() == (
        f"brief.toml: printer.mass: found {found}; wanted no more than 300 kg: it stands on a "
        f"desk; {advice}"
    )


def test_a_printer_lighter_than_what_moves_on_it_is_refused() -> None:
    moving = 'tool_mass = "0.7 kg"\ngantry_mass = "0.5 kg"\nbed_mass = "1.1 kg"\n'
    layout = 'layout = "moving-bed"\nspeeds = ["60 mm/s"]\n'
    text = f'name = "n"\n[printer]\nmass = "{{}}"\n{SIZE}\n[motion]\n{layout}{moving}'
    assert read_brief_text(text.format("2.4 kg"), "brief.toml").printer.mass == 2.4
    with pytest.raises(InputError) as caught:
        read_brief_text(text.format("2.2 kg"), "brief.toml")
    assert [each.line() for each in caught.value.faults] == [
        "brief.toml: printer.mass: found 2.2 kg; wanted more than the 2.3 kg that moves on it; "
        "weigh the whole printer, or tell motion.tool_mass, gantry_mass and bed_mass"
    ]


def test_a_printer_lighter_than_what_is_taken_to_move_on_it_is_doubted() -> None:
    layout = 'layout = "crossed-belt"\nspeeds = ["60 mm/s"]\ntool_mass = "0.4 kg"\n'
    text = f'name = "n"\n[printer]\nmass = "0.7 kg"\n{SIZE}\n[motion]\n{layout}'
    told = read_brief_text(text, "brief.toml").warnings
    assert (
        "printer.mass: 0.7 kg is no more than the 0.8 kg taken to move on it; weigh the whole "
        "printer, or tell motion.tool_mass, gantry_mass and bed_mass"
    ) in told


def test_dotted_keys_and_a_heading_of_one_table_are_told_apart() -> None:
    with pytest.raises(InputError) as caught:
        read_brief_text('printer.mass = "12 kg"\n[printer]\n', "brief.toml")
    assert caught.value.faults[0].line() == (
        "brief.toml: found a line that is no TOML: Cannot declare ('printer',) twice (at line 2, "
        "column 9); wanted each table begun once; a table is begun by its first dotted key "
        "(printer.mass = ...) or by its heading ([printer]), not by both: write all its keys with "
        "dots, before the first heading, or all without under one heading"
    )


def test_level_is_told_to_rest_on_a_centre_of_mass_that_is_assumed() -> None:
    bare = read_brief_text(BARE, "brief.toml")
    assert level_rests_on(bare.assumed) == (
        "Level and tilt rest on a centre of mass that is assumed, at 0 mm, 0 mm, 202.5 mm: weigh "
        "the printer foot by foot (feet.weights) or balance it on a bar to know them."
    )
    assert level_rests_on(read_brief_text(ROOM, "brief.toml").assumed) == ""
    weights = '[feet]\nweights = ["2.7 kg", "2.8 kg", "3.2 kg", "3.1 kg"]\n'
    weighed = read_brief_text(swapped(("[feet]\n", weights), (CENTRE, "")), "brief.toml")
    assert level_rests_on(weighed.assumed) == ""
    told = {each.key: each.value for each in weighed.assumed}
    assert told["printer.center_of_mass, height"] == "216 mm high"


def test_a_hollow_board_is_a_light_desk() -> None:
    light = ('material = "mdf"\nthickness = "18 mm"', 'material = "hollow-board"')
    brief = read_brief_text(swapped(light), "brief.toml")
    desk = brief.desk
    assert (desk.material, desk.skin) == ("hollow-board", 0.003)
    # two skins of 3 mm and a paper core of 34 mm against 18 mm of fibreboard
    per_area = 2 * desk.skin * desk.density + (desk.thickness - 2 * desk.skin) * desk.core_density
    assert 5.0 < per_area < 0.5 * 0.018 * 730.0
