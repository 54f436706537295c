"""Attachments judged by what holds them: names, limits, advice, and a foot worked by hand."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from briefs import ROOM
from hypothesis import given, settings
from hypothesis import strategies as st

from isolator.brief import read_brief_text
from isolator.cards import load_cards
from isolator.design import ATTACHMENTS, Foot
from isolator.design.filaments import FILAMENTS, softest
from isolator.feet.attachment_checks import DRAGGED, STUCK, holding_checks
from isolator.feet.sizing import foot_of
from isolator.feet.strengths import DRAG, MOVES, TAPE, TAPE_SHEAR
from isolator.feet.task import build_feet_task
from isolator.report.sentences.checks import advice

BRIEF = read_brief_text(ROOM, "brief.toml")
CARD = load_cards()["nr-50"]


def foot(attachment: str, **changed) -> Foot:
    one = foot_of(
        build_feet_task(BRIEF),
        CARD,
        "disc",
        0.03,
        0.0,
        0.014,
        1,
        ((0.18, 0.19), (-0.18, 0.19)),
        0.0,
    )
    keys = ATTACHMENTS[attachment].keys
    holes = ((-0.031, 0.0), (0.034, 0.0)) if "spacing" in keys else ()
    if "holes" in keys:
        holes = ((-0.03, 0.004), (0.032, -0.012), (0.028, 0.015))
    sizes = {"tube": 0.0134} if "tube" in keys else {}
    sizes |= {"rod": 0.0104} if "rod" in keys else {}
    return replace(one, **{"attachment": attachment, "bolt": 0.0, "holes": holes} | sizes | changed)


def values(which: Foot, load: float, **more) -> dict[str, float]:
    told = holding_checks(which, **{"load": load, "friction": 0.5, "filament": "petg"} | more)
    return {check.name: check.value for check in told}


BESIDES = {
    "driven": set(),
    "captive": set(),
    "plug": {"plug in its tube"},
    "socket": {"thread in the plastic", "socket on its rod"},
    "stud": {"stud bends"},
}


@pytest.mark.parametrize("attachment", ATTACHMENTS)
def test_every_attachment_is_judged_by_what_holds_it(attachment: str) -> None:
    told = holding_checks(foot(attachment), load=31.0, friction=0.5, filament="petg", sideways=7.0)
    names = {check.name for check in told}
    row = ATTACHMENTS[attachment]
    if attachment == "adhesive":
        assert names == {"glue holds"}
    elif row.flanged:
        assert names == {"flange bends", "plastic under the screw heads", "screws hold"}
    else:
        assert names == {"plastic over the screw head", "screws hold"} | BESIDES[row.way]
    assert all(check.passed and not advice(check) for check in told)
    assert all(0.0 < check.value < check.limit for check in told)


def test_a_thread_cut_in_the_cap_is_told_instead_of_a_head() -> None:
    assert set(values(foot("bolt", fixing="direct"), 29.0)) == {
        "screws hold",
        "thread in the plastic",
    }
    for fixing in ("nut", "insert"):
        assert set(values(foot("bolt", fixing=fixing), 29.0)) == {
            "screws hold",
            "plastic over the screw head",
        }


@settings(max_examples=60)
@given(
    load=st.floats(3, 90),
    more=st.floats(1.05, 4.0),
    attachment=st.sampled_from(tuple(ATTACHMENTS)),
    friction=st.floats(0.05, 2.0),
)
def test_more_is_never_easier(load: float, more: float, attachment: str, friction: float) -> None:
    """More load, a taller foot, a grippier desk, harder moves."""
    one = foot(attachment)
    tall = replace(one, pad=replace(one.pad, thickness=one.pad.thickness * more))
    now = values(one, load, friction=friction, sideways=0.2 * load)
    for harder in (
        values(one, load * more, friction=friction, sideways=0.2 * load * more),
        values(tall, load, friction=friction, sideways=0.2 * load),
        values(one, load, friction=friction * more, sideways=0.2 * load),
        values(one, load, friction=friction, sideways=0.2 * load * more),
    ):
        assert all(harder[name] >= now[name] - 1e-9 for name in now)


def test_a_slot_foot_tips_about_its_profile_by_hand() -> None:
    """Tall foot on a 20 mm profile along x, 37 N: the profile's edge is 10 mm off the screws.

    Dragged by 0.8 · 37 = 29.6 N at the foot's height; both M5 screws 10 mm from the edge; half of
    37 N hangs on them besides. The pull's prying: end 6.75 mm, arm 5.25 − 9.5/4 = 2.875 mm: 1.4.
    """
    one = foot("slot-20", cap=0.0318)
    moment = 29.6 * one.height - 37.0 * 0.01
    pried = 1.4 * (moment / (2.0 * 0.01) + STUCK * 37.0 / 2.0)
    area = math.pi / 4.0 * (5.0 - 0.9382 * 0.8) ** 2 * 1e-6
    by_hand = 100.0 * DRAG.steel * pried / (area * 240e6)
    # a push aslant pulls one screw a little more than the other
    assert by_hand <= values(one, 37.0)["screws hold"] <= 1.06 * by_hand
    turned = replace(one, along="y")  # a round foot does not mind
    assert values(turned, 37.0) == pytest.approx(values(one, 37.0))


def test_a_printed_foot_is_judged_by_its_own_filament_and_by_what_it_gives() -> None:
    cup = foot("slot-30")
    pad = replace(cup.pad, material="tpu-85-gyroid-25", printed=True)
    soft = replace(cup, kind="printed", pad=pad, cap=0.0032, wall=0.0, side_room=0.0)
    hard = replace(soft, pad=replace(pad, material="tpu-95-gyroid-25"))
    assert set(values(soft, 21.0)) == {*values(cup, 21.0), "flange gives"}
    ratio = values(soft, 21.0)["flange gives"] / values(hard, 21.0)["flange gives"]
    assert ratio == pytest.approx(softest("tpu-95") / softest("tpu-85"))
    # the flange is flexible whatever the rigid parts are made of
    assert values(soft, 21.0) == values(soft, 21.0, filament="pla")
    flexible = replace(soft, pad=replace(pad, material="own-rubbery-print"))
    assert values(flexible, 21.0) == values(soft, 21.0)
    # its mount is rigid
    mounted = replace(soft, attachment="bolt", cap=0.0088)
    weaker = FILAMENTS["petg"].strength.across / FILAMENTS["asa"].strength.across
    name = "plastic over the screw head"
    assert values(mounted, 21.0, filament="asa")[name] == pytest.approx(
        weaker * values(mounted, 21.0)[name]
    )


def test_moves_rule_where_they_push_hard() -> None:
    """The same push by moves counts MOVES/DRAG of a drag's, less what hangs on a stuck foot."""
    one = foot("rod-end")
    dragged = values(one, 25.0)["socket on its rod"]
    moved = values(one, 25.0, sideways=DRAGGED * 25.0)["socket on its rod"]
    assert moved / dragged == pytest.approx(MOVES.plastic / DRAG.plastic)
    assert values(one, 25.0, sideways=0.1 * 25.0) == values(one, 25.0)


