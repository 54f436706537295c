"""Other feet as bars of the page: where each bar begins, how long it is."""

from __future__ import annotations

from typing import NamedTuple

from isolator.report.findings import Alternative, Findings
from isolator.report.sentences import folds
from isolator.vibration.band import Band

ROOM = 3.0
"""What is left free beyond the longest bars [dB]."""

WORDS = 80.0
"""What the longest words under a bar take of the chart's width [%]."""


class Bar(NamedTuple):
    """One row; places and lengths in per cent of the width."""

    title: str
    what: str
    told: str
    chosen: bool
    left: str
    width: str
    low: str
    reach: str
    side: str  # where its words stand


class Bars(NamedTuple):
    """All rows and the place of no change [%]."""

    zero: str
    rows: list[Bar]


def bars(findings: Findings) -> Bars:
    """Return a bar for each of the alternatives; the chosen feet as they are told elsewhere."""
    told = [(each, *_numbers(findings, each)) for each in findings.alternatives]
    low = min([0.0, *(band.low for _, band, _ in told)]) - ROOM
    high = max([0.0, *(band.high for _, band, _ in told)]) + ROOM

    def place(level: float) -> float:
        return 100.0 * (level - low) / (high - low)

    rows = []
    for each, band, sway in told:
        left, right = sorted((place(0.0), place(band.nominal)))
        begins = place(band.low)
        rows.append(
            Bar(
                title=each.kind,
                what=folds.choice(each),
                told=folds.gained(band, sway),
                chosen=each.chosen,
                left=_share(left),
                width=_share(right - left),
                low=_share(begins),
                reach=_share(place(band.high) - begins),
                side=_side(begins, right),
            )
        )
    return Bars(zero=_share(place(0.0)), rows=rows)


def _numbers(findings: Findings, each: Alternative) -> tuple[Band, float]:
    """Return change and sway; those of the chosen feet are known better than by the quick look."""
    heard = [speed.heard.desk for speed in findings.chosen.speeds if speed.heard is not None]
    if each.chosen and heard:
        return max(heard, key=lambda band: band.nominal), findings.chosen.sway.worst
    return folds.worst_of(each), each.sway


def _side(begins: float, right: float) -> str:
    """Return where words go under a bar and its band: from where they begin on, or up to the bar's
    right end, and never so that they leave the chart."""
    if begins < 50.0:
        return f"left:{_share(min(begins, 100.0 - WORDS))}%"
    return f"right:{_share(min(100.0 - right, 100.0 - WORDS))}%"


def _share(value: float) -> str:
    return f"{value:.2f}"
