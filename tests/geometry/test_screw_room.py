"""The search leaves out what the drawing would refuse: a foot too narrow for its screw."""

from __future__ import annotations

from dataclasses import replace

import pytest
from sheets import PRINT, foot

from geometry.draw import foot_parts
from geometry.part import CannotDraw
from isolator.design import attachment_thread, least_width


@pytest.mark.parametrize("kind", ["cup", "printed"])
@pytest.mark.parametrize(
    ("attachment", "bolt"),
    [("slot-20", 0.0), ("slot-30", 0.008), ("slot-40", 0.0), ("bolt", 0.004), ("bolt", 0.008),
     ("tube-end", 0.0)],
)  # fmt: skip
def test_a_foot_is_drawn_from_the_least_width_on(kind: str, attachment: str, bolt: float) -> None:
    one = replace(foot(kind, "rectangle", attachment, "usual"), bolt=bolt)
    least = least_width(attachment, one.bolt, one.tube, PRINT.hole_compensation)
    if attachment_thread(attachment, one.bolt, one.tube) == 0.008:
        one = replace(one, cap=0.0122)  # hides the head
    beside = one.side_room + (one.wall if attachment.startswith("slot") else 0.0)
    if kind == "printed":
        beside = 0.0
    for more, drawn in ((-2e-5, False), (2e-5, True)):
        pad = replace(one.pad, first=0.046, second=least - 2.0 * beside + more)
        narrow = replace(one, pad=pad)
        if drawn:
            assert foot_parts(narrow, PRINT)
        else:
            with pytest.raises(CannotDraw) as refused:
                foot_parts(narrow, PRINT)
            assert refused.value.dimension == "bolt"
