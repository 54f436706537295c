"""Pads and cards → support stiffness: what the physics of a body on feet needs, in batches.

A batch holds n sets of feet with s feet each; a single set is a batch of one.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from isolator.cards import Material
from isolator.cards.pads import PadBatch, pad_state
from isolator.physics.arrays import Array
from isolator.physics.rubber.viscoelastic import springpot_exponent, temperature_factor

ROOM = 20.0
"""Temperature [°C] at which the cards' figures hold."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FeetBatch:
    """n sets of s feet as elastic supports of one printer [SI]."""

    centres: Array  # (n, s, 3) elastic centres
    linear: Array  # (n, s, 3) static tangent stiffness
    angular: Array  # (n, s, 3)
    loss: Array  # (n, s) loss factor
    ratio: Array  # (n,) dynamic over static stiffness at `reference`
    alpha: Array  # (n,) exponent of the rise with frequency
    reference: Array  # (n,) [Hz]
    load: Array  # (n, s) static load
    strain: Array  # (n, s); NaN where only stiffnesses were given
    sag: Array  # (n, s)
    buckling: Array  # (n, s)
    mass: Array  # (n, s) of each pad itself [kg]; 0: a spring without mass

    def take(self, rows: NDArray[np.intp]) -> FeetBatch:
        """Return the sets at `rows`."""
        return FeetBatch(**{name: getattr(self, name)[rows] for name in self.__slots__})


def join(batches: list[FeetBatch]) -> FeetBatch:
    """Return one batch of all sets, in order."""
    return FeetBatch(
        **{
            name: np.concatenate([getattr(batch, name) for batch in batches])
            for name in FeetBatch.__slots__
        }
    )


_PER_SET = ("ratio", "alpha", "reference")
"""What one material has for a whole set of feet."""


def beside(batches: list[FeetBatch]) -> FeetBatch:
    """Return the feet of all batches under one printer; they are of one material."""
    each = [name for name in FeetBatch.__slots__ if name not in _PER_SET]
    side = {name: np.concatenate([getattr(one, name) for one in batches], axis=1) for name in each}
    return replace(batches[0], **side)


def stiffness_factor(material: Material, *, end: str, low: float, high: float) -> float:
    """Return the factor on a card's stiffness at one `end` of its band.

    "soft" is the spread's low end at the warm end of the room (`low`, `high` [°C]), "stiff" its
    high end at the cold end, "nominal" the card at 20 °C.
    """
    if end == "nominal":
        return 1.0
    soft = end == "soft"
    # a card says "softer when warm" with a negative figure; a positive one swaps the ends
    ends = [
        float(temperature_factor(degrees, material.temperature.value, ROOM))
        for degrees in (low, high)
    ]
    spread = material.stiffness_spread
    return min(ends) / spread if soft else max(ends) * spread


def loss_at(material: Material, end: str) -> float:
    """Return the loss factor at one `end` of the band: the card's, or the least at both ends.

    A resonance is worst where it is damped least, whatever the stiffness.
    """
    loss = material.loss_factor
    return loss.value if end == "nominal" else loss.value / loss.spread


def feet_of_pads(
    pads: PadBatch,
    positions: Array,
    load: Array,
    cap: Array | float,
    *,
    modulus_factor: Array | float = 1.0,
    loss: float | None = None,
) -> FeetBatch:
    """Return pads of one material and outline as supports under `positions` (s, 2) [m].

    `load` (n, s) [N]; `cap` [m], one or (n, 1), is the solid height between the printer's underside
    and the pad; `loss` is their loss factor where it is not the card's. The elastic centre of a pad
    lies at the middle of its loaded height, that of a half-ball below the desk, as the ball rolls.
    """
    state = pad_state(pads, load, modulus_factor=modulus_factor)
    material, thickness = pads.material, pads.thickness
    n, s = load.shape
    centres = np.empty((n, s, 3))
    centres[..., :2] = positions
    centres[..., 2] = -(cap + state.depth)
    full = np.ones(n)
    loss = material.loss_factor.value if loss is None else loss
    return FeetBatch(
        centres=centres,
        linear=state.linear,
        angular=state.angular,
        loss=np.full((n, s), loss),
        ratio=full * material.dynamic_ratio.value,
        alpha=full * springpot_exponent(loss),
        reference=full * material.reference_frequency,
        load=load,
        strain=state.strain,
        sag=state.strain * thickness,
        buckling=state.buckling,
        mass=np.broadcast_to(pads.mass, load.shape),
    )
