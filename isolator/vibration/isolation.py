"""Tones through feet: transmissibility and insertion loss, on a rigid floor and on the desk."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from isolator.physics.arrays import Array, Complex
from isolator.physics.bodies import response
from isolator.physics.bodies.rigid import support_matrix
from isolator.vibration.excitation import Tone
from isolator.vibration.system import System

DESK_FROM = 20.0
"""Below its first bending mode a desk is a spring far stiffer than an infinite plate: it is taken
as rigid there [Hz]. Desk tops have theirs at 10 to 120 Hz; common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Losses:
    """What n sets of feet make of tones, t frequencies in all; every array (n, t)."""

    force: Array  # norm of all foot forces, sources of unknown phase added by energy [N]
    transmissibility: Array
    insertion_loss: Array  # [dB]
    on_desk: Array  # [dB]


def pack(tones: Sequence[Tone], com: Array) -> tuple[Array, Complex]:
    """Return all frequencies (t,) and their pushes (t, p, 6) about `com`, padded with zeros.

    Tones follow each other, each with all its frequencies.
    """
    width = max((len(tone.pushes) for tone in tones), default=1)
    count = sum(len(tone.frequency) for tone in tones)
    loads = np.zeros((count, width, 6), dtype=complex)
    start = 0
    for tone in tones:
        stop = start + len(tone.frequency)
        for column, push in enumerate(tone.pushes):
            loads[start:stop, column] = push.about(com)
        start = stop
    frequency = np.concatenate([tone.frequency for tone in tones]) if tones else np.zeros(0)
    return frequency, loads


def losses(system: System, tones: Sequence[Tone], desk_mobility: float) -> Losses:
    """Return what every set of feet makes of every tone.

    `desk_mobility` [m/(N·s)] is the desk's under each foot, 0 for a rigid one.
    """
    frequency, loads = pack(tones, system.case.com)
    omega = 2.0 * math.pi * frequency
    force = _force(system, frequency, loads)
    rest = _norm(system, _solve(system.stiffness(frequency), loads), system.factor(frequency))
    loss = _decibel(rigid_force(system, loads), force)
    if desk_mobility > 0:
        felt = np.where(frequency < DESK_FROM, loss, _on_desk(system, omega, loads, desk_mobility))
    else:
        felt = loss
    return Losses(
        force=force,
        transmissibility=force / np.maximum(rest, 1e-300),
        insertion_loss=loss,
        on_desk=felt,
    )


def insertion_losses(system: System, tones: Sequence[Tone]) -> Array:
    """Return the insertion loss (n, t) [dB] alone, on a rigid floor, as `losses` has it."""
    frequency, loads = pack(tones, system.case.com)
    return _decibel(rigid_force(system, loads), _force(system, frequency, loads))


def _force(system: System, frequency: Array, loads: Complex) -> Array:
    """Return the norm (n, t) of all foot forces under `loads` (t, p, 6) at `frequency` (t,)."""
    square = (2.0 * math.pi * frequency)[:, None, None] ** 2
    moving = _solve(system.stiffness(frequency) - square * system.mass, loads)
    return _norm(system, moving, system.factor(frequency))


def _decibel(before: Array, after: Array) -> Array:
    return 20.0 * np.log10(np.maximum(before, 1e-300) / np.maximum(after, 1e-300))


def _solve(matrices: Complex | Array, loads: Complex) -> Complex:
    """Return displacements (n, t, p, 6) under `loads` (t, p, 6)."""
    columns = np.swapaxes(loads, -1, -2)
    solved: Complex = np.swapaxes(np.linalg.solve(matrices, columns[None]), -1, -2)
    return solved


def _norm(system: System, motion: Complex, factor: Array) -> Array:
    """Return the norm (n, t) of all foot forces under `motion` (n, t, p, 6)."""
    feet = system.feet
    springs = feet.linear * (1.0 + 1j * feet.loss[..., None])
    forces = response.foot_forces(motion, system.arms[:, None, None], springs[:, None, None])
    norm: Array = factor * np.sqrt((np.abs(forces) ** 2).sum(axis=(-1, -2, -3)))
    return norm


def rigid_force(system: System, loads: Complex) -> Array:
    """Return the norm (n, t) of all foot forces when the feet are rigid.

    Rigid feet share a force as springs of the same proportions do when nothing moves: the
    limit of scaling their stiffness up, in which inertia and gravity fall out.
    """
    motion = _solve(system.lossy[:, None], loads)
    return _norm(system, motion, np.ones((len(system.static), 1)))


def _on_desk(system: System, omega: Array, loads: Complex, mobility: float) -> Array:
    """Return the losses (n, t) against rigid feet on a desk that gives way under each foot."""
    feet = system.feet
    lossy = 1.0 + 1j * feet.loss[:, None, :, None]
    factor = system.factor(omega / (2.0 * math.pi))[:, :, None, None]
    desk = np.array([0.0, 0.0, mobility])
    levels = []
    for scale in (response.RIGID, 1.0):
        springs = scale * factor * feet.linear[:, None] * lossy
        tilts = scale * factor * feet.angular[:, None] * lossy
        series = response.on_desk(springs, desk, omega)
        held = support_matrix(system.arms[:, None], series, tilts) + system.gravity[:, None]
        motion = _solve(held - (omega**2)[:, None, None] * system.mass, loads)
        forces = response.foot_forces(motion, system.arms[:, None, None], series[:, :, None])
        levels.append(np.sqrt((np.abs(forces) ** 2).sum(axis=(-1, -2, -3))))
    return _decibel(levels[0], levels[1])
