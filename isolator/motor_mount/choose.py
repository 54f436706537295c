"""The damper that quietens one motor best over all print speeds and directions, or none."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from isolator.brief import Brief, Motor
from isolator.materials import Material
from isolator.motor_mount.offers import Offers, offers
from isolator.motor_mount.pull import RULES, Held, Plates, ends_of, held, plates_of, stopped_by
from isolator.motor_mount.train import Tones, body_of, carriage_of, drives_of, tones_of
from isolator.physics.chain import passed_torque
from isolator.physics.viscoelastic import dynamic_factor
from isolator.shakers import AXES, belt_motors

Array = NDArray[np.float64]

LEAST_LOSS = -1.0
"""No drone line may pass more torque than with the motor bolted on, but for 1 dB [dB]; convention,
no source."""
WORTH = 3.0
"""Loss at the median drone line below which a damper is not worth its stack [dB]; convention."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Damper:
    """One damper with what it does to the torque that its motor passes on."""

    offered: Offers  # one row
    held: Held  # one row
    plates: Plates
    ends: tuple[float, float]  # factors on stiffness, soft and stiff
    tones: Tones
    nominal: Array  # (f,) loss of torque [dB]
    low: Array  # (f,) the worst over the band
    high: Array  # (f,)

    @property
    def clear(self) -> bool:
        """Whether no drone line is made worse."""
        return bool(self.low.min() >= LEAST_LOSS)

    @property
    def worth(self) -> bool:
        """Whether it takes enough away to be worth its stack."""
        return bool(np.median(self.low) >= WORTH)


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """What the search for one motor's damper gave."""

    damper: Damper | None  # the best of those that hold; None where none holds standing still
    tried: int
    stopped: dict[str, int]  # rule → how many it stopped


def choose(
    brief: Brief, index: int, cards: dict[str, Material], tallest: float, warm: float
) -> Choice:
    """Return the damper whose least loss over all drone lines is largest.

    `index` into `belt_motors`; `tallest` [m] is the stack that the shaft allows, `warm` [°C] the
    rubber's temperature at its warmest. Ties go to the one that needs no wedge, then to the lower
    stack. The choice is made on the torque that the motor passes into a frame that stands still;
    whether the best is good enough is the caller's to judge, by `clear` and `worth`.
    """
    belt, motor = belt_motors(brief)[index]
    plates, tones = plates_of(brief, motor), tones_of(brief, belt, motor)
    best: tuple[tuple[float, ...], Offers, Held, Array] | None = None
    tried, stopped = 0, Counter[str]()
    for block in offers(brief, motor, cards):
        found = held(brief, motor, block, plates, warm)
        codes = stopped_by(brief, block, found, tallest)
        tried += len(block)
        stopped.update(RULES[code] for code in codes[codes >= 0])
        rows = np.flatnonzero(codes < 0)
        if not len(rows):
            continue
        kept = block.take(rows)
        losses = torque_losses(brief, index, kept, (1.0, *ends_of(brief, block, warm)), tones)
        least = losses.min(axis=(0, 2))
        # to a tenth of a decibel: finer differences are no reason to cut a wedge
        order = np.lexsort((found.stack[rows], found.wedge[rows] > 0, -np.round(least, 1)))
        row = int(order[0])
        key = (-round(float(least[row]), 1), float(found.wedge[rows][row] > 0),
               float(found.stack[rows][row]))  # fmt: skip
        if best is None or key < best[0]:
            one = {name: getattr(found, name)[rows][[row]] for name in Held.__slots__}
            best = (key, kept.take(np.array([row])), Held(**one), losses[:, row])
    if best is None:
        return Choice(damper=None, tried=tried, stopped=dict(stopped))
    _, offered, still, loss = best
    return Choice(
        damper=Damper(
            offered=offered, held=still, plates=plates, ends=ends_of(brief, offered, warm),
            tones=tones, nominal=loss[0], low=loss.min(axis=0), high=loss.max(axis=0),
        ),
        tried=tried, stopped=dict(stopped),
    )  # fmt: skip


def dynamic_twist(offered: Offers, factor: float, frequency: Array) -> NDArray[np.complex128]:
    """Return the complex twist stiffness (n, f) [N·m/rad] at `frequency` (f,)."""
    card = offered.material
    loss = card.loss_factor.value
    rise = dynamic_factor(frequency, card.reference_frequency, card.dynamic_ratio.value, loss)
    spring: NDArray[np.complex128] = factor * offered.twist[:, None] * rise * (1.0 + 1j * loss)
    return spring


def torque_losses(
    brief: Brief, index: int, offered: Offers, factors: tuple[float, ...], tones: Tones
) -> Array:
    """Return by how many dB each damper weakens the torque into the frame: (factors, n, f)."""
    _, motor = belt_motors(brief)[index]
    drives, masses = drives_of(brief), carriage_of(brief).masses
    shaft = AXES[motor.axis]
    inertia = float(shaft @ body_of(motor) @ shaft)
    omega = 2.0 * np.pi * tones.frequency
    rigid = np.abs(
        passed_torque(drives, masses, index, np.full((1, len(omega)), np.inf), inertia, omega)
    )
    losses = []
    for factor in factors:
        springs = dynamic_twist(offered, factor, tones.frequency)
        soft = np.abs(passed_torque(drives, masses, index, springs, inertia, omega))
        losses.append(20.0 * np.log10(rigid / np.maximum(soft, 1e-300)))
    return np.stack(losses)
