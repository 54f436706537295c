"""What the search counts on is what the drawing holds: least caps and least widths."""

from __future__ import annotations

from dataclasses import replace
from itertools import product

import pytest
from pairwise import spread
from sheets import PRINT, foot

from geometry.draw import foot_parts
from geometry.solids.part import CannotDraw
from isolator.design import ATTACHMENTS, least_cap, least_width

LEAST = [
    *[(attachment, "screw", 0.0) for attachment in ATTACHMENTS],
    *[(name, fixing, 0.005) for name, row in ATTACHMENTS.items() for fixing in row.fixings[1:]],
    ("slot-30", "screw", 0.008),
    ("tapped-end", "screw", 0.006),
    ("bolt", "screw", 0.004),
    ("bolt", "screw", 0.008),
    ("stud", "screw", 0.01),
    ("panel", "nut", 0.003),
    ("bolt", "nut", 0.01),
    ("bolt", "insert", 0.003),
    ("panel", "insert", 0.008),
    ("bolt", "direct", 0.004),
    ("panel", "direct", 0.006),
]
MADE = [("cup", 0.0002), ("cup", 0.00014), ("printed", 0.00025)]


@pytest.mark.parametrize(
    ("attachment", "fixing", "bolt", "kind", "layer"), spread(product(LEAST, MADE), of=1)
)
def test_the_least_cap_is_enough_and_one_layer_less_is_not(kind, attachment, fixing, bolt, layer):
    one, made = foot(kind, "rectangle", attachment, "usual"), replace(PRINT, layer=layer)
    for key in (0.0, 0.0082) if ATTACHMENTS[attachment].slot else (0.0,):
        cap = least_cap(attachment, bolt, one.tube, layer, fixing=fixing, key=key)
        enough = replace(one, bolt=bolt, cap=cap, fixing=fixing, key=key)
        assert foot_parts(enough, made)
        with pytest.raises(CannotDraw) as refused:
            foot_parts(replace(enough, cap=cap - layer), made)
        assert refused.value.dimension == "cap"


@pytest.mark.parametrize("kind", ["cup", "printed"])
@pytest.mark.parametrize(("attachment", "fixing", "bolt"), LEAST)
def test_a_foot_is_drawn_from_the_least_width_on(kind, attachment, fixing, bolt):
    one = foot(kind, "rectangle", attachment, "usual")
    cap = least_cap(attachment, bolt, one.tube, PRINT.layer, fixing=fixing)
    one = replace(one, bolt=bolt, cap=max(one.cap, cap), fixing=fixing)
    least = least_width(
        attachment,
        one.bolt,
        one.tube,
        PRINT.hole_compensation,
        fixing=fixing,
        soft=one.soft_flange,
    )
    assert (least == 0.0) == (attachment == "adhesive" or len(one.holes) > 0)
    if least == 0.0:
        return
    beside = 0.0 if kind == "printed" else one.side_room
    if kind == "cup" and ATTACHMENTS[attachment].flanged:
        beside += one.wall
    for more in (-2e-5, 2e-5):
        pad = replace(one.pad, first=0.046, second=least - 2.0 * beside + more)
        narrow = replace(one, pad=pad)
        if more > 0:
            assert foot_parts(narrow, PRINT)
        else:
            with pytest.raises(CannotDraw) as refused:
                foot_parts(narrow, PRINT)
            assert refused.value.dimension == "bolt"
