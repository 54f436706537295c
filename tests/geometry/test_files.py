"""Files read back by readers that did not write them."""

from __future__ import annotations

import hashlib
import io
import itertools
import json
import os
import re
import subprocess
import sys
import zipfile
from pathlib import Path
from typing import NamedTuple

import cadquery as cq
import ezdxf
import numpy as np
import pytest
import trimesh
from ezdxf.math import ConstructionPolyline
from lxml import etree
from OCP.Quantity import Quantity_Color, Quantity_TOC_sRGB
from OCP.STEPCAFControl import STEPCAFControl_Reader
from OCP.TCollection import TCollection_ExtendedString
from OCP.TColStd import TColStd_SequenceOfAsciiString
from OCP.TDataStd import TDataStd_Name
from OCP.TDF import TDF_Label, TDF_LabelSequence
from OCP.TDocStd import TDocStd_Document
from OCP.XCAFDoc import (
    XCAFDoc_ColorGen,
    XCAFDoc_ColorSurf,
    XCAFDoc_ColorTool,
    XCAFDoc_DocumentTool,
    XCAFDoc_ShapeTool,
)
from sheets import SIZES, design, drawn, foot, spacer

from geometry.assembly import COLOURS, assembled
from geometry.draw import draw
from geometry.export import write_all
from geometry.part_files import write_parts
from geometry.sheets.pad_template import (
    RULER,
    template_area,
    template_dxf,
    template_of,
    template_svg,
)
from geometry.solids.bridges import hanging
from geometry.solids.mesh import tessellate, thinnest_wall
from isolator.design import SHAPES
from isolator.design.naming import slug
from isolator.physics.rubber.section import section

DESIGN = design(
    foot("cup", "rectangle", "tube-end", "usual"), spacers=(spacer("left"), spacer("right"))
)


@pytest.fixture(scope="module")
def kit(tmp_path_factory):
    folder = tmp_path_factory.mktemp("kit")
    parts = draw(DESIGN)
    return folder, parts, write_all(DESIGN, folder, parts)


def test_every_file_of_the_manifest_is_there_and_no_other(kit):
    folder, _, manifest = kit
    named = {manifest["assembly"], manifest["assembly_view"]}
    for entry in (*manifest["parts"], *manifest["pads"]):
        named.update(entry["files"])
        named.update(entry.get("drawing", []))
        named.update(entry.get("cut_plan", []))
    named.update(plate["file"] for plate in manifest["plates"])
    named.update(manifest["slab"])
    found = {str(path.relative_to(folder)) for path in folder.rglob("*") if path.is_file()}
    assert found == named
    assert json.loads(json.dumps(manifest)) == manifest


def test_step_reads_back_with_equal_volume_in_millimetres_under_its_own_name_and_colour(kit):
    folder, parts, _ = kit
    for part in parts:
        (found,) = read_step(folder / "parts" / f"{part.name}.step")
        # STEP writes 15 digits; the kernel integrates to about 1e-6
        assert found.shape.Volume() == pytest.approx(part.solid.Volume(), rel=1e-6)
        assert found.name == part.name
        # single precision inside the kernel
        assert found.colour == pytest.approx(COLOURS[part.role], abs=1e-5)


def test_assembly_holds_every_copy_in_its_place(kit):
    folder, parts, _ = kit
    whole, *found = read_step(folder / "assembly.step")
    assert whole.name == "reading-room-printer"
    copies = sum(part.quantity for part in parts if part.places)
    # three pads, a screw and a nut for each, the printer's outline
    assert len(found) == copies + 3 + 6 + 1
    assert {one.product for one in found} == {
        *(part.name for part in parts if part.places),
        "corner-pad",
        "corner-screw",
        "corner-nut",
        "printer-outline",
    }
    roles = {part.name: part.role for part in parts} | {"corner-pad": "pad"}
    roles |= {"corner-screw": "screw", "corner-nut": "nut"}
    for one in found[:-1]:
        assert one.colour == pytest.approx(COLOURS[roles[one.product]], abs=1e-5)
    high = {one.name: one.shape.BoundingBox() for one in found}
    one = DESIGN.feet[0]
    low = -(one.cap + one.pad.thickness + one.sole) * 1000
    for number, (x, y) in enumerate(one.positions, start=1):
        sole, pad = high[f"corner-sole-{number}"], high[f"corner-pad-{number}"]
        # boxes of curved solids come out wider by the kernel's tolerance, up to 0.1 mm
        assert sole.zmin == pytest.approx(low, abs=0.1)
        assert pad.center.x == pytest.approx(x * 1000, abs=1e-3)
        assert pad.center.y == pytest.approx(y * 1000, abs=1e-3)
        assert pad.zmax == pytest.approx(-one.cap * 1000, abs=1e-3)
    assert high["printer-outline"].zmin == pytest.approx(0.0, abs=1e-3)


