"""Every foot that is offered, drawn and measured with other means than those that drew it."""

from __future__ import annotations

import io
import math
from dataclasses import replace

import cadquery as cq
import numpy as np
import pytest
import trimesh
from measured import measured_foot
from pairwise import spread
from sheets import EVERY_FOOT, design, drawn, foot

from geometry.draw import draw
from geometry.formats.mesh_files import stl_bytes
from geometry.solids.mesh import TOLERANCE, tessellate
from isolator.design import ATTACHMENTS, quantise, quantise_up
from isolator.physics.rubber.section import section

BODY = {"cup": {"cup", "sole"}, "printed": {"foot"}}
OVER = {"cup": "cover", "printed": "mount"}
BESIDE = {"tube-end": {"plug"}, "rod-end": {"socket"}}


def roles(kind, attachment):
    hidden = {OVER[kind]} if ATTACHMENTS[attachment].hides else set()
    return BODY[kind] | hidden | BESIDE.get(attachment, set())


@pytest.mark.parametrize(("kind", "shape", "attachment", "size"), spread(EVERY_FOOT))
def test_every_foot_is_sound_and_measures_what_it_ought(kind, shape, attachment, size):
    _, parts = drawn(kind, shape, attachment, size)
    assert {part.role for part in parts} == roles(kind, attachment)
    for part in parts:
        assert part.solid.isValid()
        assert len(part.solid.Solids()) == 1
        assert len(part.solid.Shells()) == 1  # no hollow left inside
        body = trimesh.load(
            io.BytesIO(stl_bytes(tessellate(part.solid), part.name)), file_type="stl"
        )
        assert body.is_watertight
        assert body.is_winding_consistent
        low, high = body.bounds
        assert low[2] == pytest.approx(0.0, abs=1e-6)  # STL holds single precision: 24 bits of mm
        # a chord falls short of a round side by the mesh's tolerance at most
        assert high - low == pytest.approx(part.box, abs=2 * TOLERANCE)
        # closed form against triangles: every facet may lie off by the chord's tolerance
        assert abs(body.volume - part.volume) < min(TOLERANCE * body.area, 0.005 * part.volume)
        # against the kernel's own integration, which works to about 1e-6
        assert part.solid.Volume() == pytest.approx(part.volume, rel=1e-5)


@pytest.mark.parametrize(("kind", "shape", "attachment", "size"), spread(EVERY_FOOT))
def test_what_is_solved_is_what_is_drawn(kind, shape, attachment, size):
    one, parts = drawn(kind, shape, attachment, size)
    found = measured_foot(design(one), one, list(parts))
    solved = float(section(shape, one.pad.first, one.pad.second).area)
    # areas between exact curves: what is left is the kernel's integration, about 1e-6
    assert found.upper_area == pytest.approx(solved, rel=1e-5)
    assert found.lower_area == pytest.approx(solved, rel=1e-5)
    # the kernel joins points nearer than 1e-7 mm and widens its boxes by as much
    assert found.thickness == pytest.approx(one.pad.thickness, abs=1e-9)
    assert found.height == pytest.approx(one.height, abs=1e-9)
    assert found.stop == pytest.approx(0.0 if kind == "printed" else one.stop, abs=1e-9)
    assert np.array(found.places) == pytest.approx(np.array(sorted(one.positions)), abs=1e-9)


def test_a_pad_drawn_smaller_than_solved_is_noticed():
    one, parts = drawn("cup", "rectangle", "adhesive", "usual")
    other = replace(one, pad=replace(one.pad, first=one.pad.first * 1.25))
    found = measured_foot(design(other), other, list(parts))
    wanted = float(section("rectangle", other.pad.first, other.pad.second).area)
    # the wider pad runs into the scribed line and the rim, where nothing carries it
    assert found.lower_area < 0.98 * wanted


def test_cup_of_a_disc_has_the_volume_worked_by_hand():
    _, parts = drawn("cup", "disc", "adhesive", "usual")
    cup = next(part for part in parts if part.role == "cup")
    # mm: pad's radius 21, side room 1.94, wall 1.8; cap 3.4, rim 12.4 - 5.0, chamfer 0.3
    pocket, outside, cap, rim, c = 22.94, 24.74, 3.4, 7.4, 0.3
    chamfer = math.pi * (outside * c**2 - c**3 / 3)  # ring of triangular section, Guldin's rule
    scribed = math.pi * (21.8**2 - 21.0**2) * 0.4  # two strands wide beside the pad
    by_hand = math.pi * (outside**2 * (cap + rim) - pocket**2 * rim) - chamfer - scribed
    assert cup.solid.Volume() == pytest.approx(by_hand, rel=1e-6)  # kernel integrates to 1e-6


def test_pocket_of_a_sharp_pad_keeps_its_gap_at_the_corners():
    one, parts = drawn("cup", "rectangle", "adhesive", "usual")
    cup = next(part for part in parts if part.role == "cup").solid
    half = cq.Vector(one.pad.first * 500, one.pad.second * 500, one.cap * 1000 + 1.0)
    corner = cq.Vertex.makeVertex(half.x, half.y, half.z)
    # gap at the pad's corner is measured to the solid itself, 1 mm above the pocket's floor
    assert corner.distance(cup) == pytest.approx(min(one.side_room * 1000, 1.0), abs=1e-6)
    raised = cq.Vertex.makeVertex(half.x, half.y, half.z + 1.5)
    assert raised.distance(cup) == pytest.approx(one.side_room * 1000, abs=1e-6)


def test_heights_are_whole_layers():
    assert quantise(0.00449, 0.0002) == pytest.approx(0.0044)
    assert quantise(0.0045, 0.0002) == pytest.approx(0.0046)  # a tie goes up
    assert quantise(1e-6, 0.0003) == 0.0003  # never nothing
    assert quantise_up(0.0043, 0.0002) == pytest.approx(0.0044)
    assert quantise_up(0.0044, 0.0002) == pytest.approx(0.0044)  # rounding noise adds no layer


def test_a_height_between_layers_is_drawn_as_asked_and_noted():
    asked = replace(foot("cup", "disc", "adhesive", "usual"), cap=0.00347, sole=0.0026)
    cup, sole = draw(design(asked))
    assert cup.box[2] == pytest.approx(3.47 + 7.4)
    assert cup.notes[-1] == (
        "cap of 3.47 mm is no whole number of 0.2 mm layers: it prints up to half a layer off"
    )
    assert not any("layers" in note for note in sole.notes)
