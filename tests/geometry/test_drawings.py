"""Drawings held against the parts: true scale, the measures that are written, both files alike."""

from __future__ import annotations

import re
import zlib
from dataclasses import replace
from functools import cache
from itertools import combinations

import cadquery as cq
import numpy as np
import pytest
from lxml import etree
from sheets import damper, design, drawn, foot, spacer
from test_slab import cornered

from geometry.draw import draw
from geometry.finish.page import Page
from geometry.finish.page_files import page_pdf, page_svg
from geometry.sheets.cut_view import cut_view
from geometry.sheets.drawing_features import recesses, round_holes, slot_ends
from geometry.sheets.drawing_sheet import drawing
from geometry.sheets.projection import FRONT, TOP, projected
from geometry.solids.part import Part

SVG = "{http://www.w3.org/2000/svg}"


def numbers(path):
    return np.array([[float(n) for n in pair.split()] for pair in re.split("[ML]", path) if pair])


@pytest.mark.parametrize("size", ["small", "usual", "large"])
def test_views_are_as_large_as_the_part_at_the_scale_that_is_told(size):
    one, parts = drawn("cup", "rectangle", "slot-20", size)
    for part in parts:
        svg = etree.fromstring(page_svg(drawing(part, design(one))).encode())
        assert (svg.get("width"), svg.get("height")) == ("210mm", "297mm")
        assert svg.get("viewBox") == "0 0 210 297"  # one user unit is one millimetre
        words = [word.text for word in svg.iter(f"{SVG}text")]
        scale = next(word for word in words if re.fullmatch(r"\d+:\d+", word))
        over, under = (float(n) for n in scale.split(":"))
        points = numbers(
            next(p for p in svg.iter(f"{SVG}path") if p.get("class") == "visible").get("d")
        )
        # points are written to 0.001 mm, outlines are chords of 0.02 mm
        assert np.ptp(points[:, 0]) == pytest.approx(part.box[0] * over / under, abs=0.05)
        wanted = (part.box[1] + part.box[2]) * over / under + 22.0  # and the room between views
        assert np.ptp(points[:, 1]) == pytest.approx(wanted, abs=0.05)
        for side in part.box:
            assert f"{round(side, 2):g}" in words
        assert {part.name, part.material, str(part.quantity), "0.1.0", "mm"} <= set(words)
        assert "first angle (ISO 5456-2)" in words


def test_holes_and_recesses_are_read_from_the_solid():
    block = cq.Workplane().box(43, 31, 9, centered=(True, True, False))
    block = block.faces(">Z").workplane().pushPoints([(-14, 7), (13, -8)]).cboreHole(3.4, 6.6, 3.1)
    block = block.faces(">Z").workplane().rect(11, 8).cutBlind(-4.2)
    block = block.edges("|Z and >X").fillet(2.5)  # outer corners are no holes
    pocket = cq.Workplane().box(7, 5, 2.3, centered=(True, True, False)).translate((0, 9, 0))
    solid = block.cut(pocket).val()
    assert round_holes(solid) == [
        (13.0, -8.0, 3.4),
        (-14.0, 7.0, 3.4),
        (13.0, -8.0, 6.6),
        (-14.0, 7.0, 6.6),
    ]
    assert recesses(solid) == [(4.8, 11.0, 8.0, 1), (5.9, 6.6, 6.6, 1), (2.3, 7.0, 5.0, -1)]


def test_diameters_and_depths_are_written_once_with_their_count():
    plate, ring = draw(design(spacers=(replace(spacer(), frame_size=23),)))
    words = [word.text for word in drawing(plate, design()).words]
    assert sum(word.startswith("4× Ø") for word in words) == 1
    words = [word.text for word in drawing(ring, design()).words]
    assert [word for word in words if word.startswith("Ø")] == ["Ø5.15"]  # bore and 0.15 for print