def test_stl_is_closed_and_as_large_as_the_closed_form(kit):
    folder, parts, manifest = kit
    for part in parts:
        mesh = trimesh.load(folder / "parts" / f"{part.name}.stl")
        assert mesh.is_watertight
        chord = manifest["mesh_tolerance_m"] * 1000
        assert abs(mesh.volume - part.volume) < chord * mesh.area
        assert mesh.bounds[0][2] == pytest.approx(0.0, abs=1e-6)  # as printed: on the bed
        # round ends are chords of 0.02 mm, short of the true side by as much at either end
        assert np.ptp(mesh.bounds, axis=0) == pytest.approx(part.box, abs=2 * chord + 1e-5)


def test_3mf_says_millimetres_and_holds_every_copy(kit):
    folder, parts, _ = kit
    core = "{http://schemas.microsoft.com/3dmanufacturing/core/2015/02}"
    for part in parts:
        path = folder / "parts" / f"{part.name}.3mf"
        model = etree.fromstring(zipfile.ZipFile(path).read("3D/3dmodel.model"))
        assert model.get("unit") == "millimeter"
        assert len(model.findall(f"{core}build/{core}item")) == part.quantity
        assert model.find(f"{core}resources/{core}object").get("name") == part.name
        scene = trimesh.load(path)
        assert scene.units in ("millimeter", "millimeters", "mm")
        whole = scene.to_geometry()
        low, high = whole.bounds
        assert low[2] == pytest.approx(0.0, abs=1e-6)  # written to a millionth of a millimetre
        boxes = [copy.bounds[:, :2] for copy in scene.dump()]
        assert len(boxes) == part.quantity
        bed = [side * 1000 for side in DESIGN.print.bed[:2]]
        assert (low[:2] > -1e-5).all()
        assert (high[:2] < np.array(bed) + 1e-5).all()
        for one, other in itertools.combinations(boxes, 2):
            apart = np.maximum(one[0] - other[1], other[0] - one[1]).max()
            assert apart > 5.0 - 1e-5  # a finger's width between any two
        assert whole.volume == pytest.approx(part.volume * part.quantity, rel=5e-3)


TWICE = """
import json, sys
from pathlib import Path
sys.path.insert(0, {here!r})
from test_files import DESIGN, draw, write_all
if __name__ == "__main__":
    print(json.dumps(write_all(DESIGN, Path(sys.argv[1]), draw(DESIGN))))
"""


def test_another_process_draws_the_same_hashes_and_the_same_bytes(kit, tmp_path):
    folder, _, manifest = kit
    here, out = Path(__file__).parent, tmp_path / "out"
    ran = subprocess.run(
        [sys.executable, "-c", TWICE.format(here=str(here)), str(out)],
        capture_output=True,
        text=True,
        check=True,
        cwd=here.parents[1],
        env={
            "PYTHONPATH": os.pathsep.join([str(here.parents[1]), str(here.parent / "samples")]),
            "HOME": str(tmp_path),
            "PATH": "",
        },
    )
    again = json.loads(ran.stdout)
    hashes = again["files_sha256"].items()
    assert [name for name, told in hashes if manifest["files_sha256"][name] != told] == []
    assert again == manifest
    assert (out / "parts" / "corner-cup.step").is_file()
    names = {str(path.relative_to(folder)) for path in folder.rglob("*") if path.is_file()}
    assert set(manifest["files_sha256"]) == names
    for name, told in manifest["files_sha256"].items():
        assert hashlib.sha256((folder / name).read_bytes()).hexdigest() == told


def test_a_second_process_writes_the_same_files(kit, tmp_path):
    folder, parts, _ = kit
    for name in ("parts", "drawings"):
        (tmp_path / name).mkdir()
    written = write_parts(parts, DESIGN, tmp_path, many=1)
    names = [name for files in written for name in files.paths]
    assert len(names) == 5 * len(parts)
    printed = {files.drawing.path: files.drawing.pdf() for files in written}
    for name in names:
        made = printed.get(name) or (tmp_path / name).read_bytes()
        assert made == (folder / name).read_bytes()


