"""Motor dampers of every kind on the solids: plates, rubber, stack, places, what stays clear."""

from __future__ import annotations

import math
from dataclasses import replace
from functools import cache

import cadquery as cq
import pytest
from pairwise import spread
from sheets import BRACKET, PRINT, STANDOFF, damper, design

from geometry.draw import draw
from geometry.motors.clearance import damper_clearances
from geometry.motors.damper_in_place import damper_bodies
from geometry.motors.damper_stack import pieces
from geometry.solids.features import unplaced
from geometry.solids.mesh import tessellate
from geometry.solids.verify import bounds
from isolator.design.damper import face_now, stack_height
from isolator.physics.rubber.section import section

# NEMA ICS 16-2001, Table 4, as commonly listed in mm: bolt square, pilot
NEMA_FACES = {14: (26.0, 22.0), 17: (31.0, 22.0), 23: (47.14, 38.1)}
# ISO 273 medium; ISO 7380-1 dk and k max; ISO 4017 k nominal (from memory); ISO 4032 s nominal
ISO_ROWS = {
    14: (3.4, 5.7, 1.65, 2.0, 5.5),
    17: (3.4, 5.7, 1.65, 2.0, 5.5),
    23: (4.5, 7.6, 2.2, 2.8, 7.0),
}
COMPENSATION = 0.15
EVERY = [
    (size, shape, hardness, wedge)
    for size in NEMA_FACES
    for shape in ("ring", "pads")
    for hardness in ("soft", "hard")
    for wedge in (False, True)
]
STACK = {"damper-motor-plate", "damper-frame-plate", "pulley-spacer", "damper-drill-template"}


@cache
def _drawn(size, shape, hardness, wedge):
    """The same damper twice, cut from sheet and cast: the mould is all that it adds."""
    one = damper(size, shape, hardness, wedge)
    return one, draw(design(dampers=(one, replace(one, name="right", cast=True))))


@pytest.mark.parametrize(("size", "shape", "hardness", "wedge"), spread(EVERY))
def test_every_part_is_one_closed_solid_of_its_size(size, shape, hardness, wedge):
    _, parts = _drawn(size, shape, hardness, wedge)
    roles = STACK | {"damper-mould"} | ({"damper-wedge"} if wedge else set())
    assert {part.role for part in parts} == roles
    for part in parts:
        assert part.solid.isValid()
        assert len(part.solid.Solids()) == 1
        assert tessellate(part.solid).is_closed()
        # closed forms are exact; the kernel integrates to about 1e-6
        assert part.solid.Volume() == pytest.approx(part.volume, rel=1e-5)
        low = bounds(part.solid)
        assert low[2] == pytest.approx(0.0, abs=1e-6)  # widened by the kernel's own 1e-7
        assert [low[i + 3] - low[i] for i in range(3)] == pytest.approx(part.box, abs=1e-5)
    plates = [part for part in parts if part.role.endswith("-plate")]
    assert {part.quantity for part in plates} == {2}
    assert {part.material for part in plates} == {"asa"}
    # wide enough for the motor's body (common practice, no source) in both ways
    assert all(part.box[0] >= {14: 35.2, 17: 42.3, 23: 56.4}[size] for part in plates)


@pytest.mark.parametrize(("size", "shape", "hardness", "wedge"), spread(EVERY))
def test_nothing_meets_and_screws_stay_clear_over_the_whole_travel(size, shape, hardness, wedge):
    one, _ = _drawn(size, shape, hardness, wedge)
    left = damper_clearances(one, PRINT)
    assert left.interference <= 1e-15  # [m³]: 1e-6 mm³ is what the kernel leaves of a touch
    assert left.positions == 11
    # by hand: heads lie 0.3 mm below their faces, the far plate is the rubber further away,
    # and moves aside only
    axial = 0.3e-3 + one.rubber
    assert left.motor_screws == pytest.approx(axial, abs=1e-9)
    assert left.frame_screws == pytest.approx(axial, abs=1e-9)
    assert min(left.motor_screws, left.frame_screws) >= 0.3e-3
    if not wedge:
        # the tightest hole round the spacer is the bracket's, 0.4 mm wider than the pilot
        hole = (NEMA_FACES[size][1] + 0.4) * 1e-3
        assert left.spacer == pytest.approx((hole - one.outer) / 2 - one.travel, abs=1e-9)


