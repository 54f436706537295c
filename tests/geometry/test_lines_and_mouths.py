"""What guides a hand and what keeps the first layer away: scribed lines, holes open to the bed."""

from __future__ import annotations

import math
from dataclasses import replace

import cadquery as cq
import pytest
from sheets import PRINT, damper, drawn

from geometry.feet.cup_foot import cover as drawn_cover
from geometry.motors.damper_parts import damper_parts
from geometry.pictures.picture import standing_alone
from geometry.solids import features
from geometry.solids.outline import Outline, disc
from geometry.solids.verify import bounds


def filled(solid, radius: float, height: float) -> float:
    """Return how much of a circle round the z axis lies in a solid, from 0 to 1, by 24 points."""
    turns = (math.tau * (i + 0.5) / 24 for i in range(24))
    points = (cq.Vector(radius * math.cos(a), radius * math.sin(a), height) for a in turns)
    return sum(solid.isInside(point, 1e-6) for point in points) / 24


@pytest.mark.parametrize(
    ("attachment", "above"), [("adhesive", "cup"), ("slot-20", "cup"), ("bolt", "cover")]
)
def test_a_line_is_scribed_round_the_pad_on_both_faces(attachment, above):
    one, parts = drawn("cup", "disc", attachment, "usual")
    bodies = {body.role: body.solid for body in standing_alone(one, list(parts))}
    top, low = bounds(bodies["pad"])[5], bounds(bodies["pad"])[2]
    edge = one.pad.first * 1e3 / 2
    for role, face, into in ((above, top, 1.0), ("sole", low, -1.0)):
        # 0.4 mm deep right beside the pad, nothing under it
        assert filled(bodies[role], edge + 0.1, face + 0.2 * into) == 0.0
        assert filled(bodies[role], edge + 0.1, face + 0.6 * into) == 1.0
        assert filled(bodies[role], edge - 0.1, face + 0.2 * into) == 1.0


def test_a_line_with_less_than_a_strand_beside_it_goes_on_to_the_covers_edge():
    one, parts = drawn("cup", "disc", "bolt", "usual")
    cover = next(part for part in parts if part.role == "cover").solid
    # side room 1.94 mm less 0.2 mm of fit: two strands and the rest of one, wide enough; one of
    # 0.86 mm would leave 0.06 mm
    edge, top = one.pad.first * 1e3 / 2, bounds(cover)[5]
    assert filled(cover, edge + 0.9, top - 0.2) == 1.0
    narrow = replace(one, side_room=0.00106)
    small = drawn_cover(narrow, PRINT).solid
    assert filled(small, edge + 0.85, bounds(small)[5] - 0.2) == 0.0
    assert filled(small, edge + 0.85, bounds(small)[5] - 0.6) == 1.0


@pytest.mark.parametrize(
    ("attachment", "role", "radius"),
    [  # by hand: half of hole and compensation
        ("slot-20", "cup", (5.5 + 0.15) / 2),
        ("bolt", "cup", (6.6 + 0.15) / 2),
        ("tube-end", "plug", (5.5 + 0.15) / 2),
        ("rod-end", "socket", (0.85 * 5.0 + 0.15) / 2),
    ],
)
def test_every_screw_hole_opens_towards_the_bed_as_the_coupons_do(attachment, role, radius):
    _, parts = drawn("cup", "disc", attachment, "usual")
    part = next(part for part in parts if part.role == role)
    middles = {
        (round(at.X(), 6), round(at.Y(), 6))
        for face in part.solid.Faces()
        if face.geomType() == "CYLINDER"
        for cylinder in [face._geomAdaptor().Cylinder()]
        if abs(cylinder.Radius() - radius) < 1e-6
        for at in [cylinder.Axis().Location()]
    }
    assert len(middles) == (2 if attachment == "slot-20" else 1)
    for x, y in middles:
        alone = part.solid.moved(cq.Location(cq.Vector(-x, -y, 0)))
        # at 45 degrees, 0.6 mm wider at the bed
        for beyond in (0.1, 0.3, 0.5):
            assert filled(alone, radius + beyond, 0.6 - beyond - 0.05) == 0.0
            assert filled(alone, radius + beyond, 0.6 - beyond + 0.05) == 1.0


@pytest.mark.parametrize(
    ("role", "radii"),
    [  # by hand, without compensation: boss, screw, key at 0.7 mm of travel each way
        ("damper-motor-plate", (22.4, 3.4)),
        ("damper-frame-plate", (22.4, 3.4, 3.4 + 1.4)),
        ("damper-wedge", (22.4, 3.4, 3.4 + 1.4)),
        ("damper-drill-template", (22.4, 3.1)),
    ],
)
def test_every_hole_of_a_damper_opens_towards_the_bed(role, radii):
    drawn_parts = damper_parts((damper(wedge=True),), PRINT)
    solid = next(part.solid for part in drawn_parts if part.role == role)
    found = set()
    for face in solid.Faces():
        if face.geomType() != "CYLINDER":
            continue
        cylinder, low = face._geomAdaptor().Cylinder(), bounds(face)[2]
        at, radius = cylinder.Axis().Location(), cylinder.Radius()
        if round(2 * radius - 0.15, 3) not in radii:
            continue
        found.add(round(2 * radius - 0.15, 3))
        assert 0.35 < low < 0.6 + 1e-9  # its wall begins so far over the bed
        alone = solid.moved(cq.Location(cq.Vector(-at.X(), -at.Y(), 0)))
        for beyond in (0.1, low - 0.1):  # at 45 degrees
            assert filled(alone, radius + beyond, low - beyond - 0.05) == 0.0
            assert filled(alone, radius + beyond, low - beyond + 0.05) == 1.0
    assert found == {round(each, 3) for each in radii}


def test_a_keys_groove_opens_towards_the_bed():
    outline = Outline(core_x=14.0, core_y=0.0, offset=3.0)
    block = cq.Solid.makeBox(40, 20, 3, cq.Vector(-20, -10, 0))
    straight = features.prism(outline, -1.0, 0.8)
    cut = features.cut_all(block, straight, features.relief(outline, 0.4))
    taken = 40 * 20 * 3 - cut.Volume()
    assert taken == pytest.approx(outline.area * 0.8 + features.relief_volume(outline, 0.4))
    # 0.4 mm wider all round at the bed
    assert not cut.isInside(cq.Vector(0, 3.3, 0.05), 1e-6)
    assert cut.isInside(cq.Vector(0, 3.3, 0.2), 1e-6)


def test_the_mouth_of_a_round_hole_by_hand():
    # a cone's stump less its cylinder: pi/3 h (R² + R r + r²) - pi r² h
    wide, narrow, high = 3.35, 2.75, 0.6
    stump = math.pi / 3 * high * (wide**2 + wide * narrow + narrow**2)
    assert features.relief_volume(disc(5.5)) == pytest.approx(stump - math.pi * narrow**2 * high)
