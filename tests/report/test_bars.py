"""Bars of other feet: places in per cent, and words that stay in the chart."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st
from report_sample import OTHER, TODAY, findings

from isolator.report.page.bars import WORDS, bars
from isolator.vibration.band import Band

ENDS = st.tuples(*[st.floats(-30.0, 30.0)] * 3).map(sorted)


@given(st.lists(ENDS, min_size=1, max_size=6))
def test_no_words_leave_the_chart_and_every_bar_begins_at_no_change(
    ends: list[list[float]],
) -> None:
    others = [
        replace(OTHER, chosen=False, heard=(Band(low=low, nominal=mid, high=high),))
        for low, mid, high in ends
    ]
    made = bars(replace(findings(), alternatives=(*others, TODAY)))
    for row, (low, mid, high) in zip(made.rows, ends, strict=False):
        side, share = row.side.rstrip("%").split(":")
        assert side in ("left", "right")
        assert 0.0 <= float(share) <= 100.0 - WORDS
        begins = made.zero if mid >= 0 else row.left
        assert row.left == begins
        # a band is as long as its ends are apart, on the scale of the bars
        if abs(mid) > 1.0:
            scale = float(row.width) / abs(mid)
            assert abs(float(row.reach) - scale * (high - low)) < 0.02 * max(high - low, 1.0)
