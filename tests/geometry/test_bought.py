"""What is bought for feet, in the assembly: every piece, as long as it is sold, meeting none."""

from __future__ import annotations

from dataclasses import replace

import pytest
from pairwise import spread
from sheets import POSITIONS, PRINT, design, drawn, foot

from geometry.assembly import assembled, bodies
from geometry.draw import draw
from geometry.feet.bought import bought_bodies
from geometry.solids.verify import bounds
from isolator.design import ATTACHMENTS, least_cap
from isolator.design.screw_lengths import screw_length
from isolator.workshop.foot_hardware import foot_rows

CUTS = ("socket",)  # the screw cuts its thread in it
HEAD = {"slot-20": 2.75, "two-bolts": 2.75, "bolt": 4.0, "rod-end": 3.5}  # M5, bolt M6 [mm]


def pieces_listed(one) -> float:
    """Return how many metal pieces the shopping list has for a foot."""
    return sum(float(row[1]) for row in foot_rows((one,), None) if row[2] == "pieces")


@pytest.mark.parametrize("attachment", [name for name in ATTACHMENTS if name != "adhesive"])
def test_the_assembly_holds_every_screw_nut_and_washer_that_is_bought(attachment):
    one, parts = drawn("cup", "disc", attachment, "usual")
    sheet = design(one)
    found = bought_bodies(one, PRINT)
    assert len(found) == pieces_listed(one)
    assert len({body.name for body in found}) == len(found)
    shown = {each.name for each in assembled(sheet, list(parts))}
    assert {body.name for body in found} <= shown
    # of the first copy: nothing bought stands in what is printed, glued or bought besides
    count = len(found) // len(POSITIONS)
    placed = [b for b in bodies(sheet, list(parts)) if b.name.endswith("-1")]
    first = found[:count]
    for number, each in enumerate(first):
        for other in (*placed, *first[number + 1 :]):
            if other.role in CUTS and each.role == "screw":
                continue
            if attachment == "holes" and each.role == other.role == "nut":
                continue  # washers of 9 mm over the old holes, 8.9 mm apart
            assert each.solid.intersect(other.solid).Volume() < 1e-3, (each.name, other.name)


@pytest.mark.parametrize(("attachment", "head"), HEAD.items())
def test_a_screw_is_as_long_as_it_is_bought(attachment, head):
    # a cap of 4 mm, as slot feet have: in 3.4 mm no screw that is sold fits a slot
    one = foot("cup", "disc", attachment, "usual")
    one = replace(one, grip=0.0037, cap=max(0.004, one.cap))
    screw = next(body for body in bought_bodies(one, PRINT) if body.role == "screw")
    length = screw_length(one)
    assert length is not None
    low, high = bounds(screw.solid)[2::3]
    assert high - low == pytest.approx(length * 1e3 + head, abs=1e-3)
    # under a flange the head bears on its lower face
    if ATTACHMENTS[attachment].flanged:
        assert low == pytest.approx(-one.cap * 1e3 - head, abs=1e-3)


@pytest.mark.parametrize(
    ("attachment", "fixing"), spread((a, f) for a in ("bolt", "panel") for f in ("nut", "insert"))
)
def test_what_the_cap_holds_is_in_the_assembly_too(attachment, fixing):
    one = replace(foot("cup", "disc", attachment, "usual"), fixing=fixing, bolt=0.005, grip=0.003)
    one = replace(one, cap=least_cap(attachment, 0.005, 0.0, PRINT.layer, fixing=fixing))
    found = bought_bodies(one, PRINT)
    assert len(found) == pieces_listed(one) == 3 * len(POSITIONS)
    cup = next(part for part in draw(design(one)) if part.role == "cup")
    held = [body for body in found if body.name == f"corner-{fixing}-1"]
    assert len(held) == 1
    low, high = bounds(held[0].solid)[2::3]
    assert -cup.box[2] < low < high < 0


def test_slot_nuts_lie_under_the_lips_along_the_slot():
    along = {}
    for way in ("x", "y"):
        one = replace(foot("cup", "disc", "slot-20", "usual"), along=way)
        nut = next(b for b in bought_bodies(one, PRINT) if b.name == "corner-slot-nuts-1")
        box = bounds(nut.solid)
        assert box[2] == pytest.approx(1.8)  # lips of 1.8 mm
        along[way] = (box[3] - box[0], box[4] - box[1])
    assert along["x"] == pytest.approx(along["y"][::-1])
