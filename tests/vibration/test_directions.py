"""Means over the directions of a move, against sums over very many directions."""

from __future__ import annotations

import math
from dataclasses import replace
from importlib import resources

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from isolator.brief import Brief, read_brief_text
from isolator.cards import load_cards
from isolator.physics.drive.stepper import LAYOUTS, belt_factors
from isolator.vibration import directions
from isolator.vibration.cases import NOMINAL, Cases, all_cases
from isolator.vibration.desk import stood_on
from isolator.vibration.excitation import Excitation, build_excitation, motor_lines, ripples
from isolator.vibration.isolation import floor_energy, rigid_energy
from isolator.vibration.lines import (
    Spectra,
    direction_lines,
    line_weights,
    speed_row,
    summed,
)
from isolator.vibration.own_feet import build_now_stand
from isolator.vibration.printer import build_printer
from isolator.vibration.sampled import sampled
from isolator.vibration.source import motor_source
from isolator.vibration.spectrum import Spectrum, grid_for, least_loss, spectrum
from isolator.vibration.spreads import draw


def resonant(frequency: np.ndarray, natural: float, loss: float) -> np.ndarray:
    """An energy with one resonance, over frequency."""
    r = frequency / natural
    return np.asarray(r**2 / ((1 - r**2) ** 2 + loss**2))


@given(
    layout=st.sampled_from(LAYOUTS),
    line=st.floats(20.0, 900.0),
    natural=st.floats(3.0, 60.0),
    loss=st.floats(0.02, 0.6),
    belt=st.sampled_from([0, 1]),
)
def test_a_mean_over_all_directions_is_the_sum_over_very_many(
    layout: str, line: float, natural: float, loss: float, belt: int
) -> None:
    top = line * directions.top_factor(layout)
    grid = directions.frequency_grid(1.3 * top, loss)
    weights = directions.mean_weights(layout, belt, line, grid, ())
    assert weights.sum() == pytest.approx(1.0, abs=1e-9)
    assert weights.min() > -1e-12
    angles = (np.arange(400_000) + 0.5) * (math.pi / 400_000)
    x, y = np.cos(angles), np.sin(angles)
    turning = np.abs((x + y, x - y)[belt] if layout == "crossed-belt" else (x, y)[belt])
    # a tone slower than the grid's lowest counts as if it were there
    heard = np.maximum(turning * line, directions.LOWEST)
    expected = resonant(heard, natural, loss).mean()
    # straight pieces between four points a half-power width
    assert weights @ resonant(grid, natural, loss) == pytest.approx(expected, rel=0.04)


@given(
    angles=st.lists(st.floats(0.0, math.pi), min_size=1, max_size=5), belt=st.sampled_from([0, 1])
)
def test_given_angles_alone_make_the_mean(angles: list[float], belt: int) -> None:
    grid = directions.frequency_grid(500.0, 0.05)
    weights = directions.mean_weights("motor-per-axis", belt, 300.0, grid, tuple(angles))
    turning = np.abs([(math.cos(angle), math.sin(angle))[belt] for angle in angles])
    heard = np.maximum(300.0 * turning, grid[0])
    assert weights @ grid == pytest.approx(heard.mean(), rel=1e-9)


def test_a_resonance_is_never_stepped_over() -> None:
    # 500 Hz along an axis, a mode at 6 Hz with η 0.02: 0.014° wide
    for layout in LAYOUTS:
        swept = directions.swept(layout, 6.0, 500.0 * directions.top_factor(layout), 0.02)
        heard = np.sort(500.0 * belt_factors(layout, swept)[0])
        near = heard[np.abs(heard - 6.0) < 0.5 * 0.02 * 6.0]
        assert len(near) >= 4
    assert len(directions.swept("crossed-belt", 1e-3, 1e6, 0.0)) == directions.MOST_DIRECTIONS


# --- on a printer -------------------------------------------------------------------------------


def shipped() -> Brief:
    path = resources.files("isolator.examples") / "reading-room.toml"
    return read_brief_text(path.read_text(encoding="utf-8"), "reading-room.toml")


@pytest.fixture(scope="module")
def excitation() -> Excitation:
    return build_excitation(shipped())


@pytest.fixture(scope="module")
def cases() -> Cases:
    stand = build_now_stand(shipped(), load_cards())
    assert stand is not None
    return all_cases(stand, build_printer(shipped()))


