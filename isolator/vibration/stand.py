"""Feet as they stand under the printer: designed, given as stiffnesses, or there now."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

import numpy as np

from isolator.brief import (
    GivenFoot,
    Room,
)
from isolator.cards import Material
from isolator.cards.pad_law import unloaded
from isolator.cards.pads import PadBatch
from isolator.design import Foot, Pad
from isolator.design.soles import FRICTION, PAD
from isolator.physics.arrays import Array
from isolator.physics.bodies.statics import G, Settled, settle
from isolator.physics.rubber.viscoelastic import springpot_exponent
from isolator.vibration.printer import MassCase, RigidPrinter
from isolator.vibration.spreads import Samples, pad_factors
from isolator.vibration.supports import (
    FeetBatch,
    beside,
    feet_of_pads,
    loss_at,
    stiffness_factor,
)

GIVEN_WIDTH = 0.03
"""What feet of which only stiffnesses are known stand on [m]; estimated, no source."""
BALL_SHARE = 0.5
"""Width on which a half-ball stands over its diameter, pressed by a tenth of it; estimated."""
ENDS = ("soft", "nominal", "stiff")


@dataclass(frozen=True, slots=True, kw_only=True)
class Stand:
    """One set of feet that can be put under any mass case at any end of its band."""

    title: str
    material: Material | None
    height: float  # of the printer's underside over the desk, unloaded [m]
    widths: Array  # (s,) of the disc on which each foot stands [m]
    settled: Callable[[MassCase, str], tuple[FeetBatch, tuple[float, float]]]
    """(mass case, end of the band) → feet under load, static tilt about x and y [rad]."""
    sampled: Callable[[Sequence[MassCase], Samples, str], FeetBatch]
    """(mass case of each of n samples, samples, one of `spreads.STANDS`) → n sets under load."""
    printer: RigidPrinter | None = None  # what stands on them, where it is another than asked about
    touches: str = PAD  # what grips least on the desk, one of `isolator.design.soles.FRICTION`


@dataclass(frozen=True, slots=True, kw_only=True)
class Alike:
    """Equal pads and where they stand."""

    pads: PadBatch  # a batch of one
    positions: Array  # (s, 2) [m]
    cap: float  # solid height over them [m]
    width: float  # of what one stands on [m]


def pads_stand(
    room: Room,
    material: Material,
    title: str,
    groups: Sequence[Alike],
    height: float,
    printer: RigidPrinter | None = None,
) -> Stand:
    """Return pads of one material in groups of equal ones; all stand `height` [m] tall."""
    positions = np.concatenate([group.positions for group in groups])
    ends = np.cumsum([len(group.positions) for group in groups])
    # each group with its places among all
    placed = [
        (group, slice(end - len(group.positions), end))
        for group, end in zip(groups, ends, strict=True)
    ]

    def resting(
        cases: Sequence[MassCase], factor: Array | float, loss: float | None = None
    ) -> tuple[FeetBatch, Settled]:
        """Return feet of `factor` (n, 1) times the card's modulus under n cases."""

        def force_of(sag: Array) -> tuple[Array, Array]:
            found = [group.pads.pressed(sag[..., own], factor) for group, own in placed]
            forces, tangents = zip(*found, strict=True)
            return np.concatenate(forces, axis=-1), np.concatenate(tangents, axis=-1)

        rest = settle(positions, *_loading(cases), force_of)
        feet = [
            feet_of_pads(
                group.pads,
                group.positions,
                rest.loads[:, own],
                group.cap,
                modulus_factor=factor,
                loss=loss,
            )
            for group, own in placed
        ]
        return beside(feet), rest

    def settled(case: MassCase, end: str) -> tuple[FeetBatch, tuple[float, float]]:
        factor = stiffness_factor(
            material, end=end, low=room.temperature_low, high=room.temperature_high
        )
        feet, rest = resting([case], factor, loss_at(material, end))
        return feet, (_tilt(rest.tilt_x), _tilt(rest.tilt_y))

    def sampled(cases: Sequence[MassCase], samples: Samples, stand: str) -> FeetBatch:
        factors = pad_factors(samples, material, samples.temperature(room), stand)
        feet, _ = resting(cases, factors.static[:, None])
        loss = factors.loss * material.loss_factor.value
        return replace(
            feet,
            loss=np.broadcast_to(loss[:, None], feet.loss.shape),
            alpha=springpot_exponent(loss),
            ratio=factors.dynamic * feet.ratio,
        )

    return Stand(
        title=title,
        material=material,
        height=height,
        widths=np.concatenate([np.full(len(g.positions), g.width) for g in groups]),
        settled=settled,
        sampled=sampled,
        printer=printer,
    )