@pytest.mark.parametrize(("size", "shape", "hardness", "wedge"), spread(EVERY))
def test_rubber_and_stack_are_what_was_solved(size, shape, hardness, wedge):
    one, _ = _drawn(size, shape, hardness, wedge)
    own = {piece.name: piece.solid for piece in pieces(one, PRINT)}
    rubber = [solid for name, solid in own.items() if name.startswith("rubber")]
    if shape == "ring":
        solved = float(section("ring", one.first, one.second).area)
    else:
        solved = 4 * float(section("rectangle", one.second, one.first).area)
    area = sum(solid.Volume() for solid in rubber) / (one.rubber * 1e3)
    assert area == pytest.approx(solved * 1e6, rel=1e-6)  # the kernel integrates so
    # both plates carry all of it: lifted faces of rubber and plate overlap in its whole area
    for plate in ("damper-motor-plate-1", "damper-frame-plate-1"):
        toward = -0.05 if plate.startswith("damper-motor") else 0.05
        lapped = sum(
            solid.translate((0, 0, toward)).intersect(own[plate]).Volume() for solid in rubber
        )
        assert lapped == pytest.approx(0.05 * solved * 1e6, rel=1e-6)
    low = {name: bounds(solid)[2] for name, solid in own.items()}
    assert low["damper-motor-plate-1"] == pytest.approx(0.0, abs=1e-6)
    assert low["pulley"] - stack_height(one) * 1e3 == pytest.approx(STANDOFF * 1e3, abs=1e-6)
    if not wedge:
        assert low["bracket"] == pytest.approx(stack_height(one) * 1e3, abs=1e-6)


@pytest.mark.parametrize("size", NEMA_FACES)
def test_plates_have_the_published_holes_on_crossed_diagonals(size):
    _, parts = _drawn(size, "ring", "soft", True)
    by_role = {part.role: part.solid for part in parts}
    (square, pilot), (clearance, head, high, flat_high, flats) = NEMA_FACES[size], ISO_ROWS[size]
    at, motor = round(square / 2, 6), _circles(by_role["damper-motor-plate"])
    frame = _circles(by_role["damper-frame-plate"])
    assert motor[round(clearance + COMPENSATION, 6)] == {(at, at), (-at, -at)}
    assert motor[round(head + 0.2 + COMPENSATION, 6)] == {(at, at), (-at, -at)}
    assert frame[round(clearance + COMPENSATION, 6)] == {(at, -at), (-at, at)}
    # the key of a button head (ISO 2936, less than the screw) goes through at full travel
    key = {14: 3.4, 17: 3.4, 23: 4.5}[size]
    assert frame[round(key + 1.4 + COMPENSATION, 6)] == {(at, at), (-at, -at)}
    for found in (motor, frame, _circles(by_role["damper-wedge"])):
        assert found[round(pilot + 0.4 + COMPENSATION, 6)] == {(0.0, 0.0)}
    template = by_role["damper-drill-template"]
    # a drill of 3 mm with 0.1 mm of play, guided over three diameters and no less
    assert set(_circles(template)[round(3.1 + COMPENSATION, 6)]) == {
        (x, y) for x in (-at, at) for y in (-at, at)
    }
    assert bounds(template)[5] == pytest.approx(9.0)
    for role, deep in (("damper-motor-plate", high), ("damper-frame-plate", flat_high)):
        solid = by_role[role]
        floors = {
            round(face.Center().z, 6)
            for face in solid.Faces()
            if face.geomType() == "PLANE" and face.normalAt().z > 0.999
        }
        top = bounds(solid)[5]
        assert sorted(floors) == pytest.approx([top - deep - 0.3, top], abs=1e-6)
    sides = [
        face
        for face in by_role["damper-frame-plate"].Faces()
        if face.geomType() == "PLANE"
        and abs(face.normalAt().z) < 1e-9
        and math.hypot(abs(face.Center().x) - at, abs(face.Center().y) - at) < flats
    ]
    assert len(sides) == 12
    for face in sides:  # half the width across flats off the screw's axis, with play
        off = math.hypot(abs(face.Center().x) - at, abs(face.Center().y) - at)
        assert 2 * off == pytest.approx(flats + 0.2 + COMPENSATION, abs=1e-6)


@pytest.mark.parametrize("size", NEMA_FACES)
def test_wedge_gets_thinner_to_where_the_belts_pull(size):
    _, parts = _drawn(size, "ring", "soft", True)
    wedge = next(part.solid for part in parts if part.role == "damper-wedge")
    half = wedge.BoundingBox().xmax
    # beside boss and screws
    for x, y in (
        (0.85 * half, 0.1 * half),
        (-0.85 * half, 0.2 * half),
        (0.15 * half, -0.85 * half),
    ):
        line = wedge.intersect(_post(x, y))
        s = 0.6 * x - 0.8 * y
        wanted = 1.6 - math.tan(0.0131) * s
        # a post 0.1 mm wide on a slope: its top is half of that to either side
        assert bounds(line)[5] == pytest.approx(wanted, abs=0.1 * math.tan(0.0131))


