"""The damper that motors are heard least on, of all that hold; equal motors share it.

Heard on both ways out, over all print speeds and all directions of a move, the louder end of the
band deciding. Among those that sound alike, the one in one piece is taken, then one without a
wedge, then the lowest stack.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from isolator.cards import Material
from isolator.motors.belt_load import RULES, ends_of, loaded, stopped_by
from isolator.motors.belt_ring import ring_left
from isolator.motors.both_ways import FASTEST, USUAL, Comparison, Kept, least_left, rows_of
from isolator.motors.bought import bought_batches
from isolator.motors.bracket import bracket_weights, quick_changes
from isolator.motors.candidates import damper_batches
from isolator.motors.mount import Shared
from isolator.motors.plates import plates_under
from isolator.motors.sampled import Drawn
from isolator.motors.task import MotorTask
from isolator.vibration.drives import BELT_LOSS
from isolator.vibration.spectrum import grid_for
from isolator.vibration.spreads import ends

RING = "what it leaves of the belt's resonance"
"""What stops a bought damper that holds standing still, besides `RULES`."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DamperChoice:
    """What the search for the damper of equal motors gave."""

    ranked: tuple[Shared, ...]  # the best first, of those looked at closely; none where none holds
    keenest: Shared | None  # the one that takes most where it takes something
    tried: int
    stopped: dict[str, int]  # rule → how many it stopped
    lowest: float = math.inf  # stack of any that was tried, without a wedge [m]
    declined: tuple[tuple[str, str], ...] = ()  # bought ones not compared: what stops them


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """What a motor's place allows."""

    tallest: float  # stack that its shaft allows [m]
    warm: float  # that its rubber may get [°C]


def choose(
    task: MotorTask,
    places: Mapping[int, Place],
    cards: dict[str, Material],
    drawn: Drawn,
) -> DamperChoice:
    """Return the dampers for motors that share one, best first.

    `places` of the motors, by index into the task's `belts`. All dampers are compared at both ends
    of their rubber's stiffness, and the first few over samples of everything.
    """
    motors = {index: task.belts[index][1] for index in places}
    first = next(iter(motors.values()))
    warm = max(place.warm for place in places.values())
    batches = bought_batches(task.stock, first)
    if not first.mount:
        compensation = task.print.hole_compensation
        batches += damper_batches(task.stock, first.frame_size, compensation, cards)
    tried, stopped, lowest = 0, Counter[str](), math.inf
    kept: list[Kept] = []
    declined: list[tuple[str, str]] = []
    speeds = np.array([*task.motion.speeds, *USUAL])
    loss = min([BELT_LOSS, *(batch.material.loss_factor.value for batch in batches)])
    grid = grid_for(task.excitation, [*speeds, FASTEST], loss)
    weights = {index: bracket_weights(task, index, grid, speeds) for index in places}
    for batch in batches:
        plates = plates_under(task.stock, first.frame_size, task.print.layer, batch)
        lowest = min(lowest, plates.motor + plates.frame + float(batch.rubber.min()))
        stiff = ends_of(task.room, batch, warm)
        found = {index: loaded(task, motors[index], batch, plates, stiff) for index in places}
        codes = np.stack(
            [
                stopped_by(task, motors[index], batch, each, places[index].tallest)
                for index, each in found.items()
            ]
        ).max(axis=0)
        tried += len(batch)
        stopped.update(RULES[code] for code in codes[codes >= 0])
        if batch.bought is not None and codes[0] >= 0:
            declined.append((batch.bought.name, RULES[codes[0]]))
        rows = np.flatnonzero(codes < 0)
        if not len(rows):
            continue
        some, rubber = batch.take(rows), drawn.rubber(batch.material, task.room, warm)
        under = {index: rows_of(each, rows) for index, each in found.items()}
        low, high = (float(each) for each in ends(rubber.static * rubber.dynamic))
        louder = np.stack(
            [
                quick_changes(task, index, some, (low, high), grid, weights[index])
                for index in places
            ]
        )
        left = [ring_left(task, motors[i], some, plates, each.stack) for i, each in under.items()]
        kept.append(
            Kept(
                offered=some,
                loaded=tuple(under.values()),
                plates=plates,
                left=np.min(left, axis=0),
                rubber=rubber,
                low=-louder.max(axis=(0, 1)),
            )
        )
    if not kept:
        return DamperChoice(
            ranked=(),
            keenest=None,
            tried=tried,
            stopped=dict(stopped),
            lowest=lowest,
            declined=tuple(declined),
        )
    least = least_left(task, kept)
    declined += [
        (each.offered.bought.name, RING)
        for each in kept
        if each.offered.bought is not None and float(each.left.max()) < least - 1e-9
    ]
    compared = Comparison(task, tuple(places), drawn, grid)
    ranked, keenest = compared.judged(kept)
    return DamperChoice(
        ranked=ranked,
        keenest=keenest,
        tried=tried,
        stopped=dict(stopped),
        lowest=lowest,
        declined=tuple(declined),
    )