def test_hidden_edges_are_told_from_seen_ones():
    block = cq.Workplane().box(17, 11, 6, centered=(True, True, False))
    cup = block.faces("<Z").workplane().rect(9, 5).cutBlind(-3.5).val()
    top, front = projected(cup, TOP), projected(cup, FRONT)

    def girth(lines):
        return sum(np.linalg.norm(np.diff(np.array(line), axis=0), axis=1).sum() for line in lines)

    assert girth(top.visible) == pytest.approx(2 * (17 + 11))
    assert girth(top.hidden) == pytest.approx(2 * (9 + 5))
    assert girth(front.visible) == pytest.approx(2 * (17 + 6))
    assert girth(front.hidden) == pytest.approx(9 + 9 + 2 * 3.5)  # floor, mouth, walls


def test_the_pdf_is_a4_and_holds_the_same_strokes():
    one, parts = drawn("cup", "disc", "bolt", "usual")
    page = drawing(parts[0], design(one))
    pdf = page_pdf(page, parts[0].name)
    assert pdf == page_pdf(page, parts[0].name)
    wide, high = (
        float(n) for n in re.search(rb"/MediaBox \[ 0 0 ([\d.]+) ([\d.]+) \]", pdf).groups()
    )
    # points of 1/72 inch, written to 12 digits
    assert (wide * 25.4 / 72, high * 25.4 / 72) == pytest.approx((210.0, 297.0))
    streams = re.findall(rb"stream\r?\n(.*?)\r?\nendstream", pdf, re.S)
    content = max((zlib.decompress(s) for s in streams if s[:1] == b"x"), key=len).decode("latin-1")
    drawn_points = np.array(
        [[float(x), float(y)] for x, y in re.findall(r"([-\d.]+) ([-\d.]+) [ml]\b", content)]
    ) * (25.4 / 72)
    wanted = [point for stroke in page.strokes if stroke.kind == "frame" for point in stroke.line]
    for point in wanted:
        # a PDF by this writer holds coordinates to about a millionth of a point
        assert np.linalg.norm(drawn_points - np.array(point), axis=1).min() < 1e-3


def test_no_measure_leaves_the_paper():
    for kind, shape, attachment in (("cup", "ring", "slot-40"), ("printed", "disc", "bolt")):
        for size in ("small", "usual", "large"):
            one, parts = drawn(kind, shape, attachment, size)
            for part in parts:
                page = drawing(part, design(one))
                points = np.array([point for stroke in page.strokes for point in stroke.line])
                assert points[:, 0].min() >= 20.0
                assert points[:, 0].max() <= 200.0
                assert points[:, 1].min() >= 10.0
                assert points[:, 1].max() <= 287.0


def boxes_apart(page) -> bool:
    """Return whether no two words of a page lie over each other."""
    return not any(
        a.box[0] < b.box[2] and b.box[0] < a.box[2] and a.box[1] < b.box[3] and b.box[1] < a.box[3]
        for a, b in combinations(page.words, 2)
    )


def struck(page) -> list[str]:
    """Return the words through whose box a line runs, found by walking along every line."""
    found = []
    lines = [np.array(stroke.line) for stroke in page.strokes]
    starts = np.concatenate([each[:-1] for each in lines])
    ends = np.concatenate([each[1:] for each in lines])
    near = 0.2  # a line that only grazes a box leaves its letters alone [mm]
    steps = np.linspace(0.0, 1.0, 401)[:, None, None]
    for words in page.words:
        low, high = np.array(words.box[:2]) + near, np.array(words.box[2:]) - near
        close = (np.minimum(starts, ends) < high).all(1) & (np.maximum(starts, ends) > low).all(1)
        points = starts[close] + steps * (ends[close] - starts[close])
        if ((points > low) & (points < high)).all(axis=2).any():
            found.append(words.text)
    return found


@cache
def every_sheet() -> tuple[tuple[Part, Page], ...]:
    """Return a part of every role that is drawn, with its sheet."""
    kit = design(
        dampers=(
            replace(damper(shape="pads"), gauge=True),
            replace(damper(wedge=True), name="rear", cast=True),
        ),
        spacers=(spacer("other"),),
    )
    slab = cornered()
    kits = [(draw(kit), kit), (draw(slab), slab)]
    for kind, shape, attachment, size in (
        ("cup", "ring", "slot-40", "large"),
        ("cup", "square-with-hole", "holes", "usual"),
        ("cup", "disc", "tube-end", "small"),
        ("cup", "ring", "rod-end", "usual"),
        ("printed", "ring", "tapped-end", "usual"),
    ):
        one = replace(foot(kind, shape, attachment, size), tread=0.0016)
        kits.append((draw(design(one)), design(one)))
    return tuple((part, drawing(part, sheet)) for parts, sheet in kits for part in parts)


