"""Modes from recordings of taps made from known ones: with noise, gaps, late clocks, other axes."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from scipy.signal import iirpeak, lfilter
from taps_made import Tapping

from isolator.measuring.tap_windows import find_taps
from isolator.measuring.tapped import Tapped, tapped_modes
from isolator.physics.arrays import Array
from isolator.recordings.clock import read_clock
from isolator.recordings.known_tone import clock_ratio, with_clock
from isolator.recordings.recording import Recording
from isolator.recordings.verdict import judge

HIGHEST = 120.0
SIX = Tapping(
    frequency=np.array([6.0, 6.7, 9.0, 14.0, 17.0, 31.0]),
    damping=np.array([0.05, 0.055, 0.06, 0.08, 0.07, 0.02]),
    shapes=np.array(
        [
            [0.9, 0.2, -0.1],
            [-0.3, 1.0, 0.1],
            [0.5, -0.6, 0.2],
            [0.1, 0.3, 1.0],
            [0.7, -0.2, 0.6],
            [1.0, 0.4, -0.3],
        ]
    ),
)


def recording(time: Array, samples: Array) -> Recording:
    clock = read_clock("taps.csv", time, range(len(time)))
    return Recording(
        clock=clock.time,
        samples=samples[clock.order],
        channels=("x", "y", "z"),
        unit="m/s^2",
        calibrated=True,
        verdict=judge(clock, samples, 0),
    )


def found(time: Array, samples: Array) -> Tapped:
    return tapped_modes([find_taps(recording(time, samples), HIGHEST)], HIGHEST)


def holds(tapped: Tapped, of: Tapping = SIX) -> None:
    """Assert that all modes are found, frequencies to 0.5 %, dampings to 10 %, and no others."""
    assert [mode.frequency.nominal for mode in tapped.modes] == pytest.approx(
        of.frequency, rel=0.005
    )
    assert [mode.damping.nominal for mode in tapped.modes] == pytest.approx(of.damping, rel=0.10)


@pytest.fixture(scope="module")
def plain() -> tuple[Array, Array]:
    return SIX.tapped(seed=1)


def test_modes_are_recovered_from_noise(plain: tuple[Array, Array]) -> None:
    tapped = found(*plain)
    holds(tapped)
    assert tapped.taps == 6
    assert min(mode.taps for mode in tapped.modes) >= 4
    for mode, shape in zip(tapped.modes, SIX.shapes, strict=True):
        alike = abs(mode.shape @ shape) / np.linalg.norm(mode.shape) / np.linalg.norm(shape)
        assert alike > 0.97


def test_bands_hold_nine_of_ten() -> None:
    """Of 54 dampings and as many frequencies of fresh recordings."""
    inside, missed = [], 0
    for seed in range(20, 29):
        modes = found(*SIX.tapped(seed)).modes
        for hertz, ratio in zip(SIX.frequency, SIX.damping, strict=True):
            near = [mode for mode in modes if abs(mode.frequency.nominal / hertz - 1.0) < 0.03]
            missed += not near
            for mode in near[:1]:
                inside.append(mode.frequency.low < hertz < mode.frequency.high)
                inside.append(mode.damping.low < ratio < mode.damping.high)
    assert missed <= 2
    assert 0.86 < np.mean(inside) < 0.98


def test_lost_samples_cost_a_tap_and_no_truth(plain: tuple[Array, Array]) -> None:
    time, samples = plain
    kept = (np.abs(time - 7.7) > 0.15) & (np.abs(time - 12.0) > 0.2)
    holds(found(time[kept], samples[kept]))


def test_late_stamps_are_seen_through(plain: tuple[Array, Array]) -> None:
    """Samples evenly taken, told of up to 0.8 intervals late."""
    time, samples = plain
    late = np.random.default_rng(5).uniform(0.0, 0.8 / SIX.rate, len(time))
    tapped = found(time + late, samples)
    assert tapped.even
    holds(tapped)


def test_samples_unevenly_taken_are_fitted_by_their_stamps() -> None:
    """Of a recorder whose own step wanders by a tenth and more."""
    fine = replace(SIX, rate=3200.0, count=3)
    time, samples = fine.tapped(seed=2)
    steps = np.random.default_rng(6).integers(6, 11, len(time) // 8)
    at = np.cumsum(steps)
    at = at[at < len(time)]
    tapped = found(time[at], samples[at])
    assert not tapped.even
    holds(tapped)


def test_the_order_of_axes_does_not_matter(plain: tuple[Array, Array]) -> None:
    time, samples = plain
    one, other = found(time, samples), found(time, samples[:, ::-1])
    for a, b in zip(one.modes, other.modes, strict=True):
        assert b.frequency.nominal == pytest.approx(a.frequency.nominal, rel=1e-6)
        np.testing.assert_allclose(np.abs(b.shape[::-1]), np.abs(a.shape), atol=1e-4)


def test_a_wrong_scale_changes_no_mode(plain: tuple[Array, Array]) -> None:
    time, samples = plain
    one, other = found(time, samples), found(time, samples * 1671.3)
    for a, b in zip(one.modes, other.modes, strict=True):
        assert b.frequency.nominal == pytest.approx(a.frequency.nominal, rel=1e-6)
        assert b.damping.nominal == pytest.approx(a.damping.nominal, rel=1e-4)


def through_gain(samples: Array, most: float, back: float) -> Array:
    """Return samples (n, 3) through a recorder that holds them under `most` [m/s²].

    It turns down within 2 ms, and up again within some `back` [s].
    """
    still = samples - samples.mean(axis=0)
    size = np.linalg.norm(still, axis=1)
    gain, turned = np.empty(len(size)), 1.0
    for n, each in enumerate(size):
        wanted = min(1.0, most / max(each, 1e-9))
        pace = 0.002 if wanted < turned else back
        turned += (wanted - turned) * min(1.0, 1.0 / (pace * SIX.rate))
        gain[n] = turned
    return np.asarray(still * gain[:, np.newaxis])


def test_gain_that_comes_back_slowly_is_seen_and_does_little(plain: tuple[Array, Array]) -> None:
    time, samples = plain
    taps = find_taps(recording(time, through_gain(samples, 1.5, 12.0)), HIGHEST)
    holds(tapped_modes([taps], HIGHEST))
    assert taps.gain.automatic
    assert taps.gain.ratio < 0.7
    steady = find_taps(recording(*plain), HIGHEST).gain
    assert steady.ratio == pytest.approx(1.0, abs=0.2)
    assert (steady.automatic, steady.growth) == (False, 0.0)


@pytest.mark.parametrize(
    ("most", "back", "count"), [(0.5, 3.0, 2), (1.0, 3.0, 2), (0.5, 12.0, 2), (1.0, 1.0, 3)]
)
def test_gain_that_sets_itself_strongly_widens_bands(most: float, back: float, count: int) -> None:
    """It takes off up to a third of the damping, or shows one mode as two close by."""
    two = replace(ONE, count=6)
    time, samples = two.tapped(seed=3)
    taps = find_taps(recording(time, through_gain(samples, most, back)), HIGHEST)
    assert taps.gain.automatic
    modes = tapped_modes([taps], HIGHEST).modes
    assert len(modes) == count
    lost = []
    for mode in modes:
        at = int(np.argmin(np.abs(two.frequency - mode.frequency.nominal)))
        assert mode.frequency.low < two.frequency[at] < mode.frequency.high
        assert mode.damping.low < two.damping[at] < mode.damping.high
        lost.append(mode.damping.nominal / two.damping[at])
    assert min(lost) < 0.95


def test_a_wrong_clock_is_told_by_a_known_tone_alone(plain: tuple[Array, Array]) -> None:
    """It runs 4 % fast; a fan of 50.0 Hz hums beside the taps."""
    time, samples = plain
    humming = samples + 0.015 * np.sin(2 * np.pi * 50.0 * time)[:, np.newaxis]
    wrong = recording(1.04 * time, humming)
    off = tapped_modes([find_taps(wrong, HIGHEST)], HIGHEST)
    assert off.modes[-1].frequency.nominal == pytest.approx(31.0 / 1.04, rel=1e-3)
    ratio = clock_ratio("taps.csv", wrong, 50.0)
    assert ratio == pytest.approx(1.04, rel=2e-4)
    right = with_clock(wrong, ratio)
    assert right.rate == pytest.approx(SIX.rate, rel=2e-4)
    holds(tapped_modes([find_taps(right, HIGHEST)], HIGHEST))


def test_recordings_of_three_directions_are_taken_together() -> None:
    """Each tap excites little of what the others do; the rates differ by a hair."""
    parts = []
    for seed, rate in ((1, 400.0), (2, 401.0), (3, 399.5)):
        parts.append(find_taps(recording(*replace(SIX, rate=rate, count=3).tapped(seed)), HIGHEST))
    tapped = tapped_modes(parts, HIGHEST)
    assert tapped.taps == 9
    holds(tapped)


ONE = Tapping(
    frequency=np.array([7.0, 29.0]),
    damping=np.array([0.05, 0.02]),
    shapes=np.array([[1.0, 0.2, 0.1], [0.3, 1.0, -0.2]]),
    count=5,
)
OTHER = replace(ONE, frequency=np.array([7.0, 28.3]), damping=np.array([0.05, 0.03]), count=8)


@pytest.mark.parametrize("scale", [0.1, 1.0, 10.0])
def test_a_tap_counts_for_what_sounds_in_it(scale: float) -> None:
    """Two places of one sensor: 29 Hz sounds at the first alone, 28.3 Hz at the other alone."""
    time, samples = OTHER.tapped(seed=101)
    parts = [
        find_taps(recording(*ONE.tapped(seed=1)), HIGHEST),
        find_taps(recording(time, scale * samples), HIGHEST),
    ]
    low, other, one = tapped_modes(parts, HIGHEST).modes
    assert low.taps > 10
    assert (other.taps, one.taps) == (8, 5)
    for mode, hertz, ratio in ((other, 28.3, 0.03), (one, 29.0, 0.02)):
        assert mode.frequency.low < hertz < mode.frequency.high
        assert mode.frequency.nominal == pytest.approx(hertz, rel=2e-4)
        assert mode.damping.nominal == pytest.approx(ratio, rel=0.02)


def test_noise_about_a_mode_is_no_tap_of_it() -> None:
    """Hum of a fan that wanders about 28 Hz beside taps that do not start what sounds at 29 Hz."""
    lacks = replace(
        ONE, frequency=ONE.frequency[:1], damping=ONE.damping[:1], shapes=ONE.shapes[:1], count=8
    )
    time, samples = lacks.tapped(seed=102)
    top, bottom = iirpeak(28.0, 5.0, fs=400.0)
    hum = lfilter(top, bottom, np.random.default_rng(4).normal(size=samples.shape), axis=0)
    parts = [
        find_taps(recording(*ONE.tapped(seed=2)), HIGHEST),
        find_taps(recording(time, samples + 0.03 * hum / hum.std()), HIGHEST),
    ]
    mode = tapped_modes(parts, HIGHEST).modes[-1]
    assert mode.taps == 5
    assert mode.frequency.low < 29.0 < mode.frequency.high


def test_noise_alone_has_no_modes() -> None:
    rng = np.random.default_rng(8)
    time = np.arange(4000) / 400.0
    taps = find_taps(recording(time, rng.normal(size=(4000, 3))), HIGHEST)
    assert taps.pieces == ()
    assert tapped_modes([taps], HIGHEST).modes == ()


def test_a_loud_tap_in_much_quiet_is_one_tap() -> None:
    """60 dB over the noise: neither before nor after it does anything look like another."""
    rate = 2000.0
    time = np.arange(60_000) / rate
    since = time[np.newaxis] - np.array([[5.0], [15.0], [25.0]])
    ringing = np.exp(-0.05 * 2 * np.pi * 30.0 * since) * np.sin(2 * np.pi * 30.0 * since)
    samples = np.where(since > 0.0, ringing, 0.0).sum(axis=0)[:, np.newaxis]
    samples = samples + np.random.default_rng(1).normal(0.0, 1e-3, samples.shape)
    taps = find_taps(recording(time, samples), HIGHEST)
    assert taps.at == pytest.approx((5.0, 15.0, 25.0), abs=0.06)
    assert taps.gain.ratio == pytest.approx(1.0, abs=0.2)
    (mode,) = tapped_modes([taps], HIGHEST).modes
    # 30 Hz is the damped frequency
    assert mode.frequency.nominal * np.sqrt(1 - 0.05**2) == pytest.approx(30.0, rel=2e-3)
