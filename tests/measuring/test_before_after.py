"""Changes between two recordings of test moves: recovered through noise, clocks, gaps and gain."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from command import example
from numpy.typing import NDArray
from swept import LEAD, Tones, automatic, recording, swept

from isolator.brief import Motion, read_brief
from isolator.measuring.alignment import Aligned, align
from isolator.measuring.beats import beating, may_beat
from isolator.measuring.before_after import Changes, changes
from isolator.measuring.energies import Take, take
from isolator.measuring.evened import evened
from isolator.measuring.gain import gain_of
from isolator.measuring.moves import Bed, Point, plan_moves
from isolator.measuring.steps import Rested
from isolator.physics.drive.stepper import Layout
from isolator.recordings.schedule import Schedule, Span, Step

RATE, BAND = 1600.0, (20.0, 640.0)
BED = Bed(size=(0.21, 0.2), zero=Point(0.0, 0.0), margin=0.02)
SPEEDS, ANGLES = (0.04, 0.06, 0.09), (0.0, 45.0)
Array = NDArray[np.float64]


@pytest.fixture(scope="module")
def schedule() -> Schedule:
    return plan_moves(BED, 2.5, SPEEDS, ANGLES, 3.0).schedule


@pytest.fixture(scope="module")
def brief_motion(tmp_path_factory: pytest.TempPathFactory) -> Motion:
    path = tmp_path_factory.mktemp("motion") / "brief.toml"
    path.write_text(example("reading-room"), encoding="utf-8")
    return read_brief(path).motion


def tones(gain: float) -> Tones:
    """Return three lines that follow the speed, each step of its own strength."""

    def of(step: Step) -> list[tuple[float, float]]:
        own = gain * (1.0 + 0.3 * np.cos(step.speed * 99.0 + step.direction_deg))
        base = 1250.0 * step.speed
        return [(base, 0.02 * own), (2.0 * base, 0.03 * own), (4.0 * base, 0.01 * own)]

    return of


def found(samples: Array, schedule: Schedule, gaps: tuple[tuple[float, float], ...] = ()) -> Take:
    even = evened(recording(samples, RATE, gaps))
    aligned = align(even, schedule, BAND)
    assert aligned.sure
    return take(even, aligned, schedule, BAND, ear=False)


@pytest.fixture(scope="module")
def before(schedule: Schedule) -> Take:
    return found(swept(schedule, RATE, tones(1.0), room=0.006), schedule)


def told(result: Changes) -> Array:
    return np.array([each.change.nominal for each in result.steps])


def test_a_change_is_recovered_through_noise_a_wrong_clock_and_gaps(
    schedule: Schedule, before: Take
) -> None:
    samples = swept(schedule, RATE, tones(0.4), room=0.006, clock=1.04, seed=7)
    after = found(samples, schedule, gaps=((20.0, 21.3), (33.0, 33.2)))
    assert before.aligned.ratio == pytest.approx(1.0, abs=0.001)
    assert after.aligned.ratio == pytest.approx(1.04, abs=0.002)
    assert after.aligned.start == pytest.approx(1.04 * LEAD, abs=0.05)
    result = changes(before, after)
    true = 20.0 * np.log10(0.4)
    assert told(result) == pytest.approx(true, abs=1.0)
    assert result.whole.change.nominal == pytest.approx(true, abs=0.3)
    assert result.whole.change.low < true < result.whole.change.high
    assert not any(each.near_room for each in result.steps)
    assert result.automatic == (False, False)
    assert abs(result.floor) < 1.0
    keys = {(each.speed, each.direction_deg) for each in result.steps}
    assert keys == {(speed, angle) for speed in SPEEDS for angle in ANGLES}
    # bands without tones hold the room alone, and say so
    quiet = [each for each in result.bands if each.centre in (20.0, 25.0, 31.5)]
    assert all(each.near_room for each in quiet)
    loud = [each for each in result.bands if each.centre == 100.0]
    assert loud[0].change.nominal == pytest.approx(true, abs=1.0)


def test_automatic_gain_is_suspected_and_taken_out(schedule: Schedule, before: Take) -> None:
    plain = swept(schedule, RATE, tones(0.4), room=0.006, seed=9)
    turned = found(automatic(plain, RATE, 0.01, back=3.0), schedule)
    result = changes(before, turned)
    assert result.automatic == (False, True)
    assert result.by_room
    true = 20.0 * np.log10(0.4)
    assert result.whole.change.nominal == pytest.approx(true, abs=1.0)
    assert np.mean(told(result)) == pytest.approx(true, abs=1.0)
    # without the pauses it would be far off: every step comes out as loud as the gain makes it
    assert turned.weigh(turned.steps[0].found).mean() == pytest.approx(1e-4, rel=0.6)


@pytest.mark.parametrize(("rise", "suspected"), [(1.3, True), (0.5, False), (-1.3, False)])
def test_gain_that_moves_slowly_is_suspected(rise: float, suspected: bool) -> None:
    """A room by itself does not rise in one pause after the other."""
    random, time = np.random.default_rng(5), np.arange(round(0.8 * RATE)) / RATE
    level = 10.0 ** (rise * time / 20.0)
    rests = [
        Rested(
            pause=Span(start=5.0 * n, end=5.0 * n + 1.2),
            samples=(level * random.standard_normal(len(time)))[:, None],
        )
        for n in range(40)
    ]
    told = gain_of(rests, RATE, lambda pieces: pieces.density.sum(axis=1))
    assert told.rise == pytest.approx(rise, abs=0.4)
    assert told.automatic is suspected


def test_what_drowns_in_the_room_gets_an_open_end(schedule: Schedule) -> None:
    samples = [
        swept(schedule, RATE, tones(gain), room=0.02, seed=seed)
        for gain, seed in ((1.0, 3), (0.02, 4))
    ]
    first = found(samples[0], schedule)
    even = evened(recording(samples[1], RATE))
    aligned = Aligned(LEAD, 1.0, 1.0, 0.0, 1.0)  # nothing of it is heard
    assert not align(even, schedule, BAND).sure
    result = changes(first, take(even, aligned, schedule, BAND, ear=False))
    true = 20.0 * np.log10(0.02)
    for each in result.steps:
        assert each.near_room
        assert each.change.low < true
        assert each.change.nominal <= each.change.high
    assert result.whole.near_room


@pytest.mark.parametrize("louder", [1.0, 1.5, 5.0])
def test_nine_of_ten_bands_hold_the_change(schedule: Schedule, louder: float) -> None:
    """Noise in a band, as of bearings, the same strength both times but for the change.

    Before the change it is `louder` times the room.
    """
    held: dict[str, list[bool]] = {"steps": [], "whole": [], "bands": []}
    aligned = Aligned(LEAD, 1.0, 1.0, 0.0, 1.0)

    def noisy(gain: float, seed: int) -> Take:
        random = np.random.default_rng(seed)
        count = round((LEAD + schedule.length + 4.0) * RATE)
        time = np.arange(count) / RATE - LEAD
        out = 0.01 / louder * random.standard_normal(count)
        for step in schedule.steps:
            inside = (time > step.start) & (time < step.end)
            out[inside] += gain * 0.01 * random.standard_normal(int(inside.sum()))
        return take(evened(recording(out, RATE)), aligned, schedule, (100.0, 250.0), ear=False)

    true = 20.0 * np.log10(1.6)
    for seed in range(20):
        result = changes(noisy(1.0, 2 * seed), noisy(1.6, 2 * seed + 1))
        for name, each in (
            ("steps", result.steps),
            ("whole", [result.whole]),
            ("bands", result.bands),
        ):
            held[name] += [one.change.low <= true <= one.change.high for one in each]
    assert len(held["steps"]) == 120
    assert 0.84 <= np.mean(held["steps"]) <= 0.98
    # the room's error is taken for the same in all steps, so that sums err on the wide side
    assert np.mean(held["whole"]) >= 0.85
    assert np.mean(held["bands"]) >= 0.85


def test_two_motors_at_one_pitch_beat_within_the_bands(schedule: Schedule) -> None:
    """Two equal lines, their phases as each step of each recording happens to have them."""
    aligned = Aligned(LEAD, 1.0, 1.0, 0.0, 1.0)
    all_steps = frozenset((speed, angle) for speed in SPEEDS for angle in ANGLES)
    along_x = frozenset(key for key in all_steps if key[1] == 0.0)

    def beaten(gain: float, seed: int) -> Take:
        random = np.random.default_rng(seed)
        count = round((LEAD + schedule.length + 4.0) * RATE)
        time = np.arange(count) / RATE - LEAD
        out = 1e-4 * random.standard_normal(count)
        for step in schedule.steps:
            inside = (time > step.start) & (time < step.end)
            phase = random.uniform(0.0, 2.0 * np.pi) if step.direction_deg == 0.0 else 0.0
            along = 2.0 * np.pi * 2500.0 * step.speed * time[inside]
            out[inside] += 0.01 * gain * (np.sin(along) + np.sin(along + phase))
        return take(evened(recording(out, RATE)), aligned, schedule, (60.0, 250.0), ear=False)

    true = 20.0 * np.log10(0.7)
    held: dict[str, list[bool]] = {"steps": [], "whole": [], "unaware": []}
    for seed in range(25):
        both = beaten(1.0, 2 * seed), beaten(0.7, 2 * seed + 1)
        result, unaware = changes(*both, beats=along_x), changes(*both)
        for each in result.steps:
            assert each.beats is (each.direction_deg == 0.0)
            inside = each.change.low <= true <= each.change.high
            if each.beats:
                held["steps"].append(inside)
                # two equal motors at any phases, by a sum over both of them
                assert each.change.high - each.change.nominal == pytest.approx(18.19, abs=0.3)
            else:
                assert each.change.nominal == pytest.approx(true, abs=0.1)
                assert each.change.high - each.change.low < 0.2
        held["whole"].append(result.whole.change.low <= true <= result.whole.change.high)
        held["unaware"].append(unaware.whole.change.low <= true <= unaware.whole.change.high)
        assert result.whole.change.high - result.whole.change.low < 12.0
    assert 0.82 <= np.mean(held["steps"]) <= 0.97
    assert np.mean(held["whole"]) >= 0.82
    assert np.mean(held["unaware"]) < 0.4


def test_which_steps_beat(brief_motion: Motion) -> None:
    keys = [(0.05, angle) for angle in (0.0, 30.0, 45.0, 90.0, 135.0)]

    def along(layout: Layout, *belts: int) -> list[float]:
        motion = replace(brief_motion, layout=layout)
        return sorted(angle for _, angle in beating(motion, belts, keys))

    assert along("crossed-belt", 0, 1) == [0.0, 90.0]
    assert along("motor-per-axis", 0, 1) == [45.0, 135.0]
    # two motors on the y axis run alike wherever it moves
    assert along("motor-per-axis", 0, 1, 1) == [30.0, 45.0, 90.0, 135.0]
    assert along("moving-bed", 0) == []
    assert sorted(angle for _, angle in may_beat(keys)) == [0.0, 45.0, 90.0, 135.0]


def test_moves_that_are_not_there_are_not_found(schedule: Schedule) -> None:
    noise = np.random.default_rng(2).standard_normal(round(60.0 * RATE))
    assert not align(evened(recording(noise, RATE)), schedule, BAND).sure
    other = plan_moves(BED, 2.5, (0.03, 0.05, 0.07, 0.1), (90.0, 30.0), 2.0).schedule
    samples = swept(other, RATE, tones(1.0), room=0.002)
    assert not align(evened(recording(samples, RATE)), schedule, BAND).sure
