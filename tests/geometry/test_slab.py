"""Slabs: lips against the kernel and by hand, plans read back from their files, places of all."""

from __future__ import annotations

import io
import math
import re
from dataclasses import replace
from itertools import combinations

import cadquery as cq
import ezdxf
import numpy as np
import pytest
import trimesh
from lxml import etree
from readers import shoelace
from sheets import PRINT, SIZES, design, foot

from geometry.assembly import bodies
from geometry.feet.slab import bare_parts, slab_bodies, slab_solid
from geometry.feet.slab_lips import lip_bodies, lip_parts
from geometry.sheets.cut_plan import cut_plan
from geometry.sheets.flat_drawing import flat_dxf, flat_svg
from geometry.sheets.slab_plan import slab_plan
from geometry.solids.outline import pad_outlines
from geometry.solids.part import CannotDraw
from geometry.solids.verify import bounds, verify
from isolator.design import SHAPES, Slab
from isolator.design.nesting import middles, nested

SLAB = Slab(size=(0.447, 0.462, 0.0413), position=(0.011, -0.006), gap=0.0212, lip=0.0)
SVG = "{http://www.w3.org/2000/svg}"


def bare(shape="disc", size="usual", slab=SLAB, layers=2):
    one = foot("cup", shape, "adhesive", size)
    return replace(
        one,
        kind="bare",
        name="under slab",
        cap=slab.gap + slab.size[2],
        sole=0.0,
        wall=0.0,
        side_room=0.0,
        stop=0.0,
        pad=replace(one.pad, layers=layers),
    )


def on_slab(*feet, **changes):
    return replace(design(*(feet or (bare(),))), slab=replace(SLAB, **changes))


def test_the_slab_lies_between_printer_and_pads():
    one = on_slab()
    low_x, low_y, low, high_x, high_y, top = bounds(slab_solid(one.slab))
    assert (low, top) == pytest.approx((-62.5, -21.2), abs=1e-6)  # kernel's box, to rounding
    assert (high_x - low_x, high_y - low_y) == pytest.approx((447.0, 462.0), abs=1e-6)
    assert ((low_x + high_x) / 2, (low_y + high_y) / 2) == pytest.approx((11.0, -6.0), abs=1e-6)
    pads = [body for body in bodies(one, []) if body.role == "pad"]
    assert len(pads) == len(one.feet[0].positions)
    for pad in pads:
        assert bounds(pad.solid)[5] == pytest.approx(low, abs=1e-6)
        assert bounds(pad.solid)[2] == pytest.approx(-1e3 * one.feet[0].height, abs=1e-6)


def test_a_bare_foot_has_no_printed_part():
    assert bare_parts(bare(), PRINT) == []
    for name, told in (("sole", "3 mm"), ("tread", "3 mm")):
        with pytest.raises(CannotDraw) as refused:
            bare_parts(replace(bare(), **{name: 0.003}), PRINT)
        assert str(refused.value) == (
            f"under-slab-pad: {name}: {told}: under a bare pad there is nothing but the desk"
        )


HELD = replace(SLAB, size=(0.467, 0.482, 0.0413), lip=0.0272)
"""A slab that stands out 34.5 and 12.5 mm beside the frame of 420 x 440 mm, 15 and 27 mm."""


def cornered(**changes):
    return replace(design(bare()), slab=replace(HELD, **changes))


def test_volume_of_a_corner_worked_by_hand():
    # alike on all sides: 20.5 mm of slab beside the frame, 20 mm of shelf, arms of 45 mm
    (part,) = lip_parts(cornered(size=(0.461, 0.481, 0.0413), position=(0.0, 0.0)))
    # mm: L 48.5 long; on the slab 23.5 wide and 27.2 high, outside 3.2 wide and 15 high;
    # chamfer 0.3 all round the bed side: a prism of triangular section along the outline of the L,
    # whose length is four times the arm's; five corners turn left, one right: 5 - 1 less cubes/3
    by_hand = (2 * 48.5 * 23.5 - 23.5**2) * 27.2 + (2 * 48.5 * 3.2 - 3.2**2) * 15
    by_hand -= 0.3**2 / 2 * 4 * 48.5 - 4 * 0.3**3 / 3
    assert part.solid.Volume() == pytest.approx(by_hand, rel=1e-9)  # planes only: to rounding
    assert part.box == pytest.approx((48.5, 48.5, 42.2))
    assert (part.name, part.quantity) == ("slab-lip", 4)


