"""What nobody knows exactly, how it is spread, and samples drawn from all of it at once.

Every band that is told holds `SHARE` of the samples: bands are quantiles, not the worst of
corners, which all spreads at once hardly ever meet.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache, lru_cache
from statistics import NormalDist
from typing import NamedTuple

import numpy as np

from isolator.brief import Room
from isolator.cards import Material
from isolator.physics.arrays import Array
from isolator.physics.drive.stepper import LINES as MOTOR_LINES
from isolator.physics.rubber.viscoelastic import temperature_factor
from isolator.vibration.supports import ROOM

SHARE = 0.925
"""Share between the two ends of a band: 90 % of fresh samples lie inside, and it is hardly wider
than that takes."""
SHARP = 0.945
"""The same for what is told at one sharp frequency, and of dampers: no mean smooths it, so the ends
that samples tell scatter more."""
SAMPLES = 256
"""Samples drawn besides the nominal one; a power of two."""
SEED = 2
"""Of the samples, so that the same brief is told the same bands."""
TWO_SIDED = NormalDist().inv_cdf(0.975)

NORMAL, EVEN = "log-normal", "even"


class Spread(NamedTuple):
    """How one thing is spread: log-normal, 95 % within ×/÷ its spread, or even between its ends
    (of the logarithm, where the ends are a factor)."""

    law: str
    factor: float | None  # ×/÷; None: the card's, the frame's or the brief's own
    why: str


SPREADS: Mapping[str, Spread] = {
    "modulus": Spread(
        NORMAL, None, "the card's: hardness within its tolerance, and infill of a print"
    ),
    "dynamic ratio": Spread(NORMAL, None, "the card's"),
    "loss factor": Spread(NORMAL, None, "the card's"),
    "temperature slope": Spread(NORMAL, None, "the card's, on the change per kelvin"),
    "amplitude": Spread(EVEN, None, "the card's strain dependence: from a reversal's to a drone's"),
    "temperature": Spread(EVEN, None, "between the room's ends; the nominal one is the cards'"),
    "extras": Spread(EVEN, None, "each of them between its least and its most mass"),
    "belt": Spread(NORMAL, 2.0, "stiffness of belts of one size and length; estimated, no source"),
    "field": Spread(NORMAL, 1.5, "that holds a rotor: current and motor; estimated, no source"),
    "frame": Spread(NORMAL, None, "the frame's own band on its frequencies"),
    "between": Spread(NORMAL, None, "stiffness of a printer's feet on its slab, their own band"),
    "loss between": Spread(NORMAL, None, "loss factor of the same feet, their card's"),
    "warmth": Spread(EVEN, None, "of a damper: from the room's to that of a motor run for long"),
    "strength": Spread(EVEN, None, "of each line of a motor: within the range of its ripple"),
}
"""All spreads that bands are drawn from, each independent of the others."""

OF_PADS = ("modulus", "dynamic ratio", "loss factor", "temperature slope", "amplitude")
"""Spreads of a material, drawn for each stand by itself."""
OF_ALL = ("temperature", "belt", "field", "frame", "between")
OF_LINES = ("strength",)
"""Drawn for each line of a motor by itself."""
UNSTATED = {"rubber": 1.25, "foam": 1.1, "printed": 1.1}
"""×/÷ of the strain dependence where a card of one's own is silent; estimated, no source."""
STANDS = ("feet", "now")
DAMPER = "damper"
"""Pads under a motor; their columns are drawn beside those of the stands."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Samples:
    """n samples, the nominal one first; each column (n,) runs from 0 to 1, nominal one half."""

    columns: Mapping[str, Array]
    extras: Array  # (n, e) share of each extra's range

    def __len__(self) -> int:
        return len(self.extras)

    def factor(self, name: str, spread: float | None = None, stand: str = "") -> Array:
        """Return a factor (n,) drawn by the law of `name`; `spread` where its own has none."""
        law, own, _ = SPREADS[name]
        size = own if own is not None else spread
        if size is None:
            raise ValueError(f"{name}: no spread given")
        column = self.columns[f"{stand} {name}".strip()]
        if law == EVEN:
            return np.asarray(size ** (2.0 * column - 1.0))
        normal = NormalDist()
        turns = np.array([normal.inv_cdf(float(each)) for each in column])
        return np.asarray(size ** (turns / TWO_SIDED))

    def temperature(self, room: Room) -> Array:
        """Return temperatures (n,) [°C]; that of the nominal sample is the cards'."""
        span = room.temperature_high - room.temperature_low
        found = room.temperature_low + span * self.columns["temperature"]
        found[0] = ROOM
        return np.asarray(found)

    def motor_temperature(self, room: Room, warm: float) -> Array:
        """Return temperatures (n,) [°C] of rubber under motors, at most `warm` in a warm room.

        That of the nominal sample is the cards'.
        """
        above = max(warm - room.temperature_high, 0.0) * self.columns[f"{DAMPER} warmth"]
        above[0] = 0.0
        return self.temperature(room) + above