def test_no_measure_is_printed_over_another_nor_over_a_line():
    kinds = {part.role for part, _ in every_sheet()}
    assert {"lip", "damper-mould", "pulley-gauge", "socket", "tread", "damper-wedge"} <= kinds
    for part, page in every_sheet():
        assert boxes_apart(page), part.name
        assert struck(page) == [], part.name
        for words in page.words:
            assert 0 <= words.box[0] < words.box[2] <= page.size[0]
            assert 0 <= words.box[1] < words.box[3] <= page.size[1]


def test_every_sheet_has_a_section_or_a_plain_view_and_the_sizes_of_holes_slots_and_walls():
    plain = set()
    for part, page in every_sheet():
        words = [word.text for word in page.words]
        for hole in round_holes(part.solid):
            assert any(word.endswith(f"Ø{round(hole.diameter, 2):g}") for word in words), part.name
        for end in slot_ends(part.solid):
            assert f"slot {round(end.diameter, 2):g}" in words, part.name
        cut = cut_view(part.solid, 20.0)
        assert (cut is not None) == ("A–A" in words), part.name
        for low, high, _ in cut.walls if cut else ():
            assert f"{round(high - low, 2):g}" in words, part.name
        plain |= set() if cut else {part.role}
    assert plain == {"lip"}  # an angle, of which the middle shows little


def test_a_page_sets_words_apart_that_would_lie_over_each_other():
    page = Page(size=(60.0, 40.0))
    for _ in range(4):
        page.write((20.0, 20.0), "12.48")
    page.write((20.0, 20.0), "7.4", upright=True)
    assert not boxes_apart(page)
    page.set_apart()
    assert boxes_apart(page)
    # none is moved farther than it takes for five lines of text
    assert max(np.hypot(w.at[0] - 20.0, w.at[1] - 20.0) for w in page.words) < 14.0


def test_a_section_is_hatched_where_it_cuts_and_shows_walls():
    one, parts = drawn("cup", "disc", "adhesive", "usual")
    cut = cut_view(parts[0].solid, 0.5)
    assert cut is not None
    # mm: outside 49.48, pocket 45.88 wide; cap 3.4 less the line 0.4 deep, rim 7.4 high
    ((low, high, level),) = cut.walls
    assert (high - low, level) == (pytest.approx(1.8, abs=1e-3), pytest.approx(10.8))
    assert "1.8" in [word.text for word in drawing(parts[0], design(one)).words]
    # lines at 45 degrees, 0.5 mm apart: together as long as the area over the distance
    area = 49.48 * 3.4 + 2 * 1.8 * 7.4 - 2 * 0.8 * 0.4 - 0.3**2
    long = sum(np.hypot(x1 - x0, y1 - y0) for (x0, y0), (x1, y1) in cut.hatching)
    assert long * 0.5 == pytest.approx(area, rel=0.02)
    for (x0, y0), (x1, y1) in cut.hatching:
        assert x1 - x0 == pytest.approx(y1 - y0, abs=1e-9)
        # nothing of it in the pocket
        assert not (abs((x0 + x1) / 2) < 22.5 and (y0 + y1) / 2 > 3.4)


def test_a_corner_that_is_not_whole_behind_the_middle_keeps_its_plain_view():
    block = cq.Workplane().box(30, 30, 5, centered=False)
    ell = block.cut(cq.Workplane().box(20, 20, 5, centered=False).translate((10, 10, 0)))
    assert cut_view(ell.val(), 2.5) is None


def test_a_drawing_is_as_large_as_the_users_paper():
    one, parts = drawn("cup", "disc", "bolt", "usual")
    sheet = design(one)
    letter = replace(sheet, print=replace(sheet.print, paper="letter"))
    page = drawing(parts[0], letter)
    assert page.size == pytest.approx((215.9, 279.4))
    points = np.array([point for stroke in page.strokes for point in stroke.line])
    assert points[:, 0].max() <= 205.9 + 1e-9
    assert points[:, 1].max() <= 269.4 + 1e-9
