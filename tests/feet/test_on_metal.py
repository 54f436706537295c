"""Feet where they can stand: every screw over metal, every glued face whole on it."""

from __future__ import annotations

import math

import numpy as np
import pytest
from briefs import PLACES, faults, swapped
from hypothesis import given
from hypothesis import strategies as st

from isolator.brief import foot_positions, read_brief_text
from isolator.brief.metal import metal_under, rail_lines
from isolator.cards import load_cards
from isolator.design.beyond import screw_places
from isolator.feet.checks import METAL, Bounds
from isolator.feet.foot_checks import _size_checks
from isolator.feet.on_metal import SLOT_PLAY, metal_left
from isolator.feet.sized import sized_foot
from isolator.feet.sizing import foot_of
from isolator.feet.task import FeetTask, build_feet_task
from isolator.report.sentences.checks import advice
from isolator.vibration.band import Check

CARD = load_cards()["nr-50"]
SLOT = 'attachment = "slot-20"'
GLUE = 'attachment = "adhesive"'


def task_of(feet: str, *pairs: tuple[str, str], ruled: bool = True) -> FeetTask:
    """Return the example's task, 420 by 440 mm, with other lines under [feet]."""
    places = [(PLACES, "")] if ruled else []
    return build_feet_task(read_brief_text(swapped((SLOT, feet), *places, *pairs), "brief.toml"))


def left(task: FeetTask, width: float, *places: tuple[float, float]) -> float:
    foot = foot_of(task, CARD, "disc", width, 0.0, 0.012, 1, places, 0.0)
    return float(metal_left(sized_foot(task, foot, CARD))[0])


def told(task: FeetTask, width: float, *places: tuple[float, float]) -> Check:
    """Return the check as it is told at last."""
    brief = read_brief_text(swapped(), "brief.toml")
    bounds = Bounds(task=task, limits=brief.limits, modes=11.0)
    foot = foot_of(task, CARD, "disc", width, 0.0, 0.012, 1, places, 0.0)
    return next(each for each in _size_checks(bounds, [foot], CARD) if each.name == METAL)


@pytest.mark.parametrize("count", [3, 4, 6])
@pytest.mark.parametrize(("along", "line"), [("x", 0.21), ("y", 0.2)])
def test_feet_with_slot_screws_stand_on_the_rails_middle_line(
    count: int, along: str, line: float
) -> None:
    task = task_of(f'{SLOT}\nslot_along = "{along}"')
    places = foot_positions(task.feet, task.frame, count)
    across = 1 if along == "x" else 0
    # 440 or 420 mm less a profile of 20 mm, halved
    assert {round(abs(place[across]), 9) for place in places} == {line}
    assert len(set(places)) == count
    assert left(task, 0.027, *places) == pytest.approx(SLOT_PLAY)


def test_rails_that_are_told_rule_and_a_foot_beside_them_is_sent_back() -> None:
    task = task_of(f'{SLOT}\nrails = ["-193 mm", "171 mm"]\nmetal_width = "30 mm"')
    assert rail_lines(task.feet, task.frame) == (-0.193, 0.171)
    assert {y for _, y in foot_positions(task.feet, task.frame, 4)} == {-0.193, 0.171}
    strips = metal_under(task.feet, task.frame)
    assert [s.front for s in strips] == pytest.approx([-0.208, 0.156])
    assert [s.back for s in strips] == pytest.approx([-0.178, 0.186])
    check = told(task, 0.027, (-0.17, -0.193), (0.164, 0.1662))
    assert not check.passed
    assert check.value == pytest.approx(0.5 - 4.8)
    assert advice(check) == (
        "the foot at (164, 166.2) mm reaches 4.3 mm beyond the frame's metal: move it to "
        "(164, 171) mm with feet.positions, or tell feet.metal, feet.metal_width and feet.rails "
        "as they are"
    )


def test_places_that_are_told_alone_say_where_the_slots_run() -> None:
    task = task_of(SLOT, ruled=False)
    assert rail_lines(task.feet, task.frame) == (-0.191, 0.187)
    assert left(task, 0.027, *(task.feet.positions or ())) == pytest.approx(SLOT_PLAY)


