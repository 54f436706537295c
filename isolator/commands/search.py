"""The search: candidates go in, the best feet that hold every check come out."""

from __future__ import annotations

import time
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from isolator.cards import Material
from isolator.commands.progress import Progress
from isolator.commands.tally import cloud_of, slow_reason, tally_of
from isolator.design import Foot
from isolator.feet.candidates import CandidateBatch, candidates
from isolator.feet.checks import LEVEL, RULES, Bounds
from isolator.feet.foot_checks import final_checks, lean
from isolator.feet.leveling import levelled
from isolator.feet.ranking import pick, rank
from isolator.feet.screen import ModeLimit, Screened, screen
from isolator.feet.sizing import foot_of
from isolator.feet.task import FeetTask
from isolator.physics.rubber.section import LARGEST_SHAPE, LEAST_SHAPE
from isolator.reading.faults import refused
from isolator.report.findings import Cloud, Tally, TooSlow
from isolator.vibration.band import Check
from isolator.vibration.evaluation import held
from isolator.vibration.installation import Installation
from isolator.vibration.results import Held
from isolator.vibration.stand import feet_stand
from isolator.vibration.targets import electrical_line, mode_limit

TRIES = 12
"""Ranked candidates that are looked at with the nonlinear equilibrium before giving up."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ChosenFeet:
    """The feet that were chosen, or the nearest where none hold."""

    feet: tuple[Foot, ...]  # of one kind, or of several that keep the printer level
    held: Held
    checks: tuple[Check, ...]
    index: int  # into the screened candidates
    speed: float  # from which the modes were asked to lie below the motors [m/s]


@dataclass(frozen=True, slots=True, kw_only=True)
class Search:
    """What is searched: for which printer, among which feet."""

    task: FeetTask
    installation: Installation
    offered: list[CandidateBatch]


@dataclass(frozen=True, slots=True, kw_only=True)
class FoundFeet:
    """What a search gave."""

    choice: ChosenFeet
    slow: TooSlow | None  # why the slowest speed is not isolated, None where it is
    tally: Tally
    cloud: Cloud


def best_feet(
    task: FeetTask,
    installation: Installation,
    offered: list[CandidateBatch],
    progress: Progress,
) -> FoundFeet:
    """Return the feet that quieten a printer best within its limits.

    Every candidate is screened; the best are judged over their whole band; the first that holds
    every check with each pad at its own load wins. If no foot brings every mode below the
    electrical line of the slowest speed, the same is asked of the next faster speed. If none holds
    at any speed the nearest is returned with the checks that it fails.
    """
    # loaded here, before the clock starts: the search is timed, not the libraries' start-up
    import scipy.interpolate
    import scipy.special  # noqa: F401

    start, motion = time.perf_counter(), installation.excitation.motion
    search = Search(task=task, installation=installation, offered=offered)
    screened, choice, passed = _search(search, progress)
    seconds = time.perf_counter() - start
    limit = mode_limit(electrical_line(motion, choice.speed))
    return FoundFeet(
        choice=choice,
        slow=slow_reason(motion, screened, choice.speed),
        tally=tally_of(screened, passed, limit, seconds),
        cloud=cloud_of(offered, screened, passed, choice.index),
    )


def offered_feet(task: FeetTask, cards: dict[str, Material], file: str) -> list[CandidateBatch]:
    """Return all candidates, at least one; raises InputError where the stock makes no pad."""
    offered = candidates(task, cards)
    if not offered:
        raise refused(
            file,
            "stock",
            "no pad between flat and slender",
            f"shape factors from {LEAST_SHAPE:g} to {LARGEST_SHAPE:g}",
            "offer other widths, thicknesses or more layers",
        )
    return offered


def _search(search: Search, progress: Progress) -> tuple[Screened, ChosenFeet, NDArray[np.bool_]]:
    """Return the screen, the choice and which candidates passed with it.

    Most briefs are answered at one of their two slowest speeds: only feet soft enough for these
    are followed at first, and all the others only where that gives nothing.
    """
    offered, motion = search.offered, search.installation.excitation.motion
    total, speeds = sum(map(len, offered)), sorted(motion.speeds)
    asked = mode_limit(electrical_line(motion, speeds[0]))
    for count in sorted({min(2, len(speeds)), len(speeds)}):
        limit = ModeLimit(
            asked=asked, loosest=mode_limit(electrical_line(motion, speeds[count - 1]))
        )
        screened = screen(
            search.task,
            search.installation,
            offered,
            limit,
            lambda done: progress("screening feet", done, total),
        )
        choice, passed = _choose(search, screened, speeds[:count])
        if passed.any():
            break
    return screened, choice, passed


def _choose(
    search: Search, screened: Screened, speeds: list[float]
) -> tuple[ChosenFeet, NDArray[np.bool_]]:
    """Return the choice and which candidates passed with it, none where it is the nearest."""
    installation, offered = search.installation, search.offered
    motion, limits = installation.excitation.motion, installation.limits
    best: ChosenFeet | None = None
    for speed in speeds:
        # what only the modes had stopped is let through up to the new limit
        passed = allowed(screened, mode_limit(electrical_line(motion, speed)))
        if not passed.any():
            continue
        finalists = pick(limits, screened, offered, passed)
        ranked = rank(search.task, installation, offered, screened, finalists)
        for index in ranked.index[:TRIES]:
            choice = _try(search, screened, int(index), speed)
            if all(check.passed for check in choice.checks):
                return choice, passed
            if best is None or missed(choice) < missed(best):
                best = choice
    if best is None:
        best = _try(search, screened, nearest(screened), speeds[0])
    return best, np.zeros(len(screened.row), dtype=bool)


def allowed(screened: Screened, limit: float) -> NDArray[np.bool_]:
    """Return which candidates hold every check with the modes below `limit` [Hz]."""
    return (screened.other < 0) & np.isfinite(screened.sway) & (screened.highest <= limit)


def missed(choice: ChosenFeet) -> float:
    """Return by how much a choice misses its checks, as the sum of fractions of their limits."""
    return sum(
        abs(check.value - check.limit) / max(abs(check.limit), 1e-12)
        for check in choice.checks
        if not check.passed
    )


def nearest(screened: Screened) -> int:
    """Return the candidate that misses its checks by least, among those followed furthest."""
    followed = np.isfinite(screened.sway)
    stage = np.where(followed, len(RULES), screened.stopped)
    furthest = stage == stage.max()
    return int(np.argmin(np.where(furthest, screened.miss, np.inf)))


def _try(search: Search, screened: Screened, index: int, speed: float) -> ChosenFeet:
    """Return one candidate as it stands, and its checks."""
    task, installation = search.task, search.installation
    batch, row = search.offered[screened.batch[index]], int(screened.row[index])
    limit = mode_limit(electrical_line(installation.excitation.motion, speed))
    bounds = Bounds(task=task, limits=installation.limits, modes=limit)

    def judged(feet: tuple[Foot, ...]) -> ChosenFeet:
        feet, stands = _settled(feet, installation, batch.material)
        motion = installation.excitation.motion
        checks = final_checks(bounds, motion, stands, feet, batch.material)
        return ChosenFeet(feet=feet, held=stands, checks=checks, index=index, speed=speed)

    foot = foot_of(
        task,
        batch.material,
        batch.shape,
        float(batch.first[row]),
        float(batch.second[row]),
        float(batch.thickness[row]),
        int(batch.layers[row]),
        tuple((float(x), float(y)) for x, y in batch.positions),
        0.0,
    )
    equal = judged((foot,))
    if not _wants_level(task.feet.pads, equal.held):
        return equal
    level = judged(levelled(task, foot, batch.material, installation.printer.nominal))
    worse = _failed(level.checks) > _failed(equal.checks)
    return equal if task.feet.pads == "auto" and worse else level


def _settled(
    feet: tuple[Foot, ...], installation: Installation, material: Material
) -> tuple[tuple[Foot, ...], Held]:
    """Return feet with their mean sag, and how the printer stands on them."""
    stand = feet_stand(installation.surroundings.room, feet, material)
    found = held(installation, stand, installation.excitation.motion.speeds)
    sags = iter([state.sag for state in found.feet])
    return tuple(
        replace(foot, sag=float(np.mean([next(sags) for _ in foot.positions]))) for foot in feet
    ), found


def _wants_level(pads: str, equal: Held) -> bool:
    """Return whether each foot is to get a pad of its own."""
    if pads != "auto":
        return pads == "level"
    return lean(equal) > LEVEL / 2.0


def _failed(checks: tuple[Check, ...]) -> int:
    return sum(not check.passed for check in checks)
