"""Every part is drawn with the holes and the first layer of the filament it is printed in."""

from __future__ import annotations

from dataclasses import replace

import pytest
from sheets import PRINT, damper, design, foot

from geometry.draw import draw, foot_parts
from geometry.motors.damper_parts import damper_parts
from isolator.design import FilamentFit
from isolator.design.read import read_design
from isolator.design.write import write_design

TWO = replace(
    PRINT,
    fits=(
        FilamentFit(filament="asa", hole_compensation=0.0001, first_layer_chamfer=0.0005),
        FilamentFit(filament="tpu", hole_compensation=0.0004, first_layer_chamfer=0.0002),
    ),
)


def diameters(solid) -> set[float]:
    return {
        round(2 * face._geomAdaptor().Cylinder().Radius(), 4)
        for face in solid.Faces()
        if face.geomType() == "CYLINDER"
    }


def test_plates_of_a_damper_and_its_drill_template_differ_as_their_filaments_do():
    parts = {part.role: part for part in damper_parts((damper(),), TWO)}
    plate, template = parts["damper-motor-plate"], parts["damper-drill-template"]
    assert (plate.material, template.material) == ("asa", "petg")
    # M3 by ISO 273 medium: 3.4 mm, and what each filament needs more
    assert round(3.4 + 0.1, 4) in diameters(plate.solid)
    assert round(3.1 + 0.15, 4) in diameters(template.solid)
    assert round(3.4 + 0.15, 4) not in diameters(plate.solid)


def test_a_flexible_body_has_the_holes_of_its_own_filament():
    one = foot("printed", "disc", "slot-20", "usual")
    (body,) = foot_parts(one, TWO)
    assert body.material == "tpu-85"
    assert round(5.5 + 0.4, 4) in diameters(body.solid)
    cup = foot_parts(foot("cup", "disc", "slot-20", "usual"), TWO)[0]
    assert round(5.5 + 0.15, 4) in diameters(cup.solid)


def test_a_sheet_keeps_what_each_filament_needs(tmp_path):
    sheet = replace(design(foot("cup", "disc", "slot-20", "usual")), print=TWO)
    path = tmp_path / "design.toml"
    path.write_text(write_design(sheet), encoding="utf-8")
    assert read_design(path) == sheet
    assert path.read_text(encoding="utf-8").count("[[print.fit]]") == 2


def test_a_whole_design_is_drawn_with_both(tmp_path):
    sheet = replace(design(foot("cup", "disc", "adhesive", "usual")), print=TWO)
    cup = next(part for part in draw(sheet) if part.role == "cup")
    assert cup.box[0] == pytest.approx(49.48)
