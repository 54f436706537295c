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
from isolator.vibration.directions import LARGEST_STEP, STEPS_A_WIDTH
from isolator.vibration.excitation import Excitation
from isolator.vibration.installation import Installation
from isolator.vibration.isolation import floor_energy, rigid_energy
from isolator.vibration.lines import line_weights, mean_loss
from isolator.vibration.printer import MassCase
from isolator.vibration.promise import bending_source, promised
from isolator.vibration.reversal import quick_tool_sway
from isolator.vibration.source import motor_source
from isolator.vibration.spectrum import grid_for
from isolator.vibration.supports import FeetBatch, join
from isolator.vibration.system import build, quick_modes
from isolator.vibration.verdict import LISTENED

FINALISTS = 48
"""Best of the screen that get the whole judgement, besides the best of each material."""
SWAY_PRICE_DB = 3.0
"""What a whole sway limit's worth of sway costs in the score; convention, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ranked:
    """Finalists, best first."""

    index: NDArray[np.intp]  # into the screened candidates
    score: Array  # [dB]
    quiet: Array  # mean loss of the judged lines at the low end of the band, capped [dB]
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


def ranking_grid(excitation: Excitation) -> Array:
    """Return the frequencies (f,) [Hz] at which finalists are compared, coarser than told."""
    return grid_for(excitation, excitation.motion.speeds, LARGEST_STEP * STEPS_A_WIDTH)


def judged_weights(excitation: Excitation, grid: Array) -> Array:
    """Return weights (f, m, l) of every line that counts, at the speeds asked about."""
    motion = excitation.motion
    return np.stack(
        [
            line_weights(excitation, grid, source, speed, motion.infill_angles)
            for speed in motion.speeds
            for source in ("belt tooth", *LISTENED)
        ],
        axis=-1,
    )


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
    grid = ranking_grid(excitation)
    weights = judged_weights(excitation, grid)
    corners: list[tuple[str, MassCase]] = [
        ("nominal", printer.nominal),
        ("soft", printer.heavy),
        ("soft", printer.light),
        ("stiff", printer.heavy),
        ("stiff", printer.light),
    ]
    sources = {case.name: motor_source(excitation, case, grid) for _, case in corners}
    bending = bending_source(excitation, printer.nominal)
    order: list[NDArray[np.intp]] = []
    quiet: list[Array] = []
    swayed: list[Array] = []
    for group in _by_feet(batches, screened, finalists):
        worst = np.full((len(group), weights.shape[-1]), np.inf)
        reach, most = np.zeros(len(group)), np.full(len(group), np.inf)
        for end, case in corners:
            system = build(_feet(task, room, batches, screened, group, case, end), case)
            source = sources[case.name]
            before, after = rigid_energy(system, source), floor_energy(system, source)
            worst = np.minimum(worst, mean_loss(before, after, weights))
            if end == "nominal":
                most = promised(system, bending, limits.promise_ceiling_db)
            reach = np.maximum(
                reach,
                quick_tool_sway(excitation, system, quick_modes(system), excitation.motion.speeds),
            )
        order.append(group)
        quiet.append(np.minimum(worst, most[:, None]).mean(axis=1))
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