def test_a_stilt_on_tape_is_refused_with_advice() -> None:
    one = foot("adhesive")
    stilt = replace(one, cap=0.07)
    (check,) = holding_checks(stilt, load=40.0, friction=0.5, filament="petg")
    # by hand: body 30 + 2·(side room + wall) wide, 32 N at its height, 40 N in the middle
    wide = 0.03 + 2.0 * (one.side_room + one.wall)
    area = math.pi * wide**2 / 4.0
    moment = DRAGGED * 40.0 * stilt.height - 40.0 * wide / 2.0
    peel = moment / (math.pi * wide**3 / 32.0) + STUCK * 40.0 / area
    shear = DRAGGED * 40.0 / area
    assert check.value == pytest.approx(100.0 * math.hypot(peel / TAPE, shear / TAPE_SHEAR))
    assert not check.passed
    assert advice(check) == "take a wider pad, or screw the foot on"


def test_bare_pads_have_no_attachment() -> None:
    assert (
        holding_checks(
            replace(foot("adhesive"), kind="bare"), load=40.0, friction=0.5, filament="petg"
        )
        == ()
    )


def test_steel_is_never_what_gives_way() -> None:
    """ISO 898-1, from memory: stress area of M4 8.78 mm², proof stress of class 8.8 580 MPa.

    The plastic under an M4 head may carry, at its allowed stress, a small part of the proof load.
    """
    proof = 8.78e-6 * 580e6
    allowed = max(each.strength.within for each in FILAMENTS.values()) / DRAG.plastic
    under_head = allowed * math.pi / 4.0 * (0.0076**2 - 0.0045**2)
    assert under_head < 0.15 * proof
