"""A recording over speed and frequency: ridges that follow the speed, and what stands still."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import NamedTuple

import numpy as np

from isolator.brief import Motion
from isolator.measuring.energies import Key, Take
from isolator.measuring.steps import Moved, lines_of
from isolator.measuring.tones import belts_of
from isolator.physics.arrays import Array
from isolator.vibration.excitation import motor_lines

PLAIN_DB = 6.0
"""A ridge stands so far over the room in most of the steps that it runs through."""
MOST = 30.0
"""Per cent of the steps of a ridge in which it may be weaker."""
FEWEST, SHARE = 3, 0.3
"""Steps that a ridge runs through, and their share of all."""
BESIDE = 12
"""Lines of the spectrum either way that a ridge stands out of."""
LEAST_RANGE = 1.3
"""Of speeds: in fewer nothing can be seen to follow them."""
BESIDE_DB = 4.0
"""A ridge stands so far over orders beside it."""
SAME = 0.02
"""Orders no further apart are one, and a known line's."""
REACH = 3
"""Lines of the spectrum either way that a ridge takes from orders that cross it."""
LIMIT = 60_000
"""Orders that are tried."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Map:
    """Mean spectra of all steps on one grid, over the room's."""

    frequency: Array  # (f,) [Hz]
    keys: tuple[Key, ...]
    factors: tuple[tuple[float, ...], ...]  # of the belts that run in each step
    over: Array  # (s, f) [dB] over the room; over the quietest step where no pause is long enough
    stands: Array  # (s, f) [dB] over the room and over what lies beside, whichever is louder
    energy: Array  # (s, f) what each line of the spectrum counts, the room's taken off


class Ridge(NamedTuple):
    """What follows the speed."""

    order: float  # cycles a metre of belt [1/m]
    source: str  # the motors' line that it is; empty: none of them
    over: float  # median over the room and what lies beside [dB]
    steps: int  # that it stands out in
    energy: float  # of all steps


def map_of(own: Take, motion: Motion) -> Map:
    """Return mean spectra of all steps; raises ValueError where there are none."""
    from scipy.ndimage import median_filter

    steps: dict[Key, list[Moved]] = {}
    for each in own.steps:
        steps.setdefault((each.step.speed, each.step.direction_deg), []).append(each)
    if not steps:
        raise ValueError("no steps")
    fine = min(each.found.step for each in own.steps)
    low, high = own.band
    grid = np.arange(np.ceil(low / fine), np.floor(high / fine) + 1) * fine
    loud = np.array([_mean(grid, each) for each in steps.values()])
    lengths = {each[0].length for each in steps.values()}
    rooms = [room for length in sorted(lengths) if (room := own.room(length)) is not None]
    if rooms:
        last = rooms[-1]
        quiet = np.interp(grid, lines_of(last), last.density.mean(axis=0))
    else:
        quiet = loud.min(axis=0)
    quiet = np.maximum(quiet, 1e-12 * loud.max())
    weight = own.weight(own.steps[0].found)
    counts = np.interp(grid, lines_of(own.steps[0].found), weight) * fine
    over = 10.0 * np.log10(np.maximum(loud / quiet, 1e-3))
    beside = np.maximum(median_filter(over, (1, 2 * BESIDE + 1), mode="nearest"), 0.0)
    return Map(
        frequency=np.asarray(grid, dtype=float),
        keys=tuple(steps),
        factors=tuple(belts_of(motion, direction) for _, direction in steps),
        over=over,
        stands=over - beside,
        energy=np.maximum(loud - quiet, 0.0) * counts,
    )


def _mean(grid: Array, steps: Sequence[Moved]) -> Array:
    each = [np.interp(grid, lines_of(one.found), one.found.density.mean(axis=0)) for one in steps]
    return np.asarray(np.mean(each, axis=0))


