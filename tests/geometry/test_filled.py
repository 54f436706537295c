"""Printed feet that are not solid: what is typed into a slicer, and the filament that it takes."""

from __future__ import annotations

import re
import shutil
import subprocess
import zipfile
from dataclasses import replace
from xml.etree import ElementTree

import pytest
from sheets import design, foot

from geometry.draw import draw
from geometry.export import write_all
from geometry.formats.mesh_files import stl_bytes
from geometry.solids.mesh import tessellate
from geometry.solids.strands import laid
from isolator.cards import load_cards
from isolator.design import Foot
from isolator.design.fill import foot_fill
from isolator.workshop.assembly import assembly_steps
from isolator.workshop.parts_list import make_lines

SLICER = shutil.which("slic3r")
WORDS = "2 walls (0.9 mm), 25 % gyroid infill, 8 solid layers at the bed and 13 at the top"


def hollow(shape: str = "rectangle", attachment: str = "adhesive") -> Foot:
    """Return a printed foot as one of the shelf's cards prints it: walls of 0.9 mm, a quarter."""
    one = foot("printed", shape, attachment, "usual")
    pad = replace(one.pad, material="tpu-95-gyroid-25", infill=0.25, pattern="gyroid", wall=9e-4)
    return replace(one, name="soft", pad=pad, cap=0.0016 if attachment == "adhesive" else one.cap)


def test_walls_infill_and_pattern_stand_in_the_file_and_its_notes(tmp_path) -> None:
    sheet = design(hollow())
    told = write_all(sheet, tmp_path, draw(sheet))["parts"][0]
    assert told["print"] == {
        "words": WORDS,
        "infill_percent": "25",
        "infill_pattern": "gyroid",
        "wall_mm": "0.9",
        "walls": "2",
        "solid_layers_at_the_bed": "8",
        "solid_layers_at_the_top": "13",
    }
    assert told["notes"][0] == (
        f"print {WORDS}; type that into the slicer, which reads no such settings from a file"
    )
    # 3MF core specification: a model's description is a well-known name, any other one is in a
    # name space of its own; an object's metadata stand in its metadatagroup, before its mesh
    core = "{http://schemas.microsoft.com/3dmanufacturing/core/2015/02}"
    for path in ("parts/soft-foot.3mf", "beds/tpu-95-gyroid-25.3mf"):
        packed = zipfile.ZipFile(tmp_path / path).read("3D/3dmodel.model")
        assert b'xmlns:print="urn:isolator:print"' in packed
        model = ElementTree.fromstring(packed)
        said = {each.get("name"): each.text for each in model.findall(f"{core}metadata")}
        assert said["Description"] == f"print soft-foot: {WORDS}"
        (one,) = model.findall(f"{core}resources/{core}object")
        assert [each.tag.removeprefix(core) for each in one] == ["metadatagroup", "mesh"]
        assert {each.get("name"): each.text for each in one[0]} == {
            f"print:{key}": value for key, value in told["print"].items() if key != "words"
        }


def test_filament_is_that_of_skins_walls_and_infill(tmp_path) -> None:
    """The inside of 31 × 46 mm within walls of 0.9 mm is a quarter full, over the pad's height."""
    sheet = design(hollow())
    told = write_all(sheet, tmp_path, draw(sheet))["parts"][0]
    empty = 0.75 * (31 - 1.8) * (46 - 1.8) * 12.4e-9
    # a quarter of the infill's lines runs into the walls, 0.13 mm, all round the outside
    joined = 0.25 * 0.13 * 2 * (31 + 46) * sheet.feet[0].height * 1e-6
    used = told["volume_m3"] - empty + joined
    assert told["filament_m3"] == pytest.approx(used, rel=0.002)  # the chamfer is no side
    # tpu, 1210 kg/m3, data-sheet value from memory
    assert told["print_mass_kg"] == pytest.approx(told["filament_m3"] * 1210.0)


def test_a_pad_with_a_hole_has_walls_round_it_too() -> None:
    (body,) = draw(design(hollow("ring")))
    ring = 3.14159265 / 4 * ((44 - 1.8) ** 2 - (23 + 1.8) ** 2)
    assert body.hollow == pytest.approx(0.75 * ring * 12.4, rel=1e-6)


def test_a_foot_that_is_its_walls_alone_is_solid() -> None:
    thin = hollow()
    thin = replace(thin, pad=replace(thin.pad, wall=0.016))
    assert draw(design(thin))[0].hollow == 0.0


def test_steps_and_list_tell_how_it_is_printed() -> None:
    sheet = design(hollow())
    first = assembly_steps(sheet, {"tpu-95-gyroid-25": "Printed TPU"})[0]
    assert first.words[0] == (
        "Print the plates as they lie, without supports, every part solid (100 % infill) but the "
        "printed feet."
    )
    assert first.words[2] == (
        f"The printed foot is its own pad: print it in tpu-95 with {WORDS}, typed into the slicer "
        "by hand."
    )
    card = load_cards()["tpu-95-gyroid-25"]
    assert make_lines(sheet, {card.id: card})[0] == (
        "3 × printed foot, a rectangle 31 mm along x, 46 mm along y, 12.4 mm high, of printed TPU "
        f"95 A, gyroid 25 %, printed in tpu-95: {WORDS}"
    )


@pytest.mark.parametrize("attachment", ["adhesive", "bolt"])
def test_a_mounted_body_has_a_skin_of_its_own(attachment: str) -> None:
    one = hollow(attachment=attachment)
    sheet = design(one)
    body = next(part for part in draw(sheet) if part.role == "foot")
    assert body.fill == foot_fill(one, sheet.print)
    low = body.loaded[0][0]
    assert body.fill.bottom * 0.2 == pytest.approx(low)
    assert body.fill.top * 0.2 == pytest.approx(body.box[2] - body.loaded[1][0])


@pytest.mark.slow
@pytest.mark.skipif(SLICER is None, reason="needs the command slic3r")
@pytest.mark.parametrize("shape", ["disc", "ring", "rectangle", "square-with-hole"])
def test_a_slicer_takes_the_filament_of_the_list(shape: str, tmp_path) -> None:
    (body,) = draw(design(hollow(shape)))
    model, out = tmp_path / "body.stl", tmp_path / "body.gcode"
    model.write_bytes(stl_bytes(tessellate(body.solid), "body"))
    width = body.fill.wall / body.fill.walls * 1e3
    typed = (
        *("--extrusion-width", f"{width}", "--perimeters", str(body.fill.walls)),
        *("--fill-density", f"{body.fill.infill:.0%}", "--fill-pattern", "rectilinear"),
        *("--bottom-solid-layers", str(body.fill.bottom)),
        *("--top-solid-layers", str(body.fill.top)),
    )
    subprocess.run(
        [
            str(SLICER),
            *("--no-gui", "--nozzle-diameter", "0.4", "--filament-diameter", "1.75"),
            *("--layer-height", "0.2", "--first-layer-height", "0.2", "--skirts", "0"),
            *typed,
            *("-o", str(out), str(model)),
        ],
        capture_output=True,
        timeout=120,
        check=True,
    )
    length = re.search(r"filament used = ([\d.]+)mm", out.read_text(encoding="utf-8"))
    assert length is not None
    took = float(length[1]) * 1.75**2 * 3.14159265 / 4.0
    assert took == pytest.approx(laid(body, 0.4), rel=0.05)
