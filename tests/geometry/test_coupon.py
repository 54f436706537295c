"""The fit coupon: sound at any nozzle, nominal where it is read, measured off its files."""

from __future__ import annotations

import re
from dataclasses import replace

import numpy as np
import pytest
import trimesh
from readers import step_products
from sheets import PRINT

from geometry.coupon.coupon import AT, coupon_parts, letter_place
from geometry.coupon.coupon_files import write_coupon
from geometry.solids.mesh import tessellate
from geometry.solids.part import CannotDraw
from geometry.solids.verify import verify
from isolator.design.coupon import FEATURES

# clearance holes of ISO 273, medium series, M3 to M8 but M7; nuts M4 and M5 of ISO 4032 across
# flats (both from memory); pegs and bar are our own
NOMINAL = {
    "A": 3.4,
    "B": 4.5,
    "C": 5.5,
    "D": 6.6,
    "E": 9.0,
    "F": 7.0,
    "G": 8.0,
    "H": 6.0,
    "J": 10.0,
    "K": 35.0,
    "L": 35.0,
}


@pytest.fixture(scope="module")
def written(tmp_path_factory):
    folder = tmp_path_factory.mktemp("coupon")
    return folder, write_coupon(folder, PRINT, "Reading-room printer", "0.1.0")


@pytest.mark.parametrize(
    ("nozzle", "layer", "lettered"),
    [(0.25, 0.12, True), (0.4, 0.2, True), (0.6, 0.32, True), (0.8, 0.4, False)],
)
def test_it_is_sound_at_any_nozzle(nozzle, layer, lettered):
    settings = replace(PRINT, nozzle=nozzle * 1e-3, layer=layer * 1e-3)
    (part,) = coupon_parts(settings)
    assert len(part.solid.Shells()) == 1
    # the kernel integrates to about 1e-6
    assert part.solid.Volume() == pytest.approx(part.volume, rel=1e-5)
    figures = verify(part, settings)
    assert (figures.overhang, figures.bridge) == (0.0, 0.0)
    assert figures.thinnest_wall >= nozzle
    assert part.box[2] / layer == pytest.approx(round(part.box[2] / layer), abs=1e-6)  # rounding
    assert any("letters finer" in note for note in part.notes) != lettered


def test_what_is_read_is_drawn_at_nominal_size_whatever_the_brief_compensates():
    plain = replace(PRINT, hole_compensation=0.0, first_layer_chamfer=0.0)
    wide = replace(PRINT, hole_compensation=4.3e-4, first_layer_chamfer=7e-4)
    hashes = {tessellate(coupon_parts(one)[0].solid).sha256() for one in (plain, wide, PRINT)}
    assert len(hashes) == 1
    assert {each.letter: round(each.nominal * 1e3, 6) for each in FEATURES} == NOMINAL


def loops(mesh, z):
    """Return the closed curves in which a level plane cuts a mesh, (n, 2) each [mm]."""
    cut = mesh.section(plane_origin=(0, 0, z), plane_normal=(0, 0, 1))
    return [np.asarray(line)[:, :2] for line in cut.discrete]


def round_about(curves, x, y):
    """Return the widths in y of all curves whose box has its middle at (x, y)."""
    boxes = [(curve.min(axis=0), curve.max(axis=0)) for curve in curves]
    return [
        float(high[1] - low[1])
        for low, high in boxes
        if np.allclose((low + high) / 2, (x, y), atol=0.05)  # chords leave a box a hair off
    ]


