"""Stiffness, mass and rigid-body modes of one printer on n sets of feet at once."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from isolator.physics.arrays import Array, Complex
from isolator.physics.bodies import rigid
from isolator.physics.rubber.waves import wave_factor
from isolator.vibration.printer import MassCase
from isolator.vibration.supports import FeetBatch

FIXED_POINT_STEPS = 12
"""The stiffness rises at most with the square root of frequency, so each step at least halves
the error of a mode's frequency in octaves twice over: twelve leave less than 1e-6."""
SAME = 1e-6
"""Modes whose frequencies are no further apart, as a share of them, count as equally fast."""


@dataclass(frozen=True, slots=True, kw_only=True)
class System:
    """One printer on n sets of feet; matrices about the centre of mass."""

    feet: FeetBatch
    case: MassCase  # of the first set, where each has its own
    arms: Array  # (n, s, 3)
    static: Array  # (n, 6, 6) static tangent stiffness of the feet
    lossy: Complex  # (n, 6, 6) the same with the loss factors
    gravity: Array  # (n, 6, 6)
    mass: Array  # (6, 6), or (n, 6, 6)

    def stiffness(self, frequency: Array) -> Complex:
        """Return the dynamic complex stiffness (n, f, 6, 6) at `frequency` (f,) or (n, f)."""
        return self.moving(frequency)[..., None, None] * self.lossy[:, None] + self.gravity[:, None]

    def moving(self, frequency: Array) -> Complex:
        """Return what the feet pass on over their static stiffness (n, f), with waves in them.

        All feet of a set are taken as one bar, of the mass and the upright stiffness of all.
        """
        factor, feet = self.factor(frequency), self.feet
        upright = (feet.linear[..., 2] * (1.0 + 1j * feet.loss)).sum(axis=-1)
        omega = 2.0 * math.pi * np.atleast_2d(frequency)
        mass = feet.mass.sum(axis=-1)[:, None]
        return np.asarray(factor * wave_factor(omega, mass, factor * upright[:, None]))

    def take(self, rows: NDArray[np.intp]) -> System:
        """Return the sets at `rows`."""
        names = ("arms", "static", "lossy", "gravity")
        return replace(
            self,
            feet=self.feet.take(rows),
            mass=self.mass[rows] if self.mass.ndim == 3 else self.mass,
            **{name: getattr(self, name)[rows] for name in names},
        )

    def factor(self, frequency: Array) -> Array:
        """Return dynamic over static stiffness (n, f)."""
        frequency = np.atleast_2d(frequency)
        feet = self.feet
        laws = [each[:, None] for each in (feet.ratio, feet.reference, feet.alpha)]
        shape = np.broadcast_shapes(laws[0].shape, frequency.shape)
        if len(frequency) == 1 and all(np.all(each == each[0]) for each in laws):
            laws = [each[:1] for each in laws]  # one law at the same frequencies: once for all
        ratio, reference, alpha = laws
        return np.broadcast_to(ratio * (frequency / reference) ** alpha, shape)


@dataclass(frozen=True, slots=True, kw_only=True)
class Modes:
    """Rigid-body modes of n systems, ascending; a negative frequency marks a tipping one."""

    frequency: Array  # (n, 6) [Hz]
    shapes: Array  # (n, 6, 6), columns, mass-normalised
    damping: Array  # (n, 6) ratio


def build(feet: FeetBatch, case: MassCase) -> System:
    """Return the matrices of one mass case on every set of feet."""
    return _build(feet, case, case.com, rigid.mass_matrix(case.mass, case.inertia))


def build_each(feet: FeetBatch, cases: Sequence[MassCase]) -> System:
    """Return the matrices of n mass cases on n sets of feet, each about its own centre of mass."""
    mass = np.array([rigid.mass_matrix(case.mass, case.inertia) for case in cases])
    return _build(feet, cases[0], np.array([case.com for case in cases])[:, None], mass)


def _build(feet: FeetBatch, case: MassCase, com: Array, mass: Array) -> System:
    arms = feet.centres - com
    static = rigid.support_matrix(arms, feet.linear, feet.angular)
    if np.ptp(feet.loss) == 0.0 or np.all(np.ptp(feet.loss, axis=1) == 0.0):
        lossy = static * (1.0 + 1j * feet.loss[:, :1, None])
    else:
        complex_part = 1.0 + 1j * feet.loss[..., None]
        lossy = rigid.support_matrix(arms, feet.linear * complex_part, feet.angular * complex_part)
    return System(
        feet=feet,
        case=case,
        arms=arms,
        static=static,
        lossy=lossy,
        gravity=rigid.gravity_stiffness(feet.load, arms),
        mass=mass,
    )


