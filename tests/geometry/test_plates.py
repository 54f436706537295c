"""Plates of a kit opened by readers that did not write them."""

from __future__ import annotations

import zipfile
from dataclasses import replace

import numpy as np
import pytest
import trimesh
from lxml import etree
from sheets import PRINT, design, drawn, foot, spacer

from geometry.draw import draw
from geometry.formats.plates import GAP, plate_bytes, plates
from geometry.solids.part import CannotDraw

CORE = "{http://schemas.microsoft.com/3dmanufacturing/core/2015/02}"
TPU = replace(foot("printed", "ring", "adhesive", "large"), name="soft")
KIT = design(foot("cup", "rectangle", "tube-end", "usual"), TPU, spacers=(spacer("left"),))


@pytest.fixture(scope="module")
def opened(tmp_path_factory):
    """Parts, plates, and each plate's file."""
    folder, parts = tmp_path_factory.mktemp("plates"), draw(KIT)
    laid = plates(parts, KIT.print, KIT.feet)
    files = [folder / f"{plate.name}.3mf" for plate in laid]
    for plate, file in zip(laid, files, strict=True):
        file.write_bytes(plate_bytes(plate, parts, "Reading-room printer"))
    return parts, laid, files


def boxes(scene):
    """Return the box of every copy in a scene, (n, 2, 3)."""
    found = []
    for node in scene.graph.nodes_geometry:
        turn, name = scene.graph[node]
        points = trimesh.transform_points(scene.geometry[name].vertices, turn)
        found.append((points.min(axis=0), points.max(axis=0)))
    return np.array(found)


def test_every_filament_has_its_own_plates_with_every_copy(opened):
    parts, laid, files = opened
    counts: dict[str, int] = {}
    for plate, file in zip(laid, files, strict=True):
        model = etree.fromstring(zipfile.ZipFile(file).read("3D/3dmodel.model"))
        assert model.get("unit") == "millimeter"
        assert model.find(f"{CORE}metadata").get("name") == "Title"
        names = {one.get("id"): one.get("name") for one in model.iter(f"{CORE}object")}
        for item in model.find(f"{CORE}build"):
            name = names[item.get("objectid")]
            counts[name] = counts.get(name, 0) + 1
            assert next(p.material for p in parts if p.name == name) == plate.material
    assert counts == {part.name: part.quantity for part in parts}
    # rings of 104 mm: one on a bed, where brims are to have room
    assert {file.stem for file in files} >= {"first-foot-petg", "petg", "tpu-85", "tpu-85-2"}


def test_the_first_plate_holds_one_whole_foot(opened):
    parts, laid, _ = opened
    assert [plate.name for plate in laid if plate.first] == ["first-foot-petg"]
    first = [copy.part for plate in laid if plate.first for copy in plate.copies]
    names = [part.name for part in parts if part.owner == KIT.feet[0].name]
    assert sorted(set(first)) == sorted(names)
    count = len(KIT.feet[0].positions)
    for part in parts:
        if part.name in names:
            assert first.count(part.name) == -(-part.quantity // count)
    assert [plate.first for plate in laid] == sorted((plate.first for plate in laid), reverse=True)


def test_copies_lie_on_the_bed_and_keep_their_distance(opened):
    _, _, files = opened
    for file in files:
        scene = trimesh.load(file)
        assert scene.units in ("millimeter", "millimeters", "mm")
        found = boxes(scene)
        # written to a millionth of a millimetre
        bed, margin = np.array(PRINT.bed) * 1000, PRINT.bed_margin * 1000
        assert margin == 8.0
        assert np.all(found[:, 0, :2] >= margin - 1e-5)
        assert np.all(found[:, 1, :2] <= bed[:2] - margin + 1e-5)
        assert np.all(found[:, 1, 2] <= bed[2])
        assert found[:, 0, 2] == pytest.approx(0.0, abs=1e-6)
        for i, a in enumerate(found):
            for b in found[i + 1 :]:
                apart = np.maximum(a[0] - b[1], b[0] - a[1])[:2].max()
                # chords of 0.02 mm leave round parts that much smaller, never larger
                assert apart >= GAP - 1e-5


def test_a_long_part_is_turned_to_lie_across_a_wide_bed():
    _, parts = drawn("cup", "rectangle", "adhesive", "large")
    long = max(parts, key=lambda part: part.box[0])
    standing = replace(long, box=(long.box[1], long.box[0], long.box[2]))  # as if drawn upright
    (plate,) = plates([replace(standing, quantity=1)], PRINT)
    assert plate.copies[0].turned
    assert (plate.copies[0].wide, plate.copies[0].deep) == long.box[:2]
    assert (plate.copies[0].x, plate.copies[0].y) == pytest.approx((110.0, 105.0))


def test_a_margin_of_the_users_own_is_kept():
    _, parts = drawn("cup", "rectangle", "adhesive", "usual")
    some = [replace(part, quantity=20) for part in parts]
    wide = replace(PRINT, bed_margin=0.03)
    for plate in plates(some, wide):
        for copy in plate.copies:
            assert 30.0 - 1e-6 <= copy.x - copy.wide / 2 <= copy.x + copy.wide / 2 <= 190.0 + 1e-6
            assert 30.0 - 1e-6 <= copy.y - copy.deep / 2 <= copy.y + copy.deep / 2 <= 180.0 + 1e-6
    assert len(plates(some, wide)) > len(plates(some, PRINT))


def test_what_is_larger_than_the_bed_is_refused():
    _, parts = drawn("cup", "rectangle", "adhesive", "large")
    with pytest.raises(
        CannotDraw,
        match=r"^corner-cup: box: [\d.]+ × [\d.]+ mm does not fit the 74 × 94 mm that "
        r"print.bed_margin leaves of the bed$",
    ):
        plates(list(parts), replace(PRINT, bed=(0.09, 0.11, 0.2)))
