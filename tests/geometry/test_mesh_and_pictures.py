"""Thickness, overhang and pictures on bodies whose answer is known."""

from __future__ import annotations

import io

import cadquery as cq
import numpy as np
import pytest
from lxml import etree
from PIL import Image
from sheets import design, drawn, foot, spacer

from geometry.draw import draw
from geometry.finish.raster import View, render
from geometry.pictures.exploded_foot import foot_exploded_scene
from geometry.pictures.picture import assembly_scene, cut_scene, part_scene
from geometry.pictures.section_drawing import section_svg
from geometry.solids.mesh import tessellate, thinnest_wall


@pytest.mark.parametrize("wall", [0.35, 1.3, 2.7])
def test_thinnest_wall_of_a_box_without_lid(wall):
    box = cq.Workplane().box(31, 23, 11).faces(">Z").shell(-wall).val()
    # rays start at the middle of a plane facet and meet a parallel one: exact but for rounding
    assert thinnest_wall(tessellate(box)) == pytest.approx(wall, abs=1e-9)


def test_thinnest_wall_of_a_ring():
    ring = cq.Workplane().circle(13.0).circle(12.1).extrude(7).val()
    # chords of both circles may be 0.02 mm off
    assert thinnest_wall(tessellate(ring)) == pytest.approx(0.9, abs=0.02)


def test_picture_hides_what_lies_behind_whatever_the_order():
    near = tessellate(cq.Solid.makeBox(10, 2, 14, cq.Vector(-5, -6, 0)))
    far = tessellate(cq.Solid.makeBox(10, 2, 14, cq.Vector(-5, 6, 0)))
    view = View(azimuth=-90, elevation=0)
    red, green = (0.9, 0.1, 0.1), (0.1, 0.9, 0.1)
    one = render([(near, red), (far, green)], view, (120, 90))
    other = render([(far, green), (near, red)], view, (120, 90))
    assert one == other
    pixel = np.asarray(Image.open(io.BytesIO(one)))[45, 60]
    assert pixel[0] > 3 * pixel[1]  # the near box is the red one
    behind = render([(near, red), (far, green)], View(azimuth=90, elevation=0), (120, 90))
    pixel = np.asarray(Image.open(io.BytesIO(behind)))[45, 60]
    assert pixel[1] > 3 * pixel[0]


def test_a_square_fills_the_share_of_the_picture_that_it_should():
    slab = tessellate(cq.Solid.makeBox(20, 20, 1))
    picture = render([(slab, (0.5, 0.5, 0.5))], View(azimuth=-90, elevation=90), (200, 160))
    painted = np.asarray(Image.open(io.BytesIO(picture)))[..., 0] < 250
    # 160 pixels less a border of 6 % on either side, one pixel of edge all round
    assert np.sqrt(painted.sum()) == pytest.approx(160 * 0.88, abs=2.0)


def test_pictures_of_a_kit_are_there():
    feet = foot("cup", "rectangle", "slot-20", "usual")
    kit = design(feet, spacers=(spacer(),))
    parts = draw(kit)
    scenes = [part_scene(part) for part in parts]
    scenes += [assembly_scene(kit, parts), cut_scene(feet, parts)]
    for scene in scenes:
        pixels = np.asarray(Image.open(io.BytesIO(scene.png())))
        share = np.mean(pixels.min(axis=2) < 250)
        assert 0.03 < share < 0.9
        assert (pixels[0] == 255).all()  # a free border
        assert (pixels[:, 0] == 255).all()


@pytest.mark.parametrize(
    ("attachment", "order"),
    [
        ("bolt", ["corner-cup", "corner-cover", "pad", "corner-sole"]),
        ("tube-end", ["corner-plug", "corner-cup", "corner-cover", "pad", "corner-sole"]),
        ("slot-30", ["corner-cup", "pad", "corner-sole"]),
    ],
)
def test_exploded_foot_shows_every_body_apart_in_the_order_of_assembly(attachment, order):
    one, parts = drawn("cup", "ring", attachment, "usual")
    scene = foot_exploded_scene(one, list(parts))
    assert list(scene.names) == order
    picture = np.asarray(Image.open(io.BytesIO(scene.png())))
    assert picture.shape == (640, 480, 3)
    pad = np.array([0.96, 0.77, 0.36])  # told by its hue, whatever the light
    bright = picture / np.maximum(picture.max(axis=2, keepdims=True), 1)
    rows = np.flatnonzero((np.abs(bright - pad / pad.max()).max(axis=2) < 0.03).any(axis=1))
    painted = np.flatnonzero((picture.min(axis=2) < 250).any(axis=1))
    # the pad is the last but one of the bodies, with free paper neither above nor below the foot
    assert painted[0] < rows[0] < rows[-1] < painted[-1]


@pytest.mark.parametrize("kind", ["cup", "printed"])
def test_section_is_dimensioned_and_true_to_scale(kind):
    one, parts = drawn(kind, "disc", "adhesive", "usual")
    svg = etree.fromstring(section_svg(one, list(parts)).encode())
    space = "{http://www.w3.org/2000/svg}"
    words = [text.text for text in svg.iter(f"{space}text")]
    stop = ["18.4", f"stop {one.stop * 1000:g}"] if kind == "cup" else ["18.4"]
    assert words[:5][:3] == ["cap 3.4", "pad 12.4", "sole 2.6"]
    assert words[3 : 3 + len(stop)] == stop
    filled = [path for path in svg.iter(f"{space}path") if path.get("fill")]
    levels = [
        -float(point.split()[1])
        for path in filled
        for point in path.get("d").strip("MZ").split("L")
    ]
    # written to a thousandth of a millimetre
    assert max(levels) == pytest.approx(0.0, abs=1e-3)
    assert min(levels) == pytest.approx(-18.4, abs=1e-3)
