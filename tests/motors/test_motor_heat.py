"""How warm a motor and its plates get, against published softening points."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace

import numpy as np
import pytest
from motor_samples import bench
from scipy.optimize import brentq

from isolator.brief import Brief, Motor
from isolator.cards import load_cards
from isolator.design.filaments import FILAMENTS
from isolator.motors.heat import Layer, heat_checks, rubber_conductivity
from isolator.motors.heat import heat as heat_of
from isolator.motors.results import Heat
from isolator.report.sentences.checks import advice


def heat(brief: Brief, motor: Motor, layers: tuple[Layer, ...]) -> Heat:
    room = brief.room
    return heat_of(
        motor, layers, room.temperature_high, brief.print.motor_material, room.temperature_low
    )


def at_current(brief: Brief, factor: float, layers: tuple[Layer, ...]) -> Heat:
    motor = brief.motors[0]
    return heat(brief, replace(motor, current=factor * motor.current), layers)


def share_at(limit: float, found: Callable[[float], float]) -> float:
    """Return the share of the current at which a temperature comes to its limit."""
    return float(brentq(lambda share: found(share) - limit, 0.1, 9.0))


@pytest.mark.parametrize(("filament", "limit"), [("pla", 49), ("petg", 67), ("abs", 90)])
def test_plates_are_stopped_ten_kelvin_below_softening(filament, limit) -> None:
    """Glass transitions 59.1, 77.4 and 100 °C from public material data; ten kelvin are ours."""
    brief = bench()
    brief = replace(brief, print=replace(brief.print, motor_material=filament))
    motor = brief.motors[0]
    layers = (Layer(8e-3, 0.2, 1.5e-3, 1.3), Layer(2e-3, 0.15, 4e-4, 1.4))
    told = heat(brief, motor, layers)
    assert told.limit == pytest.approx(limit, abs=0.5)
    # find the current that brings the band's warm end to its limit: the check turns there
    share = share_at(limit, lambda factor: at_current(brief, factor, layers).case.high)
    for factor, passed in ((0.99 * share, True), (1.01 * share, False)):
        warmer = replace(motor, current=factor * motor.current)
        check = heat_checks(at_current(brief, factor, layers), warmer)[0]
        assert check.passed is passed
        assert ("never in PLA" in advice(check)) is not passed


@pytest.mark.parametrize(("size", "side"), [(14, 35.2e-3), (17, 42.3e-3), (23, 56.4e-3)])
def test_what_the_windings_make_leaves_by_case_and_bracket(size, side) -> None:
    """Body sides by common practice; 10 W/(m²·K) from memory; the balance by hand."""
    brief = bench(
        frame_size=size, body_length=46e-3, current=1.2, winding_resistance=1.9, bracket_area=7e-3
    )
    told = heat(brief, brief.motors[0], (Layer(9e-3, 0.21, 1.4e-3), Layer(3e-3, 0.16, 5e-4)))
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


def test_a_printed_bracket_cools_by_a_rim_round_the_motor() -> None:
    """Straight fin by hand: √(0.2·0.005/20) = 7.07 mm round a face of 42.3 mm, both sides."""
    brief = bench(bracket=5e-3, bracket_area=9e-3, bracket_material="printed")
    motor, room = brief.motors[0], brief.room.temperature_high
    layers = (Layer(8e-3, 0.21, 1.4e-3),)
    told = heat(brief, motor, layers)
    cooled = 10.0 * (42.3e-3**2 + 2 * 4 * 42.3e-3 * 7.0711e-3)  # [W/K]
    through = 5e-3 / (0.2 * 42.3e-3**2)
    flow = (told.case_after - room) / (8e-3 / (0.21 * 1.4e-3) + through + 1 / cooled)
    case = 10.0 * (4 * 42.3e-3 * motor.body_length + 42.3e-3**2)
    assert case * (told.case_after - room) + flow == pytest.approx(told.power, rel=1e-5)
    assert told.bracket == pytest.approx(room + flow * (through + 1 / cooled), rel=1e-5)
    metal = heat(brief, replace(motor, bracket_material="aluminium"), layers)
    steel = heat(brief, replace(motor, bracket_material="steel"), layers)
    assert metal.bracket is steel.bracket is None
    assert metal.case_after < steel.case_after < told.case_after
    assert steel.case_after == pytest.approx(metal.case_after, abs=0.05)  # [K]; metal spreads it
    # no more cools than there is
    small = heat(brief, replace(motor, bracket_area=2e-3), layers)
    assert small.case_after > told.case_after


@pytest.mark.parametrize(("share", "passed"), [(0.99, True), (1.01, False)])
def test_a_printed_bracket_has_to_keep_its_shape(share, passed) -> None:
    brief = bench(bracket_material="printed")
    motor = brief.motors[0]
    told, room = heat(brief, motor, ()), brief.room.temperature_high
    assert told.limit is not None
    assert told.bracket is not None
    assert told.bracket_high is not None
    assert told.bracket_high > told.bracket > room
    factor = share_at(
        told.limit, lambda share: at_current(brief, share, ()).bracket_high or math.nan
    )
    warm = replace(motor, current=share * factor * motor.current)
    check = heat_checks(heat(brief, warm, ()), warm)[-1]
    assert check.name == "printed bracket of motor left"
    assert check.passed is passed
    assert ("bolt it to metal" in advice(check)) is not passed


def test_a_motor_screwed_on_stays_as_it_was() -> None:
    brief = bench()
    told = heat(brief, brief.motors[0], ())
    assert told.case_after == told.case_before


def test_a_case_too_hot_for_its_rubber_is_told() -> None:
    """80 °C: usual limit of a case, and where natural rubber ages; from memory."""
    brief = bench(current=1.6)
    told = heat(brief, brief.motors[0], (Layer(8e-3, 0.2, 1.5e-3),))
    assert told.case.nominal < told.case_after < 80.0 < told.case.high  # the warm end decides
    check = heat_checks(told, brief.motors[0])[1]
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


def test_bands_of_a_case_hold_nine_of_ten_fresh_samples() -> None:
    """Two bodies and four layers written out, every factor drawn evenly in its logarithm so that
    nine of ten lie within what is told of it; the room evenly between its ends."""
    brief = bench(current=1.3, winding_resistance=2.1)
    motor, room = brief.motors[0], brief.room
    layers = (
        Layer(3.6e-3, 0.2, 1.8e-3, 1.3),
        Layer(3e-3, 0.15, 5e-4, 1.4),
        Layer(1.5e-3, 50.0, 1.8e-3),
    )
    told = heat(brief, motor, layers).case
    draw = np.random.default_rng(20)

    def factor(spread: float) -> np.ndarray:
        return np.asarray(spread ** (draw.normal(0.0, 1.0 / 1.645, 4000)))

    joint = sum(
        each.thickness / (each.conductivity * factor(each.spread) * each.area) for each in layers
    )
    film = 10.0 * (1.0 + 0.3 * draw.normal(0.0, 1.0 / 1.645, 4000))
    air = draw.uniform(room.temperature_low, room.temperature_high, 4000)
    power = motor.current**2 * motor.winding_resistance * factor(1.15)
    area = 4.0 * 42.3e-3 * motor.body_length + 42.3e-3**2
    away = film * area + 1.0 / (joint + 1.0 / (film * motor.bracket_area))
    found = air + power / away
    inside = np.mean((found > told.low) & (found < told.high))
    assert motor.bracket_material == "aluminium"
    assert 0.9 <= inside < 0.97
    assert 0.03 < np.mean(found > told.high) < 0.06  # half of the tenth
