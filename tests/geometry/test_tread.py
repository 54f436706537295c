"""Treads: volumes by hand and by the kernel, grooves towards the desk, refusals."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import product

import pytest
from pairwise import spread
from sheets import PRINT, SIZES, foot

from geometry.assembly import placed
from geometry.feet.tread import groove_area, tread_part
from geometry.solids.outline import Outline, disc, foot_outline
from geometry.solids.part import CannotDraw
from geometry.solids.verify import bounds, verify
from isolator.design import SHAPES


def under(kind="cup", shape="disc", size="usual", tread=0.0018):
    return replace(foot(kind, shape, "adhesive", size), tread=tread)


@pytest.mark.parametrize(
    ("kind", "shape", "size"), spread(product(["cup", "printed"], SHAPES, SIZES))
)
def test_every_tread_is_sound_and_has_the_soles_outside(kind, shape, size):
    one = under(kind, shape, size)
    part = tread_part(one, PRINT)
    figures = verify(part, PRINT)  # box, bed, one solid, closed form of the volume
    # the kernel integrates to about 1e-6
    assert figures.volume == pytest.approx(part.volume, rel=1e-5)
    assert (figures.overhang, figures.bridge) == (0.0, 0.0)
    sole = one.pad.first + (0.0 if kind == "printed" else 2 * (one.side_room + one.wall))
    assert part.box[0] == pytest.approx(1e3 * sole)
    assert (part.role, part.owner, part.material) == ("tread", one.name, "tpu-95")
    assert part.quantity == len(one.positions)


def test_volume_of_a_sharp_tread_worked_by_hand():
    # printed foot of 31 x 46 mm, tread of 1.8 mm: grooves 0.8 deep, 1.2 wide, every 3.6 mm;
    # within a rim of 2.4; 23 - 2.4 - 0.1 - 0.6 = 19.9 = 5.5 pitches: five pairs and one in the
    # middle; chamfer 0.3
    part = tread_part(under("printed", "rectangle"), PRINT)
    frustum = 0.3 / 6 * (31 * 46 + 4 * 30.7 * 45.7 + 30.4 * 45.4)  # prismatoid
    by_hand = 31 * 46 * 1.5 + frustum - 11 * (31 - 4.8) * 1.2 * 0.8
    assert part.solid.Volume() == pytest.approx(by_hand, rel=1e-9)


def test_area_of_a_groove_in_a_disc_is_that_between_two_chords():
    # circular segments: r² (α - sin α cos α), cos α = d/r, from any handbook
    def segment(r, d):
        alpha = math.acos(d / r)
        return r * r * (alpha - math.sin(alpha) * math.cos(alpha))

    between = segment(17.0, 6.6 - 0.7) - segment(17.0, 6.6 + 0.7)
    assert groove_area(disc(34.0), 1.4, -6.6) == pytest.approx(between, rel=1e-12)
    whole = math.pi * 17.0**2 - 2 * segment(17.0, 0.7)
    assert groove_area(disc(34.0), 1.4, 0.0) == pytest.approx(whole, rel=1e-12)
    sharp = Outline(core_x=31.0, core_y=46.0, offset=0.0)
    assert groove_area(sharp, 1.3, 7.2) == pytest.approx(31.0 * 1.3, rel=1e-12)


def test_in_place_the_plain_face_is_under_the_sole_and_the_grooves_face_the_desk():
    one = under("cup", "rectangle")
    part = tread_part(one, PRINT)
    for place, (x, y) in zip(part.places, one.positions, strict=True):
        body = placed(part.solid, place)
        low_x, low_y, low, high_x, high_y, top = bounds(body)
        # the kernel widens a turned box by rounding
        assert top == pytest.approx(-1e3 * (one.height - one.tread), abs=1e-6)
        assert low == pytest.approx(-1e3 * one.height, abs=1e-6)
        middle = ((low_x + high_x) / 2, (low_y + high_y) / 2)
        assert middle == pytest.approx((1e3 * x, 1e3 * y), abs=1e-6)
        flat = {
            level: sum(
                face.Area()
                for face in body.Faces()
                if face.geomType() == "PLANE" and abs(face.Center().z - level) < 1e-6
            )
            for level in (top, low)
        }
        outline = foot_outline(one)
        assert flat[top] == pytest.approx(outline.grown(-0.3).area, rel=1e-6)
        assert 0.5 * outline.area < flat[low] < 0.8 * outline.area  # the rest is groove


def test_two_layers_stay_under_the_grooves():
    least = tread_part(under(tread=0.0006), PRINT)
    # one layer of groove over two of floor: the groove's ground lies at 0.4 mm
    ground = [face.Center().z for face in least.solid.Faces() if face.geomType() == "PLANE"]
    assert any(z == pytest.approx(0.4, abs=1e-9) for z in ground)
    with pytest.raises(CannotDraw) as refused:
        tread_part(under(tread=0.0005), PRINT)
    assert str(refused.value) == (
        "corner-tread: tread: 0.5 mm leaves less than 2 layers of 0.2 mm under grooves of one "
        "layer; take 0.6 mm at least"
    )


def test_what_cannot_have_a_tread():
    assert tread_part(under(tread=0.0), PRINT) is None
    bare = replace(under(), kind="bare")
    with pytest.raises(CannotDraw) as refused:
        tread_part(bare, PRINT)
    assert str(refused.value) == ("corner-tread: tread: a bare foot has no sole to glue one under")
    narrow = under("printed")
    narrow = replace(narrow, pad=replace(narrow.pad, first=0.0059))
    with pytest.raises(CannotDraw) as refused:
        tread_part(narrow, PRINT)
    assert str(refused.value) == (
        "corner-tread: pad.first: the tread is 5.9 mm across; one groove in its rim needs 6.2 mm"
    )
    with pytest.raises(CannotDraw) as refused:
        tread_part(under(), replace(PRINT, first_layer_chamfer=0.0011))
    assert str(refused.value) == (
        "corner-tread: first_layer_chamfer: 1.1 mm does not fit the 1 mm under the grooves"
    )


def test_a_wide_nozzle_makes_wide_grooves_and_ribs():
    part = tread_part(under("printed", "rectangle"), replace(PRINT, nozzle=0.0008))
    assert verify(part, replace(PRINT, nozzle=0.0008)).thinnest_wall >= 0.8
    removed = 31 * 46 * 1.8 - part.solid.Volume()
    # (23 - 3.2 - 0.1 - 0.8)/4.8 = 3.9 pitches: seven grooves of 1.6 mm
    groove = 7 * (31 - 6.4) * 1.6 * 0.8
    assert groove < removed < groove + 0.3**2 / 2 * 2 * (31 + 46)  # and the chamfer
