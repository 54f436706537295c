"""What cannot be drawn is refused with part, dimension and reason."""

from __future__ import annotations

from dataclasses import replace

import pytest
from sheets import PRINT, design, foot, spacer

from geometry.draw import draw
from geometry.part import CannotDraw


def _cup(attachment="adhesive", size="usual", shape="disc", **changes):
    return replace(foot("cup", shape, attachment, size), **changes)


REFUSED = [
    (
        design(_cup("slot-40", "small", pad=replace(_cup(size="small").pad, first=0.0112))),
        "corner-cup: bolt: the ear for M8 is 18 mm wide, wider than the foot's 17.24 mm",
    ),
    (
        design(_cup("bolt", bolt=0.01)),
        "corner-cup: bolt: M10 is not among the threads drawn (M4, M5, M6, M8)",
    ),
    (
        design(_cup("bolt", "small", cap=0.02, bolt=0.008, pad=replace(_cup().pad, first=0.013))),
        "corner-cup: bolt: the M8 head needs 19.42 mm of plate; the foot has 15.44 mm",
    ),
    (
        design(_cup("bolt", cap=0.0078)),
        "corner-cup: cap: 7.8 mm cannot hide the M6 head; 8 mm can",
    ),
    (
        design(_cup("slot-20", cap=0.0022)),
        "corner-cup: cap: 2.2 mm is thinner than the 3 mm that an ear needs",
    ),
    (
        design(_cup("slot-40", "small", stop=0.005)),
        "corner-cup: pad.thickness: only 2.8 mm under the ear; the M8 screw head needs 5.4 mm",
    ),
    (
        design(_cup("tube-end", tube=0.009, cap=0.008)),
        "corner-plug: tube: 9 mm cannot take a plug with an M4 nut; 11.39 mm can",
    ),
    (
        design(_cup(stop=0.0124)),
        "corner-cup: stop: 12.4 mm is not between 0 and the pad's thickness of 12.4 mm",
    ),
    (
        design(_cup(sole=0.001)),
        "corner-sole: sole: 1 mm is thinner than 1.2 mm",
    ),
    (
        design(_cup(shape="rectangle", wall=0.0003)),
        "corner-cup: thinnest wall: 0.30 mm is thinner than the nozzle's 0.4 mm",
    ),
    (
        design(_cup(size="large", shape="rectangle", side_room=0.05)),
        "corner-cup: length: 221.6 mm does not fit the print bed's 220 mm",
    ),
    (
        design(_cup(positions=())),
        "corner: positions: the foot stands nowhere",
    ),
    (
        design(_cup(), _cup()),
        "corner-cup: name: two parts would be written under this name",
    ),
    (
        design(spacers=(spacer(frame_size=34),)),
        "left-motor-plate: frame_size: 34 is not among 14, 17, 23",
    ),
    (
        design(spacers=(replace(spacer(), outer=0.0068),)),
        "left-pulley-spacer: outer: 6.8 mm leaves 0.82 mm of wall round the bore of 5.15 mm; "
        "1.1 mm is the least (two lines and the chamfer)",
    ),
]


@pytest.mark.parametrize(("asked", "message"), REFUSED)
def test_refusal_names_part_dimension_and_reason(asked, message):
    with pytest.raises(CannotDraw) as caught:
        draw(asked)
    assert str(caught.value) == message


def test_a_foot_may_lie_either_way_on_the_bed():
    narrow = replace(
        design(_cup("slot-20", shape="rectangle")), print=replace(PRINT, bed=(0.06, 0.09, 0.1))
    )
    turned = replace(narrow, print=replace(PRINT, bed=(0.09, 0.06, 0.1)))
    assert [part.box for part in draw(narrow)] == [part.box for part in draw(turned)]
