"""One set of feet against another by what is heard: at the speeds asked for and over all speeds."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

import numpy as np

from isolator.physics.arrays import Array
from isolator.vibration.desk import stood_on
from isolator.vibration.excitation import MOTOR_SOURCES, Excitation
from isolator.vibration.heard import (
    FULL,
    UNCHANGED,
    desk_ear,
    louder,
    promised_change,
    sound,
    strengths,
    works_from,
)
from isolator.vibration.installation import Installation
from isolator.vibration.lines import tone_weights
from isolator.vibration.results import Evaluation, Heard, HeardOver
from isolator.vibration.sampled import sampled
from isolator.vibration.spectrum import way_out
from isolator.vibration.spreads import draw
from isolator.vibration.stand import Stand


@dataclass(frozen=True, slots=True, kw_only=True)
class Compared:
    """What leaves through the feet in c samples, the nominal one first, before and after."""

    excitation: Excitation
    grid: Array  # (f,) [Hz]
    before: Array  # (c, f, m) for 1 N·m at each motor
    after: Array  # (c, f, m)
    ear: Array  # (f,) what a unit of either counts
    strong: Array  # (c, l) factors on the lines' energies
    ceiling: float  # no more than this is promised [dB]

    def changes(self, speeds: Sequence[float] | Array) -> Array:
        """Return by how much it is louder (c, k) [dB(A)] at `speeds` (k,) [m/s]."""
        weights = tone_weights(self.excitation, self.grid, speeds)
        both = (sound(each, self.ear, weights, self.strong) for each in (self.before, self.after))
        return louder(*both)

    def heard(self, speeds: Sequence[float]) -> tuple[Heard, ...]:
        """Return how much louder it is at each of `speeds` [m/s] on each way out."""
        levels = self.changes(speeds)
        return tuple(
            Heard(desk=promised_change(levels[:, at], self.ceiling), frame=UNCHANGED)
            for at in range(len(speeds))
        )

    def loudest(self, speeds: Sequence[float] | Array) -> list[str]:
        """Return the line that is heard most at each of `speeds` [m/s], nominally, after."""
        weights = tone_weights(self.excitation, self.grid, speeds)
        lines = np.tensordot(self.after[0] * self.ear[:, None], weights, axes=2)
        return [MOTOR_SOURCES[at] for at in lines.argmax(axis=-1)]


def quiet_from(over: HeardOver, least: float) -> float | None:
    """Return the speed [m/s] from which on it is quieter by `least` [dB(A)], None if at none."""
    return works_from(over.speed, over.high, least)


def least_gain(heard: Sequence[Heard]) -> float:
    """Return by how much it is quieter at the speed where least, at the louder end [dB(A)]."""
    # rounding of sums is no loss
    worst = min(-each.desk.high for each in heard)
    return 0.0 if abs(worst) < FULL else worst


QUICK = 64
"""Samples for feet that are not chosen, but told beside the chosen ones."""


def quick_comparison(
    installation: Installation, baseline: Stand, grid: Array
) -> Callable[[Stand], tuple[Heard, ...]]:
    """Return what tells how much louder than on `baseline` the printer is heard on any stand.

    At the speeds of the brief, over few samples and at the frequencies `grid` (f,) [Hz]; the
    baseline is worked out once.
    """
    printer, excitation = installation.printer, installation.excitation
    samples, desk = draw(printer.extras, QUICK), stood_on(installation.surroundings.desk)
    soft = desk if desk.material else None
    stood = sampled(baseline, printer, excitation, samples, "now")
    before = way_out(stood, soft, grid)
    lent = stood if baseline.printer is None else None

    def heard(stand: Stand) -> tuple[Heard, ...]:
        found = sampled(stand, printer, excitation, samples, "feet", like=lent)
        compared = Compared(
            excitation=excitation,
            grid=grid,
            before=before,
            after=way_out(found, soft, grid),
            ear=desk_ear(desk, grid),
            strong=strengths(excitation, samples),
            ceiling=installation.limits.promise_ceiling_db,
        )
        return compared.heard(excitation.motion.speeds)

    return heard


def uncompared(found: Evaluation) -> Evaluation:
    """Return what is told of feet with nothing in it that compares them with others."""
    bare = [replace(each, heard=None, verdict="neutral") for each in found.speeds]
    return replace(
        found,
        speeds=tuple(bare),
        baseline="",
        avoid=(),
        heard_over=None,
        over_speed=None,
        works_from=None,
        changes=None,
    )
