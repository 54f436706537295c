"""Files read back by readers that did not write them."""

from __future__ import annotations

import io
import json
import zipfile

import cadquery as cq
import ezdxf
import pytest
import trimesh
from ezdxf.math import ConstructionPolyline
from lxml import etree
from readers import shoelace, step_products
from sheets import SIZES, design, drawn, foot, spacer

from geometry.draw import draw
from geometry.export import write_all
from geometry.mesh import tessellate
from geometry.pad_template import (
    RULER,
    template_area,
    template_dxf,
    template_of,
    template_svg,
)
from geometry.part import slug
from isolator.design import SHAPES
from isolator.physics.section import section

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
    named = {"manifest.json", manifest["assembly"]}
    for entry in (*manifest["parts"], *manifest["pads"]):
        named.update(entry["files"])
    found = {str(path.relative_to(folder)) for path in folder.rglob("*") if path.is_file()}
    assert found == named
    assert json.loads((folder / "manifest.json").read_text(encoding="utf-8")) == manifest


def test_step_reads_back_with_equal_volume_and_its_own_name(kit):
    folder, parts, _ = kit
    for part in parts:
        path = folder / "parts" / f"{part.name}.step"
        back = cq.importers.importStep(str(path)).val()
        # STEP writes 15 digits; the kernel integrates to about 1e-6
        assert back.Volume() == pytest.approx(part.solid.Volume(), rel=1e-6)
        assert [name for name, _ in step_products(path)] == [part.name]


def test_assembly_holds_every_copy_in_its_place(kit):
    folder, parts, _ = kit
    products = dict(step_products(folder / "assembly.step"))
    copies = sum(part.quantity for part in parts if part.places)
    assert len(products) == copies + 3 + 1 + 1  # three pads, the printer's outline, the whole
    high = {name: shape.BoundingBox() for name, shape in products.items()}
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
        wide = part.box[0] * part.quantity + 5.0 * (part.quantity - 1)
        assert high[0] - low[0] == pytest.approx(wide, abs=0.05)  # chord error at round ends
        assert whole.volume == pytest.approx(part.volume * part.quantity, rel=5e-3)


def test_same_design_gives_same_hashes_and_same_mesh_files(kit, tmp_path):
    folder, _, manifest = kit
    again = write_all(DESIGN, tmp_path, draw(DESIGN))
    assert again == manifest
    for entry in manifest["parts"]:
        for name in entry["files"][1:]:  # STEP carries a time stamp, STL and 3MF do not
            assert (tmp_path / name).read_bytes() == (folder / name).read_bytes()


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
        # petg, 1270 kg/m3, data-sheet value from memory
        assert entry["solid_mass_kg"] == pytest.approx(entry["volume_m3"] * 1270.0)
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
            areas.append(shoelace([(x, y) for x, y, *_ in entity.get_points()]))
    assert max(areas) * 2 - sum(areas) == pytest.approx(solved, rel=1e-9)
    lines = drawing.modelspace().query("LINE")
    longest = max(ConstructionPolyline([line.dxf.start, line.dxf.end]).length for line in lines)
    assert longest == RULER
    svg = etree.fromstring(template_svg(template_of(one)).encode())
    width, height = (float(svg.get(side).removesuffix("mm")) for side in ("width", "height"))
    box = [float(number) for number in svg.get("viewBox").split()]
    assert (width, height) == (box[2], box[3])  # one user unit is one millimetre


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
    assert only["solid_mass_kg"] == pytest.approx(only["volume_m3"] * 1210.0)
