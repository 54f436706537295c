"""Engraved letters: their outlines against distances, their volume against the kernel."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations

import numpy as np
import pytest
from sheets import PRINT

from geometry.lettering.letter_forms import centre_lines, engravable
from geometry.lettering.lettering import DEPTH, EDGE, SLENDER, STOUT, engraved, lettering
from geometry.lettering.stroked import area_between, signed_area, stroked
from geometry.solids import features
from geometry.solids.outline import Outline, chamfered_volume, disc
from geometry.solids.part import Part
from geometry.solids.verify import verify

LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-+/×."
WIDE = Outline(core_x=171.0, core_y=57.0, offset=3.0)


def plate_of(outline, height, volume_taken, solid, material="petg"):
    """Return a plain plate with something cut out, as a part to be verified."""
    plain = chamfered_volume(lambda inset: outline.grown(-inset).area, 0.3, height)
    return Part(
        name="plate",
        owner="corner",
        role="sole",
        quantity=1,
        solid=solid,
        material=material,
        orientation="",
        notes=(),
        box=(*outline.size, height),
        volume=plain - volume_taken,
        loaded=(),
        places=(),
    )


def inside(points, loops):
    """Return which points lie inside by the parity of crossings to the right."""
    odd = np.zeros(len(points), dtype=bool)
    for loop in loops:
        for (ax, ay), (bx, by) in zip(loop, (*loop[1:], loop[0]), strict=True):
            if ay == by:
                continue
            crossed = (points[:, 1] > min(ay, by)) & (points[:, 1] <= max(ay, by))
            odd ^= crossed & (ax + (points[:, 1] - ay) * (bx - ax) / (by - ay) > points[:, 0])
    return odd


def off_the_lines(points, lines):
    """Return the distance of points from the nearest centre line."""
    nearest = np.full(len(points), np.inf)
    for line in lines:
        for a, b in zip(np.array(line[:-1]), np.array(line[1:]), strict=True):
            share = np.clip((points - a) @ (b - a) / ((b - a) @ (b - a)), 0.0, 1.0)
            nearest = np.minimum(nearest, np.hypot(*(points - a - share[:, None] * (b - a)).T))
    return nearest


def cross(a, b, c, d):
    """Return whether two segments cross within both."""

    def side(p, q, r):
        return (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])

    return side(a, b, c) * side(a, b, d) < 0 and side(c, d, a) * side(c, d, b) < 0


@pytest.mark.parametrize("slim", [STOUT, SLENDER])
@pytest.mark.parametrize("letter", LETTERS)
def test_a_letter_is_all_that_the_pen_touches_and_hardly_more(letter, slim):
    height, pen = 7.0, 7.0 / slim
    # the nozzle is chosen so that this is the stroke
    one = lettering(
        letter,
        Outline(core_x=40, core_y=height + 2 * max(EDGE, pen), offset=0.01),
        replace(PRINT, nozzle=pen / 2e3),
    )
    assert (one.height, one.stroke) == (height, pytest.approx(pen))
    loops = one.letters[0]
    corners = np.array([point for loop in loops for point in loop])
    assert np.ptp(corners[:, 1]) <= height + 1e-9
    step, left = 0.85 * (height - pen) / 6, corners[:, 0].min() + pen / 2
    lines = [
        [(left + x * step, -height / 2 + pen / 2 + y * step / 0.85) for x, y in line]
        for line in centre_lines(letter)
    ]
    x, y = np.meshgrid(np.arange(-5.0, 5.0, 0.06), np.arange(-4.0, 4.0, 0.06))
    points = np.column_stack([x.ravel() + 0.0123, y.ravel() + 0.0077])
    filled, away = inside(points, loops), off_the_lines(points, lines)
    assert np.all(filled[away < pen / 2 - 1e-6])
    # the farthest corner: a slanting end goes on by the pen's width, by half of it to the side
    assert not np.any(filled[away > pen / 2 * 5**0.5 + 1e-6])
    # parity counts an overlap as nothing, the closed form twice: only a simple outline is alike;
    # a grid of 0.06 mm is off by less than half a cell along the outline
    outline = sum(
        np.hypot(*np.subtract(a, b))
        for loop in loops
        for a, b in zip(loop, (*loop[1:], loop[0]), strict=True)
    )
    assert filled.sum() * 0.06**2 == pytest.approx(one.area, abs=0.03 * outline)
    edges = [edge for loop in loops for edge in zip(loop, (*loop[1:], loop[0]), strict=True)]
    assert not any(cross(*one_edge, *other) for one_edge, other in combinations(edges, 2))


def test_area_of_strokes_worked_by_hand():
    # T of a pen of 3: bar 10 and 1.5 beyond at either end, stem 8 below the bar's lower edge
    # and 1.5 beyond its end
    bar = stroked([[(0, 9.5), (10, 9.5)], [(4, 9.5), (4, 0)]], 3.0)
    assert area_between(bar) == pytest.approx(13 * 3 + (8 + 1.5) * 3, rel=1e-12)
    # a frame, not square, is its outer less its inner rectangle, and only the hole is anticlockwise
    frame = stroked([[(0, 0), (10, 0), (10, 7), (0, 7), (0, 0)]], 2.0)
    assert area_between(frame) == pytest.approx(12 * 9 - 8 * 5, rel=1e-12)
    assert [signed_area(loop) > 0 for loop in frame] == [False, True]


@pytest.mark.parametrize(("height", "nozzle"), [(4.0, 0.0004), (10.0, 0.0004), (6.0, 0.0006)])
@pytest.mark.parametrize(("z", "into"), [(0.0, 1), (3.0, -1)])
def test_all_letters_are_printable_on_both_faces(height, nozzle, z, into):
    settings = replace(PRINT, nozzle=nozzle)
    rooms = [Outline(core_x=x, core_y=57.0, offset=3.0) for x in np.arange(60.0, 200.0, 2.0)]
    text = "ABCDEFGHIJKLMN OPQRSTUVWXYZ/×+ 0123456789-."
    room, letters = next(
        (room, found)
        for room in rooms
        if (found := lettering(text, room, settings)) is not None and found.height >= height
    )
    plain = features.prism(room, 0.0, 3.0, 0.3)
    cut, removed = engraved(plain, letters, z, mirrored=into > 0, into=into)
    # plane faces only: the kernel integrates them to rounding
    assert plain.Volume() - cut.Volume() == pytest.approx(removed, rel=1e-9)
    figures = verify(plate_of(room, 3.0, removed, cut), settings)
    assert figures.thinnest_wall >= nozzle * 1e3
    # ceilings hang over strokes alone; no letter has a straight one longer than its height
    if into > 0:
        assert letters.stroke < figures.bridge < letters.height
    else:
        assert figures.bridge == 0.0


@pytest.mark.parametrize(("z", "into", "from_outside"), [(0.0, 1, -1.0), (3.0, -1, 1.0)])
def test_a_text_reads_from_left_to_right_when_one_looks_at_it(z, into, from_outside):
    room = Outline(core_x=31.0, core_y=17.0, offset=2.0)
    letters = lettering("LI", room, PRINT)
    cut, _ = engraved(features.prism(room, 0.0, 3.0), letters, z, mirrored=into > 0, into=into)
    floors = [face for face in cut.Faces() if abs(face.Center().z - (z + into * DEPTH)) < 1e-6]
    ell, stem = sorted(floors, key=lambda face: -face.Area() / face.BoundingBox().xlen)[::-1]
    # looking down, x goes to the right; looking up from below with y up, to the left
    assert from_outside * (stem.Center().x - ell.Center().x) > 0
    box = ell.BoundingBox()
    middle = (box.xmin + box.xmax) / 2
    assert from_outside * (middle - ell.Center().x) > 0  # more of an L is on its left
    assert ell.Center().y < (box.ymin + box.ymax) / 2  # and below


FACES = [
    (disc(49.3), ((0.0, 0.0, 3.4),), ()),
    (disc(61.0), ((-17.0, 4.0, 2.3), (17.0, -5.0, 2.3)), ()),
    (Outline(core_x=39.0, core_y=54.0, offset=3.7), (), (Outline(core_x=60, core_y=5, offset=0),)),
    (Outline(core_x=118.0, core_y=23.0, offset=2.0), ((0.0, 0.0, 5.1),), ()),
]


@pytest.mark.parametrize(("room", "holes", "cuts"), FACES)
def test_letters_keep_off_edges_holes_and_grooves(room, holes, cuts):
    one = lettering("Rear left NR-50", room, PRINT, holes, cuts)
    assert " ".join(one.lines) == "REAR LEFT NR-50"
    points = np.array([point for letter in one.letters for loop in letter for point in loop])
    over = np.maximum(np.abs(points) - (room.core_x / 2, room.core_y / 2), 0.0)
    assert np.hypot(*over.T).max() <= room.offset - EDGE + 1e-6
    # along the edges too, not at corners alone: every edge in steps of a tenth
    outline = np.concatenate(
        [
            np.array(loop) + share * (np.roll(loop, -1, axis=0) - loop)
            for letter in one.letters
            for loop in letter
            for share in np.linspace(0, 0.9, 10)
        ]
    )
    for x, y, radius in holes:
        assert np.hypot(*(outline - (x, y)).T).min() >= radius + EDGE - 1e-6
    for cut in cuts:
        over = np.maximum(np.abs(outline) - (cut.core_x / 2, cut.core_y / 2), 0.0)
        assert np.hypot(*over.T).min() >= cut.offset + EDGE - 1e-6
    assert 4.0 <= one.height <= 10.0


def test_more_room_never_makes_letters_smaller_until_they_are_large_enough():
    heights = [
        0.0 if (one := lettering("SLOT 20", disc(across), PRINT)) is None else one.height
        for across in np.arange(11.0, 101.0, 3.0)
    ]
    assert heights == sorted(heights)
    assert (heights[0], heights[-1]) == (0.0, 10.0)
    assert len(set(heights)) > 8


@pytest.mark.parametrize(
    ("text", "room", "nozzle"),
    [
        ("REAR LEFT", disc(17.0), 0.0004),  # too small for 4 mm
        ("REAR LEFT", disc(40.0), 0.0011),  # five strokes of two lines each are over 10 mm
        ("  ", disc(90.0), 0.0004),
        ("→ ☺", disc(90.0), 0.0004),  # no letter for any of these
        ("A", Outline(core_x=0.9, core_y=70.0, offset=0.2), 0.0004),  # narrower than its margin
    ],
)
def test_where_no_letter_fits_there_is_no_text(text, room, nozzle):
    assert lettering(text, room, replace(PRINT, nozzle=nozzle)) is None


def test_a_wide_nozzle_draws_wide_strokes_and_tall_letters():
    one = lettering("B", WIDE, replace(PRINT, nozzle=0.0008))
    assert one.stroke == pytest.approx(1.6)
    small = lettering("B", disc(12.1), replace(PRINT, nozzle=0.0008))
    assert small is None  # 8 mm at the least, where 0.4 mm would draw 4 mm
    assert lettering("B", disc(12.1), PRINT).height >= 4.0


def test_texts_become_letters_there_are():
    assert engravable("Füße – 31x46, M5 X 12°") == "FUSSE - 31×46 M5 × 12"
    assert engravable("box x-axis 2x") == "BOX X-AXIS 2X"
