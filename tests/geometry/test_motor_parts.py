"""Motor plates and pulley spacers against published faces and by hand."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from sheets import PRINT, design, spacer

from geometry.draw import draw
from geometry.solids.part import mm
from isolator.design.faceplates import FACEPLATES

# NEMA ICS 16-2001, Table 4: bolt circle in inches; square and pilot in mm as commonly listed
NEMA_FACES = {14: (1.448, 26.0, 22.0), 17: (1.725, 31.0, 22.0), 23: (2.625, 47.14, 38.1)}
ISO_273_MEDIUM = {14: 3.4, 17: 3.4, 23: 5.5}  # M3, M3, M5


@pytest.mark.parametrize("size", FACEPLATES)
def test_faces_are_the_published_ones(size):
    circle, square, pilot = NEMA_FACES[size]
    face = FACEPLATES[size]
    assert (mm(face.bolt_square), mm(face.pilot)) == (square, pilot)
    assert mm(face.bolt_circle) == pytest.approx(circle * 25.4)
    # lists round the square; none is off by more than 0.05 mm from its bolt circle
    assert abs(mm(face.bolt_circle - math.sqrt(2) * face.bolt_square)) < 0.05
    # nothing but M3 goes into blind holes; what a flange lets through is seen on the plate below
    assert face.flange > 0 or mm(face.screw_clearance) == ISO_273_MEDIUM[size]


@pytest.mark.parametrize("size", FACEPLATES)
@pytest.mark.parametrize("height", [0.0012, 0.0052, 0.0148])
def test_plate_clears_boss_and_screws(size, height):
    plate = draw(design(spacers=(replace(spacer(frame_size=size), height=height),)))[0]
    _, square, pilot = NEMA_FACES[size]
    radii = sorted(edge.radius() for edge in plate.solid.Edges() if edge.geomType() == "CIRCLE")
    comp = PRINT.hole_compensation * 1000
    assert radii[0] == pytest.approx((ISO_273_MEDIUM[size] + comp) / 2)
    assert radii[-1] > (pilot + comp) / 2  # the hole goes over the boss
    centres = {
        (round(edge.arcCenter().x, 6), round(edge.arcCenter().y, 6))
        for edge in plate.solid.Edges()
        if edge.geomType() == "CIRCLE" and edge.radius() == pytest.approx(radii[0])
    }
    half = square / 2
    assert centres == {(x, y) for x in (-half, half) for y in (-half, half)}
    assert plate.box[2] == pytest.approx(height * 1000)
    assert plate.solid.Volume() == pytest.approx(plate.volume, rel=1e-6)  # kernel integrates so


@pytest.mark.parametrize("outer", [0.0075, 0.0093, 0.0151])
@pytest.mark.parametrize("height", [0.0011, 0.0112, 0.0304])
def test_pulley_spacer_has_the_volume_worked_by_hand(outer, height):
    ring = draw(design(spacers=(replace(spacer(), height=0.0, outer=outer, pulley_spacer=height),)))
    assert [part.role for part in ring] == ["pulley-spacer"]
    ro, ri, h, c = outer * 500, (5.0 + 0.15) / 2, height * 1000, 0.3
    lead = min(0.4, (ro - ri - c - 0.4) / 2, h / 4)
    # Guldin: area of the cut triangle times the way of its centroid
    chamfer = c * c / 2 * math.tau * (ro - c / 3)
    lead_ins = 2 * lead * lead / 2 * math.tau * (ri + lead / 3)
    by_hand = math.pi * (ro**2 - ri**2) * h - chamfer - lead_ins
    assert ring[0].solid.Volume() == pytest.approx(by_hand, rel=1e-6)  # kernel integrates so


def test_motors_share_the_parts_that_fit_them_all():
    left, right = spacer("left"), replace(spacer("right"), pulley_spacer=0.0154)
    rear = replace(spacer("rear"), height=0.0072)
    parts = draw(design(spacers=(left, right, rear)))
    assert {part.name: (part.quantity, part.notes[-1]) for part in parts} == {
        "left-right-motor-plate": (2, "for left, right"),
        "rear-motor-plate": (1, "for rear"),
        "left-rear-pulley-spacer": (2, "for left, rear"),
        "right-pulley-spacer": (1, "for right"),
    }
