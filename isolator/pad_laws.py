"""Pads of one card under load: strain, tangent stiffness in all directions, force over sag."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from isolator.materials import Material
from isolator.physics import elastomer, foam, printed
from isolator.physics.section import section

Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class PadState:
    """Pads under load; every array (n, s). Stiffnesses are static tangents at the load."""

    strain: Array
    linear: Array  # (n, s, 3) [N/m]
    angular: Array  # (n, s, 3) [N·m/rad]
    buckling: Array  # load over buckling load [-]


def pad_state(
    material: Material,
    shape: str,
    first: Array,
    second: Array,
    thickness: Array,
    load: Array,
    *,
    modulus_factor: float = 1.0,
    bonded: float = 1.0,
) -> PadState:
    """Return how pads of one material and outline carry `load` (n, s) [N].

    `first`, `second`, `thickness` (n,) [m]. A material that is stiffer by `modulus_factor` at
    load P is as stiff as that many of the card's pads at P over the factor: every law here is
    linear in the modulus.
    """
    scaled = np.maximum(load, 0.0) / modulus_factor
    column = (first[:, None], second[:, None], thickness[:, None])
    if is_solid(material):
        state = _rubber(material, shape, *column, scaled, bonded)
    elif material.family == "foam":
        state = _foam(material, shape, *column, scaled)
    else:
        state = _printed(material, shape, *column, scaled)
    return replace(
        state, linear=state.linear * modulus_factor, angular=state.angular * modulus_factor
    )


def is_solid(material: Material) -> bool:
    """Return whether a material keeps its volume: rubber, or a print without voids."""
    return material.family == "rubber" or (material.family == "printed" and material.infill == 1)


def youngs_and_shear(material: Material) -> tuple[float, float]:
    """Return E0 and G [Pa] of a solid; a shear modulus that is absent follows from E = 3G."""
    figure = material.youngs_modulus or material.solid_modulus
    if figure is None:
        raise ValueError(f"{material.id}: a solid needs youngs_modulus or solid_modulus")
    shear = material.shear_modulus
    return figure.value, figure.value / 3.0 if shear is None else shear.value


@dataclass(frozen=True, slots=True, kw_only=True)
class _Rubber:
    """A rubber card's moduli as the pad formulas take them [Pa]."""

    youngs_modulus: float
    shear_modulus: float
    hardness_factor: float
    bulk_modulus: float
    bonded: float

    def rising(self) -> dict[str, float]:
        """Return the arguments of the forms in which the shape factor counts."""
        return {name: getattr(self, name) for name in self.__slots__}

    def modulus(self, shape: str, a: Array, b: Array, t: Array) -> Array:
        """Return the apparent compression modulus [Pa]."""
        return elastomer.apparent_modulus(shape, a, b, t, **self.rising())


def _rubber_of(material: Material, bonded: float) -> _Rubber:
    youngs, shear = youngs_and_shear(material)
    factor, bulk = material.hardness_factor, material.bulk_modulus
    return _Rubber(
        youngs_modulus=youngs, shear_modulus=shear,
        hardness_factor=1.0 if factor is None else factor.value,
        bulk_modulus=np.inf if bulk is None else bulk.value, bonded=bonded,
    )  # fmt: skip


def _rubber(
    material: Material, shape: str, a: Array, b: Array, t: Array, load: Array, bonded: float
) -> PadState:
    rubber = _rubber_of(material, bonded)
    stiff = section(shape, a, b).area * rubber.modulus(shape, a, b, t)
    strain = elastomer.strain_under(load / stiff)
    axial = stiff / t * elastomer.tangent_ratio(strain)
    shear = elastomer.shear_stiffness(
        shape, a, b, t, shear_modulus=rubber.shear_modulus, youngs_modulus=rubber.youngs_modulus
    )
    tilt = elastomer.tilt_stiffness(shape, a, b, t, **rubber.rising())
    twist = elastomer.twist_stiffness(shape, a, b, t, shear_modulus=rubber.shear_modulus)
    critical = elastomer.buckling_load(shear[0], np.minimum(*tilt), t)
    return _loaded(strain, axial, shear, (*tilt, twist), load, critical)


def _curve(material: Material) -> tuple[Array, Array]:
    """Return a foam card's static curve: strain [-] and stress [Pa]."""
    if material.curve is None:
        raise ValueError(f"{material.id}: a foam card needs a curve")
    return np.array(material.curve.strain), np.array(material.curve.stress)


