"""How the candidates that hold compare: how much quieter they are heard, at the louder end."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from isolator.feet.candidates import CandidateBatch
from isolator.feet.listening import MANY, listening, listening_grid
from isolator.feet.screen import Screened, feet_at, pads_of
from isolator.feet.sized import over_pads
from isolator.feet.task import FeetTask
from isolator.physics.arrays import Array
from isolator.vibration.installation import Installation
from isolator.vibration.printer import MassCase
from isolator.vibration.reversal import quick_tool_sway
from isolator.vibration.stand import Stand
from isolator.vibration.supports import join
from isolator.vibration.system import build, quick_modes

BEST = 2
"""Of one material, outline, number of feet and layers so many get the whole judgement by gain."""
EQUAL_DB = 1.0
"""Candidates so near to the best count as equal [dB(A)]: nobody hears the difference."""
SHORT_PRICE = 3.0
"""What each dB(A) short of the least gain at the worst speed costs in the score; convention, no
source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ranked:
    """n finalists, the best first."""

    index: NDArray[np.intp]  # into the screened candidates
    score: Array  # [dB(A)]
    low: Array  # (n, k) gain at each speed at the louder end, as far as is promised [dB(A)]
    sway: Array  # worst over the band [m]

    def take(self, some: NDArray[np.intp] | NDArray[np.bool_]) -> Ranked:
        """Return the finalists at `some`."""
        return Ranked(**{name: getattr(self, name)[some] for name in self.__slots__})


def score(low: Array, least: float) -> Array:
    """Return the score (n,) of gains `low` (n, k) [dB(A)] at the louder end, at k speeds.

    The mean over the speeds; where a speed does not reach the gain `least`, less a price for it.
    """
    short = np.maximum(least - low.min(axis=1), 0.0)
    return np.asarray(low.mean(axis=1) - SHORT_PRICE * short)


def pick(
    screened: Screened, batches: list[CandidateBatch], passed: NDArray[np.bool_]
) -> NDArray[np.intp]:
    """Return the finalists' indices: of every batch and number of layers the best by gain, and the
    smallest pad within `EQUAL_DB` of the best.

    Each batch has its own, so that more stock never drives out what was there.
    """
    chosen: list[NDArray[np.intp]] = []
    begins = np.searchsorted(screened.batch, np.arange(len(batches) + 1))  # batch lies after batch
    for number, batch in enumerate(batches):
        own = np.flatnonzero(passed[begins[number] : begins[number + 1]]) + begins[number]
        if not len(own):
            continue
        rows = screened.row[own]
        volume = batch.volume[rows]
        for layers in np.unique(batch.layers[rows]):
            some = own[batch.layers[rows] == layers]
            size = volume[batch.layers[rows] == layers]
            gain = screened.gain[some]
            order = np.argsort(-gain, kind="stable")
            near = gain >= gain[order[0]] - EQUAL_DB
            chosen.append(np.append(some[order[:BEST]], some[near][np.argmin(size[near])]))
    return np.unique(np.concatenate(chosen)) if chosen else np.zeros(0, dtype=np.intp)


def rank(
    task: FeetTask,
    installation: Installation,
    batches: list[CandidateBatch],
    screened: Screened,
    finalists: NDArray[np.intp],
    baseline: Stand,
) -> Ranked:
    """Return the finalists by score, against what stood there before.

    Each is listened to at five corners: in the middle of all bands, and soft and stiff with the
    least damping under the heaviest and the lightest printer.
    """
    excitation, printer = installation.excitation, installation.printer
    room = installation.surroundings.room
    if not len(finalists):
        return _none(len(excitation.motion.speeds))
    grid = listening_grid(excitation, MANY)
    corners: list[tuple[str, MassCase]] = [
        ("nominal", printer.nominal),
        ("soft", printer.heavy),
        ("soft", printer.light),
        ("stiff", printer.heavy),
        ("stiff", printer.light),
    ]
    heard = {case.name: listening(installation, baseline, case, grid) for case in printer.cases}
    order: list[NDArray[np.intp]] = []
    found: list[tuple[Array, ...]] = []
    for group in _by_places(batches, screened, finalists):
        gains, reach = [], np.zeros(len(group))
        parts = _parts(batches, screened, group)
        pads = [(pads_of(each), over_pads(task, each)) for each in parts]
        places = parts[0].positions
        for end, case in corners:
            feet = join([feet_at(task, room, each, places, case, end, over) for each, over in pads])
            system = build(feet, case)
            gains.append(heard[case.name].gains(system))
            modes = quick_modes(system)
            reach = np.maximum(
                reach, quick_tool_sway(excitation, system, modes, excitation.motion.speeds)
            )
        order.append(group)
        found.append((np.min(gains, axis=0), reach))
    low, sway = (np.concatenate(each) for each in zip(*found, strict=True))
    gained = score(low, installation.limits.least_gain_db)
    ranked = Ranked(
        index=np.concatenate(order),
        score=gained,
        low=low,
        sway=sway,
    )
    return ranked.take(np.argsort(-gained, kind="stable"))


def _none(speeds: int) -> Ranked:
    flat, wide = np.zeros(0), np.zeros((0, speeds))
    return Ranked(
        index=np.zeros(0, dtype=np.intp),
        score=flat,
        low=wide,
        sway=flat,
    )


def _by_places(
    batches: list[CandidateBatch], screened: Screened, finalists: NDArray[np.intp]
) -> list[NDArray[np.intp]]:
    """Return the finalists grouped by where their feet stand, each group in the batches' order."""
    groups: dict[bytes, list[int]] = {}
    for index in finalists.tolist():
        key = batches[screened.batch[index]].positions.tobytes()
        groups.setdefault(key, []).append(index)
    return [np.array(each, dtype=np.intp) for each in groups.values()]


def _parts(
    batches: list[CandidateBatch], screened: Screened, group: NDArray[np.intp]
) -> list[CandidateBatch]:
    """Return a group batch by batch; indices rise, so batches come in order."""
    return [
        batches[number].take(screened.row[group[screened.batch[group] == number]])
        for number in np.unique(screened.batch[group])
    ]
