"""Plates of a damper cut of sheet metal: what a shop gets, and that nothing meets."""

from __future__ import annotations

import io
import math
from dataclasses import replace
from functools import cache
from pathlib import Path

import cadquery as cq
import ezdxf
import numpy as np
import pytest
from ezdxf import bbox
from sheets import BRACKET, PRINT, SHEET, design, sheet_damper

from geometry.draw import draw
from geometry.export import write_all
from geometry.motors.clearance import damper_clearances
from geometry.motors.damper_stack import pieces
from geometry.pictures.damper_steps import damper_step_scene
from geometry.sheets.sheet_cut import cut_dxf
from geometry.solids.part import CannotDraw, Part
from geometry.solids.verify import bounds
from isolator.design import Design
from isolator.design.damper import stack_height
from isolator.workshop.damper_hardware import cut_rows

# square of the screws, NEMA ICS 16-2001; M3 and M4 holes, ISO 273 medium; greatest button heads,
# ISO 7380-1; boss and 0.4 mm of play
FACES = {
    14: (26.0, 3.4, 5.7, 22.4),
    17: (31.0, 3.4, 5.7, 22.4),
    23: (47.14, 4.5, 7.6, 38.5),
}
SIZES = sorted(FACES)


@cache
def plates(size: int) -> dict[str, Part]:
    drawn = draw(design(dampers=(sheet_damper(size),)))
    return {part.role: part for part in drawn if part.cut}


def read(part: Part) -> ezdxf.document.Drawing:
    return ezdxf.read(io.StringIO(cut_dxf(part).decode("utf-8")))


def enclosed(outline: ezdxf.entities.LWPolyline) -> float:
    """Return the area of a closed polyline: its corners', and what each arc adds or takes."""
    x, y, bulge = np.array(list(outline.get_points("xyb"))).T
    far_x, far_y = np.roll(x, -1), np.roll(y, -1)
    turn = 4 * np.arctan(bulge)
    chord = np.hypot(far_x - x, far_y - y)
    with np.errstate(divide="ignore", invalid="ignore"):
        radius = chord / (2 * np.sin(turn / 2))
        segments = np.where(turn == 0, 0.0, radius**2 / 2 * (turn - np.sin(turn)))
    return abs(float((x * far_y - far_x * y).sum() / 2 + segments.sum()))


@pytest.mark.parametrize("size", SIZES)
def test_a_shop_gets_one_closed_outline_and_round_holes(size, tmp_path):
    """Area of the DXF times the sheet against the volume of the STEP file, by two kernels."""
    for role, part in plates(size).items():
        document = read(part)
        assert document.units == ezdxf.units.MM
        found = list(document.modelspace())
        assert {entity.dxf.layer for entity in found} == {"CUT"}
        (outline,) = (each for each in found if each.dxftype() == "LWPOLYLINE")
        circles = [each for each in found if each.dxftype() == "CIRCLE"]
        assert len(found) == 1 + len(circles)
        assert outline.closed
        area = enclosed(outline) - sum(math.pi * each.dxf.radius**2 for each in circles)
        thick = 1e3 * SHEET[size][0 if "motor" in role else 1]
        path = tmp_path / "part.step"
        cq.exporters.export(cq.Workplane(part.solid), str(path))
        (solid,) = cq.importers.importStep(str(path)).solids().vals()
        assert solid.Volume() == pytest.approx(area * thick, rel=1e-6)
        box = bbox.extents(document.modelspace())
        assert tuple(box.size)[:2] == pytest.approx(part.box[:2], abs=1e-6)
        assert part.box[2] == pytest.approx(thick)


@pytest.mark.parametrize("size", SIZES)
def test_holes_lie_on_crossed_diagonals_and_heads_find_free_corners(size):
    square, clear, head, boss = FACES[size]
    at = square / 2
    for role, part in plates(size).items():
        turn = 1 if "motor" in role else -1
        circles = {
            (round(each.dxf.center.x, 6), round(each.dxf.center.y, 6)): 2 * each.dxf.radius
            for each in read(part).modelspace().query("CIRCLE")
        }
        assert circles.pop((0.0, 0.0)) == pytest.approx(boss)
        for x in (-at, at):
            assert circles.pop((x, turn * x)) == pytest.approx(clear)
            # the other plate's head, with its travel and 0.3 mm, meets no metal
            room = cq.Solid.makeCylinder(head / 2 + 0.73 + 0.3, 9.0, cq.Vector(x, -turn * x, -4))
            assert part.solid.intersect(room).Volume() < 1e-9
        assert len(circles) == (1 if turn > 0 else 0)  # the ear's
        for (x, y), wide in circles.items():
            assert y == 0.0
            assert wide == pytest.approx(clear)
            # a nut under it clears the case, a head on it the plate that moves
            assert x > bounds(plates(size)["damper-frame-plate"].solid)[3] + head / 2 + 0.73 + 0.3


