"""What reaches beyond the printer's frame, by hand, and that it is told."""

from __future__ import annotations

from dataclasses import replace

import pytest
from sheets import design, foot
from test_slab import bare, on_slab

from geometry.draw import draw
from geometry.solids.verify import bounds
from isolator.design import ATTACHMENTS
from isolator.design.beyond import beyond_frame, half_widths
from isolator.report.sentences.notes import outside


def test_a_foot_that_is_wide_for_its_place_is_told() -> None:
    # the frame's half is 210 mm, the disc's cup 42 + 2 × (1.94 + 1.8) mm wide
    one = foot("cup", "disc", "adhesive", "usual")
    reach = 24.74e-3
    near = replace(one, positions=((0.210 - reach, 0.1), (-0.1, -0.1)))
    assert beyond_frame(design(near)) == 0.0
    assert outside(design(near)) == ()
    far = replace(one, positions=((-0.1, 0.1), (0.210 - reach + 0.0074, 0.1)))
    assert beyond_frame(design(far)) == pytest.approx(0.0074, abs=1e-9)
    (told,) = outside(design(near, far))
    assert told.startswith("feet reach 7.4 mm beyond the printer's outside")
    assert "feet.inset or feet.positions" in told
    # a foot in a slot moves along its rail with the inset, never off it
    (railed,) = outside(
        design(replace(foot("cup", "disc", "slot-20", "usual"), positions=((0.2, 0.1),)))
    )
    assert "feet.inset" not in railed
    assert "tell a rail further in with feet.rails" in railed
    # the depth counts too: 220 mm
    deep = replace(one, positions=((0.0, -0.2 - 0.0003),))
    assert beyond_frame(design(deep)) == pytest.approx(0.2003 + reach - 0.22, abs=1e-9)
    assert outside(None) == ()


@pytest.mark.parametrize("attachment", ATTACHMENTS)
def test_half_widths_are_those_of_the_cup_as_it_is_drawn(attachment: str) -> None:
    one = foot("cup", "rectangle", attachment, "usual")
    cup = next(part for part in draw(design(one)) if part.role == "cup")
    low_x, low_y, _, high_x, high_y, _ = bounds(cup.solid)
    assert max(-low_x, high_x) == pytest.approx(half_widths(one)[0] * 1e3, abs=1e-3)
    assert max(-low_y, high_y) == pytest.approx(half_widths(one)[1] * 1e3, abs=1e-3)


def test_pads_under_a_slab_are_no_business_of_the_frames() -> None:
    assert beyond_frame(on_slab(bare())) == 0.0