def test_glb_is_in_metres_with_y_up_and_every_body_under_its_name(kit):
    folder, parts, manifest = kit
    scene = trimesh.load(folder / manifest["assembly_view"])
    found = {
        node: scene.geometry[scene.graph[node][1]].copy().apply_transform(scene.graph[node][0])
        for node in scene.graph.nodes_geometry
    }
    assert set(found) == {one.name for one in assembled(DESIGN, parts)}
    one = DESIGN.feet[0]
    for number, (x, y) in enumerate(one.positions, start=1):
        pad = found[f"corner-pad-{number}"]
        middle = pad.bounds.mean(axis=0)
        # glTF holds single precision
        assert middle == pytest.approx((x, -one.cap - one.pad.thickness / 2, -y), abs=1e-6)
        solved = float(section(one.pad.shape, one.pad.first, one.pad.second).area)
        assert pad.volume == pytest.approx(solved * one.pad.thickness, rel=1e-4)
    frame = found["printer-outline"]
    assert np.ptp(frame.bounds, axis=0) == pytest.approx((0.42, 0.48, 0.44), abs=1e-6)
    colour = frame.visual.material.baseColorFactor[:3] / 255  # trimesh gives bytes
    assert colour == pytest.approx([0.5**2.2] * 3, abs=0.01)  # sRGB is near a power of 2.2


def test_manifest_tells_what_prints_without_support(kit):
    _, parts, manifest = kit
    for part, entry in zip(parts, manifest["parts"], strict=True):
        mesh = tessellate(part.solid)
        free = hanging(mesh)
        assert entry["bridge_m"] == pytest.approx(free.bridge * 1e-3)
        assert entry["overhang_m2"] == pytest.approx(free.overhang * 1e-6)
        assert entry["wall_nozzles"] == pytest.approx(thinnest_wall(mesh) / 0.4, abs=1e-3)
        assert entry["wall_nozzles"] >= 1.0


def test_hash_tells_apart_what_differs_by_a_hundredth_of_a_millimetre():
    parts = [draw(design(spacers=(spacer(),)))[1]]
    wider = spacer()
    object.__setattr__(wider, "outer", wider.outer + 1e-5)
    parts += [draw(design(spacers=(wider,)))[1]]
    first, second = (tessellate(part.solid).sha256() for part in parts)
    assert first != second


def test_manifest_masses_follow_from_volume_and_material(kit):
    _, parts, manifest = kit
    for part, entry in zip(parts, manifest["parts"], strict=True):
        assert entry["volume_m3"] == pytest.approx(part.volume * 1e-9, rel=1e-5)
        # kg/m3, data-sheet values from memory; plates under motors are of their own filament
        density = {"petg": 1270.0, "asa": 1070.0}[entry["material"]]
        assert entry["print_mass_kg"] == pytest.approx(entry["filament_m3"] * density)
        # solid parts take a little more than their volume, where infill joins walls
        assert 0.999 < entry["filament_m3"] / entry["volume_m3"] < 1.06
    shared = next(entry for entry in manifest["parts"] if entry["role"] == "motor-plate")
    assert shared["quantity"] == 2
    assert shared["notes"][-1] == "for left, right"


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("shape", SHAPES)
def test_templates_have_the_true_area_and_ruler(shape, size):
    one = foot("cup", shape, "adhesive", size)
    solved = float(section(shape, one.pad.first, one.pad.second).area) * 1e6
    assert template_area(one.pad) == pytest.approx(solved, rel=1e-12)
    drawing = ezdxf.read(io.StringIO(template_dxf(template_of(one)).decode("utf-8")))
    assert drawing.units == ezdxf.units.MM
    areas = []
    for entity in drawing.modelspace().query('*[layer=="CUT"]'):
        if entity.dxftype() == "CIRCLE":
            areas.append(3.141592653589793 * entity.dxf.radius**2)
        else:
            areas.append(_shoelace([(x, y) for x, y, *_ in entity.get_points()]))
    assert max(areas) * 2 - sum(areas) == pytest.approx(solved, rel=1e-9)
    lines = drawing.modelspace().query("LINE")
    longest = max(ConstructionPolyline([line.dxf.start, line.dxf.end]).length for line in lines)
    assert longest == RULER


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("shape", SHAPES)
def test_dxf_is_true_to_scale_for_a_reader_of_another_make(shape, size):
    one = foot("cup", shape, "adhesive", size)
    text = io.StringIO(template_dxf(template_of(one)).decode("utf-8"))
    path = trimesh.load(text, file_type="dxf")
    assert path.units == "millimeters"
    cut = np.concatenate(
        [
            path.vertices[each.points]
            if type(each).__name__ == "Line"
            else each.bounds(path.vertices)
            for each in path.entities
            if each.layer == "CUT"
        ]
    )
    first, second = one.pad.first * 1000, one.pad.second * 1000
    sides = (first, second) if shape == "rectangle" else (first, first)
    # circles are read as arcs through three points
    assert np.ptp(cut, axis=0) == pytest.approx(sides, abs=1e-6)
    lines = [
        each.length(path.vertices)
        for each in path.entities
        if each.layer == "NOTE" and type(each).__name__ == "Line"
    ]
    assert max(lines) == pytest.approx(RULER)


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("shape", SHAPES)
def test_svg_is_true_to_scale(shape, size):
    one = foot("cup", shape, "adhesive", size)
    svg = etree.fromstring(template_svg(template_of(one)).encode())
    width, height = (float(svg.get(side).removesuffix("mm")) for side in ("width", "height"))
    box = [float(number) for number in svg.get("viewBox").split()]
    assert (width, height) == (box[2], box[3])  # one user unit is one millimetre
    assert [each for each in svg.iter() if each.get("transform")] == []
    space = "{http://www.w3.org/2000/svg}"
    areas = [np.pi * float(each.get("r")) ** 2 for each in svg.iter(f"{space}circle")]
    areas += [
        float(each.get("width")) * float(each.get("height")) for each in svg.iter(f"{space}rect")
    ]
    solved = float(section(shape, one.pad.first, one.pad.second).area) * 1e6
    # six digits are written
    assert max(areas) * 2 - sum(areas) == pytest.approx(solved, rel=1e-5)
    ruler = next(each.get("d") for each in svg.iter(f"{space}path"))
    assert float(re.match(r"M\S+ \S+h([\d.]+)m", ruler)[1]) == RULER


