"""The search stops exactly what the drawing would refuse for want of room for a screw."""

from __future__ import annotations

import math
from collections.abc import Sequence
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
from isolator.cards import Material, load_cards
from isolator.feet.candidates import CandidateBatch
from isolator.feet.screw_clearance import (
    frame_left,
    head_room,
    least_head_room,
    least_screw_room,
    screw_room,
    slab_left,
)
from isolator.feet.sized import SizedBatch
from isolator.feet.sizing import foot_of, outer_width
from isolator.feet.task import FeetTask, build_feet_task

CARDS = load_cards()
TASK = build_feet_task(read_brief_text(ROOM, "brief.toml"))
PLACES = ((-0.18, -0.19), (0.18, -0.19), (0.0, 0.19))
HOLES = ((-0.0291, 0.0083), (0.0317, -0.0052))


def task_of(attachment: str) -> FeetTask:
    holes = HOLES if attachment in ("two-bolts", "holes", "self-tapping") else ()
    return replace(TASK, feet=replace(TASK.feet, attachment=attachment, bolt=0.0, holes=holes))


def feet_of(
    task: FeetTask,
    card: Material,
    shape: str,
    first: float,
    second: float,
    width: float,
    places: Sequence[tuple[float, float]] = PLACES,
    *,
    thickness: float = 0.01,
) -> SizedBatch:
    """Return one foot of outside `width` as a batch."""
    batch = CandidateBatch(
        material=card,
        shape=shape,
        positions=np.array(places),
        first=np.array([first]),
        second=np.array([second]),
        thickness=np.array([thickness]),
        layers=np.array([1]),
    )
    return SizedBatch(task=task, batch=batch, width=np.array([width]), height=np.array([thickness]))


@settings(max_examples=60)
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
    feet = feet_of(task, card, shape, first, second, outside, thickness=thickness)
    beside = float(screw_room(feet)[0]) - least_screw_room(task)
    under = float(head_room(feet)[0]) - least_head_room(task)
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
    disc = feet_of(task, card, "disc", 0.03, 0.0, width)
    assert screw_room(disc) == pytest.approx(near - width / 2.0)
    wide = outer_width(task, 0.05, card, "rectangle")
    # both holes lie beside the box's long sides, nearer than its corners
    half = (0.03 + wide - 0.05) / 2.0
    box = feet_of(task, card, "rectangle", 0.03, 0.05, wide)
    assert screw_room(box) == pytest.approx(0.0291 - half)


def test_pads_must_lie_whole_under_a_slab() -> None:
    slab = Slab(size=(0.46, 0.42, 0.04), mass=18.0, position=(0.01, -0.02), gap=0.0, lip=0.0)
    task = replace(TASK, slab=slab)
    places = ((-0.19, -0.2), (0.2, -0.2), (0.2, 0.16), (-0.19, 0.16))

    def left(task: FeetTask, shape: str, first: float, second: float) -> float:
        card = CARDS["nr-50"]
        return float(slab_left(feet_of(task, card, shape, first, second, 0.06, places))[0])

    # along x: 230 − 200 mm from the slab's own middle less half the pad; along y: 210 − 180 mm
    assert left(task, "rectangle", 0.03, 0.02) * 1e3 == pytest.approx(230 - 200 - 15)
    assert left(task, "rectangle", 0.06, 0.05) * 1e3 == pytest.approx(230 - 200 - 30)
    assert left(task, "rectangle", 0.02, 0.03) * 1e3 == pytest.approx(210 - 180 - 15)
    assert left(task, "rectangle", 0.05, 0.06) * 1e3 == pytest.approx(210 - 180 - 30)
    assert math.isinf(left(TASK, "disc", 0.03, 0.02))
    assert math.isinf(left(TASK, "disc", 0.06, 0.05))


@pytest.mark.parametrize("along", ["x", "y"])
def test_a_slot_nut_must_lie_in_its_profile(along: str) -> None:
    task = replace(task_of("slot-30"), slab=None)
    task = replace(task, feet=replace(task.feet, slot_along=along))
    places = ((-0.182, -0.191), (0.179, 0.187))
    sides = (CARDS["nr-50"], "rectangle", 0.03, 0.05, 0.058, places)
    # half of 420 or 440 mm, less the farthest foot, half the foot, gap and half an M6 head
    half, far, own = (210, 182, 30 + 8) if along == "x" else (220, 191, 50 + 8)
    left = float(frame_left(feet_of(task, *sides))[0])
    assert left * 1e3 == pytest.approx(half - far - own / 2 - 0.5 - 10.5 / 2)
    assert math.isinf(float(frame_left(feet_of(task_of("two-bolts"), *sides))[0]))