def test_callipers_would_read_the_nominal_sizes_off_the_triangles(written):
    mesh = trimesh.load(written[0] / "parts" / "fit-coupon.stl")
    assert mesh.is_watertight
    within, above, bed = loops(mesh, 2.1), loops(mesh, 4.4), loops(mesh, 0.01)
    for letter, (x, y) in AT.items():
        if letter in "KL":
            continue
        (across,) = round_about(above if letter in "HJ" else within, x, y)
        # a chord of 0.02 mm at either end
        assert across == pytest.approx(NOMINAL[letter], abs=0.04), letter
    for curves in (bed, above):  # a plain edge: no chamfer at the bed
        assert max(float(np.ptp(curve[:, 1])) for curve in curves) == pytest.approx(35.0, abs=1e-4)
    # holes open towards the bed, so that a spread first layer does not reach what is read
    (x, y) = AT["C"]
    (mouth,) = round_about(bed, x, y)
    assert mouth == pytest.approx(5.5 + 2 * 0.59, abs=0.04)
    assert round_about(bed, *AT["F"]) == []


def test_every_letter_is_cut_beside_its_feature_and_none_is_like_another(written):
    mesh = trimesh.load(written[0] / "parts" / "fit-coupon.stl")
    plate, bar = loops(mesh, 2.8), loops(mesh, 5.8)
    shapes = set()
    for letter in AT:
        x, y = letter_place(letter)
        near = [
            curve
            for curve in (bar if letter in "KL" else plate)
            if np.all(np.abs(curve.mean(axis=0) - (x, y)) < 3.2) and np.ptp(curve[:, 1]) < 6.5
        ]
        outer = max(near, key=lambda curve: float(np.ptp(curve[:, 1])))
        assert np.ptp(outer[:, 1]) == pytest.approx(6.0, abs=0.01), letter  # chosen height
        moved = np.round(np.sort((outer - outer.min(axis=0)).ravel()), 2)
        shapes.add((len(near), moved.tobytes()))
    assert len(shapes) == len(AT)


def test_it_prints_in_less_than_half_an_hour(written):
    # 0.4 × 0.2 mm at 60 mm/s, solid throughout; common practice, no source
    assert written[1]["coupon"]["volume_m3"] * 1e9 / (0.4 * 0.2 * 60.0) < 30 * 60


def test_step_and_3mf_hold_the_same_body_in_millimetres(written):
    folder, manifest = written
    ((name, solid),) = step_products(folder / "parts" / "fit-coupon.step")
    assert name == "fit-coupon"
    volume = manifest["coupon"]["volume_m3"] * 1e9
    assert solid.Volume() == pytest.approx(volume, rel=1e-6)  # the same kernel, after its text
    scene = trimesh.load(folder / "parts" / "fit-coupon.3mf")
    ((_, mesh),) = scene.geometry.items()
    assert scene.units in ("mm", "millimeter", "millimeters")
    assert mesh.volume == pytest.approx(volume, rel=5e-4)  # chords
    assert sorted(manifest["files_sha256"]) == [
        "drawings/fit-coupon.pdf",
        "drawings/fit-coupon.svg",
        "parts/fit-coupon.3mf",
        "parts/fit-coupon.step",
        "parts/fit-coupon.stl",
    ]


def test_the_same_settings_give_the_same_files(written, tmp_path):
    again = write_coupon(tmp_path, PRINT, "Reading-room printer", "0.1.0")
    assert again == written[1]


def test_the_drawing_names_every_feature_with_its_size(written):
    svg = (written[0] / "drawings" / "fit-coupon.svg").read_text(encoding="utf-8")
    words = re.findall(r">([^<>]+)</text>", svg)
    for name in (
        "A Ø3.4",
        "B Ø4.5",
        "C Ø5.5",
        "D Ø6.6",
        "E Ø9",
        "F 7 across flats",
        "G 8 across flats",
        "H Ø6",
        "J Ø10",
        "K 35",
        "L 35",
    ):
        assert words.count(name) == 1, name
    assert "fit-coupon for Reading-room printer" in words
    for feature in FEATURES:
        assert feature.how in words


def test_a_bed_that_is_too_small_is_refused():
    small = replace(PRINT, bed=(0.064, 0.061, 0.09))
    (part,) = coupon_parts(small)
    with pytest.raises(CannotDraw) as refused:
        verify(part, small)
    assert str(refused.value) == ("fit-coupon: length: 70.0 mm does not fit the print bed's 64 mm")
