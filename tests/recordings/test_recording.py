"""The record of a recording: its stretches between gaps, its even grid, the verdict on its data."""

from __future__ import annotations

import numpy as np
import pytest

from isolator.physics.arrays import Array
from isolator.recordings.clock import read_clock
from isolator.recordings.recording import Recording, resampled
from isolator.recordings.verdict import judge, judge_even

RATE = 200.0


def recording(time: Array, samples: Array) -> Recording:
    return Recording(
        clock=time,
        samples=samples,
        channels=("x", "y"),
        unit="m/s^2",
        calibrated=True,
        verdict=judge(read_clock("a.csv", time, range(len(time))), samples, 0),
    )


@pytest.fixture(scope="module")
def with_gap() -> Recording:
    """3 s at 200 Hz, of which 0.5 s from 1 s on are lost."""
    time = np.arange(600) / RATE
    kept = (time <= 1.0) | (time >= 1.5)
    samples = np.column_stack((np.sin(2 * np.pi * 7 * time), time))
    return recording(time[kept], samples[kept])


def test_stretches_lie_between_gaps_and_hold_what_was_recorded(with_gap: Recording) -> None:
    first, second = with_gap.stretches()
    assert (first.start, second.start) == (0.0, 1.5)
    assert (len(first.samples), len(second.samples)) == (201, 300)
    np.testing.assert_array_equal(second.samples[:, 1], np.arange(300, 600) / RATE)
    assert [each.start for each in with_gap.stretches(shortest=1.2)] == [1.5]


def test_what_a_grid_makes_up_is_marked(with_gap: Recording) -> None:
    even = resampled(with_gap)
    assert even.recording.clock is None
    assert np.count_nonzero(even.filled) == 99  # 1.005 to 1.495 s
    np.testing.assert_allclose(even.recording.samples[:, 1], even.recording.time, atol=1e-12)
    assert even.farthest == pytest.approx(0.0, abs=1e-9)
    assert with_gap.verdict.gaps == ((1.0, pytest.approx(0.5)),)


def test_the_true_rate_is_that_between_gaps(with_gap: Recording) -> None:
    assert with_gap.rate == pytest.approx(RATE)
    low, high = with_gap.verdict.usable_hz
    assert low == pytest.approx(4.0 / 1.5)  # four cycles in the longest stretch
    assert high == pytest.approx(80.0)


def test_jitter_narrows_the_usable_band() -> None:
    rng = np.random.default_rng(8)
    intervals = rng.normal(1.0, 0.2, 4000).clip(0.3) / RATE
    verdict = recording(np.cumsum(intervals), rng.normal(size=(4000, 2))).verdict
    assert verdict.jitter == pytest.approx(0.2, rel=0.05)
    assert verdict.usable_hz[1] == pytest.approx(0.3 / (2 * np.pi * 0.2 / RATE), rel=0.05)


@pytest.mark.parametrize(("steps", "cut"), [(5.49, False), (1000.0, False), (1000.0, True)])
def test_clipping_is_told_from_the_tops_of_a_coarse_sine(steps: float, cut: bool) -> None:
    time = np.arange(20_000) / 8000.0
    wave = np.round(steps * np.sin(2 * np.pi * 50.0 * time + 0.3))
    samples = np.clip(wave, -np.inf, 0.9 * steps if cut else np.inf)[:, np.newaxis]
    clipped = judge_even(8000.0, samples).clipped
    # arccos(0.9)/π of the time a sine is above 0.9 of its top
    assert clipped == (pytest.approx(20_000 * np.arccos(0.9) / np.pi, rel=0.01) if cut else 0)