@pytest.mark.parametrize(
    ("size", "position", "gap", "lip", "nozzle"),
    [
        ((0.467, 0.482, 0.0413), (0.011, -0.006), 0.0212, 0.0272, 0.0004),
        ((0.43, 0.452, 0.0073), (0.0, 0.0), 0.0, 0.0046, 0.0004),  # thin: ends above the desk
        ((0.458, 0.481, 0.062), (0.0, 0.0), 0.0, 0.0121, 0.0008),
    ],
)
def test_corners_print_without_support(size, position, gap, lip, nozzle):
    settings = replace(PRINT, nozzle=nozzle)
    one = replace(cornered(size=size, position=position, gap=gap, lip=lip), print=settings)
    parts = lip_parts(one)
    assert sum(part.quantity for part in parts) == 4
    for part in parts:
        figures = verify(part, settings)  # box, bed, one solid, closed form of the volume
        assert figures.overhang == 0.0
        # letters are engraved on the bed side: their ground is bridged
        assert figures.bridge < 6.0
        assert figures.thinnest_wall > 0.4
        assert (part.role, part.material) == ("lip", "petg")
    for body in lip_bodies(one):
        assert bounds(body.solid)[2] >= -1e3 * (gap + size[2]) + 2.0 - 1e-6


def frame_block(by=(0.0, 0.0)):
    """Return the printer's frame as a block, moved by so many mm along x and y."""
    return cq.Solid.makeBox(420, 440, 100, cq.Vector(-210 + by[0], -220 + by[1], 0))


def test_four_corners_hold_the_printer_and_not_only_its_slab():
    stone, *lips = slab_bodies(cornered())
    assert [body.name for body in lips] == [f"slab-lip-{n}" for n in (1, 2, 3, 4)]
    for lip in lips:
        # 6 mm over the frame's underside, on the slab's upper face and outside it
        assert bounds(lip.solid)[5] == pytest.approx(-21.2 + 27.2, abs=1e-6)
        assert lip.solid.intersect(stone.solid).Volume() == pytest.approx(0.0, abs=1e-9)
        sunk = lip.solid.moved(cq.Location(cq.Vector(0, 0, -0.01)))
        assert sunk.intersect(stone.solid).Volume() / 0.01 > 500.0

    def met(by):
        return [lip.solid.intersect(frame_block(by)).Volume() for lip in lips]

    assert met((0.0, 0.0)) == pytest.approx([0.0] * 4, abs=1e-9)
    for axis in (0, 1):
        for way in (1.0, -1.0):
            near, far = [[0.0, 0.0], [0.0, 0.0]]
            near[axis], far[axis] = 0.49 * way, 0.51 * way
            assert max(met(near)) == pytest.approx(0.0, abs=1e-9)
            # half a millimetre on it stands against two of them, 25 x 6 mm of each less chamfers
            against = [each / 0.01 for each in met(far) if each > 1e-6]
            assert len(against) == 2
            assert all(24.0 * 5.7 < each < 25.0 * 6.0 for each in against)
    # each stands outside the slab at its own corner, 3.5 mm farther out
    outer = {
        (round(sx * max(sx * box[0], sx * box[3]), 6), round(sy * max(sy * box[1], sy * box[4]), 6))
        for lip, (sx, sy) in zip(lips, ((1, 1), (-1, 1), (-1, -1), (1, -1)), strict=True)
        for box in [bounds(lip.solid)]
    }
    wide, deep = 233.5 + 3.5, 241.0 + 3.5
    assert outer == {(11.0 + x * wide, -6.0 + y * deep) for x in (1, -1) for y in (1, -1)}