@pytest.mark.parametrize("axis", ["x", "y", "z"])
@pytest.mark.parametrize("points", [1, -1])
@pytest.mark.parametrize("wedge", [False, True])
def test_stack_stands_on_the_bracket_whichever_way_the_shaft_points(axis, points, wedge):
    shaft = "xyz".index(axis)
    pull = [0.0, 0.0, 0.0]
    pull[(shaft + 1) % 3], pull[(shaft + 2) % 3] = 0.6, -0.8 * points
    one = replace(damper(wedge=wedge), axis=axis, points=points, pull=tuple(pull))
    found = {body.name: body.solid for body in damper_bodies(one, PRINT)}
    face = [each * 1e3 for each in face_now(one)]
    now = one.position[shaft] * 1e3 + points * one.body * 500
    assert face[shaft] == pytest.approx(now)
    low, high = _reach(found["left-bracket"], shaft, points, now)
    # the bracket keeps its place and stays level, wedge or none
    assert (low, high) == pytest.approx((0.0, BRACKET * 1e3), abs=1e-5)
    stack = stack_height(one) * 1e3
    if not wedge:
        low, high = _reach(found["left-motor"], shaft, points, now)
        assert (low, high) == pytest.approx((-stack - 39.5, 24.5 - stack), abs=1e-5)
        assert _reach(found["left-pulley"], shaft, points, now)[0] == pytest.approx(
            STANDOFF * 1e3, abs=1e-5
        )
    else:
        # unloaded, the shaft leans away from the belts by the wedge's angle
        rise = STANDOFF * 1e3 + 7.0  # to the pulley's middle
        middle = found["left-pulley"].Center().toTuple()
        lean = sum((m - f) * p for m, f, p in zip(middle, face, pull, strict=True))
        assert lean == pytest.approx(-math.sin(0.0131) * rise, abs=1e-6)


def test_motors_share_what_fits_them_all():
    left = replace(damper(wedge=True), cast=True)
    right = replace(left, name="right", pull=(-0.6, 0.8, 0.0), position=(0.17, 0.2, 0.42))
    rear = replace(left, name="rear", pull=(0.8, 0.6, 0.0), travel=0.0005)
    parts = draw(design(dampers=(left, right, rear)))
    assert {part.name: (part.quantity, part.notes[-1]) for part in parts} == {
        "left-right-rear-damper-motor-plate": (3, "for left, right, rear"),
        "left-right-damper-frame-plate": (2, "for left, right"),
        "rear-damper-frame-plate": (1, "for rear"),
        "left-right-damper-wedge": (2, "for left, right"),
        "rear-damper-wedge": (1, "for rear"),
        "left-right-rear-pulley-spacer": (3, "for left, right, rear"),
        "left-right-rear-damper-mould": (1, "for left, right, rear"),
        "left-right-rear-damper-drill-template": (1, "for left, right, rear"),
    }


def test_mould_leaves_the_rubber_and_its_film():
    for shape in ("ring", "pads"):
        one, parts = _drawn(17, shape, "soft", False)
        mould = next(part for part in parts if part.role == "damper-mould")
        film = 0.1
        first, second = one.first * 1e3, one.second * 1e3
        if shape == "ring":
            area = math.pi / 4 * ((first + 2 * film) ** 2 - (second - 2 * film) ** 2)
        else:
            area = 4 * (first + 2 * film) * (second + 2 * film)
        floors = [
            face
            for face in mould.solid.Faces()
            if face.geomType() == "PLANE"
            and face.normalAt().z > 0.999
            and face.Center().z < mould.box[2] - 1e-6
        ]
        assert sum(face.Area() for face in floors) == pytest.approx(area, rel=1e-6)
        # 3.1 mm of rubber and a film under it
        assert {round(mould.box[2] - face.Center().z, 6) for face in floors} == {3.2}


def _circles(solid):
    """Middles of the upright round walls by diameter [mm]; walls that close only."""
    found = {}
    for edge in solid.Edges():
        if edge.geomType() == "CIRCLE" and edge.IsClosed():
            middle = edge.arcCenter()
            where = (round(middle.x, 6) + 0.0, round(middle.y, 6) + 0.0)
            found.setdefault(round(2 * edge.radius(), 6), set()).add(where)
    return found


def _post(x, y):
    return cq.Solid.makeBox(0.1, 0.1, 20, cq.Vector(x - 0.05, y - 0.05, -1))


def _reach(solid, shaft, points, now):
    """Return the extent along the shaft from the motor's old face, to the pulley positive."""
    box = bounds(solid)
    return tuple(sorted(points * (box[shaft + 3 * i] - now) for i in (0, 1)))


def test_dampers_unlike_in_their_wedges_are_drawn_once_under_them_and_share_no_solid_in_files():
    one = damper(wedge=True)
    other = replace(one, name="right", wedge_angle=0.0117, pull=(-0.28, -0.96, 0.0))
    drawn = [{each.name: each.solid for each in pieces(each, PRINT)} for each in (one, other)]
    alike = {name for name, solid in drawn[0].items() if solid == drawn[1][name]}
    assert {"motor", "rubber-1", "damper-frame-plate-1"} <= alike
    assert not alike & {"damper-wedge-1", "bracket", "frame-nut-1", "frame-nut-2"}
    left, right = (
        {unplaced(body.solid) for body in damper_bodies(each, PRINT)} for each in (one, other)
    )
    assert not left & right
    # two screws of one damper are one solid in two places, as they were drawn
    assert len(left) == len({unplaced(solid) for solid in drawn[0].values()}) < len(drawn[0])
