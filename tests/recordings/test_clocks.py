"""What the clock and the readings of a file are worth: gaps, late and bunched stamps, repeats."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from recorded import RATE, G, lines, shaken, text

from isolator.physics.arrays import Array
from isolator.recordings.options import ReadOptions
from isolator.recordings.read import read_recording
from isolator.recordings.recording import Recording

TIME, SAMPLES = shaken(1000)
RNG = np.random.default_rng(15)


def read(
    folder: Path, stamps: Array, samples: Array = SAMPLES, digits: int = 6, units: str = "m/s^2"
) -> Recording:
    head = ",".join(("t [s]", *(f"{axis} [{units}]" for axis in "xyz")))
    (folder / "a.csv").write_text(text(head, lines((stamps, *samples.T), ",", digits)))
    return read_recording(folder / "a.csv", ReadOptions())


def causes(found: Recording) -> list[str]:
    return [note.cause for note in found.verdict.notes]


def test_lost_samples_are_a_gap_and_nothing_is_put_there(tmp_path: Path) -> None:
    kept = (TIME < 3.0) | (TIME > 3.5)
    found = read(tmp_path, TIME[kept], SAMPLES[kept])
    assert found.verdict.gaps == ((pytest.approx(2.99), pytest.approx(0.52)),)
    assert found.rate == pytest.approx(RATE)
    np.testing.assert_allclose(found.samples, SAMPLES[kept], atol=1e-6)
    assert [len(each.samples) for each in found.stretches()] == [300, 649]


def test_stamps_that_only_come_late_make_no_gap(tmp_path: Path) -> None:
    stamps = TIME.copy()
    stamps[400:405] = TIME[405] + np.arange(5) * 1e-4  # five held up, then told at once
    found = read(tmp_path, stamps)
    assert found.verdict.gaps == ()
    assert found.rate == pytest.approx(RATE, rel=1e-3)


def test_stamps_in_bunches_are_spread_evenly_and_it_is_said(tmp_path: Path) -> None:
    stamps = np.repeat(TIME[9::10], 10)  # ten to a packet
    found = read(tmp_path, stamps)
    assert causes(found) == ["bunched"]
    assert found.verdict.gaps == ()
    assert found.rate == pytest.approx(RATE, rel=2e-3)
    np.testing.assert_allclose(np.diff(found.time), 1 / RATE, rtol=2e-3)


@pytest.mark.parametrize("late", [True, False])
def test_late_stamps_are_told_from_samples_unevenly_taken(tmp_path: Path, late: bool) -> None:
    if late:
        stamps = TIME + RNG.uniform(0.0, 0.006, len(TIME))
    else:
        stamps = np.cumsum(RNG.uniform(0.006, 0.014, len(TIME)))
    found = read(tmp_path, stamps)
    assert causes(found) == (["late-stamps"] if late else [])
    spread = 0.6 / np.sqrt(12) * np.sqrt(2) if late else 0.8 / np.sqrt(12)
    assert found.verdict.jitter == pytest.approx(spread, rel=0.05)


def test_packets_that_overtook_each_other_are_put_in_order(tmp_path: Path) -> None:
    order = np.arange(len(TIME))
    order[[200, 201, 600, 602]] = order[[201, 200, 602, 600]]
    found = read(tmp_path, TIME[order], SAMPLES[order])
    assert causes(found) == ["swapped"]
    np.testing.assert_allclose(found.samples, SAMPLES, atol=1e-6)


def test_an_app_that_asks_faster_than_its_sensor_answers(tmp_path: Path) -> None:
    """Every third reading is new: the rate is a third, and nothing lies between."""
    held = np.repeat(SAMPLES[::3], 3, axis=0)[: len(TIME)]
    found = read(tmp_path, TIME, held)
    assert found.verdict.repeats == len(TIME) - len(SAMPLES[::3])
    assert found.rate == pytest.approx(RATE / 3)
    np.testing.assert_allclose(found.samples, SAMPLES[::3], atol=1e-6)


def test_coarse_readings_repeat_by_chance_and_stay(tmp_path: Path) -> None:
    coarse = np.round(0.4 * np.random.default_rng(4).normal(size=SAMPLES.shape) + [0, 0, 10])
    found = read(tmp_path, TIME, coarse, digits=2)
    assert np.mean((np.diff(coarse, axis=0) == 0).all(axis=1)) > 0.05
    assert found.verdict.repeats == 0
    assert len(found.samples) == len(TIME)


def test_a_sensor_that_stood_still_for_a_while_left_a_gap(tmp_path: Path) -> None:
    held = SAMPLES.copy()
    held[300:400] = held[299]
    found = read(tmp_path, TIME, held)
    assert found.verdict.gaps == ((pytest.approx(2.99), pytest.approx(1.01)),)
    assert found.verdict.repeats == 100


def test_readings_beyond_the_range_are_counted(tmp_path: Path) -> None:
    cut = np.clip(SAMPLES, [-0.8, -9, -9], [0.8, 20, 20])
    found = read(tmp_path, TIME, cut)
    assert found.verdict.clipped == np.count_nonzero(np.abs(SAMPLES[:, 0]) >= 0.8)


@pytest.mark.parametrize(("told", "factor"), [("g", 1.0), ("m/s^2", 1.0 / G), ("mm/s^2", 1.0)])
def test_gravity_shows_a_wrong_unit(tmp_path: Path, told: str, factor: float) -> None:
    found = read(tmp_path, TIME, SAMPLES * factor, digits=7, units=told)
    right = "g" if factor < 1.0 else "m/s^2"
    assert causes(found) == [f"unit-is-{right}"]
    np.testing.assert_allclose(found.samples, SAMPLES, atol=1e-5)


def test_counts_without_a_scale_stay_counts(tmp_path: Path) -> None:
    head = "millis,raw_x,raw_y,raw_z"
    told = text(head, lines((TIME * 1e3, *SAMPLES.T / G * 16384), ",", 0))
    (tmp_path / "a.csv").write_text(told)
    found = read_recording(tmp_path / "a.csv", ReadOptions())
    assert (found.unit, found.calibrated, causes(found)) == ("counts", False, ["no-unit"])