def quick_modes(system: System) -> Modes:
    """Return the modes: shapes taken at 10 Hz, stiffness at each mode's own frequency.

    Where all feet share one law the shapes hardly turn with frequency: only gravity does not
    scale. Far cheaper than `exact_modes`, which the chosen feet get.
    """
    start = system.factor(np.array([10.0]))[:, 0]
    stiffness = start[:, None, None] * system.static + system.gravity
    first, shapes = rigid.modes(stiffness, system.mass)
    # gravity acts on rotations alone, and what is not gravity's of an eigenvalue is elastic
    turned = shapes[:, 3:]
    gravity = (turned * (system.gravity[:, 3:, 3:] @ turned)).sum(axis=1)
    squared = np.sign(first) * (2.0 * math.pi * first) ** 2
    elastic = (squared - gravity) / start[:, None]
    frequency = _own_frequency(system, elastic, gravity)
    order = np.argsort(frequency, axis=1)
    shapes = np.take_along_axis(shapes, order[:, None, :], axis=2)
    frequency = np.take_along_axis(frequency, order, axis=1)
    return Modes(frequency=frequency, shapes=shapes, damping=_damping(system, frequency, shapes))


def _own_frequency(system: System, elastic: Array, gravity: Array) -> Array:
    """Solve (2πf)² = factor(f)·elastic + gravity for every mode, by fixed point in log f."""
    frequency = np.full_like(elastic, 10.0)
    squared = elastic
    for _ in range(FIXED_POINT_STEPS):
        squared = system.factor(frequency) * elastic + gravity
        before, frequency = frequency, np.sqrt(np.maximum(squared, 1e-6)) / (2.0 * math.pi)
        if np.all(np.abs(frequency - before) <= 1e-7 * frequency):
            break
    return np.where(squared > 0.0, frequency, -np.sqrt(np.abs(squared)) / (2.0 * math.pi))


def exact_modes(system: System) -> Modes:
    """Return the modes with both shape and stiffness at each mode's own frequency."""
    quick = quick_modes(system)
    frequency, shapes = quick.frequency, quick.shapes
    each = np.arange(6)
    for _ in range(FIXED_POINT_STEPS):
        # six problems at once, each with the stiffness at one mode's frequency
        factor = system.factor(np.maximum(frequency, 1e-3))[..., None, None]
        stiffness = factor * system.static[:, None] + system.gravity[:, None]
        found, vectors = rigid.modes(stiffness, system.mass[..., None, :, :])
        step = np.abs(found[:, each, each] - frequency)
        frequency = found[:, each, each]
        row = np.arange(len(frequency))[:, None]
        shapes = vectors[row, _first_alike(frequency), :, each].swapaxes(1, 2)
        if np.all(step < 1e-9 * np.abs(frequency)):
            break
    return Modes(frequency=frequency, shapes=shapes, damping=_damping(system, frequency, shapes))


def _first_alike(frequency: Array) -> NDArray[np.intp]:
    """Return for every mode (n, 6), ascending, the first of those that swing as fast.

    Modes as fast as each other may be turned into each other at will: their shapes have to be taken
    from one problem, or both may come out alike and a direction is missing.
    """
    apart = np.diff(frequency, axis=1) > SAME * np.abs(frequency[:, 1:])
    starts = np.concatenate([np.ones_like(apart[:, :1]), apart], axis=1)
    return np.maximum.accumulate(np.where(starts, np.arange(6), 0), axis=1)


def _damping(system: System, frequency: Array, shapes: Array) -> Array:
    """Return modal damping ratios: loss energy over twice the modal stiffness."""
    lost: Array = np.einsum("nij,nij->nj", shapes, system.lossy.imag @ shapes)
    lost = lost * system.factor(np.maximum(frequency, 1e-3))
    ratio: Array = lost / (2.0 * np.maximum((2.0 * math.pi * frequency) ** 2, 1e-12))
    return ratio


def gravity_factor(system: System) -> Array:
    """Return the share (n,) of static rocking stiffness that gravity leaves, worst axis.

    Taken with sway free: the feet's rocking stiffness about the axis through which they feel
    no net shear, so that a tall printer on feet soft in shear is not called stable.
    """
    left = np.ones(len(system.static))
    full = system.static + system.gravity
    for slide, rock in ((1, 3), (0, 4)):
        with np.errstate(divide="ignore", invalid="ignore"):
            own = full[:, rock, rock] - full[:, slide, rock] ** 2 / full[:, slide, slide]
        left = np.minimum(left, own / (own - system.gravity[:, rock, rock]))
    return left
