"""What the search tells besides the feet: how many were stopped by what, and the chart."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from isolator.feet.candidates import CandidateBatch
from isolator.feet.checks import BY_NAME, RULES
from isolator.feet.screen import Screened
from isolator.report.findings import Cloud, Tally


def tally_of(
    screened: Screened,
    offered: list[CandidateBatch],
    passed: NDArray[np.bool_],
    seconds: float,
    without: Callable[[str], float | None],
) -> Tally:
    """Return how many each check stopped; the numbers add up to all that were tried.

    A candidate counts for the first check that stopped it; what held the screen but not its own
    load counts for that. `without` returns the gain of the best that one check alone stops.
    """
    stopped = Counter(screened.stopped[~passed].tolist())
    rejected = {RULES[code].name: count for code, count in sorted(stopped.items()) if code >= 0}
    if stopped[-1]:
        rejected["its own load, each foot by itself"] = stopped[-1]
    families = np.array([batch.material.family for batch in offered])[screened.batch]
    best = float(screened.gain[passed].max()) if passed.any() else 0.0
    tally = Tally(
        tried=len(passed),
        rejected=rejected,
        passed=int(passed.sum()),
        seconds=seconds,
        shut_out=_shut_out(screened, families),
    )
    told = dict.fromkeys([tally.widest, *tally.shut_out])
    gains = {name: without(name) for name in told if name in BY_NAME}
    more = {name: None if gain is None else gain - best for name, gain in gains.items()}
    return replace(tally, without=more)


def _shut_out(screened: Screened, families: NDArray[np.str_]) -> dict[str, tuple[str, ...]]:
    """Return for each check the families of which it alone stopped every candidate."""
    found: dict[str, tuple[str, ...]] = {}
    for family in np.unique(families):
        codes = np.unique(screened.stopped[families == family])
        if len(codes) == 1 and codes[0] >= 0:
            name = RULES[int(codes[0])].name
            found[name] = (*found.get(name, ()), str(family))
    return found


def cloud_of(
    offered: list[CandidateBatch], screened: Screened, passed: NDArray[np.bool_], index: int
) -> Cloud:
    """Return every candidate that was listened to, for the chart."""
    shown = np.flatnonzero(np.isfinite(screened.sway) & np.isfinite(screened.gain))
    families = np.array([batch.material.family for batch in offered])
    place = np.flatnonzero(shown == index)
    return Cloud(
        gain_db=screened.gain[shown],
        sway=screened.sway[shown],
        passed=passed[shown],
        family=families[screened.batch[shown]],
        chosen=int(place[0]) if len(place) else -1,
    )