def _loading(cases: Sequence[MassCase]) -> tuple[Array, Array]:
    """Return centres of mass in plan (n, 2) [m] and weights (n,) [N]."""
    return np.array([case.com[:2] for case in cases]), np.array([case.mass * G for case in cases])


def _tilt(turned: Array) -> float:
    """Return a tilt [rad]; rounded, so that a level printer is told as exactly level."""
    return round(float(turned[0]), 12)


def one_pad(material: Material, pad: Pad, *, bonded: float = 1.0) -> PadBatch:
    """Return one pad as a batch of one; `bonded` from 1, faces held, to 0, faces free to slip."""
    sizes = (np.array([pad.first]), np.array([pad.second]), np.array([pad.thickness]))
    return unloaded(material, pad.shape, sizes, bonded=bonded)


def contact_width(pad: Pad) -> float:
    """Return the diameter [m] of a disc as large as what a pad stands on, holes filled."""
    if pad.outline.halved:
        return BALL_SHARE * pad.first
    across = pad.first * pad.outline.along_y(pad.first, pad.second)
    return math.sqrt(across if pad.outline.round else 4.0 / math.pi * across)


def feet_stand(room: Room, feet: Sequence[Foot], material: Material) -> Stand:
    """Return the designed feet: one kind or several, all of one material and equally tall."""
    groups = [
        Alike(
            pads=one_pad(material, foot.pad),
            positions=np.array(foot.positions),
            cap=foot.over_rubber,
            width=contact_width(foot.pad),
        )
        for foot in feet
    ]
    height = max(foot.height for foot in feet)
    least = min((foot.touches for foot in feet), key=FRICTION.__getitem__)
    return replace(pads_stand(room, material, "designed feet", groups, height), touches=least)


def given_stand(given: tuple[GivenFoot, ...]) -> Stand:
    """Return feet whose stiffness is known as it acts: no band, no change with frequency."""
    centres = np.array([[foot.position for foot in given]])
    linear = np.array([[foot.stiffness for foot in given]])
    angular = np.array([[foot.angular for foot in given]])
    loss = np.array([[foot.loss_factor for foot in given]])

    def resting(cases: Sequence[MassCase]) -> tuple[FeetBatch, Settled]:
        upright, count = linear[..., 2], len(cases)

        def force_of(sag: Array) -> tuple[Array, Array]:
            return upright * sag, upright + 0.0 * sag

        rest = settle(centres[..., :2], *_loading(cases), force_of)
        feet = FeetBatch(
            centres=np.repeat(centres, count, axis=0),
            linear=np.repeat(linear, count, axis=0),
            angular=np.repeat(angular, count, axis=0),
            loss=np.repeat(loss, count, axis=0),
            ratio=np.ones(count),
            alpha=np.zeros(count),
            reference=np.ones(count),
            load=rest.loads,
            strain=np.full_like(rest.loads, np.nan),
            sag=np.maximum(rest.sags, 0.0),
            buckling=np.zeros_like(rest.loads),
            mass=np.zeros_like(rest.loads),
        )
        return feet, rest

    def settled(case: MassCase, end: str) -> tuple[FeetBatch, tuple[float, float]]:
        feet, rest = resting([case])
        return feet, (_tilt(rest.tilt_x), _tilt(rest.tilt_y))

    def sampled(cases: Sequence[MassCase], samples: Samples, stand: str) -> FeetBatch:
        return resting(cases)[0]

    # an elastic centre lies half way down a foot
    height = max(0.0, -2.0 * float(centres[..., 2].min()))
    return Stand(
        title="given feet",
        material=None,
        height=height,
        widths=np.full(len(given), GIVEN_WIDTH),
        settled=settled,
        sampled=sampled,
    )
