"""Files and pictures of motor dampers, read back by readers that did not write them."""

from __future__ import annotations

import csv
import io
import json
import math
from dataclasses import replace

import cadquery as cq
import ezdxf
import numpy as np
import pytest
import trimesh
from lxml import etree
from PIL import Image
from readers import shoelace, step_products
from sheets import PRINT, damper, design

from geometry.draw import draw
from geometry.export import write_all
from geometry.finish.digits import write_number
from geometry.pictures.exploded import exploded_scene
from geometry.sheets.damper_rubber import rubber_template
from geometry.sheets.pad_template import RULER, template_dxf, template_svg
from isolator.design.nesting import KNIFE, nested
from isolator.physics.rubber.section import section
from isolator.report.page.parts import KitList
from isolator.workshop.shopping import shopping_csv, shopping_items

LEFT = damper(17, "ring", "soft", wedge=True)
RIGHT = replace(LEFT, name="rechts für y", position=(0.173, 0.199, 0.42))
REAR = replace(
    damper(23, "pads", "hard"),
    name="rear",
    cast=True,
    material="vmq-40",
    density=1150.0,
    axis="x",
    pull=(0.0, 0.0, 1.0),
)
DESIGN = design(dampers=(LEFT, RIGHT, REAR))


@pytest.fixture(scope="module")
def kit(tmp_path_factory):
    folder = tmp_path_factory.mktemp("kit")
    parts = draw(DESIGN)
    return folder, parts, write_all(DESIGN, folder, parts)


def test_every_file_is_named_and_every_part_reads_back(kit):
    folder, parts, manifest = kit
    named = {manifest["assembly"], manifest["assembly_view"]}
    for entry in (*manifest["parts"], *manifest["pads"]):
        named.update((*entry["files"], *entry.get("drawing", ())))
    named.update(plate["file"] for plate in manifest["plates"])
    found = {str(path.relative_to(folder)) for path in folder.rglob("*") if path.is_file()}
    assert found == named
    assert json.loads(json.dumps(manifest)) == manifest
    for part in parts:
        back = cq.importers.importStep(str(folder / "parts" / f"{part.name}.step")).val()
        # STEP writes 15 digits; the kernel integrates to about 1e-6
        assert back.Volume() == pytest.approx(part.volume, rel=1e-5)
        mesh = trimesh.load(folder / "parts" / f"{part.name}.stl")
        assert mesh.is_watertight
        assert abs(mesh.volume - part.volume) < manifest["mesh_tolerance_m"] * 1000 * mesh.area


def test_assembly_holds_motors_screws_and_plates_under_plain_names(kit):
    folder, _, _ = kit
    products = dict(step_products(folder / "assembly.step"))
    assert all(name.isascii() for name in products)
    ours = [name for name in products if name.startswith("rechts-fur-y-")]
    own = [name.removeprefix("rechts-fur-y-") for name in ours]
    assert sorted(own) == [
        "bonding-screw",
        "bonding-terminal",
        "bracket",
        "damper-frame-plate-1",
        "damper-motor-plate-1",
        "damper-wedge-1",
        "frame-nut-1",
        "frame-nut-2",
        "frame-screw-1",
        "frame-screw-2",
        "motor",
        "motor-screw-1",
        "motor-screw-2",
        "pulley",
        "pulley-spacer-1",
        "rubber-1",
    ]
    # four pads; nuts behind the flange of size 23, one of them for the bonding wire
    assert sum(name.startswith("rear-rubber") for name in products) == 4
    assert sum(name.startswith("rear-motor-nut") for name in products) == 3
    moved = products["rechts-fur-y-bracket"].Center() - products["left-bracket"].Center()
    # what one motor is from the other, in the brief
    assert moved.toTuple() == pytest.approx((344.0, 1.0, -1.0), abs=1e-6)


def test_manifest_tells_what_stays_clear(kit):
    _, _, manifest = kit
    told = {each["name"]: each for each in manifest["dampers"]}
    assert list(told) == ["left", "rechts für y", "rear"]
    for name, rubber in (("left", 3.1e-3), ("rear", 1.4e-3)):
        assert told[name]["interference_m3"] <= 1e-15
        # a head lies 0.3 mm below its face and the rubber keeps the far plate off
        assert told[name]["motor_screws_clear_m"] == pytest.approx(rubber + 0.3e-3, abs=1e-9)
    assert {**told["left"], "name": ""} == {**told["rechts für y"], "name": ""}


def test_rubber_is_cut_from_one_template_and_cast_rubber_from_none(kit):
    _, _, manifest = kit
    (entry,) = manifest["pads"]
    assert (entry["name"], entry["quantity"]) == ("left-rechts-fur-y-rubber", 2)
    assert entry["area_m2"] == pytest.approx(float(section("ring", LEFT.first, LEFT.second).area))
    assert KitList(manifest=manifest).parts[-1]["name"] == entry["name"]