def test_corners_that_differ_say_where_they_go():
    parts = lip_parts(cornered())
    assert [part.name for part in parts] == [
        f"slab-lip-{each}" for each in ("br", "bl", "fl", "fr")
    ]
    # under the middle two and two are alike, mirror images of each other
    pair = lip_parts(cornered(position=(0.0, 0.0)))
    assert [(part.name, part.quantity) for part in pair] == [
        ("slab-lip-br-fl", 2),
        ("slab-lip-bl-fr", 2),
    ]
    assert pair[0].box[:2] == pytest.approx(pair[1].box[1::-1])
    for part, told in zip(pair, ("BR and FL", "BL and FR"), strict=True):
        assert part.notes[0].startswith(f"glue at the corners {told} (B back")
        # engraved where it is read in use: 0.4 mm deep from the bed
        letters = [face for face in part.solid.Faces() if abs(face.Center().z - 0.4) < 1e-6]
        assert letters


def test_without_slab_or_lip_there_is_none():
    assert lip_parts(design(bare())) == []
    assert slab_bodies(design(bare())) == []
    assert lip_parts(cornered(lip=0.0)) == []
    assert [body.role for body in slab_bodies(cornered(lip=0.0))] == ["slab"]


@pytest.mark.parametrize(
    ("changes", "told"),
    [
        (
            {"size": (0.46, 0.49, 0.0048)},
            "slab.size: a slab of 4.8 mm is too thin for printed corners; 5 mm is the least",
        ),
        ({"lip": 0.0003, "gap": -0.004}, "lip: 0.3 mm is too thin to print"),
        (
            {"lip": 0.0058},
            "lip: 5.8 mm holds nothing: the frame is 21.2 mm over the slab; 25.2 mm is the least",
        ),
        # frame 420 x 440 mm, its side at -210; the slab's at 11 - 223.5 = -212.5
        (
            {"size": (0.447, 0.482, 0.04)},
            "slab.size: 2.5 mm of slab beside the printer's frame; 3.5 mm is the least for corners "
            "that hold it",
        ),
    ],
)
def test_corners_that_cannot_be_are_refused(changes, told):
    with pytest.raises(CannotDraw) as refused:
        lip_parts(cornered(**changes))
    assert str(refused.value) == f"slab-lip: {told}"


KNIFE = 2.0
NESTS = [(18.0, 31.0, 4), (42.0, 42.0, 8), (97.4, 61.3, 12), (21.3, 21.3, 7), (30.0, 19.0, 1)]


@pytest.mark.parametrize(("width", "depth", "count"), NESTS)
def test_pads_lie_side_by_side_in_the_sheet_that_is_bought(width, depth, count):
    nest = nested(width, depth, count, KNIFE)
    bill = nested(width / 1e3, depth / 1e3, count, KNIFE / 1e3)  # as it is bought
    assert (nest.wide, nest.high) == pytest.approx((1e3 * bill.wide, 1e3 * bill.high))
    at = np.array(middles(nest, count))
    assert len(at) == count
    # box to box and box to edge, one by one
    for (ax, ay), (bx, by) in combinations(at, 2):
        apart = max(abs(ax - bx) - width, abs(ay - by) - depth)
        assert apart >= KNIFE - 1e-9
    least, most = at.min(axis=0), at.max(axis=0)
    assert tuple(least) == pytest.approx((KNIFE + width / 2, KNIFE + depth / 2))
    if nest.rows * nest.columns == count:
        ends = (nest.wide - KNIFE - width / 2, nest.high - KNIFE - depth / 2)
        assert tuple(most) == pytest.approx(ends)
    assert np.all(most <= (nest.wide - KNIFE - width / 2 + 1e-9, nest.high))


def svg_shapes(text, layer):
    """Return the circles (x, y, r) and rectangles (x, y, w, h), y up, of one layer of an SVG."""
    root = etree.fromstring(text.encode())
    wide, high = (float(root.get(side).removesuffix("mm")) for side in ("width", "height"))
    box = [float(number) for number in root.get("viewBox").split()]
    assert box[2:] == pytest.approx([wide, high])  # one unit to the millimetre
    assert [each for each in root.iter() if each.get("transform")] == []
    group = next(each for each in root.iter(f"{SVG}g") if each.get("class") == layer)
    circles = [
        (float(each.get("cx")), -float(each.get("cy")), float(each.get("r")))
        for each in group.iter(f"{SVG}circle")
    ]
    rects = [
        tuple(float(each.get(key)) for key in ("x", "y", "width", "height"))
        for each in group.iter(f"{SVG}rect")
    ]
    return circles, [(x + w / 2, -y - h / 2, w, h) for x, y, w, h in rects]