@lru_cache(maxsize=4)
def draw(extras: int, count: int = SAMPLES, seed: int = SEED, *, even: bool = True) -> Samples:
    """Return the nominal sample and `count` drawn ones, of a printer with `extras` extras.

    Spread evenly over all columns at once (scrambled Sobol points), which takes far fewer than
    chance does. Not `even`: each by itself, as fresh ones to check bands with.
    """
    names = [*OF_ALL, *(f"{stand} {name}" for stand in STANDS for name in OF_PADS)]
    others = [*(f"{DAMPER} {name}" for name in (*OF_PADS, "warmth")), "loss between"]
    loud = [f"{line} {name}" for line in MOTOR_LINES for name in OF_LINES]
    width = len(names) + extras
    rows = _rows(width, count, seed, even)
    # further columns of the same points, turned by themselves: what is told of feet does not hang
    # on how many there are
    found, behind = dict(zip(names, rows.T, strict=False)), width
    for turn, more in enumerate((others, loud), 1):
        beside = _rows(behind + len(more), count, seed + turn, even)[:, behind:]
        found |= dict(zip(more, beside.T, strict=True))
        behind += len(more)
    return Samples(columns=found, extras=rows[:, len(names) :])


def _rows(width: int, count: int, seed: int, even: bool) -> Array:
    """Return the nominal row and `count` drawn ones, (1 + count, width) between 0 and 1."""
    if even:
        # slow to load, and most commands draw nothing
        from scipy.stats import qmc

        inside = qmc.Sobol(width, rng=seed).random(count)
    else:
        inside = np.random.default_rng(seed).random((count, width))
    return np.concatenate([np.full((1, width), 0.5), np.clip(inside, 1e-9, 1 - 1e-9)])


class PadFactors(NamedTuple):
    """Factors (n,) on a card's static stiffness, its dynamic ratio and its loss factor."""

    static: Array
    dynamic: Array
    loss: Array


def pad_factors(samples: Samples, material: Material, temperature: Array, stand: str) -> PadFactors:
    """Return what the spreads of a material make of pads at `temperature` (n,) [°C].

    `stand` one of `STANDS`, or `DAMPER`.
    """
    slope = material.temperature.value * samples.factor(
        "temperature slope", material.temperature.spread, stand
    )
    warmth = temperature_factor(temperature, slope, ROOM)
    amplitude = samples.factor("amplitude", amplitude_spread(material), stand)
    return PadFactors(
        static=warmth * samples.factor("modulus", material.stiffness_spread, stand),
        dynamic=amplitude * samples.factor("dynamic ratio", material.dynamic_ratio.spread, stand),
        loss=samples.factor("loss factor", material.loss_factor.spread, stand),
    )


def amplitude_spread(material: Material) -> float:
    """Return ×/÷ on stiffness from a drone's small amplitude to a reversal's."""
    stated = material.strain_dependence
    return UNSTATED[material.family] if stated is None else stated.spread


def ends(values: Array, share: float = SHARE) -> tuple[Array, Array]:
    """Return the two ends (...) of the band of `values` (n, ...), the nominal one first, `share` of
    them between.

    Quantiles as weighted sums of all samples in their order, which scatter less than the two
    samples next to them (F. E. Harrell, C. E. Davis, Biometrika 69 (1982) 635, from memory). A band
    holds its nominal value.
    """
    ranked = np.sort(values[1:], axis=0)
    low, high = _weights(len(ranked), share) @ ranked.reshape(len(ranked), -1)
    shape = values.shape[1:]
    return np.minimum(low.reshape(shape), values[0]), np.maximum(high.reshape(shape), values[0])


@cache
def _weights(count: int, share: float) -> Array:
    """Return what each of `count` ranked samples weighs in both quantiles (2, count)."""
    from scipy.special import betainc

    tail, steps = (1.0 - share) / 2.0, np.arange(count + 1) / count
    both = ((count + 1) * each for each in (tail, 1.0 - tail))
    return np.array([np.diff(betainc(one, count + 1 - one, steps)) for one in both])
