"""Least squares of a law to ways up, with the errors of what was read and a zero of each way."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from isolator.measuring.squash_law import BlockLaw, FoamLaw
from isolator.measuring.squash_runs import Leg
from isolator.physics.arrays import Array
from isolator.recordings.squash_file import Readings

OFFSET = 0.03
"""How far the zero of heights may be off, over the height: settling, faces that are not flat;
estimated, no source."""
UNEVEN = 0.01
"""Standard error of a compression besides, as a share of it: pieces that lean, loads off their
middle; estimated, no source."""
GAUGE = 0.02e-3
"""Standard error of a height besides its step: callipers on a soft piece [m]; estimated."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """Numbers of a law and the zero of each leg [m], with their covariance."""

    numbers: Array
    offsets: Array
    covariance: Array
    residuals: list[Array]  # of each leg [m]
    misfit: float  # mean square of weighted residuals

    def off(self, task: Task) -> float:
        """Return by how many standard errors the readings without load lie off, at most."""
        found = [
            abs(residual[leg.force <= 0] / sigma[leg.force <= 0]).max(initial=0.0)
            for residual, leg, sigma in zip(self.residuals, task.legs, task.sigma, strict=True)
        ]
        return float(max(found))


class Task:
    """Ways up that one law is to follow, each with a zero of its own."""

    def __init__(self, legs: Sequence[Leg], gauge: float, scale: float) -> None:
        """Take standard errors of the gauge [m] and of the scale's step [N]."""
        self.legs, self.gauge, self.scale = legs, gauge, scale
        self.sigma = [np.full(len(leg.force), self.gauge) for leg in legs]

    @classmethod
    def of_readings(cls, legs: Sequence[Leg], readings: Readings) -> Task:
        """Return a task whose errors follow from the steps of gauge and scale."""
        gauge = float(np.hypot(readings.place_step / np.sqrt(12.0), GAUGE))
        return cls(legs, gauge, max(readings.force_step / np.sqrt(12.0), 1e-9))

    def of(self, legs: Sequence[Leg]) -> Task:
        """Return the same task for other ways up."""
        return Task(legs, self.gauge, self.scale)

    def fit(self, law: BlockLaw | FoamLaw, start: Array | None = None) -> Found:
        """Return what fits best by weighted least squares, doubts on the first guess included."""
        # slow to load
        from scipy.optimize import least_squares

        size = len(law.start)
        place = OFFSET * law.height

        def left(both: Array) -> list[Array]:
            found = zip(self.legs, both[size:], strict=True)
            return [
                leg.squeezed - law.squeezed(both[:size], leg.force) - zero for leg, zero in found
            ]

        def weighted(both: Array) -> Array:
            data = [row / sigma for row, sigma in zip(left(both), self.sigma, strict=True)]
            guess = (both[:size] - law.start) / law.doubt
            return np.concatenate([*data, guess, both[size:] / place])

        at = law.start if start is None else start
        at = np.concatenate([at, np.zeros(len(self.legs))])
        scales = np.r_[law.doubt, [place] * len(self.legs)]
        # far enough, yet no exponential runs away
        middle, far = np.concatenate([law.start, np.zeros(len(self.legs))]), 4.0 * scales
        at = np.clip(at, middle - 0.99 * far, middle + 0.99 * far)
        for _ in range(2):  # errors of the scale count by the slope, known after one round
            done = least_squares(weighted, at, x_scale=scales, bounds=(middle - far, middle + far))
            at = done.x
            self._weigh(law, at[:size])
        data = sum(len(leg.force) for leg in self.legs)
        rest = float(np.sum(weighted(at)[:data] ** 2))
        free = data - size - len(self.legs)
        misfit = rest / free if free > 0 else 1.0
        slopes = np.asarray(done.jac)
        covariance = np.linalg.inv(slopes.T @ slopes) * max(1.0, misfit)
        return Found(
            numbers=at[:size],
            offsets=at[size:],
            covariance=covariance,
            residuals=left(at),
            misfit=misfit,
        )

    def _weigh(self, law: BlockLaw | FoamLaw, numbers: Array) -> None:
        """Set the standard errors of compressions, what the scale adds included."""
        for at, leg in enumerate(self.legs):
            step = np.maximum(1e-3 * leg.force, 1e-6)
            slope = (
                law.squeezed(numbers, leg.force + step) - law.squeezed(numbers, leg.force)
            ) / step
            here = UNEVEN * law.squeezed(numbers, leg.force)
            self.sigma[at] = np.sqrt(self.gauge**2 + (slope * self.scale) ** 2 + here**2)
