"""What is heard: tones weighted and summed, one set of feet against another."""

from __future__ import annotations

from dataclasses import replace
from importlib import resources

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from isolator.brief import Brief, read_brief_text
from isolator.cards import load_cards
from isolator.design import Pad
from isolator.feet.listening import FEW, MANY, listening, listening_grid
from isolator.physics.sound.weighting import a_energy
from isolator.vibration.band import Band
from isolator.vibration.compared import quick_comparison
from isolator.vibration.desk import stood_on
from isolator.vibration.evaluation import Question, appraise
from isolator.vibration.excitation import MOTOR_SOURCES, ripple_of
from isolator.vibration.heard import (
    desk_ear,
    louder,
    sound,
    strengths,
    works_from,
)
from isolator.vibration.installation import Installation, build_installation
from isolator.vibration.isolation import floor_energy
from isolator.vibration.lines import summed, tone_weights
from isolator.vibration.source import motor_source
from isolator.vibration.spreads import draw
from isolator.vibration.stand import Alike, Stand, contact_width, one_pad, pads_stand
from isolator.vibration.system import build
from isolator.vibration.verdict import verdict

CARDS = load_cards()


def shipped() -> Brief:
    text = (resources.files("isolator.examples") / "story-corner.toml").read_text(encoding="utf-8")
    return read_brief_text(text, "story-corner.toml")


@pytest.fixture(scope="module")
def brief() -> Brief:
    return shipped()


@pytest.fixture(scope="module")
def installation(brief: Brief) -> Installation:
    return build_installation(brief, CARDS)


def stand_of(brief: Brief, material: str, width: float, height: float, lift: float = 0.0) -> Stand:
    pad = Pad(
        shape="disc",
        first=width,
        second=0.0,
        thickness=height,
        layers=1,
        material=material,
        printed=False,
    )
    x, y = (0.5 * side - 0.03 for side in brief.printer.size[:2])
    places = np.array([[-x, -y], [x, -y], [x, y], [-x, y]])
    card = CARDS[material]
    group = Alike(pads=one_pad(card, pad), positions=places, cap=lift, width=contact_width(pad))
    return pads_stand(brief.room, card, material, [group], height + lift)


def change(installation: Installation, after: Stand, before: Stand) -> tuple[Band, ...]:
    grid = listening_grid(installation.excitation, MANY)
    heard = quick_comparison(installation, before, grid)(after)
    return tuple(each.desk for each in heard)


def test_two_equal_tones_are_three_decibels_more_than_one() -> None:
    energies, ear = np.full((1, 2, 1), 0.7), np.array([0.2, 0.2])
    one, both = np.zeros((2, 1, 2)), np.zeros((2, 1, 2))
    one[0, 0, 0] = both[0, 0, 0] = both[1, 0, 1] = 1.0
    strong = np.ones((1, 2))
    told = louder(sound(energies, ear, one, strong), sound(energies, ear, both, strong))
    assert told[0] == pytest.approx(3.0103, abs=1e-4)


def test_the_ear_of_a_hard_floor_is_the_weighting_alone(installation: Installation) -> None:
    grid = np.array([63.0, 250.0, 1000.0])
    soft = stood_on(installation.surroundings.desk)
    hard = soft._replace(material="")
    np.testing.assert_allclose(desk_ear(hard, grid), a_energy(grid))
    # a desk that gives way takes less of a tone's power as motion the higher it is, and below its
    # critical frequency sounds more
    both = desk_ear(soft, grid) / a_energy(grid)
    assert both[1] / both[0] != pytest.approx(63.0 / 250.0, rel=0.05)


def test_strengths_stay_within_their_ranges(installation: Installation) -> None:
    excitation = installation.excitation
    found = strengths(excitation, draw(0, 64))
    np.testing.assert_allclose(found[0], 1.0)
    for column, source in zip(found.T, MOTOR_SOURCES, strict=True):
        ripple = ripple_of(source, excitation.motion.microsteps)
        most = ripple.high / ripple.low
        assert 0.9 * most < column.max() <= most * 1.0001
        assert most / 1.1111 > 1.0 / column.min() * 0.9


def test_the_same_feet_change_nothing_in_the_middle(
    brief: Brief, installation: Installation
) -> None:
    same = stand_of(brief, "nr-50", 0.022, 0.012)
    for band in change(installation, same, same):
        assert band.nominal == pytest.approx(0.0, abs=1e-9)
        assert band.low < -1.0  # two sets of one kind are not one set
        assert band.high > 1.0


def test_a_foam_beats_a_hard_bumper_of_the_same_footprint(
    brief: Brief, installation: Installation
) -> None:
    """The classic of the trade, under a light printer; common practice, no source."""
    bumper = stand_of(brief, "nr-70", 0.026, 0.010)
    foam = stand_of(brief, "sponge-3", 0.026, 0.010)
    for band in change(installation, foam, bumper):
        assert band.high < -3.0
        assert band.nominal < -10.0


