"""Tapped modes matched with the model's, and what of feet and frame follows from them.

Scales are sought that bring the model's frequencies to the tapped ones, each pulled to one as
firmly as the model knows it (maximum a posteriori); dampings follow by a linear fit.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import product

import numpy as np
from scipy.optimize import least_squares, linear_sum_assignment, nnls

from isolator.measuring.chance import NINE_OF_TEN
from isolator.measuring.tap_model import ModelModes, Scales, model_modes
from isolator.measuring.tapped import TappedMode
from isolator.physics.arrays import Array
from isolator.vibration.band import Band
from isolator.vibration.printer import MassCase
from isolator.vibration.supports import FeetBatch

MODEL_ERROR = 0.02
"""By which a frequency of the model may be off besides, from masses and places; estimated."""
FARTHEST = 0.25
"""Between a tapped frequency and the model's, of those that are matched, after scaling."""
STARTS = (-1.0, 0.0, 1.0)
"""From where scales are sought, in spreads from one: the nearest modes may be others."""
FEWEST = 2
"""Modes that must be matched for feet to be corrected."""
BENDS = 0.3
"""Share of a mode's energy in the frame's bending from which it tells of the frame."""
ROUNDS = 8


@dataclass(frozen=True, slots=True, kw_only=True)
class Pair:
    """A tapped mode and the model's that it is."""

    tapped: int  # place among the tapped modes
    names: tuple[str, ...]  # of the model's mode, then of those as near
    before: float  # frequency of the model as the brief has it [Hz]
    after: float  # and as corrected [Hz]


@dataclass(frozen=True, slots=True, kw_only=True)
class Untapped:
    """A mode of the corrected model that nobody tapped."""

    name: str
    frequency: float  # [Hz]


