"""How feet are held, as a brief tells it: defaults, what is ignored, and every fault as read."""

from __future__ import annotations

import pytest
from briefs import ROOM, faults, swapped

from isolator.brief import read_brief_text
from isolator.design import ATTACHMENTS

SLOT = 'attachment = "slot-20"'
NEEDED = {
    "tube": 'tube = "19 mm"',
    "rod": 'rod = "9 mm"',
    "grip": 'grip = "3.1 mm"',
    "spacing": 'spacing = "61 mm"',
    "holes": 'holes = [["-31 mm", "4 mm"], ["29 mm", "-5 mm"]]',
}


def held(lines: str) -> str:
    return swapped((SLOT, lines))


@pytest.mark.parametrize("attachment", ATTACHMENTS)
def test_every_attachment_reads_with_what_it_needs(attachment: str) -> None:
    row = ATTACHMENTS[attachment]
    keys = [key for key in row.keys if key != "grip" or row.sheet]
    needed = "\n".join(NEEDED[key] for key in keys if key in NEEDED)
    text = held(f'attachment = "{attachment}"\n{needed}')
    feet = read_brief_text(text, "brief.toml").feet
    assert feet.attachment == attachment
    assert bool(feet.holes) == ("spacing" in keys or "holes" in keys)
    assert (feet.bolt > 0) == (attachment not in ("adhesive", "tube-end", "rod-end"))
    assert (feet.tube > 0, feet.rod > 0) == (attachment == "tube-end", attachment == "rod-end")


def test_two_screws_stand_half_the_spacing_from_the_middle() -> None:
    feet = read_brief_text(held('attachment = "two-bolts"\nspacing = "61 mm"'), "brief.toml").feet
    assert feet.holes == ((-0.0305, 0.0), (0.0305, 0.0))


@pytest.mark.parametrize(
    ("lines", "message"),
    [
        (
            'attachment = "holes"',
            "feet.holes: found nothing; wanted a list of 1 to 12 places, from the middle of a "
            'foot; write it like [["-22 mm", "0 mm"], ["22 mm", "0 mm"]]',
        ),
        (
            'attachment = "panel"',
            'feet.grip: found nothing; wanted a length with its unit; add grip = "… mm"',
        ),
        (
            'attachment = "stud"\nbolt = "7 mm"',
            "feet.bolt: found 7 mm; wanted one of 3 mm, 4 mm, 5 mm, 6 mm, 8 mm, 10 mm; "
            "the nearest is 6 mm",
        ),
        (
            'attachment = "self-tapping"\nspacing = "57 mm"\nbolt = "5 mm"',
            "feet.bolt: found 5 mm; wanted one of 2.9 mm, 3.5 mm, 4.2 mm, 4.8 mm; "
            "the nearest is 4.8 mm",
        ),
        (
            'attachment = "bolt"\nfixing = "insert"\nbolt = "10 mm"',
            "feet.bolt: found 10 mm; wanted one of 3 mm, 4 mm, 5 mm, 6 mm, 8 mm; "
            "the nearest is 8 mm",
        ),
        (
            'attachment = "bolt"\nfixing = "nail"',
            'feet.fixing: found "nail"; wanted one of screw, nut, insert, direct; '
            "write one of these words, in quotes",
        ),
        (
            'attachment = "slot-20"\npads = "flat"',
            'feet.pads: found "flat"; wanted one of auto, equal, level; '
            "write one of these words, in quotes",
        ),
    ],
)
def test_one_fault_is_one_line(lines: str, message: str) -> None:
    assert faults(held(lines)) == [f"brief.toml: {message}"]


def test_what_an_attachment_has_not_is_ignored_with_a_word() -> None:
    text = held('attachment = "adhesive"\nrod = "8 mm"\nslot_key = "6 mm"\nfixing = "nut"')
    told = read_brief_text(text, "brief.toml").warnings
    for key in ("rod", "slot_key", "fixing"):
        assert f'feet.{key} is ignored: "adhesive" has none' in told


SLAB = '[slab]\nsize = ["460 mm", "470 mm", "38 mm"]\n\n[desk]'


def test_a_slab_weighs_what_a_paver_of_its_size_does_unless_weighed() -> None:
    brief = read_brief_text(swapped(("[desk]", SLAB), (SLOT, "")), "brief.toml")
    assert brief.slab is not None
    assert brief.slab.mass == pytest.approx(2300.0 * 0.46 * 0.47 * 0.038)
    # the printer keeps the feet of feet.now: its frame is that much higher
    assert brief.slab.gap == pytest.approx(0.008)
    assert brief.slab.lip == pytest.approx(0.008 + 0.006)


