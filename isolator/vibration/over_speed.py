"""What is heard over print speed, and the speeds to avoid; what dampers do may be added."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import TypedDict

import numpy as np
from numpy.typing import NDArray

from isolator.physics.arrays import Array
from isolator.vibration.cases import Case
from isolator.vibration.compared import Compared, quiet_from
from isolator.vibration.excitation import Excitation, belt_resonances, motor_lines
from isolator.vibration.frame_mode import first_frame_mode
from isolator.vibration.results import AvoidRange, HeardOver, OverSpeed
from isolator.vibration.spreads import ends
from isolator.vibration.verdict import heard_louder


class ToldOver(TypedDict):
    """What an evaluation tells of it."""

    avoid: tuple[AvoidRange, ...]
    heard_over: HeardOver
    works_from: float | None


def over_speed(
    excitation: Excitation, nominal: Case, compared: Compared, speeds: Array
) -> OverSpeed:
    """Return how it is heard on the feet alone at `speeds` (k,) [m/s]."""
    return OverSpeed(
        speed=speeds,
        changes=compared.changes(speeds),
        loudest=compared.loudest,
        lines=motor_lines(excitation.motion, 1.0),
        resonances=tuple(_resonances(excitation, nominal)),
    )


def told_over(
    found: OverSpeed, ceiling: float, least: float, more: Array | float = 0.0
) -> ToldOver:
    """Return what is told of it where it is louder by `more` (n, k) [dB(A)] than on feet alone.

    No more than `ceiling` [dB] is promised, `least` [dB(A)] quieter is asked.
    """
    levels = np.maximum(found.changes + more, -ceiling)
    low, high = ends(levels)
    over = HeardOver(speed=found.speed, low=low, nominal=levels[0], high=high)
    return {
        "avoid": _avoid(found, over),
        "heard_over": over,
        "works_from": quiet_from(over, least),
    }


def _avoid(found: OverSpeed, over: HeardOver) -> tuple[AvoidRange, ...]:
    """Return the speeds at which it may be louder than before, by the rule of the verdicts.

    Neighbouring speeds with one loudest line make one range, named after the resonance nearest to
    the line in its middle.
    """
    hit = heard_louder(over.nominal, over.high)
    if not hit.any():
        return ()
    most = np.full(len(hit), "", dtype=object)
    most[hit] = found.loudest(over.speed[hit])
    ranges: list[AvoidRange] = []
    for source in dict.fromkeys(most[hit]):
        own = most == source
        pitch = found.lines[source] * over.speed
        ranges += _ranges(over.speed, own, source, pitch, found.resonances)
    return tuple(sorted(ranges, key=lambda each: (each.low, each.high)))


def _resonances(excitation: Excitation, nominal: Case) -> list[tuple[str, float]]:
    """Return what a line may meet: modes on the feet, the frame's first, belts with their loads."""
    found = list(zip(nominal.names, np.abs(nominal.modes.frequency[0]).tolist(), strict=True))
    frame = first_frame_mode(nominal.system.case)
    if math.isfinite(frame):
        found.append(("the frame's own mode", frame))
    found += [("the belts' resonance", each) for each in belt_resonances(excitation)]
    return found


def _ranges(
    grid: Array,
    hit: NDArray[np.bool_],
    source: str,
    frequency: Array,
    resonances: Sequence[tuple[str, float]],
) -> list[AvoidRange]:
    edges = np.flatnonzero(np.diff(np.concatenate([[False], hit, [False]]).astype(int)))
    found = []
    for start, stop in zip(edges[::2], edges[1::2], strict=True):
        middle = frequency[(start + stop - 1) // 2]
        name, _ = min(resonances, key=lambda each: abs(math.log(each[1] / middle)))
        found.append(
            AvoidRange(
                low=float(grid[start]),
                high=float(grid[stop - 1]),
                source=source,
                mode=name,
            )
        )
    return found
