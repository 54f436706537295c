"""Among feet that sound alike the easiest are taken, and a small change of the brief keeps them."""

from __future__ import annotations

import numpy as np
import pytest

from isolator.cards import load_cards
from isolator.feet.calm import calm_order, ease
from isolator.feet.candidates import CandidateBatch
from isolator.feet.ranking import EQUAL_DB, Ranked, score
from isolator.feet.screen import Screened

CARDS = load_cards()
PLACES = np.array([[-0.2, -0.19], [0.2, -0.19], [0.2, 0.19], [-0.2, 0.19]])
LIMIT = 0.5e-3


def batch(material: str, shape: str = "disc", layers: tuple[int, ...] = (1, 1)) -> CandidateBatch:
    count = len(layers)
    return CandidateBatch(
        material=CARDS[material],
        shape=shape,
        positions=PLACES,
        first=np.linspace(0.02, 0.03, count),
        second=np.zeros(count) if shape == "disc" else np.linspace(0.02, 0.03, count),
        thickness=np.full(count, 0.010),
        layers=np.array(layers),
    )


def ranked_of(rows: list[tuple[int, int, float, float]]) -> tuple[Ranked, Screened]:
    """Return rows of (batch, row, gain [dB(A)], sway [m]), best first."""
    numbers, row, gain, sway = (np.array(each) for each in zip(*rows, strict=True))
    none = np.zeros(len(rows))
    screened = Screened(
        batch=numbers,
        row=row,
        stopped=np.full(len(rows), -1),
        miss=none,
        gain=gain,
        sway=sway,
    )
    wide = gain[:, None]
    ranked = Ranked(
        index=np.arange(len(rows)),
        score=gain,
        low=wide,
        sway=sway,
    )
    return ranked, screened


@pytest.mark.parametrize(
    ("batches", "rows", "first"),
    [
        # a decibel is not heard: one layer before two
        ([batch("nr-60", layers=(2, 1))], [(0, 0, 9.0, 3e-4), (0, 1, 8.2, 3e-4)], 1),
        # more than that is
        ([batch("nr-60", layers=(2, 1))], [(0, 0, 9.0, 3e-4), (0, 1, 7.9, 3e-4)], 0),
        # off the shelf before by post
        ([batch("sponge-1"), batch("pe-30")], [(0, 0, 9.0, 3e-4), (1, 0, 8.4, 3e-4)], 1),
        # the smaller of two pads that sway less than half the limit
        ([batch("nr-60")], [(0, 1, 9.0, 1.0e-4), (0, 0, 8.9, 2.4e-4)], 1),
        # and the larger where the smaller sways up to the limit
        ([batch("nr-60")], [(0, 0, 9.0, 4.9e-4), (0, 1, 8.9, 2.0e-4)], 1),
    ],
)
def test_what_is_taken(
    batches: list[CandidateBatch], rows: list[tuple[int, int, float, float]], first: int
) -> None:
    ranked, screened = ranked_of(rows)
    assert calm_order(ranked, screened, batches, LIMIT)[0] == first


def test_what_is_not_equal_follows_by_score() -> None:
    batches = [batch("nr-60", layers=(1, 1, 1, 1))]
    rows = [(0, 3, 9.0, 2e-4), (0, 0, 6.0, 2e-4), (0, 1, 5.0, 2e-4), (0, 2, 8.5, 2e-4)]
    rows.sort(key=lambda each: -each[2])
    ranked, screened = ranked_of(rows)
    order = calm_order(ranked, screened, batches, LIMIT)
    assert [rows[at][1] for at in order] == [2, 3, 0, 1]
    assert EQUAL_DB == 1.0


def test_ease_counts_no_sway_below_half_the_limit() -> None:
    one = batch("nr-60")
    assert ease(one, 0, 0, 0.1e-3, LIMIT)[:-1] == ease(one, 0, 0, 0.249e-3, LIMIT)[:-1]
    assert ease(one, 0, 0, 0.4e-3, LIMIT)[:-1] > ease(one, 0, 0, 0.249e-3, LIMIT)[:-1]


def test_a_speed_that_falls_short_costs_more_than_it_gains_elsewhere() -> None:
    even, uneven = np.array([[4.0, 4.0, 4.0]]), np.array([[-0.5, 7.0, 7.0]])
    assert uneven.mean() > even.mean()
    assert score(even, 0.0)[0] == pytest.approx(4.0)
    assert score(uneven, 0.0)[0] == pytest.approx(4.5 - 3.0 * 0.5)
    assert score(even, 5.0)[0] == pytest.approx(4.0 - 3.0)
