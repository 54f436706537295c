"""The search: candidates go in, the best feet that hold every check come out."""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from isolator.brief.stock import BOUGHT
from isolator.cards import Material
from isolator.commands.progress import Progress
from isolator.commands.tally import cloud_of, tally_of
from isolator.commands.trial import (
    ChosenFeet,
    Search,
    candidate_stand,
    failing,
    missed,
    tried,
)
from isolator.design.attachment import UNDER_SLAB, no_room_for_mounts
from isolator.feet.calm import calm_order
from isolator.feet.candidates import CandidateBatch, candidates
from isolator.feet.checks import RULES
from isolator.feet.kinds import KEEP, kind_of
from isolator.feet.listening import MANY, first_listening, listening_grid
from isolator.feet.price import gain_without
from isolator.feet.ranking import EQUAL_DB, Ranked, pick, rank, score
from isolator.feet.screen import Screened, screen
from isolator.feet.task import FeetTask
from isolator.physics.rubber.section import LARGEST_SHAPE, LEAST_SHAPE
from isolator.reading.faults import refused
from isolator.report.findings import Cloud, Tally
from isolator.vibration.compared import quick_comparison

TRIES = 12
"""Ranked candidates that are looked at with the nonlinear equilibrium before giving up."""
SWAYS = (0.3e-3, 0.5e-3, 1e-3, 2e-3)
"""Sway limits for which the best feet are told beside the brief's own [m]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FoundFeet:
    """What a search gave."""

    choice: ChosenFeet
    gain: float  # score of the choice [dB(A)]; minus infinity where it is the nearest
    tally: Callable[[], Tally]  # no feet hang on it, and it takes its time
    cloud: Cloud
    ranked: Ranked  # all that was ranked, whatever its sway, up to the largest of `SWAYS`
    screened: Screened


def best_feet(search: Search, progress: Progress) -> FoundFeet:
    """Return the feet that are heard least within the printer's limits.

    Every candidate is screened and listened to; the best of every material and outline are judged
    over their whole band; of those that sound alike the easiest that holds every check with each
    pad at its own load is taken. If none holds the nearest is returned with the checks it fails.
    """
    # loaded here, before the clock starts: the search is timed, not the libraries' start-up
    import scipy.interpolate
    import scipy.special  # noqa: F401

    start, offered = time.perf_counter(), search.offered
    total = sum(map(len, offered))
    heard = first_listening(search.installation, search.baseline)
    screened = screen(
        search.task,
        search.installation,
        offered,
        heard,
        lambda done: progress("screening feet", done, total),
    )
    limit = search.installation.limits.sway
    finalists = [
        pick(screened, offered, allowed(screened, most)) for most in dict.fromkeys((limit, *SWAYS))
    ]
    ranked = rank(
        search.task,
        search.installation,
        offered,
        screened,
        np.unique(np.concatenate(finalists)),
        search.baseline,
    )
    choice, place = _choose(search, screened, ranked)
    if place is not None and not search.prefer:
        choice, place = _second_look(search, screened, ranked, choice, place)

    def without(name: str) -> float | None:
        task, installation = search.task, search.installation
        return gain_without(name, task, installation, offered, screened, heard)

    seconds = time.perf_counter() - start
    passed = allowed(screened, limit) if place is not None else np.zeros(total, dtype=bool)
    return FoundFeet(
        choice=choice,
        gain=float("-inf") if place is None else float(ranked.score[place]),
        tally=lambda: tally_of(screened, offered, passed, seconds, without),
        cloud=cloud_of(offered, screened, passed, choice.index),
        ranked=ranked,
        screened=screened,
    )


def offered_feet(
    task: FeetTask, cards: dict[str, Material], file: str, kind: str = ""
) -> list[CandidateBatch]:
    """Return all candidates, at least one; raises InputError where the stock makes no pad, or
    none of the `kind` that is asked for."""
    offered = candidates(task, cards)
    if kind not in ("", KEEP) and kind not in {kind_of(batch) for batch in offered}:
        there = f"there are: {', '.join(dict.fromkeys(kind_of(batch) for batch in offered))}"
        why = UNDER_SLAB if task.slab is not None else no_room_for_mounts(task.feet.attachment)
        raise refused(
            file,
            "stock",
            f'nothing for feet of the kind "{kind}"',
            "stock of that kind, or another kind",
            f"{there}; {why}" if kind == BOUGHT and why else there,
        )
    if not offered:
        raise refused(
            file,
            "stock",
            "no pad between flat and slender",
            f"shape factors from {LEAST_SHAPE:g} to {LARGEST_SHAPE:g}",
            "offer other widths, thicknesses or more layers",
        )
    return offered


def _choose(search: Search, screened: Screened, ranked: Ranked) -> tuple[ChosenFeet, int | None]:
    """Return the choice and its place in `ranked`, None where it is the nearest."""
    within = in_reach(search, screened, ranked)
    own = ranked.take(within)
    order = calm_order(own, screened, search.offered, search.installation.limits.sway)
    best: ChosenFeet | None = None
    for place in order[:TRIES]:
        choice = tried(search, screened, int(own.index[place]))
        if not failing(choice.checks):
            return choice, int(within[place])
        if best is None or missed(choice) < missed(best):
            best = choice
    return best or tried(search, screened, nearest(search, screened)), None


def _second_look(
    search: Search, screened: Screened, ranked: Ranked, choice: ChosenFeet, place: int
) -> tuple[ChosenFeet, int]:
    """Return the choice, or the best of another kind that is heard less by more than `EQUAL_DB`.

    The ranking looks at corners; here the best of each kind are heard over samples of all spreads,
    as they are told beside the choice.
    """
    kinds = dict.fromkeys(kind_of(batch) for batch in search.offered)
    rivals = [best_place(replace(search, prefer=kind), screened, ranked) for kind in kinds]
    others = [each for each in dict.fromkeys(rivals) if each is not None and each != place]
    if not others:
        return choice, place
    installation = search.installation
    grid = listening_grid(installation.excitation, MANY)
    heard = quick_comparison(installation, search.baseline, grid)

    def sampled(at: int) -> float:
        told = heard(candidate_stand(search, screened, int(ranked.index[at])))
        low = np.array([[-each.desk.high for each in told]])
        return float(score(low, installation.limits.least_gain_db)[0])

    own = sampled(place)
    for gain, at in sorted(((sampled(each), each) for each in others), reverse=True):
        if gain <= own + EQUAL_DB:
            break
        other = tried(search, screened, int(ranked.index[at]))
        if not failing(other.checks):
            return other, at
    return choice, place


def best_place(
    search: Search, screened: Screened, ranked: Ranked, sway: float | None = None
) -> int | None:
    """Return the place in `ranked` of the best within a limit on `sway` [m], None if none is."""
    limit = search.installation.limits.sway if sway is None else sway
    within = in_reach(search, screened, ranked, limit)
    order = calm_order(ranked.take(within), screened, search.offered, limit)
    return int(within[order[0]]) if len(order) else None


def in_reach(
    search: Search, screened: Screened, ranked: Ranked, sway: float | None = None
) -> NDArray[np.intp]:
    """Return the places in `ranked` that hold every check of the screen, and a limit on `sway` [m].

    Without one, the brief's own. Only feet of the kind that is wanted, if one is.
    """
    limit = search.installation.limits.sway if sway is None else sway
    held = allowed(screened, limit)[ranked.index] & (ranked.sway <= limit)
    return np.flatnonzero(held & _wanted(search, screened.take(ranked.index)))


def _wanted(search: Search, screened: Screened) -> NDArray[np.bool_]:
    """Return which candidates are of the kind that is wanted."""
    kinds = np.array([kind_of(batch) for batch in search.offered])
    return np.asarray((search.prefer == "") | (kinds[screened.batch] == search.prefer))


def allowed(screened: Screened, sway: float) -> NDArray[np.bool_]:
    """Return which candidates hold every check of the screen with at most `sway` [m]."""
    at_sway = [rule.name for rule in RULES].index("sway")
    clean = (screened.stopped < 0) | (screened.stopped == at_sway)
    with np.errstate(invalid="ignore"):
        return np.asarray(clean & np.isfinite(screened.gain) & (screened.sway <= sway))


def nearest(search: Search, screened: Screened) -> int:
    """Return the candidate that misses its checks by least, among those followed furthest."""
    stage = np.where(np.isfinite(screened.gain), len(RULES), screened.stopped)
    stage = np.where(_wanted(search, screened), stage, -1)
    furthest = stage == stage.max()
    return int(np.argmin(np.where(furthest, screened.miss, np.inf)))
