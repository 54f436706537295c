"""Feet as they stand under the printer: designed, given as stiffnesses, or there now."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from isolator.brief import Brief, GivenFoot, foot_positions
from isolator.design import Foot
from isolator.machine import MassCase
from isolator.materials import Material
from isolator.pad_laws import pad_force, unloaded
from isolator.physics.statics import settle
from isolator.stiffness import FeetBatch, feet_of_pads, stiffness_factor

Array = NDArray[np.float64]

G = 9.80665
"""Standard gravity [m/s²]."""
ENDS = ("soft", "nominal", "stiff")


@dataclass(frozen=True, slots=True, kw_only=True)
class Stand:
    """One set of feet that can be put under any mass case at any end of its band."""

    title: str
    material: Material | None
    thickness: float | None  # of the pads, unloaded [m]
    height: float  # of the printer's underside over the desk, unloaded [m]
    settled: Callable[[MassCase, str], tuple[FeetBatch, tuple[float, float]]]
    """(mass case, end of the band) → feet under load, static tilt about x and y [rad]."""


def pad_stand(
    brief: Brief, material: Material, title: str, *, shape: str, first: float, second: float,
    thickness: float, cap: float, sole: float, positions: Array, bonded: float = 1.0,
) -> Stand:  # fmt: skip
    """Return equal pads of one material at `positions` (s, 2) [m]."""
    sizes = (np.array([first]), np.array([second]), np.array([thickness]))
    pads = unloaded(material, shape, *sizes, bonded=bonded)

    def settled(case: MassCase, end: str) -> tuple[FeetBatch, tuple[float, float]]:
        factor = stiffness_factor(
            material, end=end, low=brief.room.temperature_low, high=brief.room.temperature_high
        )

        def force_of(sag: Array) -> tuple[Array, Array]:
            return pad_force(pads, sag, modulus_factor=factor)

        rest = settle(positions[None], case.com[:2], np.array([case.mass * G]), force_of)
        feet = feet_of_pads(pads, positions, rest.loads, cap, modulus_factor=factor)
        return feet, (float(rest.tilt_x[0]), float(rest.tilt_y[0]))

    return Stand(
        title=title, material=material, thickness=thickness, height=cap + thickness + sole,
        settled=settled,
    )  # fmt: skip


def foot_stand(brief: Brief, foot: Foot, material: Material) -> Stand:
    """Return the designed feet."""
    pad = foot.pad
    return pad_stand(
        brief, material, "designed feet", shape=pad.shape, first=pad.first, second=pad.second,
        thickness=pad.thickness, cap=foot.cap, sole=foot.sole, positions=np.array(foot.positions),
    )  # fmt: skip


def now_stand(brief: Brief, cards: dict[str, Material]) -> Stand | None:
    """Return the feet that stand there now, None where the brief does not say."""
    now = brief.feet.now
    if now is None:
        return None
    places = foot_positions(brief.feet, brief.printer.size, brief.feet.count[0])
    return pad_stand(
        brief, cards[now.material], "feet there now", shape=now.shape, first=now.first,
        second=now.second, thickness=now.thickness, cap=0.0, sole=0.0, positions=np.array(places),
        bonded=1.0 if now.bonded else 0.5,
    )  # fmt: skip


def given_stand(given: tuple[GivenFoot, ...]) -> Stand:
    """Return feet whose stiffness is known as it acts: no band, no change with frequency."""
    centres = np.array([[foot.position for foot in given]])
    linear = np.array([[foot.stiffness for foot in given]])
    angular = np.array([[foot.angular for foot in given]])
    loss = np.array([[foot.loss_factor for foot in given]])

    def settled(case: MassCase, end: str) -> tuple[FeetBatch, tuple[float, float]]:
        upright = linear[..., 2]

        def force_of(sag: Array) -> tuple[Array, Array]:
            return upright * sag, upright + 0.0 * sag

        rest = settle(centres[..., :2], case.com[:2], np.array([case.mass * G]), force_of)
        none = np.full_like(loss, np.nan)
        feet = FeetBatch(
            centres=centres, linear=linear, angular=angular, loss=loss,
            ratio=np.ones(1), alpha=np.zeros(1), reference=np.ones(1),
            load=rest.loads, strain=none, sag=np.maximum(rest.sags, 0.0), buckling=0.0 * loss,
        )  # fmt: skip
        return feet, (float(rest.tilt_x[0]), float(rest.tilt_y[0]))

    # an elastic centre lies half way down a foot
    height = max(0.0, -2.0 * float(centres[..., 2].min()))
    return Stand(title="given feet", material=None, thickness=None, height=height, settled=settled)
