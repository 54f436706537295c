"""How warm a motor and its plates get, against published softening points."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from motor_samples import bench

from isolator.brief import Brief, Motor
from isolator.cards import load_cards
from isolator.design.filaments import FILAMENTS
from isolator.motors.heat import Layer, heat_checks, rubber_conductivity
from isolator.motors.heat import heat as heat_of
from isolator.motors.results import Heat
from isolator.report.sentences.checks import advice


def heat(brief: Brief, motor: Motor, layers: tuple[Layer, ...]) -> Heat:
    return heat_of(motor, layers, brief.room.temperature_high, brief.print.motor_material)


@pytest.mark.parametrize(("filament", "limit"), [("pla", 49), ("petg", 67), ("abs", 90)])
def test_plates_are_stopped_ten_kelvin_below_softening(filament, limit) -> None:
    """Glass transitions 59.1, 77.4 and 100 °C from public material data; ten kelvin are ours."""
    brief = bench()
    brief = replace(brief, print=replace(brief.print, motor_material=filament))
    motor = brief.motors[0]
    layers = ((8e-3, 0.2, 1.5e-3), (2e-3, 0.15, 4e-4))
    told = heat(brief, motor, layers)
    assert told.limit == pytest.approx(limit, abs=0.5)
    # find the current that brings the plate to its limit: the check turns there
    rise = told.plate - brief.room.temperature_high
    share = math.sqrt((limit - brief.room.temperature_high) / rise)
    for factor, passed in ((0.99 * share, True), (1.01 * share, False)):
        warmer = replace(motor, current=factor * motor.current)
        check = heat_checks(heat(brief, warmer, layers), warmer)[0]
        assert check.passed is passed
        assert ("never in PLA" in advice(check)) is not passed


@pytest.mark.parametrize(("size", "side"), [(14, 35.2e-3), (17, 42.3e-3), (23, 56.4e-3)])
def test_what_the_windings_make_leaves_by_case_and_bracket(size, side) -> None:
    """Body sides by common practice; 10 W/(m²·K) from memory; the balance by hand."""
    brief = bench(
        frame_size=size, body_length=46e-3, current=1.2, winding_resistance=1.9, bracket_area=7e-3
    )
    told = heat(brief, brief.motors[0], ((9e-3, 0.21, 1.4e-3), (3e-3, 0.16, 5e-4)))
    room = brief.room.temperature_high
    case = 10.0 * (4 * side * 46e-3 + side**2)  # four sides and the back [W/K]
    joint = 9e-3 / (0.21 * 1.4e-3) + 3e-3 / (0.16 * 5e-4)
    assert told.power == pytest.approx(1.2**2 * 1.9)
    leaves = case * (told.case_after - room) + (told.case_after - room) / (joint + 1 / 0.07)
    assert leaves == pytest.approx(told.power)
    # screwed on, metal to metal: 1e-4 m²K/W over the face (from memory)
    rise = told.case_before - room
    assert case * rise + rise / (1e-4 / side**2 + 1 / 0.07) == pytest.approx(told.power)
    assert told.plate == told.case_after > told.case_before


def test_a_motor_screwed_on_stays_as_it_was() -> None:
    brief = bench()
    told = heat(brief, brief.motors[0], ())
    assert told.case_after == told.case_before


def test_a_case_too_hot_for_its_rubber_is_told() -> None:
    """80 °C: usual limit of a case, and where natural rubber ages; from memory."""
    brief = bench(current=1.9)
    check = heat_checks(heat(brief, brief.motors[0], ((8e-3, 0.2, 1.5e-3),)), brief.motors[0])[1]
    assert (check.name, check.limit, check.unit) == ("case of motor left", 80.0, "degC")
    assert not check.passed
    assert advice(check) == "lower the current, or set a fan on the motor"


def test_what_is_not_known_of_a_filament_is_not_made_up() -> None:
    brief = bench()
    brief = replace(brief, print=replace(brief.print, motor_material="pa"))
    assert FILAMENTS["pa"].softening is None
    told = heat(brief, brief.motors[0], ())
    assert told.limit is None
    assert [check.name for check in heat_checks(told, brief.motors[0])] == ["case of motor left"]


def test_cards_that_tell_no_conductivity_count_as_poor_conductors() -> None:
    cards = load_cards()
    for card in cards.values():
        if card.family == "rubber":
            assert 0.1 <= rubber_conductivity(card) <= 0.4  # the band that tables give