@given(
    width=st.integers(15, 60),
    metal=st.sampled_from(["sheet", "rails", "edges", "brackets"]),
    wide=st.integers(12, 70),
    x=st.floats(-0.2, 0.2),
    y=st.floats(-0.21, 0.21),
)
def test_a_glued_face_holds_just_where_every_point_of_its_square_is_over_metal(
    width: int, metal: str, wide: int, x: float, y: float
) -> None:
    task = task_of(f'{GLUE}\nmetal = "{metal}"\nmetal_width = "{wide} mm"')
    foot = foot_of(task, CARD, "disc", width * 1e-3, 0.0, 0.012, 1, ((x, y),), 0.0)
    half, found = foot.widths[0] / 2.0, left(task, width * 1e-3, (x, y))
    if abs(found) < 1e-6:
        return

    def metal_at(a: float, b: float) -> bool:
        # told anew: how far a point lies inside the outside of 420 by 440 mm, each way
        inx, iny = 0.21 - abs(a), 0.22 - abs(b)
        near = wide * 1e-3
        there = {
            "sheet": True,
            "rails": min(inx, iny) <= near,
            "edges": min(inx, iny) <= near,
            "brackets": max(inx, iny) <= near,
        }
        return min(inx, iny) >= 0.0 and there[metal]

    spread = np.linspace(-half, half, 41)
    whole = all(metal_at(x + a, y + b) for a in spread for b in spread)
    assert (found > 0) == whole or (metal in ("rails", "edges") and whole and half > wide * 5e-4)


def test_a_face_wider_than_its_rail_is_told_what_fits() -> None:
    task = task_of(f'{GLUE}\nmetal = "rails"\nrails = ["-200 mm", "196 mm"]')
    foot = foot_of(task, CARD, "disc", 0.024, 0.0, 0.012, 1, ((0.1, 0.196),), 0.0)
    check = told(task, 0.024, (0.1, 0.196))
    over = (foot.widths[1] - 0.02) / 2.0 * 1e3
    assert check.value == pytest.approx(-over, abs=1e-6)
    assert advice(check) == (
        f"the foot at (100, 196) mm reaches {over:.1f} mm beyond the frame's metal, which is 20 mm "
        "wide: take a pad that fits on it, screw the feet on, or put a plate between"
    )


def test_every_screw_of_two_lies_over_metal() -> None:
    feet = 'attachment = "two-bolts"\nbolt = "5 mm"\nspacing = "47 mm"\nmetal = "edges"'
    task = task_of(feet + '\nmetal_width = "17 mm"')
    assert {abs(y) for _, y in foot_positions(task.feet, task.frame, 4)} == {0.2115}
    # in the middle of the front edge: 8.5 mm less half an M5; on the side's edge one hangs free
    assert left(task, 0.027, (0.03, -0.2115)) == pytest.approx(0.0085 - 0.0025)
    assert left(task, 0.027, (0.2015, 0.04)) == pytest.approx(0.0085 - 0.0235 - 0.0025)


@pytest.mark.parametrize("feet", ['attachment = "tapped-end"', 'attachment = "tube-end"'])
def test_what_goes_into_a_profiles_end_or_a_tube_is_not_asked(feet: str) -> None:
    more = '\ntube = "16 mm"' if "tube" in feet else ""
    assert math.isinf(left(task_of(feet + more), 0.027, (0.2, 0.21)))


def test_screws_are_drawn_where_they_are_judged() -> None:
    holes = 'attachment = "holes"\nholes = [["-29 mm", "3 mm"], ["31 mm", "-4 mm"]]'
    for task, places in (
        (task_of(holes), ((-0.029, 0.003), (0.031, -0.004))),
        (task_of('attachment = "bolt"'), ((0.0, 0.0),)),
        (task_of(GLUE), ()),
    ):
        foot = foot_of(task, CARD, "disc", 0.027, 0.0, 0.012, 1, ((0.1, 0.1),), 0.0)
        assert screw_places(foot) == places
    turned = task_of(f'{SLOT}\nslot_along = "y"')
    foot = foot_of(turned, CARD, "disc", 0.027, 0.0, 0.012, 1, ((0.1, 0.1),), 0.0)
    (a, front), (b, back) = screw_places(foot)
    assert (a, b) == (0.0, 0.0)
    assert back == -front > foot.widths[1] / 2.0


def test_a_metal_that_is_none_is_one_line() -> None:
    text = swapped((SLOT, f'{SLOT}\nmetal = "plank"'))
    assert faults(text) == [
        'brief.toml: feet.metal: found "plank"; wanted one of sheet, rails, edges, brackets; '
        "write one of these words, in quotes"
    ]
