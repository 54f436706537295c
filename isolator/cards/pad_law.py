"""Pads of one card under load: strain, tangent stiffness in all directions, force over sag.

What does not depend on the load is worked out once (`PadBatch`) and used for every load: a pad's
stiffness is that of the unloaded pad times what its strain makes of it.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from isolator.cards import Material
from isolator.cards.moduli import card_curve, card_moduli, card_poisson
from isolator.design import OUTLINES
from isolator.physics.rubber import ball, elastomer, foam, printed
from isolator.physics.rubber.section import section

Array = NDArray[np.float64]

FOLDED = 1e-3
"""Share of its shear stiffness that a pad past its buckling load keeps: next to nothing, so that
its check stops it, yet enough for matrices to have an inverse; convention, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PadBatch:
    """n pads of one material and outline; every array (n, 1).

    `axial` is the small-strain compression stiffness times the thickness, A·E_a [N], of pads
    whose force goes with (λ⁻² − λ)/3, and the area [m²] of pads that follow a curve. The other
    stiffnesses are those of the unloaded pad, or per pascal of modulus for a curve. Half-balls
    hold E in `axial` and G in `shear` [Pa] and nothing in `angular`: all comes with their load.
    """

    material: Material
    axial: Array
    thickness: Array  # [m]
    shear: tuple[Array, Array]  # along x, y
    angular: tuple[Array, Array, Array]  # about x, y, z
    wall: Array | None = None  # of half-balls [m]

    def take(self, rows: NDArray[np.intp] | NDArray[np.bool_]) -> PadBatch:
        """Return the pads at `rows`."""
        return PadBatch(
            material=self.material,
            axial=self.axial[rows],
            thickness=self.thickness[rows],
            shear=(self.shear[0][rows], self.shear[1][rows]),
            angular=(self.angular[0][rows], self.angular[1][rows], self.angular[2][rows]),
            wall=None if self.wall is None else self.wall[rows],
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class PadState:
    """Pads under load; every array (n, s). Stiffnesses are static tangents at the load."""

    strain: Array
    linear: Array  # (n, s, 3) [N/m]
    angular: Array  # (n, s, 3) [N·m/rad]
    buckling: Array  # load over buckling load; of half-balls over that of a dimple [-]
    depth: Array  # of the elastic centre below the pad's upper face [m]


def unloaded(
    material: Material,
    shape: str,
    first: Array,
    second: Array,
    thickness: Array,
    *,
    bonded: float = 1.0,
) -> PadBatch:
    """Return pads of one material and outline; `first`, `second`, `thickness` (n,) [m].

    `bonded` runs from 1, faces that cannot slip, to 0, faces that slip freely.
    """
    sizes = (first[:, None], second[:, None], thickness[:, None])
    if OUTLINES[shape].halved:
        return _half_balls(material, sizes)
    if is_solid(material):
        axial = section(shape, *sizes[:2]).area * pad_modulus(
            material, shape, *sizes, bonded=bonded
        )
        shear, angular = _rubber(material, shape, sizes, bonded)
    elif material.family == "foam":
        axial = section(shape, *sizes[:2]).area
        held = card_poisson(material, 0.0)
        shear, angular = _plain(shape, sizes, 1.0, held, held)
    else:
        modulus = _printed_modulus(material, shape, *sizes[:2])
        poisson = card_poisson(material, 0.3)
        axial = section(shape, *sizes[:2]).area * pad_modulus(
            material, shape, *sizes, bonded=bonded
        )
        shear, angular = _plain(shape, sizes, modulus, poisson, bonded * poisson)
    return PadBatch(
        material=material, axial=axial, thickness=sizes[2], shear=shear, angular=angular
    )


def _half_balls(material: Material, sizes: Sizes) -> PadBatch:
    """Return half-balls; their flat face is glued whatever other pads' faces do."""
    if material.family != "rubber":
        raise ValueError(f"{material.id}: a half-ball is of rubber, not {material.family}")
    moduli, none = card_moduli(material), np.zeros_like(sizes[2])
    youngs, rigidity = (none + moduli[name] for name in ("youngs_modulus", "shear_modulus"))
    return PadBatch(
        material=material,
        axial=youngs,
        thickness=sizes[2],
        shear=(rigidity, rigidity),
        angular=(none, none, none),
        wall=(sizes[0] - sizes[1]) / 2.0,
    )


def is_solid(material: Material) -> bool:
    """Return whether a material keeps its volume: rubber, or a print without voids."""
    return material.family == "rubber" or (material.family == "printed" and material.infill == 1)


def pad_modulus(
    material: Material,
    shape: str,
    first: Array,
    second: Array,
    thickness: Array,
    *,
    bonded: float = 1.0,
) -> Array:
    """Return the small-strain apparent modulus [Pa] of pads that obey (λ⁻² − λ)/3."""
    if is_solid(material):
        return elastomer.apparent_modulus(
            shape, first, second, thickness, **card_moduli(material), bonded=bonded
        )
    modulus = _printed_modulus(material, shape, first, second)
    held = bonded * card_poisson(material, 0.3)
    stiff = foam.compression_stiffness(
        shape, first, second, thickness, modulus=modulus, poisson=held
    )
    return np.asarray(stiff * thickness / section(shape, first, second).area)


Directions = tuple[tuple[Array, Array], tuple[Array, Array, Array]]
Sizes = tuple[Array, Array, Array]


def _rubber(material: Material, shape: str, sizes: Sizes, bonded: float) -> Directions:
    moduli = card_moduli(material)
    youngs, rigidity = moduli["youngs_modulus"], moduli["shear_modulus"]
    shear = elastomer.shear_stiffness(shape, *sizes, shear_modulus=rigidity, youngs_modulus=youngs)
    tilt = elastomer.tilt_stiffness(shape, *sizes, **moduli, bonded=bonded)
    return shear, (*tilt, elastomer.twist_stiffness(shape, *sizes, shear_modulus=rigidity))


def _plain(
    shape: str, sizes: Sizes, secant: Array | float, poisson: float, held: float
) -> Directions:
    """Return the directions of pads with little or no shape factor; `held` is ν at the faces."""
    shear = foam.shear_stiffness(shape, *sizes, secant_modulus=secant, poisson=poisson)
    tilt = foam.tilt_stiffness(shape, *sizes, modulus=secant, poisson=held)
    twist = foam.twist_stiffness(shape, *sizes, secant_modulus=secant, poisson=poisson)
    return shear, (*tilt, twist)


def _printed_modulus(material: Material, shape: str, a: Array, b: Array) -> Array:
    """Return the mean modulus [Pa] of printed pads: infill with solid walls beside it."""
    solid, infill = material.solid_modulus, material.infill
    factor, power = material.infill_factor, material.infill_power
    if solid is None or infill is None or factor is None or power is None:
        raise ValueError(
            f"{material.id}: a printed card needs solid_modulus, infill, infill_factor "
            "and infill_power"
        )
    part = section(shape, a, b)
    core = printed.infill_modulus(solid.value, infill, factor.value, power.value)
    wall_area = np.minimum((material.wall or 0.0) * part.perimeter, part.area)
    return printed.pad_modulus(core, solid.value, part.area, wall_area)


def pad_state(pads: PadBatch, load: Array, *, modulus_factor: float = 1.0) -> PadState:
    """Return how pads carry `load` (n, s) [N].

    A material that is stiffer by `modulus_factor` at load P is as stiff as that many of the card's
    pads at P over the factor: every law here is linear in the modulus.
    """
    scaled = np.maximum(load, 0.0) / modulus_factor
    if pads.wall is not None:
        return _ball_state(pads, pads.wall, scaled, modulus_factor)
    if pads.material.family == "foam":
        curve = card_curve(pads.material)
        stress = scaled / pads.axial
        strain = foam.strain_under(stress, *curve)
        # small tilt presses one side more and the other less: it feels the slope
        tilting = foam.curve_slope(strain, *curve)
        axial = pads.axial / pads.thickness * tilting
        initial = float(foam.curve_slope(0.0, *curve))
        with np.errstate(invalid="ignore", divide="ignore"):
            # the secant rules shear and twist: walls that have buckled no longer carry shear
            scale = np.where(strain > 1e-6, stress / strain, initial)
    else:
        strain = elastomer.strain_under(scaled / pads.axial)
        axial = pads.axial / pads.thickness * elastomer.tangent_ratio(strain)
        scale = tilting = np.ones_like(strain)
    tilt_x, tilt_y = pads.angular[0] * tilting, pads.angular[1] * tilting
    critical = elastomer.buckling_load(
        pads.shear[0] * scale, np.minimum(tilt_x, tilt_y), pads.thickness
    )
    lost = scale * np.maximum(elastomer.shear_reduction(scaled, critical), FOLDED)
    linear = np.stack([pads.shear[0] * lost, pads.shear[1] * lost, axial], axis=-1)
    angular = np.stack([tilt_x, tilt_y, pads.angular[2] * scale], axis=-1)
    return PadState(
        strain=strain,
        linear=modulus_factor * linear,
        angular=modulus_factor * angular,
        buckling=scaled / critical,
        depth=pads.thickness * (1.0 - strain) / 2.0,
    )


def _ball_state(pads: PadBatch, wall: Array, load: Array, factor: float) -> PadState:
    radius, youngs = pads.thickness, pads.axial
    sag = ball.sag_under(load, radius, wall, youngs_modulus=youngs)
    axial = ball.force(radius, wall, sag, youngs_modulus=youngs)[1]
    found = ball.tangents(radius, wall, sag, youngs_modulus=youngs, shear_modulus=pads.shear[0])
    linear = np.stack([found.shear, found.shear, axial], axis=-1)
    angular = np.stack([found.tilt, found.tilt, found.twist], axis=-1)
    return PadState(
        strain=sag / radius,
        linear=factor * linear,
        angular=factor * angular,
        buckling=load / ball.stop_load(radius, wall, youngs_modulus=youngs),
        depth=radius - sag - found.centre,
    )


def pad_force(pads: PadBatch, sag: Array, *, modulus_factor: float = 1.0) -> tuple[Array, Array]:
    """Return static force (n, s) [N] and tangent [N/m] of pads at `sag` (n, s) [m].

    The same laws as `pad_state`, read the other way. Past a foam's last point the curve goes on
    along its last slope; past a strain of 0.95 rubber does, so that a search may step there.
    """
    if pads.wall is not None:
        pressed = ball.force(pads.thickness, pads.wall, sag, youngs_modulus=pads.axial)
        return modulus_factor * pressed[0], modulus_factor * pressed[1]
    strain = sag / pads.thickness
    if pads.material.family == "foam":
        curve = card_curve(pads.material)
        within = np.minimum(strain, curve[0][-1])
        tangent = foam.curve_slope(within, *curve)
        stress = foam.stress_at(within, *curve)
    else:
        within = np.minimum(strain, 0.95)
        tangent, stress = elastomer.tangent_ratio(within), elastomer.stress_ratio(within)
    carried = pads.axial * (stress + tangent * (strain - within))
    return modulus_factor * carried, modulus_factor * pads.axial * tangent / pads.thickness
