"""The gauge that sets a pulley's height and comes off again: on its solids."""

from __future__ import annotations

import math
from dataclasses import replace

import cadquery as cq
import pytest
from sheets import PRINT, damper, design, spacer

from geometry.draw import draw
from geometry.motors import hardware
from geometry.motors.clearance import damper_clearances
from geometry.motors.damper_stack import gauge_piece, pieces
from geometry.motors.pulley_gauge import PLAY, pulley_gauge
from geometry.pictures.damper_steps import damper_step_scene
from geometry.solids.part import CannotDraw
from geometry.solids.verify import bounds, verify

BOSS, HIGH = 21.5, 2.3  # of a boss, measured [mm]
SET = replace(spacer(), boss=BOSS / 1e3, boss_height=HIGH / 1e3, gauge=True)
DAMPED = replace(damper(), boss=BOSS / 1e3, boss_height=HIGH / 1e3, gauge=True)


def test_gauge_comes_off_sideways_from_between_motor_and_pulley() -> None:
    found = {piece.name: piece.solid for piece in pieces(DAMPED, PRINT)}
    motor, pulley, gauge = found["motor"], found["pulley"], gauge_piece(DAMPED, PRINT).solid
    # it touches both: from the motor's face to the pulley it is as tall as the pulley's place
    high = DAMPED.pulley_spacer * 1e3
    assert bounds(gauge)[2] == pytest.approx(0.0, abs=1e-6)
    assert bounds(gauge)[5] == pytest.approx(high, abs=1e-6) == bounds(pulley)[2]
    # and the pulley rests on it on both sides of the shaft, over most of the ring of its hub
    seat = gauge.intersect(pulley.moved(cq.Location(cq.Vector(0, 0, -0.1)))).Volume() / 0.1
    assert seat > 0.6 * math.pi / 4 * (16.0**2 - 5.0**2)
    # clear of shaft and boss: half of the slots' play each side, and half a millimetre over it
    raised = motor.intersect(cq.Solid.makeCylinder(14, 60, cq.Vector(0, 0, 1e-3)))
    assert gauge.distance(raised) == pytest.approx(
        min(PLAY / 2 + PRINT.hole_compensation * 500, 0.5), abs=0.11
    )
    assert gauge.distance(raised) >= 0.5 - 1e-6
    # pulled by its grip it meets neither, all the way until it is free of the shaft
    for step in range(0, 61, 3):
        there = gauge.moved(cq.Location(cq.Vector(-float(step), 0, 0)))
        assert there.intersect(motor).Volume() < 1e-6
        assert there.intersect(pulley).Volume() < 1e-6
    assert bounds(there)[3] < -8.0  # out from under the pulley


def test_gauge_is_drawn_as_worked_by_hand_and_printed_without_support() -> None:
    one = pulley_gauge(SET, PRINT)
    wide, slot, high = BOSS + 1.15, 5.0 + 1.15, SET.pulley_spacer * 1e3
    hollow = 2.8  # half a millimetre over the boss of 2.3 mm, whole layers of 0.2 mm
    assert one.box == pytest.approx((wide + 3.0 + 12.0, wide + 6.0, high))
    figures = verify(one, PRINT)
    assert figures.overhang == 0.0
    assert figures.bridge < 4.0  # across the letters on the bed
    assert figures.thinnest_wall > 2 * 0.4  # beside the letters; the prongs are 3 mm
    plan = one.box[0] * one.box[1] - (4 - math.pi) * 2.0**2
    body = plan * high
    body -= (slot * wide / 2 + math.pi * slot**2 / 8) * (high - hollow)
    body -= (wide * wide / 2 + math.pi * wide**2 / 8) * hollow
    assert one.solid.Volume() == pytest.approx(body, rel=0.003)  # chamfer and letters besides
    assert "engraved: 11.2" in one.notes


def test_a_gauge_without_room_over_the_boss_is_refused() -> None:
    with pytest.raises(CannotDraw, match=r"leaves 1\.00 mm of gauge over the boss of 2\.3 mm"):
        pulley_gauge(replace(SET, pulley_spacer=0.0038), PRINT)


def test_nothing_stays_on_the_shaft_and_one_gauge_serves_motors_alike() -> None:
    both = (DAMPED, replace(DAMPED, name="right"))
    drawn = {part.name: part for part in draw(design(dampers=both))}
    gauge = drawn["left-right-pulley-gauge"]
    assert (gauge.quantity, gauge.notes[-1]) == (1, "for left, right")
    assert not [name for name in drawn if "spacer" in name]
    assert not [piece for piece in pieces(DAMPED, PRINT) if "spacer" in piece.name]
    assert damper_step_scene(DAMPED, PRINT, "gauge").names == ("gauge", "pulley")
    # a bare shaft has more room in the plates' holes than the ring
    ringed = damper_clearances(replace(DAMPED, gauge=False), PRINT).spacer
    bare = damper_clearances(DAMPED, PRINT).spacer
    assert bare - ringed == pytest.approx((DAMPED.outer - DAMPED.bore) / 2, abs=1e-9)
    plain = draw(design(spacers=(SET, replace(SET, name="right", pulley_spacer=0.0154))))
    assert [(part.name, part.quantity) for part in plain] == [
        ("left-right-motor-plate", 2),
        ("left-pulley-gauge", 1),
        ("right-pulley-gauge", 1),
    ]


@pytest.mark.parametrize("wedge", [False, True])
def test_a_pulley_that_is_tight_goes_through_plates_and_bracket_with_its_motor(wedge) -> None:
    one = replace(damper(wedge=wedge), gauge=True)
    stack = [piece.solid for piece in pieces(one, PRINT) if not piece.moves]
    stack += [p.solid for p in pieces(one, PRINT) if p.name == "damper-motor-plate-1"]
    way = cq.Solid.makeCylinder(hardware.PULLEY[0] / 2, 60.0)
    assert all(way.intersect(solid).Volume() < 1e-6 for solid in stack)
