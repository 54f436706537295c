"""A pulley's spacer stands on what turns and keeps off what stands still: on its solids."""

from __future__ import annotations

import math
from dataclasses import replace

import cadquery as cq
import pytest
from sheets import PRINT, damper, design, spacer

from geometry.draw import draw
from geometry.motors.damper_stack import pieces
from geometry.motors.pulley_spacer import RUNNING, pulley_spacer
from geometry.solids.mesh import tessellate
from geometry.solids.part import CannotDraw
from geometry.solids.verify import verify

BOSS, RING, NOSE = 2.3, 7.9, 2.8  # height of a boss, inner ring, height of the nose [mm]
NOSED = replace(spacer(), nose=RING / 1e3, nose_height=NOSE / 1e3, boss_height=BOSS / 1e3)


def wide(solid: cq.Solid, z: float) -> float:
    """Return the outside width of a solid at height z."""
    cut = solid.intersect(cq.Solid.makeBox(60, 60, 0.02, cq.Vector(-30, -30, z - 0.01)))
    return float(cut.BoundingBox().xlen)


def test_nose_is_no_wider_than_the_inner_ring_and_carries_the_body_over_the_boss():
    ring = pulley_spacer(NOSED, PRINT)
    high, outer = NOSED.pulley_spacer * 1e3, NOSED.outer * 1e3
    assert wide(ring.solid, high - 0.1) == pytest.approx(RING, abs=1e-3)
    assert wide(ring.solid, high - NOSE + 0.02) == pytest.approx(RING, abs=1e-3)
    assert wide(ring.solid, high - NOSE - 0.02) == pytest.approx(outer, abs=1e-3)
    # by hand: a tube, less its chamfer, lead-ins of either end and what is round the nose
    ro, ri, rn, c = outer / 2, 5.15 / 2, RING / 2, 0.3
    leads = (0.4, min(0.4, rn - ri - 0.8))
    volume = math.pi * ((ro**2 - ri**2) * (high - NOSE) + (rn**2 - ri**2) * NOSE)
    volume -= c * c / 2 * math.tau * (ro - c / 3)
    volume -= sum(lead**2 / 2 * math.tau * (ri + lead / 3) for lead in leads)
    assert ring.solid.Volume() == pytest.approx(volume, rel=1e-5)  # kernel: 1e-6
    assert ring.volume == pytest.approx(volume, rel=1e-12)
    assert "nose up" in ring.orientation
    figures = verify(ring, PRINT)
    assert (figures.overhang, figures.bridge) == (0.0, 0.0)
    assert tessellate(ring.solid).is_closed()


def test_on_the_motor_all_but_the_nose_runs_clear_of_the_boss():
    one = replace(
        damper(), nose=RING / 1e3, nose_height=NOSE / 1e3, boss=0.0215, boss_height=BOSS / 1e3
    )
    found = {piece.name: piece.solid for piece in pieces(one, PRINT)}
    motor, ring = found["motor"], found["pulley-spacer-1"]
    # the boss as it is, on the drawn motor
    assert wide(motor, BOSS - 0.1) == pytest.approx(21.5, abs=1e-3)
    low = ring.BoundingBox().zmin
    assert low == pytest.approx(0.0, abs=1e-6)  # it stands on the bearing, level with the face
    nose = cq.Solid.makeCylinder(RING / 2 + 1e-3, NOSE - 1e-3)
    body = ring.cut(nose)
    boss = motor.intersect(cq.Solid.makeCylinder(20, 10, cq.Vector(0, 0, 0.01))).cut(
        cq.Solid.makeCylinder(3, 40)
    )
    assert body.distance(boss) == pytest.approx(NOSE - BOSS, abs=2e-3)
    assert NOSE - BOSS >= RUNNING
    assert ring.intersect(boss).Volume() < 1e-6


@pytest.mark.parametrize(
    ("changes", "told"),
    [
        ({"boss_height": 0.0024}, "nose_height: 2.8 mm leaves 0.40 mm between the boss of 2.4 mm"),
        ({"nose": 0.0066}, r"nose: 6.6 mm leaves 0.72 mm of wall"),
        ({"pulley_spacer": 0.0036}, "pulley_spacer: 3.6 mm leave no 1 mm of ring over its nose"),
    ],
)
def test_a_spacer_that_would_rub_or_break_is_refused(changes, told):
    with pytest.raises(CannotDraw, match=told):
        pulley_spacer(replace(NOSED, **changes), PRINT)


def test_slender_parts_are_told_to_have_a_brim():
    tall = replace(NOSED, height=0.0, pulley_spacer=0.0152)
    short = replace(tall, name="right", pulley_spacer=0.0112)
    advised = {
        part.owner: [note for note in part.notes if "brim" in note]
        for part in draw(design(spacers=(tall, short)))
    }
    assert advised == {
        "left": ["slender: print it with a brim of 4 mm, and trim it off"],
        "right": [],
    }