def ridges(found: Map, motion: Motion) -> tuple[Ridge, ...]:
    """Return what follows the speed, the strongest first.

    An order is tried over all steps that it runs through: at the frequency of the belt that it is
    loudest for. Where a direction runs two belts either may make it.
    """
    speeds = np.array([speed for speed, _ in found.keys])
    if speeds.max() < LEAST_RANGE * speeds.min():
        return ()
    step = found.frequency[1] - found.frequency[0]
    top = max(max(each) for each in found.factors)
    fine = step / (2.0 * speeds.max() * top)
    first, last = found.frequency[0] / speeds.max(), found.frequency[-1] / speeds.min()
    orders = np.arange(first, last, max(fine, (last - first) / LIMIT))
    levels = _along(found, orders)
    score = _score(levels)
    wide = max(1, round(2.0 * step / (speeds.min() * fine * top)))
    tops = []
    for at in _tops(score, wide):
        near = score[max(0, at - 4 * wide) : at + 4 * wide + 1]
        if score[at] >= np.nanmedian(near) + BESIDE_DB:
            # at the fastest step a line of the spectrum is this wide
            tops.append(_named(motion, float(orders[at]), float(step / (speeds.max() * top))))
    # the motors' own lines first: what they make on one belt may look like an order of the other
    tops.sort(key=lambda each: not each[0])
    stands, told = found.stands.copy(), []
    for source, order in tops:
        own = _along(replace(found, stands=stands), np.array([order]))
        if _score(own)[0] >= PLAIN_DB:
            told.append(_ridge(found, source, order, own[0]))
            for row, lines in _filled(found, order, REACH):
                stands[row, lines] = 0.0
    return tuple(sorted(told, key=lambda each: -each.energy))


def _along(found: Map, orders: Array) -> Array:
    """Return how far orders (k,) stand out in every step (k, s) [dB]; NaN outside the band."""
    out = np.full((len(orders), len(found.keys)), np.nan)
    step, count = found.frequency[1] - found.frequency[0], len(found.frequency)
    for row, (speed, _) in enumerate(found.keys):
        for factor in found.factors[row]:
            at = np.round((orders * speed * factor - found.frequency[0]) / step).astype(int)
            inside = (at >= 0) & (at < count)
            out[inside, row] = np.fmax(out[inside, row], found.stands[row, at[inside]])
    return out


def place(found: Map, frequency: Array) -> np.ndarray:
    """Return which lines of the spectrum frequencies [Hz] lie in, those that the band holds."""
    step = found.frequency[1] - found.frequency[0]
    at = np.round((frequency - found.frequency[0]) / step).astype(int)
    return np.asarray(at[(at >= 0) & (at < len(found.frequency))])


def _score(levels: Array) -> Array:
    """Return the level (k,) that orders hold in most of their steps; low where they have few."""
    enough = np.isfinite(levels).sum(axis=1) >= max(FEWEST, SHARE * levels.shape[1])
    out = np.full(len(levels), -99.0)
    if enough.any():
        out[enough] = np.nanpercentile(levels[enough], MOST, axis=1)
    return out


def _tops(score: Array, wide: int) -> list[int]:
    """Return where a curve is higher than anywhere else within `wide` either way, highest first."""
    from scipy.ndimage import maximum_filter1d

    tops = np.flatnonzero((score == maximum_filter1d(score, 2 * wide + 1)) & (score >= PLAIN_DB))
    return sorted((int(each) for each in tops), key=lambda at: -score[at])


def _ridge(found: Map, source: str, order: float, levels: Array) -> Ridge:
    energy = sum(float(found.energy[row, at].sum()) for row, at in _filled(found, order, 1))
    stands = int(np.count_nonzero(np.nan_to_num(levels, nan=-99.0) >= PLAIN_DB))
    return Ridge(order, source, float(np.nanmedian(levels)), stands, energy)


def _filled(found: Map, order: float, reach: int) -> Iterator[tuple[int, np.ndarray]]:
    """Yield every step's row and the lines of the spectrum that an order fills, each once."""
    for row, ((speed, _), factors) in enumerate(zip(found.keys, found.factors, strict=True)):
        at = place(found, order * speed * np.array(factors))
        wide = np.unique((at[:, None] + np.arange(-reach, reach + 1)).ravel())
        yield row, wide[(wide >= 0) & (wide < len(found.frequency))]


def _named(motion: Motion, order: float, wide: float) -> tuple[str, float]:
    """Return the motors' line that an order is, and its exact order; empty where none is near.

    `wide` [1/m]: orders no further apart cannot be told apart.
    """
    lines = motor_lines(motion, 1.0)
    source = min(lines, key=lambda name: abs(lines[name] / order - 1.0))
    near = abs(lines[source] - order) <= max(SAME * order, wide)
    return (source, lines[source]) if near else ("", order)