def test_a_paver_on_foam_beats_the_foam_alone(brief: Brief) -> None:
    """The classic of the trade; common practice, no source."""
    text = (resources.files("isolator.examples") / "story-corner.toml").read_text(encoding="utf-8")
    slab = '\n[slab]\nsize = ["400 mm", "400 mm", "40 mm"]\nmass = "15 kg"\n'
    paved = read_brief_text(text + slab, "paved.toml")
    alone, under_slab = build_installation(brief, CARDS), build_installation(paved, CARDS)
    bumpers = alone.bumpers
    foam = change(alone, stand_of(brief, "sponge-3", 0.040, 0.010), bumpers)
    both = change(under_slab, stand_of(paved, "sponge-3", 0.040, 0.010, 0.04), under_slab.bumpers)
    for without, with_it in zip(foam, both, strict=True):
        assert with_it.nominal < without.nominal - 1.0


@given(st.floats(1.2, 3.0))
@settings(max_examples=6)
def test_softer_feet_of_one_damping_are_heard_less_far_above_their_modes(share: float) -> None:
    brief = shipped()
    fast = replace(brief, motion=replace(brief.motion, speeds=(0.2,)))
    installation = build_installation(fast, CARDS)
    stiff = stand_of(brief, "nr-50", 0.03, 0.012)
    soft = stand_of(brief, "nr-50", 0.03 / np.sqrt(share), 0.012)
    (band,) = change(installation, soft, stiff)
    # stiffness falls with the area, and faster as a narrow pad bulges more; power with its square
    assert -40.0 * np.log10(share) < band.nominal < -10.0 * np.log10(share)


@pytest.mark.parametrize(
    ("worst", "wanted"),
    [
        ([-1.0, -2.0, -3.0], 0.01),
        ([1.0, -0.5, -3.0], 0.02),
        ([-1.0, 0.5, -3.0], 0.04),
        ([-1.0, -2.0, 0.2], None),
    ],
)
def test_from_which_speed_it_works(worst: list[float], wanted: float | None) -> None:
    assert works_from(np.array([0.01, 0.02, 0.04]), np.array(worst), 0.0) == wanted


@pytest.mark.parametrize(
    ("band", "word"),
    [
        ((-9.0, -6.0, -3.0), "quiet"),
        ((-9.0, -6.0, -2.9), "neutral"),
        ((-3.0, 0.9, 2.9), "neutral"),
        ((-3.0, 1.0, 2.0), "amplified"),
        ((-3.0, 0.1, 3.0), "amplified"),
    ],
)
def test_verdicts(band: tuple[float, float, float], word: str) -> None:
    low, nominal, high = band
    assert verdict(Band(low=low, nominal=nominal, high=high)) == word


def test_finer_steps_and_less_current_help_where_practice_says(
    brief: Brief, installation: Installation, few_samples: None
) -> None:
    """256 microsteps make motors smoother and quieter; common practice, no source."""
    question = Question(speeds=brief.motion.speeds, frequencies=())
    found = appraise(installation, installation.bumpers, question)
    told = {each.name.split()[0]: each.heard for each in found.helps}
    fine = told["256"]
    assert fine.frame.high < -3.0
    # microsteps are shaken off by the printer's mass before they reach the feet
    assert abs(fine.desk.nominal) < 0.5
    less = told["70"]
    # at most what the current itself loses
    assert -3.2 < less.desk.low <= less.desk.high <= 0.0
    assert -3.2 < less.frame.nominal < -1.0


def test_few_frequencies_tell_feet_apart_about_as_well_as_many(
    brief: Brief, installation: Installation
) -> None:
    case, bumpers = installation.printer.nominal, installation.bumpers
    feet = [
        stand_of(brief, material, width, 0.010).settled(case, "nominal")[0]
        for material, width in (("sponge-3", 0.030), ("nr-50", 0.022), ("nr-40", 0.016))
    ]

    def gains(count: int) -> np.ndarray:
        grid = listening_grid(installation.excitation, count)
        heard = listening(installation, bumpers, case, grid)
        found = [heard.gains(build(each, case))[0].mean() for each in feet]
        return np.array(found) - found[0]

    fine = gains(1200)
    np.testing.assert_allclose(gains(MANY), fine, atol=2.0)
    np.testing.assert_allclose(gains(FEW), fine, atol=4.0)


def test_tones_that_are_left_out_of_the_listening_would_not_be_heard(
    brief: Brief, installation: Installation
) -> None:
    excitation, bumpers = installation.excitation, installation.bumpers
    case, grid = installation.printer.nominal, listening_grid(excitation, FEW)
    heard = listening(installation, bumpers, case, grid)
    kept = np.isin(grid, heard.source.frequency)
    left = int((~kept).sum())
    assert left >= 2  # the lowest, and none between
    assert kept[left:].all()
    weights = tone_weights(excitation, grid, brief.motion.speeds).sum(axis=-1)
    ear = desk_ear(stood_on(installation.surroundings.desk), grid)
    weights *= ear[:, None, None]
    np.testing.assert_array_equal(weights[kept], heard.weights)
    source = motor_source(excitation, case, grid)
    for material, width in (("sponge-3", 0.030), ("nr-40", 0.016), ("nr-70", 0.030)):
        feet, _ = stand_of(brief, material, width, 0.010).settled(case, "nominal")
        system = build(feet, case)
        whole = summed(floor_energy(system, source), weights)
        few = summed(floor_energy(system, heard.source), heard.weights)
        assert 10.0 * np.log10(whole / few).max() < 0.04 * left
