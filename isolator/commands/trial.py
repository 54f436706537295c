"""One candidate put under the printer: its feet as they settle, and every check of theirs."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from isolator.cards import Material
from isolator.design import Foot
from isolator.feet.batch import CandidateBatch
from isolator.feet.checks import LEVEL, QUIETER, SLIDING, Bounds
from isolator.feet.foot_checks import final_checks, lean
from isolator.feet.leveling import levelled
from isolator.feet.listening import MANY, listening_grid
from isolator.feet.ready import ready_foot
from isolator.feet.screen import Screened
from isolator.feet.sizing import foot_of
from isolator.feet.task import FeetTask
from isolator.vibration.band import Check, failed
from isolator.vibration.compared import least_gain, quick_comparison
from isolator.vibration.evaluation import held
from isolator.vibration.installation import Installation
from isolator.vibration.results import Heard, Held
from isolator.vibration.stand import Stand, feet_stand
from isolator.vibration.targets import slowest_limit


@dataclass(frozen=True, slots=True, kw_only=True)
class ChosenFeet:
    """The feet that were chosen, or the nearest where none hold."""

    feet: tuple[Foot, ...]  # of one kind, or of several that keep the printer level
    held: Held
    checks: tuple[Check, ...]
    index: int  # into the screened candidates


@dataclass(frozen=True, slots=True, kw_only=True)
class Search:
    """What is searched: for which printer, among which feet, against what stood there before."""

    task: FeetTask
    installation: Installation
    offered: list[CandidateBatch]
    baseline: Stand
    prefer: str = ""  # the only kind of feet wanted; empty: any


def place_of(search: Search, screened: Screened, index: int) -> tuple[CandidateBatch, int]:
    """Return the batch and the row of a screened candidate."""
    return search.offered[screened.batch[index]], int(screened.row[index])


def tried(search: Search, screened: Screened, index: int) -> ChosenFeet:
    """Return one candidate as it stands, and its checks."""
    task, installation = search.task, search.installation
    batch, row = place_of(search, screened, index)
    motion = installation.excitation.motion
    bounds = Bounds(task=task, limits=installation.limits, modes=slowest_limit(motion))

    def judged(feet: tuple[Foot, ...]) -> ChosenFeet:
        if task.feet.tread is None and any(foot.tread > 0 for foot in feet):
            bare = settled(tuple(replace(foot, tread=0.0) for foot in feet))
            if all(check.passed for check in bare.checks if check.name == SLIDING):
                return bare
        return settled(feet)

    def settled(feet: tuple[Foot, ...]) -> ChosenFeet:
        feet, stands = _stood(feet, installation, batch.material)
        checks = final_checks(bounds, motion, stands, feet, batch.material)
        return ChosenFeet(feet=feet, held=stands, checks=checks, index=index)

    foot = candidate_foot(task, batch, row)
    equal = judged((foot,))
    if not _wants_level(task.feet.pads, equal.held):
        return equal
    level = judged(levelled(task, foot, batch.material, installation.printer.nominal))
    worse = len(failing(level.checks)) > len(failing(equal.checks))
    return equal if task.feet.pads == "auto" and worse else level


def candidate_foot(task: FeetTask, batch: CandidateBatch, row: int) -> Foot:
    """Return one candidate as a drawing sheet; its sag is not known yet."""
    if batch.ends:
        return ready_foot(task, batch, row)
    return foot_of(
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


def candidate_stand(search: Search, screened: Screened, index: int) -> Stand:
    """Return one screened candidate as it stands under the printer."""
    batch, row = place_of(search, screened, index)
    foot = candidate_foot(search.task, batch, row)
    return feet_stand(search.installation.surroundings.room, (foot,), batch.material)


def _stood(
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


def judged(
    search: Search, feet: tuple[Foot, ...], material: Material
) -> tuple[tuple[Heard, ...], tuple[str, ...]]:
    """Return how feet are heard at each speed, and the names of all checks that they fail."""
    installation, limits = search.installation, search.installation.limits
    stand = feet_stand(installation.surroundings.room, feet, material)
    grid = listening_grid(installation.excitation, MANY)
    heard = quick_comparison(installation, search.baseline, grid)(stand)
    loud = bool(heard) and least_gain(heard) < limits.least_gain_db
    return heard, (*fails(search, feet, material), *((QUIETER,) if loud else ()))


def fails(search: Search, feet: tuple[Foot, ...], material: Material) -> tuple[str, ...]:
    """Return the names of the checks that feet fail, but for what is heard."""
    installation = search.installation
    motion = installation.excitation.motion
    stand = feet_stand(installation.surroundings.room, feet, material)
    bounds = Bounds(task=search.task, limits=installation.limits, modes=slowest_limit(motion))
    stands = held(installation, stand, motion.speeds)
    return failing(final_checks(bounds, motion, stands, feet, material))


def failing(checks: tuple[Check, ...]) -> tuple[str, ...]:
    """Return the names of the checks that bind and do not hold."""
    return tuple(check.name for check in failed(checks))


def missed(choice: ChosenFeet) -> float:
    """Return by how much a choice misses its checks, as the sum of fractions of their limits."""
    return sum(
        abs(check.value - check.limit) / max(abs(check.limit), 1e-12)
        for check in failed(choice.checks)
    )