def dxf_shapes(raw, layer):
    """Return the circles and the corner points of closed lines of one layer of a DXF."""
    document = ezdxf.read(io.StringIO(raw.decode("utf-8")))
    assert document.units == ezdxf.units.MM
    assert not document.audit().errors
    chosen = [each for each in document.modelspace() if each.dxf.layer == layer]
    circles = [
        (*tuple(each.dxf.center)[:2], each.dxf.radius)
        for each in chosen
        if each.dxftype() == "CIRCLE"
    ]
    closed = [
        [(x, y) for x, y, *_ in each.get_points()]
        for each in chosen
        if each.dxftype() == "LWPOLYLINE" and each.closed
    ]
    return circles, closed


@pytest.mark.parametrize("shape", SHAPES)
def test_the_cutting_plan_holds_every_pad_at_true_scale(shape):
    one = bare(shape, layers=3)
    outer, inner = pad_outlines(one.pad)
    count = 3 * len(one.positions)
    area = count * (outer.area - (0.0 if inner is None else inner.area))
    circles, closed = dxf_shapes(flat_dxf(cut_plan(one)), "CUT")
    discs = sorted((math.pi * r**2 for _, _, r in circles), reverse=True)
    sides = [shoelace(points) for points in closed]
    holes = sum(discs[count * (shape == "ring") :]) if inner is not None else 0.0
    assert sum(discs) + sum(sides) - 2 * holes == pytest.approx(area, rel=1e-9)
    assert len(circles) + len(closed) == count * (1 if inner is None else 2)
    # the same from the SVG, which writes six digits
    drawn, boxes = svg_shapes(flat_svg(cut_plan(one)), "CUT")
    assert np.array(sorted(drawn)) == pytest.approx(np.array(sorted(circles)), abs=1e-3)
    assert sorted(w * h for *_, w, h in boxes) == pytest.approx(sorted(sides), rel=1e-5)
    # all within the sheet, which both tell
    (_, (sheet,)) = dxf_shapes(flat_dxf(cut_plan(one)), "EDGE")
    bill = nested(outer.size[0] / 1e3, outer.size[1] / 1e3, count, KNIFE / 1e3)
    assert shoelace(sheet) == pytest.approx(1e6 * bill.wide * bill.high, rel=1e-9)
    (_, ((_, _, wide, high),)) = svg_shapes(flat_svg(cut_plan(one)), "EDGE")
    assert (wide, high) == pytest.approx((1e3 * bill.wide, 1e3 * bill.high), rel=1e-5)
    assert min(x - r for x, _, r in circles or [(5.0, 0.0, 0.0)]) >= KNIFE - 1e-9
    assert min(x for points in closed or [[(5.0, 0.0)]] for x, _ in points) >= KNIFE - 1e-9


def test_a_reader_of_another_make_finds_the_pads_of_a_cutting_plan():
    one = bare("square-with-hole", layers=1)
    path = trimesh.load(io.StringIO(flat_dxf(cut_plan(one)).decode("utf-8")), file_type="dxf")
    cut = [each for each in path.entities if each.layer == "CUT"]
    assert len(cut) == 2 * len(one.positions)
    # 41 mm square, hole of 22 mm; its own chords are shorter by less than 1 %
    lengths = sorted(each.length(path.vertices) for each in cut)
    assert lengths[-1] == pytest.approx(4 * 41.0)
    assert lengths[0] == pytest.approx(math.pi * 22.0, rel=0.01)


@pytest.mark.parametrize("writer", [flat_svg, flat_dxf])
def test_the_cutting_plan_tells_what_to_cut_from_what(writer):
    raw = writer(cut_plan(bare(layers=2)))
    text = raw if isinstance(raw, str) else raw.decode("utf-8")
    for line in (
        "under slab: 6 pads of cr-sponge, 6.2 mm, 2 per foot",
        "sheet of 90 x 134 mm, 2 mm round every pad",
        "the line is 100 mm long",
    ):
        assert line in text
    assert raw == writer(cut_plan(bare(layers=2)))  # the same bytes each time


@pytest.mark.parametrize("kind", ["printed", "ball"])
def test_what_is_not_cut_has_no_cutting_plan(kind):
    with pytest.raises(ValueError, match="the pads of 'under slab' are not cut from sheet"):
        flat_svg(cut_plan(replace(bare(), kind=kind)))


