"""What feet pass on of a source: energies of the foot forces, transmissibility, insertion loss."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from isolator.physics.arrays import Array, Complex
from isolator.physics.bodies.coupled import RIGID, contact
from isolator.physics.bodies.rigid import support_matrix
from isolator.vibration.desk import Under
from isolator.vibration.source import Source
from isolator.vibration.system import System

LEAST = 1e-300


class Passed(NamedTuple):
    """Squared norms (n, f, p) [N²] of all foot forces under p sources at f frequencies."""

    feet: Array  # on the feet
    rigid: Array  # on rigid feet: the blocked force, shared as by the feet's proportions
    static: Array  # as if the blocked force grew slowly: what is left as inertia falls out


def passed(system: System, source: Source) -> Passed:
    """Return what n sets of feet pass on to a rigid floor, with what rigid feet would."""
    return Passed(
        feet=floor_energy(system, source),
        rigid=rigid_energy(system, source),
        static=_pressed(system, source, system.stiffness(source.frequency)),
    )


def floor_energy(system: System, source: Source) -> Array:
    """Return the squared norm (n, f, p) [N²] of all foot forces alone, as `passed` has it."""
    return _pressed(system, source, system.stiffness(source.frequency) + source.dynamic)


def rigid_energy(system: System, source: Source) -> Array:
    """Return the squared norm (n, f, p) [N²] of all foot forces when the feet are rigid.

    Rigid feet share a force as springs of the same proportions do when nothing moves: the limit
    of scaling their stiffness up, in which inertia, gravity and the source's own give fall out.
    """
    share = np.linalg.inv(system.lossy)  # (n, 6, 6)
    moved = share[:, None] @ source.blocked
    return _energy(moved, force_weights(system))


def force_weights(system: System) -> Array:
    """Return Q (n, 6, 6) with uᴴQu the squared norm of all static foot forces under a motion u."""
    feet = system.feet
    square = feet.linear**2 * (1.0 + feet.loss[..., None] ** 2)
    return np.asarray(support_matrix(system.arms, square, np.zeros_like(square)))


def decibel(before: Array, after: Array) -> Array:
    """Return how many dB lie between two energies, positive where less is left after."""
    return np.asarray(10.0 * np.log10(np.maximum(before, LEAST) / np.maximum(after, LEAST)))


def _pressed(system: System, source: Source, resists: Complex) -> Array:
    """Return the squared norm (n, f, p) [N²] of all foot forces where the blocked force moves
    what `resists` (n, f, 6, 6) it."""
    right = np.broadcast_to(source.blocked, (len(system.static), *source.blocked.shape[1:]))
    moved = np.asarray(np.linalg.solve(resists, right), dtype=complex)
    square: Array = np.abs(system.moving(source.frequency))[..., None] ** 2
    energy: Array = square * _energy(moved, force_weights(system))
    return energy


def _energy(motion: Complex, weights: Array) -> Array:
    """Return uᴴQu (n, f, p) of motions (n, f, 6, p)."""
    turned = weights[:, None] @ motion
    energy: Array = (motion.conj() * turned).real.sum(axis=-2)
    return energy


class OnDesk(NamedTuple):
    """What a desk that gives way feels: the power (n, f, p) [W] that goes into it."""

    feet: Array  # on the feet
    rigid: Array  # on rigid feet: in the same places, as tall, on the same desk


def on_desk(system: System, source: Source, desk: Under) -> OnDesk:
    """Return the power that n sets of feet pass into the desk under them, and rigid ones would."""
    return OnDesk(
        feet=desk_power(system, source, desk), rigid=desk_power(system, source, desk, RIGID)
    )


def desk_power(system: System, source: Source, desk: Under, scale: float = 1.0) -> Array:
    """Return the power (n, f, p) [W] that n sets of feet, stiffer by `scale`, pass into a desk."""
    feet = system.feet
    springs = np.concatenate([feet.linear, feet.angular], axis=-1)
    lossy = springs * (1.0 + 1j * feet.loss[..., None])
    return contact(
        system.gravity[:, None] + source.dynamic,
        source.blocked,
        system.arms,
        scale * lossy[:, None],
        desk.height + feet.centres[..., 2] - feet.sag,
        desk.receptance,
        source.frequency,
        system.moving(source.frequency),
    ).power
