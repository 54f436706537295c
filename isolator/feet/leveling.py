"""Pads that differ from foot to foot, so that the printer stays level on them."""

from __future__ import annotations

import string

import numpy as np

from isolator.cards import Material
from isolator.cards.pad_law import unloaded
from isolator.cards.pads import pad_state
from isolator.design import Foot
from isolator.feet.sizing import foot_of
from isolator.feet.task import FeetTask
from isolator.physics.arrays import Array
from isolator.physics.bodies.statics import G, equal_shares
from isolator.physics.rubber.section import shape_factor, within_fits
from isolator.vibration.printer import MassCase
from isolator.vibration.stand import one_pad

STEP = 1e-4
"""To which pads are cut [m]."""


def levelled(task: FeetTask, foot: Foot, material: Material, mass: MassCase) -> tuple[Foot, ...]:
    """Return feet of one height whose pads sag alike under `mass`, one kind for each pad.

    Every place carries what equal springs would give it, so that all pads at one sag are in
    equilibrium with a level printer; each pad's outline is scaled, to whole tenths of a
    millimetre, until its own load makes the sag that the mean load makes on the given pad. Pads
    keep within half and twice the given width, and within the shape factors that are held against
    finite elements. Half-balls and ready-made mounts are as they are bought: they come back
    as they went, and so do pads whose loads are alike.
    """
    places = np.array(foot.positions)
    if foot.pad.outline.bought:
        return (foot,)
    loads = np.maximum(equal_shares(places, mass.com[:2], mass.mass * G), 0.0)
    mean = pad_state(one_pad(material, foot.pad), np.array([[float(loads.mean())]]))
    wanted = float(mean.strain[0, 0])
    first, second, strain = _cuts(foot, material, loads)
    best = np.argmin(np.abs(strain - wanted), axis=0)
    kinds: dict[int, list[int]] = {}
    for place, row in enumerate(best):
        kinds.setdefault(int(row), []).append(place)
    if len(kinds) == 1:
        return (foot,)
    # letters from the widest pad down, so that the foot under the heaviest corner is A
    return tuple(
        foot_of(
            task,
            material,
            foot.pad.shape,
            float(first[row]),
            float(second[row]),
            foot.pad.thickness,
            foot.pad.layers,
            tuple(foot.positions[place] for place in kinds[row]),
            float(strain[row, kinds[row]].mean()) * foot.pad.thickness,
            name=f"foot-{letter}",
        )
        for row, letter in zip(sorted(kinds, reverse=True), _letters(len(kinds)), strict=True)
    )


def _letters(count: int) -> list[str]:
    """Return a letter for each kind; two letters past the alphabet's end."""
    alphabet = string.ascii_lowercase
    return [(alphabet[n // 26 - 1] if n >= 26 else "") + alphabet[n % 26] for n in range(count)]


def _cuts(foot: Foot, material: Material, loads: Array) -> tuple[Array, Array, Array]:
    """Return the outlines (n,) that may be cut [m] and their strain under each load (n, s)."""
    pad = foot.pad
    first = np.round(np.arange(0.5 * pad.first, 2.0 * pad.first, STEP) / STEP) * STEP
    first = np.round(first, 9)
    second = np.round(np.round(first * pad.second / pad.first / STEP) * STEP, 9)
    pads = unloaded(material, pad.shape, (first, second, np.full_like(first, pad.thickness)))
    state = pad_state(pads, np.broadcast_to(loads, (len(first), len(loads))))
    # beyond these the pads' formulas do not hold
    proportion = shape_factor(pad.shape, first, second, np.full_like(first, pad.thickness))
    holds = within_fits(proportion)
    return first, second, np.where(holds[:, None], state.strain, np.inf)
