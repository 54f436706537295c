"""How warm a motor and its plates get, against published softening points."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from motors import bench

from isolator.materials import load_cards
from isolator.motor_heat import SOFTENING, heat, heat_checks, rubber_conductivity


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
        assert ("never in PLA" in check.advice) is not passed


def test_what_is_not_known_of_a_filament_is_not_made_up() -> None:
    brief = bench()
    brief = replace(brief, print=replace(brief.print, motor_material="pa"))
    assert "pa" not in SOFTENING
    told = heat(brief, brief.motors[0], ())
    assert told.limit is None
    assert [check.name for check in heat_checks(told, brief.motors[0])] == ["case of motor left"]


def test_cards_that_tell_no_conductivity_count_as_poor_conductors() -> None:
    cards = load_cards()
    for card in cards.values():
        if card.family == "rubber":
            assert 0.1 <= rubber_conductivity(card) <= 0.4  # the band that tables give