@pytest.mark.parametrize(
    ("pairs", "message"),
    [
        (
            (('"460 mm"', '"130 mm"'),),
            "slab.size: found 130 mm; wanted a slab under the printer's 420 mm along x; "
            "take a larger one, or mend slab.position",
        ),
        (
            (('["182 mm", "187 mm"]', '["182 mm", "257 mm"]'),),
            "feet.positions[3]: found a place beside the slab; wanted a place under it; "
            "with [slab] the feet go under the slab",
        ),
    ],
)
def test_what_cannot_stand_on_a_slab_is_refused(
    pairs: tuple[tuple[str, str], ...], message: str
) -> None:
    text = swapped(*pairs, text=swapped(("[desk]", SLAB), (SLOT, "")))
    assert f"brief.toml: {message}" in faults(text)


BALL = '\n[stock]\n[[stock.ball]]\ndiameter = "41 mm"\nmaterial = "nr-50"\n'


def test_a_ball_without_a_wall_is_solid_and_a_wall_past_the_middle_is_refused() -> None:
    ball = read_brief_text(ROOM + BALL, "brief.toml").stock.balls[0]
    assert (ball.diameter, ball.wall) == pytest.approx((0.041, 0.0205))
    assert faults(ROOM + BALL + 'wall = "21 mm"\n') == [
        "brief.toml: stock.ball[1].wall: found 21 mm; wanted no more than half of 41 mm; "
        "half of the diameter is a solid ball"
    ]


def test_scales_under_the_feet_find_the_centre_of_mass() -> None:
    # moments about the left pair and the front pair by hand: x = 364·(2.7 + 3.3)/11.6 − 182 …
    weighed = held('attachment = "slot-20"\nweights = ["2.4 kg", "2.7 kg", "3.3 kg", "3.2 kg"]')
    brief = read_brief_text(weighed, "brief.toml")
    x = 0.364 * (2.7 + 3.3) / 11.6 - 0.182
    y = 0.378 * (3.3 + 3.2) / 11.6 - 0.191
    assert brief.printer.center_of_mass == pytest.approx((x, y, 0.214))
    assert not [told for told in brief.warnings if told.startswith("feet.weights")]


def test_scales_that_do_not_fit_are_told() -> None:
    one_short = held('attachment = "slot-20"\nweights = ["2.4 kg", "2.7 kg", "3.3 kg"]')
    assert faults(one_short) == [
        "brief.toml: feet.weights: found 3 weights for 4 feet; "
        "wanted one for each foot as it stands now, in their order; add or remove some"
    ]
    heavy = held('attachment = "slot-20"\nweights = ["3.4 kg", "2.7 kg", "3.3 kg", "3.2 kg"]')
    assert (
        "feet.weights add up to 12.6 kg, the printer is told as 11.8 kg: weigh it again without "
        "spool and print"
    ) in read_brief_text(heavy, "brief.toml").warnings


def test_lips_that_find_no_room_are_left_out_unless_asked_for() -> None:
    glued = SLAB.replace('"38 mm"]', '"38 mm"]\nbetween = "none"')
    small = swapped(("[desk]", glued), (SLOT, ""), ('"460 mm"', '"423 mm"'))
    brief = read_brief_text(small, "brief.toml")
    assert brief.slab is not None
    assert brief.slab.lip == 0.0
    assert (
        "slab.lip is left out: the slab is not 3.5 mm wider than the printer at every side; put "
        "an anti-slip sheet between them"
    ) in brief.warnings
    asked = swapped(('"38 mm"]', '"38 mm"]\nlip = "8 mm"'), text=small)
    assert faults(asked) == [
        "brief.toml: slab.lip: found 8 mm; wanted 3.5 mm of slab beside the printer at every side; "
        'take a larger slab, or write lip = "0 mm"'
    ]


def test_lips_reach_up_to_a_frame_that_stands_on_feet_of_its_own() -> None:
    feet = swapped(("[desk]", SLAB), (SLOT, ""), ('"38 mm"]', '"38 mm"]\ngap = "11 mm"'))
    slab = read_brief_text(feet, "brief.toml").slab
    assert slab is not None
    assert slab.lip == pytest.approx(0.017)
    low = swapped(('gap = "11 mm"', 'gap = "11 mm"\nlip = "8 mm"'), text=feet)
    assert faults(low) == [
        "brief.toml: slab.lip: found 8 mm; wanted 15 mm or more; the frame is 11 mm over the slab: "
        'lower corners would hold nothing; or write lip = "0 mm"'
    ]