def test_names_are_plain_ascii():
    assert slug("Füße vorn", "cup") == "fusse-vorn-cup"
    assert slug("../../etc", "cup") == "etc-cup"
    assert slug("日本") == "part"


def test_printed_feet_need_no_template(tmp_path):
    one, parts = drawn("printed", "disc", "adhesive", "usual")
    manifest = write_all(design(one), tmp_path, list(parts))
    assert manifest["pads"] == []
    assert list((tmp_path / "templates").iterdir()) == []
    # tpu, 1210 kg/m3, data-sheet value from memory
    only = manifest["parts"][0]
    assert only["print_mass_kg"] == pytest.approx(only["filament_m3"] * 1210.0)


def _shoelace(points):
    pairs = zip(points, points[1:] + points[:1], strict=True)
    return abs(sum(ax * by - bx * ay for (ax, ay), (bx, by) in pairs)) / 2


class Found(NamedTuple):
    """A product or a component as a STEP file gives it back."""

    name: str
    product: str
    colour: tuple[float, float, float] | None
    shape: cq.Shape


def read_step(path):
    """Return the whole of a STEP file, which must be in millimetres, then its components."""
    document = TDocStd_Document(TCollection_ExtendedString("XmlOcaf"))
    reader = STEPCAFControl_Reader()
    reader.SetNameMode(True)
    reader.SetColorMode(True)
    reader.ReadFile(str(path))
    lengths, angles, solids = (TColStd_SequenceOfAsciiString() for _ in range(3))
    reader.Reader().FileUnits(lengths, angles, solids)
    units = {lengths.Value(i + 1).ToCString() for i in range(lengths.Length())}
    assert units == {"millimetre"}
    reader.Transfer(document)
    tool = XCAFDoc_DocumentTool.ShapeTool_s(document.Main())
    free, components = TDF_LabelSequence(), TDF_LabelSequence()
    tool.GetFreeShapes(free)
    assert free.Length() == 1
    tool.GetComponents_s(free.Value(1), components)
    labels = [free.Value(1), *(components.Value(i + 1) for i in range(components.Length()))]
    return [_found(label, document) for label in labels]


def _found(label, document):
    product = TDF_Label()
    if not XCAFDoc_ShapeTool.GetReferredShape_s(label, product):
        product = label
    colour, rgb = Quantity_Color(), None
    for kind in (XCAFDoc_ColorSurf, XCAFDoc_ColorGen):
        if XCAFDoc_ColorTool.GetColor_s(product, kind, colour):
            rgb = colour.Values(Quantity_TOC_sRGB)
    return Found(
        _name(label),
        _name(product),
        rgb,
        cq.Shape.cast(XCAFDoc_ShapeTool.GetShape_s(label)),
    )


def _name(label):
    name = TDataStd_Name()
    label.FindAttribute(TDataStd_Name.GetID_s(), name)
    return name.Get().ToExtString()
