"""Samples of all spreads: their laws, the nominal one, and stands under them."""

from __future__ import annotations

import math
from importlib import resources

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from isolator.brief import Brief, Room, read_brief_text
from isolator.cards import load_cards
from isolator.physics.bodies.statics import G
from isolator.vibration.cases import NOMINAL, all_cases
from isolator.vibration.installation import build_installation
from isolator.vibration.own_feet import build_now_stand
from isolator.vibration.sampled import Sampled, over_motors, sample_band, sampled
from isolator.vibration.source import motor_source
from isolator.vibration.spreads import (
    OF_PADS,
    SHARE,
    SPREADS,
    draw,
    ends,
    pad_factors,
)
from isolator.vibration.stand import Stand

ROOM = Room(temperature_low=15.0, temperature_high=30.0)
CARDS = load_cards()


def example() -> Brief:
    path = resources.files("isolator.examples") / "reading-room.toml"
    return read_brief_text(path.read_text(encoding="utf-8"), "reading-room.toml")


def standing(brief: Brief) -> Stand:
    stand = build_now_stand(brief, CARDS)
    assert stand is not None
    return stand


@pytest.fixture(scope="module")
def found() -> Sampled:
    brief = example()
    installation = build_installation(brief, CARDS)
    samples = draw(installation.printer.extras)
    return sampled(standing(brief), installation.printer, installation.excitation, samples, "feet")


def test_a_log_normal_factor_holds_95_per_cent_within_its_spread() -> None:
    samples = draw(0, 4096)
    factor = samples.factor("modulus", 1.3, "feet")
    assert factor[0] == 1.0
    within = (factor[1:] <= 1.3) & (factor[1:] >= 1 / 1.3)
    assert within.mean() == pytest.approx(0.95, abs=2e-3)  # even steps
    assert np.exp(np.log(factor[1:]).mean()) == pytest.approx(1.0, abs=2e-3)
    # of a normal law half lie within 0.6745 of its deviations
    middle = 1.3 ** (0.6745 / 1.95996)
    assert (np.abs(np.log(factor[1:])) < math.log(middle)).mean() == pytest.approx(0.5, abs=2e-3)


def test_an_even_factor_fills_its_spread() -> None:
    factor = np.log(draw(0, 2048).factor("amplitude", 1.4, "feet")[1:]) / math.log(1.4)
    assert np.abs(factor).max() <= 1.0
    counts, _ = np.histogram(factor, 10, (-1.0, 1.0))
    assert counts == pytest.approx(np.full(10, 204.8), abs=2)


def test_samples_are_the_same_every_time_and_of_two_seeds_differ() -> None:
    one, two, other = draw(2), draw(2), draw(2, seed=1)
    assert np.array_equal(one.extras, two.extras)
    assert all(np.array_equal(one.columns[name], two.columns[name]) for name in one.columns)
    assert not np.array_equal(one.extras, other.extras)
    assert one.extras.shape == (len(one), 2)


def test_columns_are_independent() -> None:
    samples = draw(1, 4096)
    table = np.array([*samples.columns.values(), samples.extras[:, 0]])[:, 1:]
    crossed = np.corrcoef(table) - np.eye(len(table))
    assert np.abs(crossed).max() < 0.06  # four deviations of 1/√n


@given(card=st.sampled_from(sorted(CARDS)))
def test_every_spread_of_a_card_counts(card: str) -> None:
    samples, material = draw(0, 64), CARDS[card]
    warmth = samples.temperature(ROOM)
    factors = pad_factors(samples, material, warmth, "now")
    assert [each[0] for each in factors] == pytest.approx([1.0, 1.0, 1.0], rel=1e-12)
    logs = [float(np.log(each[1:]).std()) for each in factors]
    assert logs[0] >= 0.9 * math.log(material.stiffness_spread) / 1.96
    assert logs[1] >= 0.9 * math.log(material.dynamic_ratio.spread) / 1.96
    assert logs[2] == pytest.approx(math.log(material.loss_factor.spread) / 1.96, rel=0.1)
    for other in ("feet", "damper"):
        alike = pad_factors(samples, material, warmth, other)
        assert abs(np.corrcoef(factors.dynamic[1:], alike.dynamic[1:])[0, 1]) < 0.5


def test_rubber_under_a_motor_is_as_warm_as_the_room_at_least() -> None:
    samples = draw(0, 256)
    room, rubber = samples.temperature(ROOM), samples.motor_temperature(ROOM, 46.0)
    assert rubber[0] == room[0] == 20.0
    assert (rubber >= room).all()
    # 16 K over a room of 30 °C when it has run for long, half of that on average
    assert (rubber - room).max() == pytest.approx(16.0, abs=0.2)
    assert (rubber - room)[1:].mean() == pytest.approx(8.0, abs=0.1)


def test_every_pads_spread_is_in_the_table() -> None:
    assert set(OF_PADS) < set(SPREADS)
    for law, factor, why in SPREADS.values():
        assert law in ("log-normal", "even")
        assert factor is None or factor > 1
        assert why


def test_a_band_holds_its_share_and_its_nominal() -> None:
    rng = np.random.default_rng(5)
    values = np.concatenate([[0.0], rng.normal(size=5000)])
    low, high = ends(values)
    assert ((values >= low) & (values <= high)).mean() == pytest.approx(SHARE, abs=2e-3)
    values[0] = 9.0
    band = sample_band(values)
    assert (band.nominal, band.high) == (9.0, 9.0)


def test_the_first_sample_is_the_nominal_case(found: Sampled) -> None:
    brief = example()
    case = all_cases(standing(brief), build_installation(brief, CARDS).printer)[NOMINAL]
    assert found.names == case.names
    np.testing.assert_allclose(found.modes.frequency[0], case.modes.frequency[0], rtol=1e-9)
    np.testing.assert_allclose(found.system.feet.load[0], case.system.feet.load[0], rtol=1e-9)
    np.testing.assert_allclose(found.system.lossy[0], case.system.lossy[0], rtol=1e-9)


def test_every_sample_rests_on_its_feet(found: Sampled) -> None:
    weight = np.array([above.case.mass * G for above in found.above])
    np.testing.assert_allclose(found.system.feet.load.sum(axis=1), weight, rtol=1e-8)
    # a soft sample sags further
    sag, stiff = found.system.feet.sag.mean(axis=1), found.system.feet.linear[..., 2].mean(axis=1)
    assert np.corrcoef(np.log(sag), np.log(stiff))[0, 1] < -0.95


def test_samples_have_sources_of_their_own(found: Sampled) -> None:
    grid = np.array([12.0, 47.0, 160.0])
    rows = over_motors(found, grid, lambda system, source: (system, source))
    dynamic = np.concatenate([source.dynamic for _, source in rows])
    assert sum(len(system.static) for system, _ in rows) == len(dynamic) == len(found.above)
    last = found.above[-1]
    alone = motor_source(last.excitation, last.case, grid, last.frame)
    np.testing.assert_array_equal(dynamic[-1], alone.dynamic[0])
    # belts differ, and so does what they make of the frame
    assert np.ptp(dynamic[1:, 1, 0, 0].real) > 0.01 * abs(dynamic[0, 1, 0, 0])