@dataclass(frozen=True, slots=True, kw_only=True)
class Matched:
    """What taps tell of feet and frame."""

    pairs: tuple[Pair, ...]
    sideways: Band  # factor on the feet's stiffness along x and y
    upright: Band
    frame: Band | None  # factor on the frame's frequencies; None: no mode tells of it
    feet_damping: Band | None  # factor on the feet's loss factor; None: not told
    frame_damping: Band | None  # factor on the frame's damping; None: not told
    bent: tuple[bool, ...]  # whether a mode was tapped that bends it along x, along y, in twist
    untapped: tuple[Untapped, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Spreads:
    """How firmly the model knows its scales: standard deviations of their logarithms."""

    feet: float
    frame: float


def match(
    tapped: Sequence[TappedMode], case: MassCase, feet: FeetBatch, spreads: Spreads
) -> Matched | None:
    """Return what taps on a printer in a mass case tell of its feet; None where too few fit."""
    hertz = np.array([mode.frequency.nominal for mode in tapped])
    error = np.array([_deviation(mode.frequency) for mode in tapped])
    sigma = np.sqrt(error**2 + MODEL_ERROR**2)
    firm = np.array([spreads.feet, spreads.feet, spreads.frame])
    if case.bending is None:
        firm[2] = 1e-6
    best: tuple[float, Array, list[tuple[int, int]], Array] | None = None
    for start in product(STARTS, STARTS, (0.0,)):
        found = _settled(hertz, sigma, case, feet, firm, np.array(start) * firm)
        if found is not None and (best is None or found[0] < best[0]):
            best = found
    if best is None or len(best[2]) < FEWEST:
        return None
    _, at, pairs, covariance = best
    before, after = (model_modes(case, feet, _scales(x)) for x in (np.zeros(3), at))
    spread = NINE_OF_TEN * np.sqrt(np.diag(covariance))
    bent = [after.bending[m] for _, m in pairs]
    bends = any(each.sum() > BENDS for each in bent)
    damping = _damping(tapped, pairs, after)
    return Matched(
        pairs=tuple(
            Pair(
                tapped=t,
                names=_names(after, m),
                before=float(before.frequency[m]),
                after=float(after.frequency[m]),
            )
            for t, m in pairs
        ),
        sideways=_band(at[0], spread[0]),
        upright=_band(at[1], spread[1]),
        frame=_band(at[2], spread[2]) if bends else None,
        feet_damping=damping[0],
        frame_damping=damping[1] if bends else None,
        bent=tuple(bool(each > BENDS) for each in np.sum(bent, axis=0)),
        untapped=tuple(
            Untapped(name=after.names[m], frequency=float(hertz))
            for m, hertz in enumerate(after.frequency)
            if m not in {each for _, each in pairs}
        ),
    )


def _settled(
    hertz: Array, sigma: Array, case: MassCase, feet: FeetBatch, firm: Array, start: Array
) -> tuple[float, Array, list[tuple[int, int]], Array] | None:
    """Return cost, scales, pairs and covariance where pairs no longer change."""
    at, pairs, old = start, [], None
    for _ in range(ROUNDS):
        pairs = _assigned(hertz, sigma, model_modes(case, feet, _scales(at)).frequency)
        if pairs == old or not pairs:
            break
        old = pairs
        rows, columns = (list(each) for each in zip(*pairs, strict=True))

        def left(x: Array, rows: list[int] = rows, columns: list[int] = columns) -> Array:
            model = np.maximum(model_modes(case, feet, _scales(x)).frequency[columns], 1e-3)
            return np.concatenate((np.log(model / hertz[rows]) / sigma[rows], x / firm))

        found = least_squares(
            left, at, x_scale=firm, diff_step=np.full(3, 1e-3), ftol=1e-6, xtol=1e-6
        )
        at = found.x
    if not pairs:
        return None
    inner = np.asarray(found.jac)
    # a mode that is not matched costs as much as one that is farthest off
    missed = (len(hertz) - len(pairs)) * (FARTHEST / MODEL_ERROR) ** 2
    # where the model meets the taps worse than it should, all of it is less sure
    wide = max(1.0, float(np.mean(found.fun[: len(pairs)] ** 2)))
    covariance = wide * np.linalg.inv(inner.T @ inner)
    return 2.0 * float(found.cost) + missed, at, pairs, covariance


def _assigned(hertz: Array, sigma: Array, model: Array) -> list[tuple[int, int]]:
    """Return which tapped mode is which of the model's: the nearest pairs, each once."""
    apart = np.abs(np.log(np.maximum(model, 1e-3)[None, :] / hertz[:, None]))
    rows, columns = linear_sum_assignment(np.minimum(apart, FARTHEST) / sigma[:, None])
    pairs = zip(rows.tolist(), columns.tolist(), strict=True)
    return [(t, m) for t, m in pairs if apart[t, m] < FARTHEST]


def _damping(
    tapped: Sequence[TappedMode], pairs: list[tuple[int, int]], model: ModelModes
) -> tuple[Band | None, Band | None]:
    """Return factors on the loss of feet and frame, by non-negative least squares."""
    told = np.array([tapped[t].damping.nominal for t, _ in pairs])
    columns = [m for _, m in pairs]
    parts = np.column_stack((model.feet[columns], model.frame[columns]))
    weight = 1.0 / told
    found, left = nnls(parts * weight[:, None], told * weight)
    spare = max(1, len(pairs) - int(np.count_nonzero(found)))
    scatter = max(left / math.sqrt(spare), _deviation(tapped[pairs[0][0]].damping))
    inner = (parts * weight[:, None]).T @ (parts * weight[:, None])
    reach = NINE_OF_TEN * scatter * np.sqrt(np.diag(np.linalg.pinv(inner)))
    both = [
        _band(math.log(size), wide / size) if size > 0.0 else None
        for size, wide in zip(found.tolist(), reach.tolist(), strict=True)
    ]
    return both[0], both[1]


def _names(model: ModelModes, mode: int) -> tuple[str, ...]:
    """Return the name of a mode, then of those that frequency does not tell from it."""
    apart = np.abs(np.log(np.maximum(model.frequency, 1e-3) / max(model.frequency[mode], 1e-3)))
    near = np.flatnonzero(apart < MODEL_ERROR)
    return (model.names[mode], *(model.names[n] for n in near if n != mode))


def _scales(logarithms: Array) -> Scales:
    sideways, upright, frame = np.exp(logarithms).tolist()
    return Scales(sideways=sideways, upright=upright, frame=frame)


def _deviation(band: Band) -> float:
    """Return the standard deviation of a band's logarithm."""
    return math.log(band.high / band.low) / (2.0 * NINE_OF_TEN)


def _band(logarithm: float, spread: float) -> Band:
    return Band(
        low=math.exp(logarithm - spread),
        nominal=math.exp(logarithm),
        high=math.exp(logarithm + spread),
    )
