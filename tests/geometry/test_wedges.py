"""Wedges of motor dampers: marked for their motors, printed apart, none without a slope."""

from __future__ import annotations

import math
from dataclasses import replace

import cadquery as cq
import pytest
from sheets import PRINT, damper, design

from geometry.draw import draw
from geometry.formats.plates import plates
from geometry.motors.damper_parts import damper_parts
from geometry.motors.damper_rules import require
from geometry.solids.part import CannotDraw, Part
from geometry.solids.verify import verify

FINE = replace(PRINT, wedge_layer=1e-4)
LEFT = replace(damper(wedge=True), cast=True, material="vmq-40", density=1150.0)
RIGHT = replace(LEFT, name="right", pull=(-0.6, -0.8, 0.0))
DEPTH = 0.4  # of letters and arrow, two usual layers


@pytest.fixture(scope="module")
def kit() -> list[Part]:
    return draw(replace(design(dampers=(LEFT, RIGHT)), print=FINE))


def wedges(parts: list[Part]) -> dict[str, Part]:
    return {part.owner: part for part in parts if part.role == "damper-wedge"}


def is_its_mirror(solid: cq.Solid) -> bool:
    """Whether a flat part turned about its middle is the same as its mirror image."""
    volume, mirror = solid.Volume(), solid.mirror("YZ")
    axis = (cq.Vector(0, 0, 0), cq.Vector(0, 0, 1))
    return any(
        solid.intersect(mirror.rotate(*axis, turn)).Volume() > (1 - 1e-6) * volume
        for turn in (0.0, 90.0, 180.0, 270.0)
    )


def test_what_differs_from_its_mirror_image_is_marked_and_all_else_is_shared(kit):
    handed = {part.name for part in kit if not is_its_mirror(part.solid)}
    assert handed == {"left-damper-wedge", "right-damper-wedge"}
    for part in kit:
        engraved = [note for note in part.notes if note.startswith("engraved: ")]
        if part.name in handed:
            assert engraved == [f"engraved: {part.owner.upper()}"]
            assert any("arrow points to the thin edge" in note for note in part.notes)
        else:
            assert part.owner == "left, right"
            assert part.name.startswith("left-right-")


def test_the_arrow_points_to_the_belts(kit):
    for name, pull in (("left", LEFT.pull), ("right", RIGHT.pull)):
        wedge = wedges(kit)[name].solid
        roofs = [
            face
            for face in wedge.Faces()
            if face.geomType() == "PLANE" and abs(face.Center().z - DEPTH) < 1e-6
        ]
        # letters stand on one side of the boss, the arrow on the other
        (arrow,) = [face for face in roofs if face.Center().y < 0]
        corners = [vertex.toTuple()[:2] for vertex in arrow.Vertices()]
        assert len(corners) == 7
        reach = sorted(at[0] * pull[0] + at[1] * pull[1] for at in corners)
        assert reach[-1] - reach[-2] > 1.0  # one tip in front [mm]
        assert reach[1] - reach[0] < 1e-6  # two corners at the square end


def test_marks_take_what_is_told_off_the_wedge(kit):
    plain = next(part for part in damper_parts((LEFT,), FINE) if part.role == "damper-frame-plate")
    assert plain.layer == 0.0
    for part in wedges(kit).values():
        assert part.solid.Volume() == pytest.approx(part.volume, rel=1e-5)  # kernel: 1e-6
        figures = verify(part, FINE)
        assert figures.overhang == 0.0
        assert figures.thinnest_wall >= FINE.nozzle * 1e3


def test_wedges_lie_on_a_plate_of_their_own_with_its_layer_height(kit):
    laid = plates(kit, FINE)
    (own,) = [plate for plate in laid if plate.layer > 0]
    assert (own.name, own.layer) == ("asa-0-1-mm-layers", 0.1)
    assert sorted(copy.part for copy in own.copies) == ["left-damper-wedge", "right-damper-wedge"]
    others = {copy.part for plate in laid if plate is not own for copy in plate.copies}
    assert not any("wedge" in name for name in others)
    (told,) = {note for part in kit for note in part.notes if note.startswith("print it in layers")}
    assert told.startswith("print it in layers of 0.1 mm, on a plate of its own: its slope")


def test_a_slope_of_under_two_layers_is_refused():
    # the plate reaches 17.15 · 1.4 + 4 mm along this pull: two layers are 0.4 mm over both ways
    reach = 17.15 * 1.4 + 4.0
    least = math.atan(0.2 / reach)
    require(replace(LEFT, wedge_angle=least * 1.001), PRINT)
    with pytest.raises(CannotDraw, match=r"less than 2 layers of 0\.2 mm; leave the wedge out"):
        require(replace(LEFT, wedge_angle=least * 0.999), PRINT)


def test_motors_that_share_a_wedge_are_named_on_it_in_full_or_by_their_initials():
    back = replace(LEFT, name="y back", pull=(-0.6, 0.8, 0.0))
    (wedge,) = wedges(damper_parts((replace(LEFT, name="front left"), back), FINE)).values()
    assert wedge.name == "front-left-y-back-damper-wedge"
    assert "engraved: FL YB" in wedge.notes
    assert wedge.quantity == 2
