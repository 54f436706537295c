"""The search stops exactly what the drawing would refuse for want of room for a screw."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from briefs import ROOM
from hypothesis import given, settings
from hypothesis import strategies as st
from sheets import PRINT

from geometry.draw import foot_parts
from geometry.solids.part import CannotDraw
from isolator.brief import Slab, read_brief_text
from isolator.cards import load_cards
from isolator.feet.screw_clearance import (
    frame_left,
    head_room,
    least_head_room,
    least_screw_room,
    screw_room,
    slab_left,
)
from isolator.feet.sizing import foot_of, outer_width
from isolator.feet.task import FeetTask, build_feet_task

CARDS = load_cards()
TASK = build_feet_task(read_brief_text(ROOM, "brief.toml"))
PLACES = ((-0.18, -0.19), (0.18, -0.19), (0.0, 0.19))
HOLES = ((-0.0291, 0.0083), (0.0317, -0.0052))


def task_of(attachment: str) -> FeetTask:
    holes = HOLES if attachment in ("two-bolts", "holes", "self-tapping") else ()
    return replace(TASK, feet=replace(TASK.feet, attachment=attachment, bolt=0.0, holes=holes))


@settings(deadline=None, max_examples=60)
@given(
    attachment=st.sampled_from(["slot-20", "slot-40", "two-bolts", "holes", "self-tapping"]),
    ident=st.sampled_from(["nr-50", "sponge-1", "tpu-85-gyroid-15"]),
    shape=st.sampled_from(["disc", "rectangle", "square-with-hole"]),
    width=st.integers(14, 62),
    thick=st.integers(30, 160),
)
def test_flanges_are_drawn_just_where_both_rooms_are_enough(
    attachment: str, ident: str, shape: str, width: int, thick: int
) -> None:
    task, card = task_of(attachment), CARDS[ident]
    first, thickness = width * 1e-3, thick * 1e-4
    second = {"disc": 0.0, "rectangle": 0.021, "square-with-hole": 0.4 * first}[shape]
    foot = foot_of(task, card, shape, first, second, thickness, 1, PLACES, 0.0)
    widest = max(first, second) if shape == "rectangle" else first
    outside = outer_width(task, widest, card, shape)
    beside = float(
        screw_room(task, card, shape, np.array(first), np.array(second), np.array(outside))
    ) - least_screw_room(task)
    under = float(head_room(task, card, shape, thickness)) - least_head_room(task)
    if min(abs(beside), abs(under)) < 1e-6:  # on the edge, rounding decides
        return
    try:
        drawn, why = bool(foot_parts(foot, PRINT)), ""
    except CannotDraw as refused:
        drawn, why = False, refused.dimension
    assert why in ("", "bolt", "holes", "pad.thickness")
    assert drawn == (beside > 0 and under > 0)


def test_room_beside_a_disc_is_a_distance_and_beside_a_box_the_nearest_face() -> None:
    task, card = task_of("holes"), CARDS["nr-50"]
    width = outer_width(task, 0.03, card, "disc")
    near = min(math.hypot(x, y) for x, y in HOLES)
    sides = (np.array(0.03), np.array(0.0), np.array(width))
    assert float(screw_room(task, card, "disc", *sides)) == pytest.approx(near - width / 2.0)
    box = (np.array(0.03), np.array(0.05), np.array(outer_width(task, 0.05, card, "rectangle")))
    # both holes lie beside the box's long sides, nearer than its corners
    half = (0.03 + float(box[2]) - 0.05) / 2.0
    assert float(screw_room(task, card, "rectangle", *box)) == pytest.approx(0.0291 - half)


def test_pads_must_lie_whole_under_a_slab() -> None:
    slab = Slab(size=(0.46, 0.42, 0.04), mass=18.0, position=(0.01, -0.02), gap=0.0, lip=0.0)
    task = replace(TASK, slab=slab)
    places = np.array([[-0.19, -0.2], [0.2, -0.2], [0.2, 0.16], [-0.19, 0.16]])
    sides = (np.array([0.03, 0.06]), np.array([0.02, 0.05]))
    # along x: 230 − 200 mm from the slab's own middle less half the pad; along y: 210 − 180 mm
    left = slab_left(task, "rectangle", *sides, places)
    assert left * 1e3 == pytest.approx([230 - 200 - 15, 230 - 200 - 30])
    deep = slab_left(task, "rectangle", *sides[::-1], places)
    assert deep * 1e3 == pytest.approx([210 - 180 - 15, 210 - 180 - 30])
    assert np.isinf(slab_left(TASK, "disc", *sides, places)).all()


@pytest.mark.parametrize("along", ["x", "y"])
def test_a_slot_nut_must_lie_in_its_profile(along: str) -> None:
    task = replace(task_of("slot-30"), slab=None)
    task = replace(task, feet=replace(task.feet, slot_along=along))
    places = np.array([[-0.182, -0.191], [0.179, 0.187]])
    sides = (np.array(0.03), np.array(0.05), np.array(0.058))
    # half of 420 or 440 mm, less the farthest foot, half the foot, gap and half an M6 head
    half, far, own = (210, 182, 30 + 8) if along == "x" else (220, 191, 50 + 8)
    left = float(frame_left(task, "rectangle", *sides, places))
    assert left * 1e3 == pytest.approx(half - far - own / 2 - 0.5 - 10.5 / 2)
    assert math.isinf(float(frame_left(task_of("two-bolts"), "rectangle", *sides, places)))
