"""Which of the candidates that hold is best, judged at the bad end of its band."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from isolator.brief import Limits, Room
from isolator.feet.candidates import CandidateBatch
from isolator.feet.screen import Screened, feet_at, pads_of
from isolator.feet.task import FeetTask
from isolator.physics.arrays import Array
from isolator.vibration.excitation import DIRECTIONS, Excitation, Tone, motor_tones
from isolator.vibration.installation import Installation
from isolator.vibration.isolation import losses
from isolator.vibration.printer import MassCase
from isolator.vibration.reversal import worst_tool_sway
from isolator.vibration.supports import FeetBatch, join
from isolator.vibration.system import build, quick_modes
from isolator.vibration.verdict import judged

FINALISTS = 48
"""Best of the screen that get the whole judgement, besides the best of each material."""
SWAY_PRICE_DB = 3.0
"""What a whole sway limit's worth of sway costs in the score; convention, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ranked:
    """Finalists, best first."""

    index: NDArray[np.intp]  # into the screened candidates
    score: Array  # [dB]
    quiet: Array  # mean loss of the drone lines at the low end of the band, capped [dB]
    sway: Array  # worst over the band [m]


def cheap_score(limits: Limits, screened: Screened) -> Array:
    """Return the score (n,) that picks finalists: nominal, one line, NaN where stopped early."""
    quiet = np.minimum(screened.quiet, limits.promise_ceiling_db)
    return quiet - SWAY_PRICE_DB * screened.sway / limits.sway


def pick(
    limits: Limits, screened: Screened, batches: list[CandidateBatch], passed: NDArray[np.bool_]
) -> NDArray[np.intp]:
    """Return the finalists' indices: the best of all and the best of each material."""
    score = np.where(passed, cheap_score(limits, screened), -np.inf)
    order = np.argsort(-score, kind="stable")[: int(passed.sum())]
    chosen = list(order[:FINALISTS])
    seen: set[str] = set()
    for index in order:
        ident = batches[screened.batch[index]].material.id
        if ident not in seen:
            seen.add(ident)
            chosen.append(index)
    return np.unique(np.array(chosen, dtype=np.intp))


def judged_tones(excitation: Excitation) -> list[Tone]:
    """Return every tone that counts, at the speeds asked about, in all directions."""
    speeds = np.array(excitation.motion.speeds)
    return [
        tone
        for direction in DIRECTIONS
        for tone in motor_tones(excitation, speeds, direction)
        if judged(tone.source) and tone.source != "microstep"
    ]


def rank(
    task: FeetTask,
    installation: Installation,
    batches: list[CandidateBatch],
    screened: Screened,
    finalists: NDArray[np.intp],
) -> Ranked:
    """Return the finalists by score: loss at the low end of the band, capped at the ceiling, less
    a price for sway.

    Beyond the ceiling nothing is gained, so of two that both reach it the one that sways less wins.
    """
    excitation, printer = installation.excitation, installation.printer
    room, limits = installation.surroundings.room, installation.limits
    tones = judged_tones(excitation)
    corners: list[tuple[str, MassCase]] = [
        ("nominal", printer.nominal),
        ("soft", printer.heavy),
        ("soft", printer.light),
        ("stiff", printer.heavy),
        ("stiff", printer.light),
    ]
    order: list[NDArray[np.intp]] = []
    quiet: list[Array] = []
    swayed: list[Array] = []
    for group in _by_feet(batches, screened, finalists):
        worst = np.full((len(group), sum(len(tone.frequency) for tone in tones)), np.inf)
        reach = np.zeros(len(group))
        for end, case in corners:
            system = build(_feet(task, room, batches, screened, group, case, end), case)
            worst = np.minimum(worst, losses(system, tones, 0.0).insertion_loss)
            reach = np.maximum(
                reach,
                worst_tool_sway(excitation, system, quick_modes(system), excitation.motion.speeds),
            )
        order.append(group)
        quiet.append(np.minimum(worst, limits.promise_ceiling_db).mean(axis=1))
        swayed.append(reach)
    index = np.concatenate(order)
    loss, farthest = np.concatenate(quiet), np.concatenate(swayed)
    score = loss - SWAY_PRICE_DB * farthest / limits.sway
    best = np.argsort(-score, kind="stable")
    return Ranked(index=index[best], score=score[best], quiet=loss[best], sway=farthest[best])


def _by_feet(
    batches: list[CandidateBatch], screened: Screened, finalists: NDArray[np.intp]
) -> list[NDArray[np.intp]]:
    """Return the finalists grouped by how many feet they have, each group in the batches' order."""
    counts = np.array([len(batches[screened.batch[index]].positions) for index in finalists])
    return [finalists[counts == count] for count in np.unique(counts)]


def _feet(
    task: FeetTask,
    room: Room,
    batches: list[CandidateBatch],
    screened: Screened,
    group: NDArray[np.intp],
    case: MassCase,
    end: str,
) -> FeetBatch:
    """Return a group's feet as one batch; indices rise, so batches come in order."""
    parts = []
    for number in np.unique(screened.batch[group]):
        rows = screened.row[group[screened.batch[group] == number]]
        batch = batches[number]
        parts.append(feet_at(task, room, pads_of(batch.take(rows)), batch.positions, case, end))
    return join(parts)