@pytest.fixture(scope="module")
def found(excitation: Excitation) -> Spectrum:
    stand, printer = build_now_stand(shipped(), load_cards()), build_printer(shipped())
    assert stand is not None
    standing = sampled(stand, printer, excitation, draw(printer.extras, 32), "feet")
    grid = grid_for(excitation, (0.06,), least_loss(standing.system))
    return spectrum(standing, stood_on(shipped().desk), grid)


def straight(excitation: Excitation, cases: Cases, source: str, speed: float) -> float:
    """Loss [dB] of a line by solving at each of very many directions."""
    case = cases[NOMINAL]
    line = motor_lines(excitation.motion, speed)[source]
    angles = (np.arange(4_000) + 0.5) * (math.pi / 4_000)
    x, y = np.cos(angles), np.sin(angles)
    before, after = 0.0, 0.0
    for motor, turning in enumerate((np.abs(x + y), np.abs(x - y))):
        heard = np.maximum(line * turning, directions.LOWEST)
        through = motor_source(excitation, case.system.case, heard)
        amplitude = ripples(excitation, source)[motor] ** 2
        before += amplitude * rigid_energy(case.system, through)[0, :, motor].sum()
        after += amplitude * floor_energy(case.system, through)[0, :, motor].sum()
    return 10.0 * math.log10(before / after)


@pytest.mark.parametrize("source", ["belt tooth", "electrical", "full step"])
def test_a_line_is_the_energy_mean_over_directions(
    excitation: Excitation, cases: Cases, found: Spectrum, source: str
) -> None:
    told = speed_row(excitation, Spectra(feet=found, now=None), 0.06)
    line = next(each for each in told.lines if each.source == source)
    expected = straight(excitation, cases, source, 0.06)
    assert line.insertion_loss.nominal == pytest.approx(expected, abs=0.05)
    assert line.insertion_loss.low < line.insertion_loss.nominal < line.insertion_loss.high
    assert line.frequency == pytest.approx(
        {"belt tooth": 30.0, "electrical": 150.0}.get(source, 600.0)
    )


def test_the_worst_direction_is_no_better_than_any_that_is_asked_for(
    excitation: Excitation, found: Spectrum
) -> None:
    spectra = Spectra(feet=found, now=None)
    told = speed_row(excitation, spectra, 0.06)
    worst = {line.source: line.worst for line in told.lines}
    for degrees in (0.0, 17.0, 42.0, 45.0, 90.0, 131.0):
        for line in direction_lines(excitation, spectra, 0.06, math.radians(degrees)):
            assert line.direction_deg == pytest.approx(degrees)
            extreme = worst[line.source]
            assert extreme is not None
            # at 45° one motor stands; its line's end at no speed is told as the grid's lowest
            assert line.insertion_loss.nominal > extreme.insertion_loss.nominal - 0.1
    # moves at the worst direction itself have that loss among their lines
    extreme = worst["electrical"]
    assert extreme is not None
    there = direction_lines(excitation, spectra, 0.06, math.radians(extreme.direction_deg))
    least = min(x.insertion_loss.nominal for x in there if x.source == "electrical")
    assert least == pytest.approx(extreme.insertion_loss.nominal, abs=0.02)


def test_the_amplified_share_counts_directions(excitation: Excitation, found: Spectrum) -> None:
    # at 60 mm/s full steps run up to 849 Hz: a motor passes the modes within a degree of standing
    share = speed_row(excitation, Spectra(feet=found, now=None), 0.06).amplified_share
    spectra = Spectra(feet=found, now=None)
    hits = []
    for angle in (np.arange(360) + 0.5) * (math.pi / 360):
        lines = direction_lines(excitation, spectra, 0.06, float(angle))
        drone = [x for x in lines if x.source in ("electrical", "twice electrical", "full step")]
        hits.append(min(x.insertion_loss.nominal for x in drone) < -3.0)
    assert 0.02 < np.mean(hits) < 0.9  # some are, some are not
    assert share == pytest.approx(float(np.mean(hits)), abs=0.01)


def test_infill_angles_take_the_place_of_all_directions(
    excitation: Excitation, found: Spectrum
) -> None:
    along = replace(excitation.motion, infill_angles=(0.0, math.pi / 2))
    told = speed_row(replace(excitation, motion=along), Spectra(feet=found, now=None), 0.06)
    line = next(each for each in told.lines if each.source == "electrical")
    weights = line_weights(excitation, found.grid, "electrical", 0.06, (0.0,))
    one = 10 * math.log10(summed(found.rigid, weights)[0] / summed(found.feet, weights)[0])
    # along either axis both crossed belts run as fast as the tool
    assert line.insertion_loss.nominal == pytest.approx(one, abs=1e-9)
