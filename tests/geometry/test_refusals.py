"""What cannot be drawn is refused with part, dimension and reason."""

from __future__ import annotations

from dataclasses import replace

import cadquery as cq
import pytest
from sheets import PRINT, design, drawn, foot, spacer

from geometry.draw import draw
from geometry.solids.part import CannotDraw
from geometry.solids.verify import verify


def _cup(attachment="adhesive", size="usual", shape="disc", **changes):
    return replace(foot("cup", shape, attachment, size), **changes)


REFUSED = [
    (
        design(_cup("slot-40", "small", pad=replace(_cup(size="small").pad, first=0.0102))),
        "corner-cup: bolt: the ear for M8 is 18 mm wide, wider than the foot's 17.04 mm",
    ),
    (
        design(_cup("bolt", bolt=0.01)),
        "corner-cup: cap: 8 mm cannot hide the M10 head; 10.4 mm can",
    ),
    (
        design(_cup("bolt", bolt=0.007)),
        "corner-cup: bolt: M7 is not among the threads drawn (M3, M4, M5, M6, M8, M10)",
    ),
    (
        design(
            _cup(
                "bolt",
                "small",
                bolt=0.008,
                fixing="insert",
                cap=0.02,
                side_room=0.0001,
                pad=replace(_cup().pad, first=0.0151),
            )
        ),
        "corner-cup: bolt: the M8 insert needs 16.15 mm of plate; the foot has 15.3 mm",
    ),
    (
        design(_cup("panel", bolt=0.005, fixing="insert", cap=0.009)),
        "corner-cup: cap: 9 mm cannot hide the M5 insert; 15 mm can",
    ),
    (
        design(_cup("self-tapping", bolt=0.004)),
        "corner-cup: bolt: ST4 is not among the screws drawn (ST2.9, ST3.5, ST4.2, ST4.8)",
    ),
    (
        design(_cup("two-bolts", holes=((-0.0281, 0.0), (0.0292, 0.0)))),
        "corner-cup: holes: the M5 head at (-28.1, 0) mm comes within -1.39 mm of the foot's side; "
        "0.5 mm is the least",
    ),
    (
        design(_cup("holes", holes=((0.041, 0.0), (0.044, 0.006)))),
        "corner-cup: holes: the M4 heads at (41, 0) and (44, 6) mm are -0.89 mm apart; "
        "0.5 mm is the least",
    ),
    (
        design(_cup("slot-20", key=0.0096, cap=0.004)),
        "corner-cup: key: its groove of 9.65 mm does not fit the flange; 8.90 mm does",
    ),
    (
        design(_cup("slot-40", key=0.0112, cap=0.004)),
        "corner-cup: key: 11.2 mm is wider than a groove can be bridged for; 10.40 mm can",
    ),
    (
        design(_cup("slot-20", key=0.0062, cap=0.0034)),
        "corner-cup: cap: 3.4 mm is thinner than the 4 mm that an ear with a key's groove needs",
    ),
    (
        design(_cup("two-bolts", holes=())),
        "corner-cup: holes: no place of an M5 screw is told",
    ),
    (
        design(_cup("stud", fixing="insert")),
        "corner-cup: fixing: stud is held by a screw in the cap, not by an insert",
    ),
    (
        design(_cup("tapped-end", fixing="nut")),
        "corner-cup: fixing: tapped-end is held by a screw in the cap, not by a nut",
    ),
    (
        design(_cup(cap=0.001)),
        "corner-cup: cap: 1 mm is thinner than 1.2 mm",
    ),
    (
        design(_cup("rod-end", rod=0.0035)),
        "corner-socket: rod: 3.5 mm does not bear on the floor round the M5 thread; 5.40 mm does",
    ),
    (
        design(_cup("bolt", "small", cap=0.02, bolt=0.008, pad=replace(_cup().pad, first=0.013))),
        "corner-cup: bolt: the M8 head needs 19.42 mm of plate; the foot has 16.24 mm",
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
        "corner-cup: pad.thickness: only 4.2 mm under the ear; the M8 screw head needs 5.4 mm",
    ),
    (
        design(_cup("tube-end", tube=0.009, cap=0.008)),
        "corner-plug: tube: 9 mm cannot take a plug with an M3 nut; 9.65 mm can",
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
        "corner-cup: wall: 0.3 mm is thinner than the nozzle's 0.4 mm",
    ),
    (
        design(_cup(size="large", shape="rectangle", side_room=0.05)),
        "corner-cup: length: 221.6 mm does not fit the print bed's 220 mm",
    ),
    (
        replace(design(_cup()), print=replace(PRINT, first_layer_chamfer=0.004)),
        "corner: first_layer_chamfer: 4 mm does not fit an edge on the bed, 1 mm",
    ),
    (
        replace(
            design(_cup(wall=0.0004, side_room=0.0002)),
            print=replace(PRINT, first_layer_chamfer=0.0007),
        ),
        "corner: first_layer_chamfer: 0.7 mm does not fit rim and side room, 0.6 mm",
    ),
    (
        design(_cup(pad=replace(foot("cup", "ring", "bolt", "usual").pad, second=0.0441))),
        "corner: pad.second: the pad's hole of 44.1 mm is not inside its 44 mm",
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


def test_a_thin_wall_that_nobody_foresaw_is_found_on_the_solid():
    one, parts = drawn("cup", "rectangle", "adhesive", "usual")
    sole = next(part for part in parts if part.role == "sole")
    # a fin 0.33 mm thick on the sole, its box and volume as expected: only the wall is wrong
    fin = cq.Solid.makeBox(0.33, 9.0, 4.0, cq.Vector(3.0, -4.5, one.sole * 1000))
    finned = replace(
        sole,
        solid=sole.solid.fuse(fin).Solids()[0],
        volume=sole.volume + 0.33 * 9.0 * 4.0,
        box=(*sole.box[:2], sole.box[2] + 4.0),
    )
    with pytest.raises(CannotDraw) as caught:
        verify(finned, PRINT)
    assert str(caught.value) == (
        "corner-sole: thinnest wall: 0.33 mm is thinner than the nozzle's 0.4 mm"
    )


@pytest.mark.parametrize(
    ("change", "message"),
    [
        # by hand: 2.6 · (31·46 + 154·3.74 + π·3.74²) − 0.4 · (154·0.8 + π·0.8²) − chamfer 7.98
        ({"volume": 5000.0}, "corner-sole: volume: drawn 5261.31 mm³, expected 5000.00 mm³"),
        (
            {"box": (38.5, 53.48, 2.6)},
            "corner-sole: size in x: drawn 38.480 mm, expected 38.500 mm",
        ),
    ],
)
def test_a_solid_that_is_not_what_was_meant_is_refused(change, message):
    _, parts = drawn("cup", "rectangle", "adhesive", "usual")
    sole = next(part for part in parts if part.role == "sole")
    with pytest.raises(CannotDraw) as caught:
        verify(replace(sole, **change), PRINT)
    assert str(caught.value) == message


def test_a_part_off_the_bed_or_hanging_over_is_refused():
    _, parts = drawn("cup", "rectangle", "adhesive", "usual")
    cup = next(part for part in parts if part.role == "cup")
    lifted = cup.solid.moved(cq.Location(cq.Vector(0, 0, 0.25)))
    with pytest.raises(CannotDraw, match=r"^corner-cup: z: lowest point at 0\.250 mm, not on the"):
        verify(replace(cup, solid=lifted), PRINT)
    # pocket downwards the ceiling would have to be bridged over the whole pad; the ground of the
    # scribed line round it alone is short enough
    turned = cup.solid.rotate(cq.Vector(0, 0, 0), cq.Vector(1, 0, 0), 180)
    upside_down = turned.moved(cq.Location(cq.Vector(0, 0, cup.box[2])))
    with pytest.raises(
        CannotDraw, match=r"^corner-cup: overhang: 16\d\d\.\d mm² would need support$"
    ):
        verify(replace(cup, solid=upside_down), PRINT)