def _foam(material: Material, shape: str, a: Array, b: Array, t: Array, load: Array) -> PadState:
    strains, stresses = _curve(material)
    poisson = 0.0 if material.poisson is None else material.poisson.value
    stress = load / section(shape, a, b).area
    strain = foam.strain_under(stress, strains, stresses)
    tangent = foam.curve_slope(strain, strains, stresses)
    initial = float(foam.curve_slope(np.array(0.0), strains, stresses))
    with np.errstate(invalid="ignore", divide="ignore"):
        secant = np.where(strain > 1e-6, stress / strain, initial)
    # the secant rules shear and tilt: walls that have buckled no longer carry shear
    return _plain(shape, a, b, t, load, strain, tangent, secant, poisson)


def _printed_modulus(material: Material, shape: str, a: Array, b: Array) -> Array:
    """Return the mean modulus [Pa] of printed pads: infill with solid walls beside it."""
    solid, infill = material.solid_modulus, material.infill
    law_factor, law_power = material.infill_factor, material.infill_power
    if solid is None or infill is None or law_factor is None or law_power is None:
        raise ValueError(
            f"{material.id}: a printed card needs solid_modulus, infill, infill_factor "
            "and infill_power"
        )
    part = section(shape, a, b)
    core = printed.infill_modulus(solid.value, infill, law_factor.value, law_power.value)
    wall_area = np.minimum((material.wall or 0.0) * part.perimeter, part.area)
    return printed.pad_modulus(core, solid.value, part.area, wall_area)


def _printed(material: Material, shape: str, a: Array, b: Array, t: Array, load: Array) -> PadState:
    modulus = _printed_modulus(material, shape, a, b)
    poisson = 0.3 if material.poisson is None else material.poisson.value
    strain = elastomer.strain_under(load / (section(shape, a, b).area * modulus))
    tangent = modulus * elastomer.tangent_ratio(strain)
    return _plain(shape, a, b, t, load, strain, tangent, modulus + 0.0 * strain, poisson)


def pad_modulus(
    material: Material, shape: str, first: Array, second: Array, thickness: Array, *,
    bonded: float = 1.0,
) -> Array:  # fmt: skip
    """Return the small-strain apparent modulus [Pa] of pads that obey (λ⁻² − λ)/3."""
    if is_solid(material):
        return _rubber_of(material, bonded).modulus(shape, first, second, thickness)
    return _printed_modulus(material, shape, first, second)


def pad_force(
    material: Material, shape: str, first: Array, second: Array, thickness: Array, sag: Array, *,
    modulus_factor: float = 1.0, bonded: float = 1.0,
) -> tuple[Array, Array]:  # fmt: skip
    """Return static force (n, s) [N] and tangent [N/m] of pads at `sag` (n, s) [m].

    The same laws as `pad_state`, read the other way. Past a foam's last point the curve goes on
    along its last slope; past a strain of 0.95 rubber does, so that a search may step there.
    """
    a, b, t = first[:, None], second[:, None], thickness[:, None]
    strain = sag / t
    area = section(shape, a, b).area
    if material.family == "foam":
        strains, stresses = _curve(material)
        within = np.minimum(strain, strains[-1])
        tangent = foam.curve_slope(within, strains, stresses)
        stress = foam.stress_at(within, strains, stresses) + tangent * (strain - within)
    else:
        modulus = pad_modulus(material, shape, a, b, t, bonded=bonded)
        within = np.minimum(strain, 0.95)
        tangent = modulus * elastomer.tangent_ratio(within)
        stress = modulus * elastomer.stress_ratio(within) + tangent * (strain - within)
    return modulus_factor * area * stress, modulus_factor * area * tangent / t


def _plain(
    shape: str, a: Array, b: Array, t: Array, load: Array,
    strain: Array, tangent: Array, secant: Array, poisson: float,
) -> PadState:  # fmt: skip
    """Pads that hardly bulge: no shape factor."""
    area = section(shape, a, b).area
    axial = tangent * area / t
    shear_x, shear_y = foam.shear_stiffness(shape, a, b, t, secant_modulus=secant, poisson=poisson)
    tilt_x, tilt_y = foam.tilt_stiffness(shape, a, b, t, modulus=secant)
    twist = foam.twist_stiffness(shape, a, b, t, secant_modulus=secant, poisson=poisson)
    critical = elastomer.buckling_load(shear_x, np.minimum(tilt_x, tilt_y), t)
    return _loaded(strain, axial, (shear_x, shear_y), (tilt_x, tilt_y, twist), load, critical)


def _loaded(
    strain: Array, axial: Array, shear: tuple[Array, Array], angular: tuple[Array, Array, Array],
    load: Array, critical: Array,
) -> PadState:  # fmt: skip
    reduction = elastomer.shear_reduction(load, critical)
    like = strain.shape
    linear = [shear[0] * reduction, shear[1] * reduction, axial]
    return PadState(
        strain=strain,
        linear=np.stack([np.broadcast_to(part, like) for part in linear], axis=-1),
        angular=np.stack([np.broadcast_to(part, like) for part in angular], axis=-1),
        buckling=np.broadcast_to(load / critical, like),
    )