def test_a_cup_foot_is_cut_by_the_same_plan():
    one = foot("cup", "ring", "slot-20", "usual")
    circles, _ = dxf_shapes(flat_dxf(cut_plan(one)), "CUT")
    assert len(circles) == 2 * one.pad.layers * len(one.positions)


def test_the_slabs_plan_shows_every_pad_where_it_stands_seen_from_below():
    one = on_slab(bare("ring"))
    circles, _ = dxf_shapes(flat_dxf(slab_plan(one)), "PAD")
    first, second = SIZES["usual"]["ring"]
    wanted = [
        # looking up, with the printer's back upwards, its right is on the left
        (-1e3 * (x - 0.011), 1e3 * (y + 0.006), 1e3 * across / 2)
        for x, y in one.feet[0].positions
        for across in (first, second)
    ]
    assert np.array(sorted(circles)) == pytest.approx(np.array(sorted(wanted)), abs=1e-9)
    drawn, _ = svg_shapes(flat_svg(slab_plan(one)), "PAD")
    assert np.array(sorted(drawn)) == pytest.approx(np.array(sorted(wanted)), abs=1e-3)
    _, (edge,) = dxf_shapes(flat_dxf(slab_plan(one)), "EDGE")
    corners = [(x, y) for x in (-223.5, 223.5) for y in (-231.0, 231.0)]
    assert np.array(sorted(edge)) == pytest.approx(np.array(corners))
    (_, ((x, y, wide, high),)) = svg_shapes(flat_svg(slab_plan(one)), "EDGE")
    assert (x, y, wide, high) == pytest.approx((0.0, 0.0, 447.0, 462.0))


def test_distances_on_the_slabs_plan_are_those_to_the_edges():
    one = on_slab()
    # places 181, 192; -183, 194; 0, -177 mm about the printer's middle, the slab's at 11, -6
    wanted = {"53.5", "33.0", "29.5", "31.0", "212.5", "60.0"}
    root = etree.fromstring(flat_svg(slab_plan(one)).encode())
    told = [each.text for each in root.iter(f"{SVG}text")]
    assert {text for text in told if re.fullmatch(r"[\d.]+", text)} == wanted
    assert [text for text in told if text.startswith("under slab ")] == [
        "under slab 1",
        "under slab 2",
        "under slab 3",
    ]
    assert "Reading-room printer: slab of 447 x 462 x 41.3 mm, seen from below" in told
    document = ezdxf.read(io.StringIO(flat_dxf(slab_plan(one)).decode("utf-8")))
    words = [each for each in document.modelspace() if each.dxftype() == "TEXT"]
    assert [each.dxf.text for each in words] == told
    # every distance is told at the end of a line of that length
    lines = [
        (each.dxf.end - each.dxf.start).magnitude
        for each in document.modelspace()
        if each.dxftype() == "LINE"
    ]
    for text in wanted:
        assert any(long == pytest.approx(float(text), abs=0.05) for long in lines)
    assert max(abs(long - 100.0) < 1e-9 for long in lines)  # the ruler


def test_the_ruler_is_as_long_as_it_says_in_both_files():
    one = bare(layers=1)
    root = etree.fromstring(flat_svg(cut_plan(one)).encode())
    strokes = [each.get("d") for each in root.iter(f"{SVG}path")]
    ends = [[float(n) for n in re.findall(r"-?[\d.]+", each)] for each in strokes]
    assert max(c - a for a, _, c, _ in ends) == pytest.approx(100.0)
    ticks = sorted(a for a, _, c, _ in ends if a == c)
    assert np.diff(ticks) == pytest.approx(np.full(10, 10.0))


def test_a_pad_beyond_the_slab_is_refused():
    far = replace(bare(), positions=((0.224, 0.1), (-0.1, -0.1), (0.1, -0.1)))
    with pytest.raises(CannotDraw) as refused:
        flat_svg(slab_plan(on_slab(far)))
    # 224 - 11 + 21 - 223.5 mm
    assert str(refused.value) == (
        "under-slab-pad: positions: pad 1 reaches 10.5 mm beyond the slab"
    )
    with pytest.raises(ValueError, match="'Reading-room printer' stands on no slab"):
        flat_svg(slab_plan(design(bare())))