@pytest.mark.parametrize(("size", "wedge"), [(14, False), (17, True), (23, False)])
def test_nothing_meets_over_the_whole_travel(size, wedge):
    one = sheet_damper(size, "pads" if size == 17 else "ring", "aluminium", wedge)
    left = damper_clearances(one, PRINT)
    assert left.interference == 0.0
    assert min(left.motor_screws, left.frame_screws, left.spacer) >= 0.3e-3


def test_the_stack_is_as_thick_as_its_sheets_and_raises_the_pulley_by_that():
    one = sheet_damper(17)
    found = {piece.name: piece.solid for piece in pieces(one, PRINT)}
    low, high = (bounds(found[name]) for name in ("damper-motor-plate-1", "damper-frame-plate-1"))
    assert (low[2], high[5]) == pytest.approx((0.0, 1.5 + 3.1 + 1.2))
    assert bounds(found["bracket"])[2] == pytest.approx(1e3 * stack_height(one))
    # the ring under the pulley: 6.3 mm as before, and the stack
    assert bounds(found["pulley"])[2] == pytest.approx(6.3 + 5.8)
    # a frame screw's head hangs 1.65 mm into the gap that the motor-side plate leaves free
    head = bounds(found["frame-screw-1"])
    assert head[2] == pytest.approx(1.5 + 3.1 - 1.65)
    assert head[5] == pytest.approx(1.5 + 3.1 + 12.0)
    assert bounds(found["motor-screw-1"])[5] == pytest.approx(1.5 + 1.65)
    assert bounds(found["bracket"])[5] == pytest.approx(5.8 + 1e3 * BRACKET)
    assert damper_step_scene(one, PRINT, "bond").names == ("terminal, its screw and nut",)


@pytest.fixture(scope="module")
def kit(tmp_path_factory) -> tuple[Path, dict, Design]:
    one = sheet_damper(17)
    other = replace(one, name="right", position=(0.171, 0.198, 0.409), pulley_spacer=0.0128)
    whole = design(dampers=(one, other))
    folder = tmp_path_factory.mktemp("sheet")
    return folder, write_all(whole, folder, draw(whole)), whole


def test_what_is_cut_has_no_files_for_a_printer(kit):
    folder, manifest, whole = kit
    cut = [part for part in manifest["parts"] if part["cut"]]
    assert [(part["name"], part["quantity"], part["material"]) for part in cut] == [
        ("left-right-damper-motor-plate", 2, "steel"),
        ("left-right-damper-frame-plate", 2, "steel"),
    ]
    for part in cut:
        assert part["files"] == [f"parts/{part['name']}.{kind}" for kind in ("step", "dxf")]
        assert part["print_mass_kg"] is None
        assert sorted(path.suffix for path in folder.glob(f"parts/{part['name']}.*")) == [
            ".dxf",
            ".step",
        ]
        assert any("deburr every edge" in note for note in part["notes"])
    listed = {each[3].split(", ")[1] for each in cut_rows(whole.motor_dampers)}
    assert listed == {f"by {part['files'][1]}" for part in cut}
    printed = {part["name"] for part in manifest["parts"] if not part["cut"]}
    assert {name for plate in manifest["plates"] for name in plate["counts"]} == printed
    drawing = (folder / "drawings/left-right-damper-motor-plate.svg").read_text(encoding="utf-8")
    assert "mild steel, 1.5 mm" in drawing
    assert "have it cut of steel sheet, 1.5 mm, by the DXF file" in drawing
    assert "as printed" not in drawing


def test_equal_motors_share_plates_and_unequal_spacers_have_files_of_their_own(kit):
    _, manifest, _ = kit
    names = {part["name"]: part["quantity"] for part in manifest["parts"]}
    assert names["left-pulley-spacer"] == names["right-pulley-spacer"] == 1
    assert names["left-right-damper-frame-plate"] == 2


@pytest.mark.parametrize(
    ("changed", "told"),
    [
        (
            {"motor_plate": 0.0009},
            "left-damper-motor-plate: motor_plate: 0.9 mm is thinner than the 1 mm of the "
            "thinnest sheet",
        ),
        (
            {"frame_plate": 0.0021},
            "left-damper-frame-plate: frame_plate: 2.1 mm is thicker than the 2 mm of the "
            "thickest sheet",
        ),
        (
            {"travel": 0.00081},
            "left-damper-frame-plate: travel: 0.81 mm is more than the 0.8 mm by which the free "
            "corners of sheet clear its screws' heads",
        ),
        # 43.815 − 2 · (5.7 / 2 + 0.8 + 0.3 + 0.4)
        (
            {"first": 0.0353},
            "left-damper-rubber: first: a ring 35.3 mm wide lies over the screws' pockets; "
            "35.12 mm does not",
        ),
        (
            {"plates": "brass"},
            "left-damper-motor-plate: plates: brass is not among printed, steel, aluminium",
        ),
    ],
)
def test_sheets_that_cannot_be_made_are_refused(changed, told):
    with pytest.raises(CannotDraw) as refused:
        draw(design(dampers=(replace(sheet_damper(17), **changed),)))
    assert str(refused.value) == told
