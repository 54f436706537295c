"""Recordings on even time: gaps stay gaps, whether or not lines are laid between samples."""

from __future__ import annotations

import numpy as np
import pytest
from swept import recording

from isolator.measuring.evened import evened
from isolator.recordings.clock import read_clock
from isolator.recordings.recording import ACCELERATION, Recording
from isolator.recordings.verdict import judge


def test_what_is_even_is_taken_as_it_is() -> None:
    samples = np.sin(0.3 * np.arange(4000))
    found = evened(recording(samples, 400.0, gaps=((3.0, 3.4),)))
    assert not found.bridged
    assert [each.start for each in found.stretches] == pytest.approx([0.0, 3.4025])
    within = found.between(4.0, 5.0)
    assert within is not None
    assert within[:, 0] == pytest.approx(samples[1600:2000])
    assert found.between(2.5, 3.2) is None  # part of it was lost


def test_what_jitters_is_bridged_but_for_its_gaps() -> None:
    random = np.random.default_rng(4)
    time = np.arange(4000) / 400.0 + random.uniform(-0.2, 0.2, 4000) / 400.0
    time = time[(time < 3.0) | (time > 3.5)]
    time -= time[0]
    samples = np.sin(2.0 * np.pi * 5.0 * time)[:, None]
    clock = read_clock("r.csv", time, list(range(len(time))))
    made = Recording(
        clock=clock.time,
        samples=samples,
        channels=("x",),
        unit=ACCELERATION,
        calibrated=True,
        verdict=judge(clock, samples, 0),
    )
    found = evened(made)
    assert found.bridged
    assert len(found.stretches) == 2
    assert found.stretches[1].start == pytest.approx(3.5, abs=0.01)
    within = found.between(5.0, 6.0)
    assert within is not None
    even = 5.0 + np.arange(len(within)) / found.rate
    assert within[:, 0] == pytest.approx(np.sin(2.0 * np.pi * 5.0 * even), abs=0.05)
    assert found.between(3.1, 3.3) is None
