"""What the search tells besides the feet: how many were stopped by what, the chart, the speed."""

from __future__ import annotations

from collections import Counter

import numpy as np
from numpy.typing import NDArray

from isolator.brief import Motion
from isolator.feet.candidates import CandidateBatch
from isolator.feet.checks import RULES
from isolator.feet.screen import Screened
from isolator.report.findings import Cloud, Tally, TooSlow
from isolator.vibration.targets import electrical_line, mode_limit


def slow_reason(motion: Motion, screened: Screened, speed: float) -> TooSlow | None:
    """Return why the slowest speed is not isolated, None where it is."""
    slowest = min(motion.speeds)
    if speed <= slowest:
        return None
    low = screened.highest <= mode_limit(electrical_line(motion, slowest))
    sways = [rule.name for rule in RULES].index("sway")
    return TooSlow(speed=slowest, sways=bool((screened.other[low] == sways).any()))


def tally_of(screened: Screened, passed: NDArray[np.bool_], limit: float, seconds: float) -> Tally:
    """Return how many each check stopped; the numbers add up to all that were tried.

    A candidate counts for the first check that stopped it, with the modes judged against `limit`
    [Hz]; what held the screen but not its own load counts for that.
    """
    codes = np.where(screened.highest <= limit, screened.other, screened.stopped)[~passed]
    stopped = Counter(codes.tolist())
    rejected = {RULES[code].name: count for code, count in sorted(stopped.items()) if code >= 0}
    if stopped[-1]:
        rejected["its own load, each foot by itself"] = stopped[-1]
    return Tally(tried=len(passed), rejected=rejected, passed=int(passed.sum()), seconds=seconds)


def cloud_of(
    offered: list[CandidateBatch], screened: Screened, passed: NDArray[np.bool_], index: int
) -> Cloud:
    """Return every candidate that got as far as its sway, for the chart."""
    shown = np.flatnonzero(np.isfinite(screened.sway) & np.isfinite(screened.quiet))
    families = np.array([batch.material.family for batch in offered])
    place = np.flatnonzero(shown == index)
    return Cloud(
        quiet_db=screened.quiet[shown],
        sway=screened.sway[shown],
        passed=passed[shown],
        family=families[screened.batch[shown]],
        chosen=int(place[0]) if len(place) else -1,
    )
