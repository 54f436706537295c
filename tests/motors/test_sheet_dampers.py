"""Dampers between plates of sheet metal: stack, screws, room, strength and heat."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from motor_samples import bench

from isolator.brief import Brief, Motor
from isolator.cards import Material, load_cards
from isolator.design.damper import PLATE_CORNER
from isolator.design.plate_kinds import PLATE_KINDS
from isolator.motors.belt_load import RULES, LoadedDamper, ends_of, loaded, stopped_by
from isolator.motors.candidates import DamperBatch, damper_batches
from isolator.motors.heat import Layer, heat, plate_layer, rubber_conductivity
from isolator.motors.plates import Plates, plates_of
from isolator.motors.screws import damper_screws, frame_screw_end
from isolator.motors.shaft import spacer_height
from isolator.motors.sheet_plates import plate_stress, stiffness_ratio
from isolator.motors.task import build_motor_task

MM = 1e-3


def with_plates(made: str, plate: float, **changes: object) -> Brief:
    brief = bench(**changes)
    return replace(brief, damper=replace(brief.damper, plates=made, plate=plate, wedge=False))


def under_belts(brief: Brief, card: Material) -> tuple[DamperBatch, Plates, LoadedDamper]:
    motor, room = brief.motors[0], brief.print.hole_compensation
    stock = replace(brief.damper, materials=(card.id,), shapes=("ring",))
    (batch,) = damper_batches(stock, motor.frame_size, room, {card.id: card})
    plates = plates_of(brief.damper, motor.frame_size, brief.print.layer)
    task = build_motor_task(brief)
    return batch, plates, loaded(task, motor, batch, plates, ends_of(brief.room, batch, 41.0))


@pytest.fixture(scope="module")
def card() -> Material:
    return load_cards()["nr-50"]


def test_two_sheets_and_the_rubber_are_the_stack_and_lift_the_pulley_by_it(card) -> None:
    """1.3 mm sheets under 3 mm of rubber: 5.6 mm in all, where prints of the least take 10.4."""
    brief = with_plates("steel", 1.3 * MM)
    batch, plates, found = under_belts(brief, card)
    assert (plates.motor, plates.frame) == (1.3 * MM, 1.3 * MM)  # no whole layers
    np.testing.assert_allclose(found.stack, 2.6 * MM + batch.rubber)
    (three,) = set(np.round(found.stack[np.isclose(batch.rubber, 3 * MM)], 9))
    assert three == pytest.approx(5.6 * MM)
    motor = brief.motors[0]
    assert spacer_height(motor, three, 0.2 * MM) == pytest.approx(motor.pulley_standoff + three)
    printed = plates_of(bench().damper, motor.frame_size, 0.2 * MM)
    assert printed.motor + printed.frame + 3 * MM == pytest.approx(10.4 * MM)


def test_heads_need_the_rubber_and_the_other_sheet_to_stand_in(card) -> None:
    """A button head M3 is 1.65 mm high, the boss 2 mm: with 1 mm sheets 0.5 mm of rubber is too
    thin for either, 1.5 mm is not."""
    brief = with_plates("steel", 1.0 * MM)
    batch, _, found = under_belts(brief, card)
    pressed = batch.rubber * np.minimum(found.edge_strain, 1.0)
    reach = (43.815 / 2 + 5.7 / 2) * MM / batch.edge
    np.testing.assert_allclose(
        found.clearance, batch.rubber - pressed * reach + 1.0 * MM - 2.0 * MM, rtol=1e-9
    )
    np.testing.assert_allclose(found.least_clearance, 0.3 * MM)
    codes = stopped_by(build_motor_task(brief), brief.motors[0], batch, found, 0.05)
    thin = np.isclose(batch.rubber, 0.5 * MM)
    assert (found.clearance[thin] < 0.0).all()
    assert set(codes[thin]) <= {RULES.index(rule) for rule in RULES}
    assert (codes[thin] >= 0).all()
    assert (found.clearance[np.isclose(batch.rubber, 2 * MM)] > 0.3 * MM).any()


def test_sheets_take_button_heads_on_them_and_screws_that_reach() -> None:
    brief = with_plates("steel", 1.5 * MM, bracket=4 * MM)
    motor = brief.motors[0]
    into, through = damper_screws(motor, 1.5 * MM, 1.5 * MM, 0.0, "steel").screws
    assert into.head == through.head == "button head, ISO 7380-1"
    # 4.5 mm of hole less 0.5 mm: the longest that stays off the ground of it
    assert into.engagement == pytest.approx(into.length - 1.5 * MM)
    assert into.turns >= 3.0
    # sheet, bracket, washer 0.55, nut 2.4 and two turns: 9.45 mm
    assert through.length == pytest.approx(10 * MM)
    end = frame_screw_end(motor, 1.5 * MM, 0.0, through.length, "steel")
    assert end == pytest.approx((10 - 1.5 - 4) * MM)
    printed = damper_screws(motor, 3.6 * MM, 3.8 * MM, 0.0).screws[1]
    assert printed.head == "hexagon head, ISO 4017"


def test_bending_of_a_sheet_is_a_beams_and_falls_with_its_thickness_squared() -> None:
    """Strip on the diagonal of a 42.3 mm square with corners of 4 mm, less 22.4 mm and two holes
    of 3.4 mm; σ = M/W, W = b·t²/6, by hand."""
    wide = 42.3 * math.sqrt(2) - 2 * 4.0 * (math.sqrt(2) - 1) - 22.4 - 2 * 3.4  # [mm]
    assert PLATE_CORNER == 4 * MM
    by_hand = 0.5 * 0.9e3 / (wide * 1.2**2 / 6)  # [N/mm²]
    assert plate_stress(0.9, 17, 1.2 * MM) / 1e6 == pytest.approx(by_hand)
    assert plate_stress(0.9, 17, 2.4 * MM) == pytest.approx(plate_stress(0.9, 17, 1.2 * MM) / 4)


def test_thin_aluminium_bends_more_than_a_print_and_steel_does_not() -> None:
    """E·t³: 70·1³ against 2·3.8³ for a print of the least thickness."""
    assert stiffness_ratio("aluminium", 1 * MM, 17) == pytest.approx(70 / (2 * 3.8**3))
    assert stiffness_ratio("aluminium", 1 * MM, 17) < 1.0 < stiffness_ratio("steel", 1 * MM, 17)


def temperatures(brief: Brief, motor: Motor, made: str, thick: float, rubber: Layer) -> float:
    plate = plate_layer(thick, PLATE_KINDS[made], 42.3e-3**2)
    return heat(motor, (plate, rubber, plate), 35.0, "asa", 15.0).case_after


def test_metal_plates_leave_the_rubber_alone_in_the_heats_way(card) -> None:
    """Series of flat layers by hand: 1.5 mm of steel is 0.017 K/W, 3.8 mm of plastic 10.6 K/W."""
    brief = bench(current=1.5)
    motor = brief.motors[0]
    rubber = Layer(3e-3, rubber_conductivity(card), 6.2e-4, 1.3)
    found = {
        made: temperatures(brief, motor, made, thick, rubber)
        for made, thick in (("printed", 3.8e-3), ("aluminium", 1.5e-3), ("steel", 1.5e-3))
    }
    power = motor.current**2 * motor.winding_resistance
    case = 10.0 * (4 * 42.3e-3 * motor.body_length + 42.3e-3**2)
    joint = 3e-3 / (rubber.conductivity * 6.2e-4) + 2 * 1.5e-3 / (50.0 * 42.3e-3**2)
    # an aluminium bracket is equally warm all over, and cools by all of its surface
    assert motor.bracket_material == "aluminium"
    away = case + 1 / (joint + 1 / (10.0 * motor.bracket_area))
    assert found["steel"] == pytest.approx(35.0 + power / away, abs=1e-6)
    assert found["aluminium"] < found["steel"] < found["printed"] - 1.0
