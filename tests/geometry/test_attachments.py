"""How feet are held, as drawn: fixings, slot keys, sockets, what the least sizes promise."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import combinations, product

import cadquery as cq
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from measured import measured_foot
from pairwise import spread
from sheets import PRINT, SHAPES, SIZES, design, drawn, foot

from geometry.draw import draw
from geometry.feet.flange import joined_area
from geometry.pictures.picture import standing_alone
from geometry.solids.outline import Outline, disc
from geometry.solids.part import Part
from geometry.solids.verify import bounds, verify
from isolator.design import ATTACHMENTS, Foot, least_cap
from isolator.physics.rubber.section import section

FIXED = [
    (name, fixing)
    for name, row in ATTACHMENTS.items()
    for fixing in row.fixings
    if "fixing" in row.keys
]


def fixed(
    kind: str, attachment: str, fixing: str, size: str = "usual", bolt: float = 0.005
) -> Foot:
    one = foot(kind, "square-with-hole", attachment, size)
    cap = least_cap(attachment, bolt, 0.0, PRINT.layer, fixing=fixing)
    return replace(one, fixing=fixing, bolt=bolt, cap=max(one.cap, cap))


def apart(one: Foot, parts: list[Part]) -> float:
    """Return the largest volume [mm³] that two bodies of a foot, put together, both fill."""
    bodies = [body.solid for body in standing_alone(one, parts)]
    return max((a.intersect(b).Volume() for a, b in combinations(bodies, 2)), default=0.0)


@pytest.mark.parametrize(
    ("kind", "attachment", "fixing", "size"),
    spread(
        (kind, *fixed, size) for kind in ("cup", "printed") for fixed in FIXED for size in SIZES
    ),
)
def test_every_fixing_is_drawn_sound(kind, attachment, fixing, size):
    bolt = {"small": 0.004, "usual": 0.005, "large": 0.008}[size]
    one = fixed(kind, attachment, fixing, size, bolt)
    parts = draw(design(one))
    assert apart(one, parts) < 1e-3
    for part in parts:
        assert len(part.solid.Shells()) == 1
        # against the kernel's own integration, which works to about 1e-6
        assert part.solid.Volume() == pytest.approx(part.volume, rel=1e-5)
        figures = verify(part, PRINT)
        assert figures.overhang == 0.0
        # every recess opens upwards; a blind thread alone ends under a strand across its hole
        blind = fixing == "direct" and part.role == "cup"
        hole = 0.85 * bolt * 1e3 + 0.15
        assert figures.bridge == pytest.approx(hole if blind else 0.0, abs=0.05)  # chords


def round_holes(solid) -> list[tuple[float, float, float]]:
    """Return radius and middle (x, y) of every round hole and boss below 5 mm."""
    return sorted(
        (round(face._geomAdaptor().Cylinder().Radius(), 4), round(at.X(), 4), round(at.Y(), 4))
        for face in solid.Faces()
        if face.geomType() == "CYLINDER" and face._geomAdaptor().Cylinder().Radius() < 5.0
        for at in [face._geomAdaptor().Cylinder().Location()]
    )


def test_an_insert_cannot_come_out_the_way_it_is_pulled():
    cup = next(p for p in draw(design(fixed("cup", "bolt", "insert"))) if p.role == "cup")
    # M5: hole 6.4 + 0.15 mm for the insert, 5.3 + 0.15 mm above it; both read off the solid
    radii = [radius for radius, x, y in round_holes(cup.solid) if (x, y) == (0.0, 0.0)]
    assert radii == pytest.approx([2.725, 3.275])
    shoulder = [
        face.Center().z
        for face in cup.solid.Faces()
        if face.geomType() == "PLANE" and face.Area() < 12.0
    ]
    # the ring between both holes, a floor's thickness from the printer's side
    assert shoulder == pytest.approx([2.4])


def test_a_direct_thread_is_blind_and_has_no_cover():
    parts = draw(design(fixed("cup", "panel", "direct")))
    assert [part.role for part in parts] == ["cup", "sole"]
    cup = parts[0].solid
    # 2.5 × 5 and 1.5 mm for a screw that is a little long: 14 mm, whole layers
    assert cq.Vertex.makeVertex(0.0, 0.0, 14.0).distance(cup) == pytest.approx(0.0, abs=1e-6)
    assert cq.Vertex.makeVertex(0.0, 0.0, 14.1).distance(cup) == 0.0
    assert cq.Vertex.makeVertex(0.0, 0.0, 13.4).distance(cup) == pytest.approx(0.6, abs=1e-6)


KEYS = {"slot-20": 0.0062, "slot-30": 0.0082}


def keyed(kind: str, shape: str, slot: str, size: str, width: float) -> Foot:
    one = foot(kind, shape, slot, size)
    return replace(one, key=width, cap=max(one.cap, least_cap(slot, 0.0, 0.0, 2e-4, key=width)))


@pytest.mark.parametrize(
    ("kind", "slot", "shape", "size"),
    spread(product([("cup", "slot-20"), ("printed", "slot-30")], SHAPES, SIZES)),
)
def test_a_slot_key_guides_past_rounded_edges_and_ends_before_the_nuts(kind, shape, slot, size):
    width = KEYS[slot]
    one = keyed(kind, shape, slot, size, width)
    parts = draw(design(one))
    assert apart(one, parts) < 1e-3
    for part in parts:
        # against the kernel's own integration, which works to about 1e-6
        assert part.solid.Volume() == pytest.approx(part.volume, rel=1e-5)
    key = next(part for part in parts if part.role == "key")
    low, high = (
        float(z)
        for z in bounds(
            next(body.solid for body in standing_alone(one, list(parts)) if body.role == "key")
        )[2::3]
    )
    # whole layers of 0.2 mm; lips of 1.8 and 2.2 mm, whose edges are rounded by about 1 mm
    high_by_hand = {"slot-20": 1.4, "slot-30": 1.8}[slot]
    assert (low, high) == pytest.approx((-1.0, high_by_hand), abs=1e-6)
    assert 1.2 < high < ATTACHMENTS[slot].slot.lip * 1e3
    assert min(key.box[:2]) == pytest.approx(width * 1e3 - 0.3)
    # the groove is bridged across its width, key and play: never more
    held = next(part for part in parts if part.role in ("cup", "foot"))
    assert verify(held, PRINT).bridge == pytest.approx(width * 1e3 - 0.3 + 0.2 + 0.15, abs=0.02)
    # what is solved is what is drawn, key or not
    found = measured_foot(design(one), one, list(parts))
    solved = float(section(shape, one.pad.first, one.pad.second).area)
    # areas between exact curves: what is left is the kernel's integration, about 1e-6
    assert (found.upper_area, found.lower_area) == pytest.approx((solved, solved), rel=1e-5)


def test_a_key_wider_than_a_strand_spans_is_drawn_narrower():
    one = keyed("cup", "disc", "slot-40", "usual", 0.0102)
    cup, _, key = draw(design(one))
    assert verify(cup, PRINT).bridge == pytest.approx(9.95, abs=1e-6)  # straight walls
    assert key.box[1] == pytest.approx(9.95 - 0.2 - 0.15)  # 0.6 mm of play in the slot


@pytest.mark.parametrize("attachment", ATTACHMENTS)
@pytest.mark.parametrize("kind", ["cup", "printed"])
def test_no_two_parts_of_a_foot_share_room(kind, attachment):
    one, parts = drawn(kind, "rectangle", attachment, "usual")
    assert apart(one, list(parts)) < 1e-3


@pytest.mark.parametrize("rod", [0.00541, 0.0061, 0.0083])
def test_a_socket_of_a_thin_rod_keeps_its_thread_in_plastic(rod):
    one = replace(foot("cup", "disc", "rod-end", "usual"), rod=rod)
    socket = next(part for part in draw(design(one)) if part.role == "socket")
    # M5: hole 0.85 × 5 + 0.15 mm, 0.7 × 5 mm of plastic round it; rod, 0.65 mm, two walls of 2.4
    assert socket.box[0] == pytest.approx(max(4.4 + 7.0, rod * 1e3 + 0.5 + 0.15 + 4.8))


def test_a_socket_grips_a_rod_by_its_ribs_alone():
    one, parts = drawn("cup", "disc", "rod-end", "usual")
    socket = next(part for part in parts if part.role == "socket")
    # a rod of 12.2 mm pressed onto the closed end, 12.6 mm up (2.5 × 5 mm, to whole layers); the
    # socket is drawn larger by the compensation that its printing takes back
    rod = cq.Solid.makeCylinder(6.1 + 0.075, 30.0, cq.Vector(0, 0, 12.6))
    crushed = socket.solid.intersect(rod).Volume()
    # six ribs 1.2 mm wide, 0.15 mm into the rod, over all but the mouth
    assert crushed == pytest.approx(6 * 1.2 * 0.15 * (socket.box[2] - 12.6 - 1.6), rel=0.02)
    slim = cq.Solid.makeCylinder(6.1 + 0.075 - 0.151, 30.0, cq.Vector(0, 0, 12.6))
    assert socket.solid.intersect(slim).Volume() < 1e-6
    assert one.rod == pytest.approx(0.0122)


SIDES = st.just(0.0) | st.floats(0.01, 60)  # the kernel joins points nearer than 1e-4 mm


@settings(max_examples=60)
@given(
    a=st.tuples(SIDES, SIDES, st.floats(0.5, 30)),
    b=st.tuples(SIDES, SIDES, st.floats(0.5, 30)),
)
def test_the_joined_area_of_two_outlines_is_the_kernels(a, b):
    one, other = (Outline(core_x=x, core_y=y, offset=o) for x, y, o in (a, b))
    raised = [
        cq.Solid.extrudeLinear(each.wire(0.0), [], cq.Vector(0, 0, 1)) for each in (one, other)
    ]
    whole = raised[0].fuse(raised[1])
    # the kernel joins edges nearer than 1e-4 mm
    assert joined_area(one, other) == pytest.approx(whole.Volume(), rel=2e-5)


def test_joined_discs_of_one_middle_are_the_larger_one():
    assert joined_area(disc(23.0), disc(17.0)) == pytest.approx(math.pi * 11.5**2, rel=1e-9)


def test_screws_of_an_old_foot_stay_where_they_were():
    one, parts = drawn("cup", "ring", "holes", "usual")
    cup = next(part for part in parts if part.role == "cup")
    # M4 in holes measured by hand: 4.8 + 0.15 mm; the cup lies upside down on the bed and is
    # turned over about x
    middles = [(x, -y) for radius, x, y in round_holes(cup.solid) if radius == 2.475]
    wanted = sorted((x * 1e3, y * 1e3) for x, y in one.holes)
    assert np.array(sorted(middles)) == pytest.approx(np.array(wanted), abs=1e-3)


@pytest.mark.parametrize(
    ("kind", "attachment"), spread(product(["cup", "printed"], ATTACHMENTS), of=1)
)
def test_labels_and_treads_change_nothing_that_carries(kind, attachment):
    one, plain = drawn(kind, "disc", attachment, "usual")
    told = replace(one, label="B NR-50 42X12.4", tread=0.0012)
    parts = {part.role: part for part in draw(design(told))}
    assert set(parts) == {part.role for part in plain} | {"tread"}
    bearer = next(role for role in ("cup", "mount", "foot") if role in parts)
    for part in plain:
        cut = part.volume - parts[part.role].volume
        noted = [note for note in parts[part.role].notes if note.startswith("engraved: ")]
        # a tread hides the sole's own label; a face that takes none is as it was
        assert (cut > 0.5) == bool(noted)
        assert bool(noted) == (part.role == bearer)
        assert parts[part.role].loaded == part.loaded
    bodies = standing_alone(told, list(parts.values()))
    low = min(bounds(body.solid)[2] for body in bodies)
    # stands by itself: without what a stud holds it off the frame
    assert -low * 1e-3 == pytest.approx(told.height - told.lift, abs=1e-8)


def test_a_label_without_room_loses_its_last_words_and_then_is_left_off():
    one = replace(foot("cup", "disc", "stud", "small"), label="C TPU-85-GYROID-15 19.4X5.2")
    cup = next(part for part in draw(design(one)) if part.role == "cup")
    assert "engraved: C" in cup.notes  # its letter is what tells it from the others
    long = replace(one, label="TPU-85-GYROID-15 19.4X5.2")
    cup = next(part for part in draw(design(long)) if part.role == "cup")
    assert "no room to engrave TPU-85-GYROID-15 19.4X5.2" in cup.notes


@pytest.mark.parametrize("kind", ["cup", "printed"])
def test_slots_may_run_either_way(kind):
    one = replace(keyed(kind, "rectangle", "slot-30", "usual", 0.0082), along="y")
    if kind == "cup":
        one = replace(one, label="A NR-50")
    turned = {part.role: part for part in draw(design(one))}
    held = turned["cup" if kind == "cup" else "foot"]
    plain = {part.role: part for part in draw(design(replace(one, along="x", label="")))}
    straight = plain[held.role]
    # the ears reach out of the other side; a rectangle's own sides stay
    assert held.box[1] > one.pad.second * 1e3 + 20.0 > straight.box[1]
    assert turned["key"].box[:2] != plain["key"].box[:2]
    assert turned["key"].box[0] == pytest.approx(plain["key"].box[1])
    assert apart(one, list(turned.values())) < 1e-3


def test_a_stud_holds_its_foot_off_the_frame_by_its_nuts():
    one, parts = drawn("cup", "disc", "stud", "usual")
    # M8: two washers of 1.8, nut 6.8, thin nut 4.0 mm and half of 10 mm to level with
    assert one.lift == pytest.approx(0.0194)
    places = {part.role: {round(at.z, 6) for at in part.places} for part in parts}
    assert places["cup"] == {-19.4}
    assert places["sole"] == {round(-19.4 - (one.cap + one.pad.thickness + one.sole) * 1e3, 6)}
    assert one.height == pytest.approx(0.0194 + one.cap + one.pad.thickness + one.sole)