@pytest.mark.parametrize("shape", ["ring", "pads"])
def test_template_shows_the_rubber_in_its_place_on_the_plate(shape):
    one = damper(17, shape)
    template = rubber_template(one, ("left", "rear"))
    drawing = ezdxf.read(io.StringIO(template_dxf(template).decode("utf-8")))
    cut = drawing.modelspace().query('*[layer=="CUT"]')
    if shape == "ring":
        radii = sorted(entity.dxf.radius for entity in cut)
        assert radii == pytest.approx([one.second * 500, one.first * 500])
    else:
        corners = [[(x, y) for x, y, *_ in entity.get_points()] for entity in cut]
        areas = [shoelace(each) for each in corners]
        assert areas == pytest.approx([one.first * one.second * 1e6] * 4)
        middles = {tuple(np.round(np.mean(each, axis=0), 6) + 0.0) for each in corners}
        at = round(one.circle * 1e3, 6)
        assert middles == {(at, 0.0), (0.0, at), (-at, 0.0), (0.0, -at)}
    (plate,) = drawing.modelspace().query('LWPOLYLINE[layer=="NOTE"]')
    # a square of 42.3 mm less what corners of 4 mm round off
    square = 42.3**2 - (4 - math.pi) * 4.0**2
    path = ezdxf.path.make_path(plate)
    assert shoelace([(p.x, p.y) for p in path.flattening(1e-4)][:-1]) == pytest.approx(
        square,
        abs=0.02,  # chords of 1e-4 mm along 25 mm of arcs
    )
    text = [entity.dxf.text for entity in drawing.modelspace().query("TEXT")]
    count = "1 per motor, cut 2" if shape == "ring" else "4 per motor, cut 8"
    assert text == [
        f"left, rear: damper, {shape}",
        f"nr-40, 3.1 mm, {count}",
        "outer square: the plate; glue in these places",
        f"line: {RULER:g} mm",
    ]
    svg = etree.fromstring(template_svg(template).encode())
    space = "{http://www.w3.org/2000/svg}"
    assert len(svg.findall(f"{space}g/{space}circle")) == (2 if shape == "ring" else 0)
    assert len(svg.findall(f"{space}g/{space}rect")) == (0 if shape == "ring" else 4)
    assert float(svg.find(f"{space}rect").get("width")) == pytest.approx(42.3)


def test_shopping_list_counts_what_three_motors_need(kit):
    _, _, manifest = kit
    listed = shopping_csv(shopping_items(DESIGN, manifest))
    rows = [row[:3] for row in csv.reader(io.StringIO(listed))]
    nest = nested(LEFT.first, LEFT.first, 2, KNIFE)
    sheet = f"{math.ceil(nest.wide * 1e3 - 1e-6)} x {math.ceil(nest.high * 1e3 - 1e-6)} mm"
    pads = 4 * REAR.first * REAR.second * REAR.rubber * 1e6
    for row in (
        [f"sheet of nr-40, 3.1 mm, {sheet} or more", "1", "pieces"],
        ["screw M3 x 6, button head, ISO 7380-1", "4", "pieces"],
        ["screw M3 x 14, hexagon head, ISO 4017", "4", "pieces"],
        # into holes that the others use 4.35 mm of: 0.8 mm of terminal and 4.2 mm of thread
        ["screw M3 x 5, button head, ISO 7380-1", "2", "pieces"],
        ["screw M4 x 12, button head, ISO 7380-1", "2", "pieces"],
        # 0.8 mm of terminal, a flange of 4.8 mm, a nut of 3.2 mm
        ["screw M4 x 10, button head, ISO 7380-1", "1", "pieces"],
        ["screw M4 x 16, hexagon head, ISO 4017", "2", "pieces"],
        ["nut M3, ISO 4032", "4", "pieces"],
        ["nut M4, ISO 4032", "5", "pieces"],
        ["washer M3, ISO 7089", "4", "pieces"],
        ["washer M4, ISO 7089", "5", "pieces"],
        ["ring terminal M3", "2", "pieces"],
        ["ring terminal for a screw of the frame", "3", "pieces"],
        ["green-yellow stranded wire, 0.75 mm^2 or more", "1.5", "m"],
        # a fifth over; 1.15 g/cm³ is the card's density
        ["vmq-40 in two parts, to pour", f"{math.ceil(1.15 * 1.2 * pads)}", "g"],
    ):
        assert row in rows
    assert not any(row[0].startswith("vmq-40 sheet") for row in rows)


def test_damper_pulled_apart_is_numbered_from_motor_to_pulley():
    scene = exploded_scene(LEFT, PRINT)
    assert scene.names == (
        "motor",
        "bonding wire's terminal and its screw",
        "motor-side plate",
        "motor's screws",
        "rubber",
        "frame's screws",
        "frame-side plate",
        "wedge",
        "the printer's bracket",
        "washers and nuts",
        "pulley spacer",
        "pulley",
    )
    others = exploded_scene(REAR, PRINT).names
    assert others[0] == "nuts behind the motor's flange"
    assert "wedge" not in others
    pixels = np.asarray(Image.open(io.BytesIO(scene.png())))
    assert pixels.shape == (420, 1200, 3)
    assert (pixels[0] == 255).all()  # a free border
    red, blue = pixels[..., 0].astype(int), pixels[..., 2].astype(int)
    # columns that rubber or plates fill: a terminal's tongue is not as high
    rubber = np.flatnonzero((red > blue + 60).sum(axis=0) > 40)
    plates = np.flatnonzero((blue > red + 60).sum(axis=0) > 40)
    assert plates[0] < rubber[0] < rubber[-1] < plates[-1]


def test_numbers_stay_within_the_picture():
    image = np.full((30, 40, 3), 0.5)
    write_number(image, 17, 39, 29)
    assert image.shape == (30, 40, 3)
    # rows of dots by hand: 1 is 8 of 15, 7 is 7 of 15, each dot 2 by 2 pixels
    assert (image == 0.0).all(axis=2).sum() == (8 + 7) * 4
