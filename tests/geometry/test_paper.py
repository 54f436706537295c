"""Templates on the user's paper: true scale, every line on some sheet, marks that meet."""

from __future__ import annotations

import re
import zlib
from itertools import pairwise

import pytest
from sheets import foot
from test_slab import cornered

from geometry.finish.paper import EDGE, FOOTER, OVERLAP, paper_pdf, sheets
from geometry.sheets.cut_plan import cut_plan
from geometry.sheets.ink import ink_of
from geometry.sheets.pad_template import template_ink, template_of
from geometry.sheets.slab_plan import slab_plan

POINT = 72.0 / 25.4  # PDF units to the millimetre
PAPER = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}


def media(pdf: bytes) -> list[tuple[float, float]]:
    """Return width and height of every page of a PDF [mm]."""
    boxes = re.findall(rb"/MediaBox \[\s*0 0 ([\d.]+) ([\d.]+)\s*\]", pdf)
    return [(float(wide) / POINT, float(high) / POINT) for wide, high in boxes]


def strokes(pdf: bytes) -> list[list[tuple[float, float]]]:
    """Return the polylines of all pages [mm], in the order they are drawn."""
    found = []
    for raw in re.findall(rb"stream\r?\n(.*?)endstream", pdf, flags=re.S):
        try:
            text = zlib.decompress(raw).decode("latin-1")
        except zlib.error:
            continue
        if " l\n" not in text:
            continue
        line: list[tuple[float, float]] = []
        for x, y, what in re.findall(r"(-?[\d.]+) (-?[\d.]+) ([ml])\n", text):
            at = (float(x) / POINT, float(y) / POINT)
            if what == "m":
                line = [at]
                found.append(line)
            else:
                line.append(at)
    return found


@pytest.mark.parametrize("paper", PAPER)
def test_a_pad_comes_out_in_its_size_on_one_sheet_with_a_scale_bar(paper):
    one = foot("cup", "rectangle", "adhesive", "usual")  # 31 x 46 mm
    pdf = paper_pdf(template_ink(template_of(one)), paper, "corner-pad")
    ((wide, high),) = media(pdf)
    assert sorted((wide, high)) == pytest.approx(sorted(PAPER[paper]), abs=0.01)
    by_size = {}
    for line in strokes(pdf):
        (low_x, high_x), (low_y, high_y) = (
            (min(each), max(each)) for each in zip(*line, strict=True)
        )
        size = (round(high_x - low_x, 1), round(high_y - low_y, 1))
        by_size[size] = (low_x, low_y, high_x, high_y)
    for size in ((31.0, 46.0), (100.0, 0.0)):  # the pad, the scale bar
        low_x, low_y, high_x, high_y = by_size[size]
        assert (high_x - low_x, high_y - low_y) == pytest.approx(size, abs=0.01)
        assert EDGE - 0.01 <= low_x < high_x <= wide - EDGE + 0.01
        assert EDGE - 0.01 <= low_y <= high_y <= high - EDGE + 0.01
    assert pdf == paper_pdf(template_ink(template_of(one)), paper, "corner-pad")


@pytest.mark.parametrize("paper", PAPER)
def test_a_large_plan_is_tiled_and_every_bit_of_it_is_on_some_sheet(paper):
    ink = ink_of(slab_plan(cornered()))
    found = sheets(ink, paper)
    assert len(found) > 3
    assert len(media(paper_pdf(ink, paper, "slab"))) == len(found)
    for sheet in found:
        assert sorted(sheet.size) == pytest.approx(sorted(PAPER[paper]))
        low_x, low_y, high_x, high_y = sheet.window
        # within what a printer reaches, scale bar under it
        assert high_x - low_x == pytest.approx(sheet.size[0] - 2 * EDGE)
        assert high_y - low_y == pytest.approx(sheet.size[1] - 2 * EDGE - FOOTER)
    low_x, low_y, high_x, high_y = ink.bounds
    steps = 60
    for i in range(steps + 1):
        for j in range(steps + 1):
            x = low_x + (high_x - low_x) * i / steps
            y = low_y + (high_y - low_y) * j / steps
            assert any(
                a - 1e-9 <= x <= c + 1e-9 and b - 1e-9 <= y <= d + 1e-9
                for a, b, c, d in (sheet.window for sheet in found)
            )


def test_neighbours_share_their_marks_and_the_line_between_them():
    found = sheets(ink_of(slab_plan(cornered())), "a4")
    seen: dict[tuple[float, float, str], int] = {}
    for sheet in found:
        low_x, low_y, high_x, high_y = sheet.window
        assert sheet.marks
        for x, y, name in sheet.marks:
            # whole crosses, not cut by the edge
            assert low_x + 4.0 < x < high_x - 4.0 or low_y + 4.0 < y < high_y - 4.0
            key = (round(x, 6), round(y, 6), name)
            seen[key] = seen.get(key, 0) + 1
    assert set(seen.values()) == {2}  # each on the two sheets that it joins
    row = [sheet for sheet in found if sheet.window[1] == found[0].window[1]]
    for left, right in pairwise(row):
        assert left.window[2] - right.window[0] == pytest.approx(OVERLAP)
        assert set(left.cuts) & set(right.cuts)


def test_lying_paper_is_taken_where_it_saves_sheets():
    plan = ink_of(cut_plan(foot("cup", "disc", "adhesive", "large")))
    found = sheets(plan, "a4")
    assert len(found) <= 4
    upright = [sheet for sheet in found if sheet.size[0] < sheet.size[1]]
    assert len(upright) in (0, len(found))
