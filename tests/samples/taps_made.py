"""Recordings of taps, made from modes: what a sensor would have told."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from scipy.signal import bilinear, lfilter

from isolator.physics.arrays import Array


@dataclass(frozen=True, kw_only=True)
class Tapping:
    """Taps on a body with m modes, seen by a sensor of three axes."""

    frequency: Array  # (m,) [Hz]
    damping: Array  # (m,)
    shapes: Array  # (m, 3) at the sensor
    rate: float = 400.0
    count: int = 6
    apart: float = 3.0  # [s]
    noise: float = 0.01  # [m/s²]

    def tapped(self, seed: int) -> tuple[Array, Array]:
        """Return times (n,) [s] and accelerations (n, 3) [m/s²] with gravity along z.

        Each tap is a half sine of 6 ms along x, y and z in turn, at the sensor, not quite straight.
        """
        rng = np.random.default_rng(seed)
        fine = max(1, round(12800.0 / self.rate))
        step = 1.0 / (self.rate * fine)
        long = round((self.count + 0.6) * self.apart / step)
        force = np.zeros((long, len(self.frequency)))
        width = round(0.006 / step)
        pulse = np.sin(np.pi * np.arange(width) / width)
        for n in range(self.count):
            at = round((n + 0.5 + 0.2 * rng.uniform(-1, 1)) * self.apart / step)
            push = self.shapes @ (np.eye(3)[n % 3] + rng.normal(0.0, 0.15, 3))
            force[at : at + width] += pulse[:, None] * push
        motion = np.zeros((long, 3))
        for f, z, shape, push in zip(
            self.frequency, self.damping, self.shapes, force.T, strict=True
        ):
            motion += self._accelerated(f, z, push, step)[:, None] * shape
        scale = 1.0 / np.max(np.abs(motion))
        samples = 3.0 * scale * motion[::fine]
        samples = (
            samples + rng.normal(0.0, self.noise, samples.shape) + np.array([0.0, 0.0, 9.80665])
        )
        return np.arange(len(samples)) / self.rate, samples

    @staticmethod
    def _accelerated(frequency: float, damping: float, force: Array, step: float) -> Array:
        """Return the acceleration of one mode of unit mass under a force, by the trapezium rule."""
        omega = 2.0 * np.pi * frequency
        top, bottom = bilinear(
            [1.0, 0.0, 0.0], [1.0, 2.0 * damping * omega, omega**2], fs=1.0 / step
        )
        return np.asarray(lfilter(top, bottom, force))


TWO = Tapping(
    frequency=np.array([7.0, 19.0]),
    damping=np.array([0.05, 0.03]),
    shapes=np.array([[1.0, 0.2, 0.1], [-0.1, 0.4, 1.0]]),
    count=4,
)
