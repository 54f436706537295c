"""The pictures show what was found: classes of isolation, thinned clouds, labels moved apart."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from report_sample import evaluation, speed_map

from isolator.report.figures.cloud import thinned
from isolator.report.figures.figure import spread
from isolator.report.figures.heard_over import LINE, WITH_DAMPERS, heard_over
from isolator.report.figures.speed_map import pieces
from isolator.report.sentences import speeds
from isolator.vibration.band import Band


@given(st.lists(st.floats(-3.0, 3.0), max_size=12), st.floats(0.01, 0.8))
def test_labels_moved_apart_keep_order_and_balance(places: list[float], gap: float) -> None:
    moved = spread(places, gap)
    order = sorted(range(len(places)), key=lambda i: places[i])
    steps = np.diff([moved[i] for i in order])
    assert np.all(steps >= gap - 1e-9)  # rounding of sums of a dozen terms
    assert sum(moved) == pytest.approx(sum(places), abs=1e-9)  # blocks stay about their mean


def test_speed_map_is_red_exactly_where_feet_make_it_worse() -> None:
    told = speed_map()
    for loss_row in told.insertion_loss:
        runs = pieces(loss_row)
        assert [first for first, _, _ in runs[1:]] == [last for _, last, _ in runs[:-1]]
        assert (runs[0][0], runs[-1][1]) == (0, loss_row.size)
        red = np.zeros(loss_row.size, dtype=bool)
        for first, last, rank in runs:
            red[first:last] |= rank == 0
        assert np.array_equal(red, loss_row < speeds.WORSE_DB)
    assert pieces(told.insertion_loss[1])[0][2] == 0  # belt teeth at 20 mm/s: 10 Hz, near 13.1 Hz


def test_thinned_cloud_hides_no_family_behind_another() -> None:
    rng = np.random.default_rng(11)
    x = np.tile(rng.uniform(0.0, 1.0, 20_000), 2)
    y = np.tile(rng.uniform(0.0, 1.0, 20_000), 2)
    kept = thinned(x, y, ((0.0, 1.0), (0.0, 0.5)))
    assert kept.size <= 150 * 84
    assert y[kept].max() <= 0.5
    first = np.count_nonzero(kept < 20_000) / kept.size
    assert (
        0.45 < first < 0.55
    )  # the same places twice: each half should stand for half of the cells


def test_a_curve_says_whether_dampers_are_in_it() -> None:
    told = evaluation()
    over = told.heard_over
    assert over is not None
    assert WITH_DAMPERS not in heard_over(told, over)
    assert f">{LINE}<" in heard_over(told, over)
    frame = Band(low=-9.4, nominal=-6.1, high=-2.2)
    rows = []
    for speed in told.speeds:
        assert speed.heard is not None
        rows.append(replace(speed, heard=replace(speed.heard, frame=frame)))
    assert f">{WITH_DAMPERS}<" in heard_over(replace(told, speeds=tuple(rows)), over)
