"""Dampers that are drawn count in what is told of the feet, on both ways out."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from report_sample import evaluation

from isolator.motors.whole import Whole, spoiled, with_dampers
from isolator.report.sentences.heard_words import gain_words, louder_at
from isolator.vibration.band import Band
from isolator.vibration.results import Evaluation, Heard, OverSpeed
from isolator.vibration.sampled import sample_band
from isolator.vibration.spreads import SHARP

FRAME = Band(low=-12.4, nominal=-9.2, high=-3.1)
ALONE = np.array([-6.0, -8.0, -12.0])  # nominal, at 40, 60 and 100 mm/s


def told(desk: tuple[float, float, float], from_: float | None = 0.02) -> Evaluation:
    """Return feet that are quieter by `ALONE` within ±1.5 dB(A), on dampers louder by `desk`."""
    scatter = np.concatenate([[0.0], np.linspace(-1.5, 1.5, 64)])[:, None]
    feet = replace(evaluation(), changes=ALONE + scatter, works_from=from_)
    # what dampers do goes against the scatter of the feet: ends of bands must not be added
    whole = Whole(
        speeds=(0.04, 0.06, 0.1), desk=np.array(desk) - scatter, frame=(FRAME, FRAME, FRAME)
    )
    return with_dampers(feet, whole, 30.0, 0.0)


def test_sample_by_sample_what_dampers_do_is_added() -> None:
    found = told((1.0, -2.0, 0.5))
    for speed, expected in zip(found.speeds, (-5.0, -10.0, -11.5), strict=True):
        assert speed.heard is not None
        assert (speed.heard.desk.low, speed.heard.desk.high) == pytest.approx((expected,) * 2)
        assert speed.heard.frame == FRAME
        assert speed.verdict == "quiet"
    assert found.works_from == 0.02
    assert gain_words(found)[1] == (
        "Straight into the frame, on the dampers: 40 mm/s: 9 dB(A) quieter (3 to 12); 60 mm/s: 9 "
        "dB(A) quieter (3 to 12); 100 mm/s: 9 dB(A) quieter (3 to 12). The whole lies between the "
        "two ways."
    )


def test_dampers_that_make_a_speed_louder_are_not_hidden_by_quiet_feet() -> None:
    found = told((1.0, 8.5, 0.5))
    assert louder_at(found, 0.0) == ["60 mm/s"]
    assert found.works_from == 0.1
    assert told((1.0, 8.5, 12.5)).works_from is None
    # a speed below the one from which feet work takes nothing from that
    assert told((6.5, 0.0, 0.0), 0.05).works_from == 0.05


def test_other_speeds_than_dampers_were_judged_at_are_told_of_the_feet_alone() -> None:
    feet = replace(evaluation(), changes=np.zeros((3, 3)))
    whole = Whole(speeds=(0.04, 0.06), desk=np.ones((3, 2)), frame=(FRAME, FRAME))
    assert with_dampers(feet, whole, 30.0, 0.0) is feet
    assert with_dampers(feet, None, 30.0, 0.0) is feet
    assert "stays as it is" in gain_words(feet)[1]


def test_the_curve_over_speed_is_of_feet_and_dampers() -> None:
    """Louder alone up to 60 mm/s; dampers take 3 dB(A) there and add 6 at 80 mm/s."""
    speeds = np.array([0.04, 0.06, 0.08, 0.1])
    scatter = np.concatenate([[0.0], np.linspace(-0.5, 0.5, 64)])[:, None]
    alone = OverSpeed(
        speed=speeds,
        changes=np.array([2.5, 2.0, -3.0, -40.0]) + scatter,
        loudest=lambda some: ["belt tooth"] * len(some),
        lines={"belt tooth": 500.0},
        resonances=(("bounce", 19.0), ("the belts' resonance", 41.0)),
    )
    feet = replace(evaluation(), changes=ALONE + scatter, over_speed=alone)
    more = np.array([-3.0, -3.0, 6.0, 0.0])
    whole = Whole(
        speeds=(0.04, 0.06, 0.1),
        desk=np.zeros((65, 3)),
        frame=(FRAME, FRAME, FRAME),
        over=np.tile(more, (65, 1)),
    )
    found = with_dampers(feet, whole, 30.0, 0.0)
    assert found.heard_over is not None
    assert found.heard_over.nominal.tolist() == [-0.5, -1.0, 3.0, -30.0]
    assert [(each.low, each.high, each.mode) for each in found.avoid] == [
        (0.08, 0.08, "the belts' resonance")
    ]
    assert with_dampers(feet, whole._replace(over=None), 30.0, 0.0).avoid == feet.avoid


def test_only_speeds_that_the_feet_alone_hold_are_spoiled() -> None:
    """At 40 mm/s 4.5 dB(A) at the least alone, at 60 mm/s 6.5, at 100 mm/s 10.5."""
    scatter = np.concatenate([[0.0], np.linspace(-1.5, 1.5, 64)])[:, None]
    feet = replace(evaluation(), changes=ALONE + scatter)
    speeds = tuple(
        replace(speed, heard=Heard(desk=sample_band(each, SHARP), frame=FRAME))
        for speed, each in zip(feet.speeds, (ALONE + scatter).T, strict=True)
    )
    feet = replace(feet, speeds=speeds)
    desk = np.tile([2.0, 2.0, 13.0], (65, 1))
    whole = Whole(speeds=(0.04, 0.06, 0.1), desk=desk, frame=(FRAME, FRAME, FRAME))
    assert spoiled(feet, whole, ceiling=30.0, least=0.0) == (0.1,)
    assert spoiled(feet, whole, ceiling=30.0, least=4.6) == (0.06, 0.1)
    # 40 mm/s does not hold 5 dB(A) alone, so that no damper spoils it
    assert spoiled(feet, whole, ceiling=30.0, least=5.0) == (0.06, 0.1)
    assert spoiled(feet, whole._replace(desk=-desk), ceiling=30.0, least=0.0) == ()
