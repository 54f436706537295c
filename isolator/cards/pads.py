"""Pads of one card under load: strain, tangent stiffness in all directions, force over sag.

What does not depend on the load is worked out once (`PadBatch`) and used for every load: a pad's
stiffness is that of the unloaded pad times what its strain makes of it. Each law of how the force
rises with the sag is one kind of batch.
"""

from __future__ import annotations

from abc import ABC, abstractmethod
from dataclasses import dataclass, fields, replace
from typing import Any, Self

import numpy as np
from numpy.typing import NDArray

from isolator.cards import Material
from isolator.cards.moduli import card_curve, mount_curve
from isolator.physics.rubber import ball, elastomer, foam, large_strain

Array = NDArray[np.float64]

FOLDED = 1e-3
"""Share of its shear stiffness that a pad past its buckling load keeps: next to nothing, so that
its check stops it, yet enough for matrices to have an inverse; convention, no source."""

STEEPEST = 0.95
"""Strain past which rubber is taken to go on along its last slope, so that a search may step
there."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PadState:
    """Pads under load; every array (n, s). Stiffnesses are static tangents at the load."""

    strain: Array
    linear: Array  # (n, s, 3) [N/m]
    angular: Array  # (n, s, 3) [N·m/rad]
    buckling: Array  # load over buckling load; of half-balls over that of a dimple [-]
    depth: Array  # of the elastic centre below the pad's upper face [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class PadBatch(ABC):
    """n unloaded pads of one material and outline; every array (n, 1, ...)."""

    material: Material
    thickness: Array  # [m]; of half-balls the radius

    def take(self, rows: NDArray[np.intp] | NDArray[np.bool_]) -> Self:
        """Return the pads at `rows`."""
        names = [each.name for each in fields(self) if each.name != "material"]
        changed: dict[str, Any] = {name: getattr(self, name)[rows] for name in names}
        return replace(self, **changed)

    @property
    @abstractmethod
    def volume(self) -> Array:
        """Return the volume (n, 1) [m³] of each pad, unloaded; a print's as if it were solid."""

    @property
    def mass(self) -> Array:
        """Return the mass (n, 1) [kg] of each pad."""
        return self.volume * self.material.density.value

    @abstractmethod
    def carrying(self, load: Array) -> PadState:
        """Return how pads of the card's own modulus carry `load` (n, s) [N]."""

    @abstractmethod
    def pressed(self, sag: Array, factor: Array | float = 1.0) -> tuple[Array, Array]:
        """Return static force (n, s) [N] and tangent [N/m] of pads at `sag` (n, s) [m].

        Their moduli are `factor`, one or (n, 1), times the card's. The same law as `carrying`, the
        other way.
        """


@dataclass(frozen=True, slots=True, kw_only=True)
class FlatPads(PadBatch):
    """Pads between two plane faces: tilt, shear and twist follow from those of the unloaded pad."""

    shear: Array  # (n, 1, 2) along x, y [N/m]
    angular: Array  # (n, 1, 3) about x, y, z [N·m/rad]
    area: Array  # [m²]

    @property
    def volume(self) -> Array:
        """As `PadBatch`."""
        return self.area * self.thickness

    def _directions(
        self, load: Array, strain: Array, axial: Array, tilting: Array, sideways: Array
    ) -> PadState:
        """Return pads at `strain` with `axial` stiffness [N/m].

        `tilting` and `sideways` are what the strain makes of tilt and of shear and twist.
        """
        tilt_x, tilt_y = self.angular[..., 0] * tilting, self.angular[..., 1] * tilting
        critical = elastomer.buckling_load(
            self.shear[..., 0] * sideways, np.minimum(tilt_x, tilt_y), self.thickness
        )
        lost = sideways * np.maximum(elastomer.shear_reduction(load, critical), FOLDED)
        shear = (self.shear[..., 0] * lost, self.shear[..., 1] * lost)
        return PadState(
            strain=strain,
            linear=np.stack([*shear, axial], axis=-1),
            angular=np.stack([tilt_x, tilt_y, self.angular[..., 2] * sideways], axis=-1),
            buckling=load / critical,
            depth=self.thickness * (1.0 - strain) / 2.0,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class SolidPads(FlatPads):
    """Pads of rubber or of a print, whose force goes with (λ⁻² − λ)/3."""

    compression: Array  # small-strain stiffness times the thickness, A·E_a [N]

    def carrying(self, load: Array) -> PadState:
        """As `PadBatch`; shear and twist do not change with the strain."""
        strain = large_strain.strain_under(load / self.compression)
        axial = self.compression / self.thickness * large_strain.tangent_ratio(strain)
        same = np.ones_like(strain)
        return self._directions(load, strain, axial, same, same)

    def pressed(self, sag: Array, factor: Array | float = 1.0) -> tuple[Array, Array]:
        """As `PadBatch`."""
        strain = sag / self.thickness
        within = np.minimum(strain, STEEPEST)
        tangent, stress = large_strain.tangent_ratio(within), large_strain.stress_ratio(within)
        force = self.compression * (stress + tangent * (strain - within))
        return factor * force, factor * self.compression * tangent / self.thickness


@dataclass(frozen=True, slots=True, kw_only=True)
class FoamPads(FlatPads):
    """Pads that follow their card's curve; `shear` and `angular` are per pascal of modulus."""

    def carrying(self, load: Array) -> PadState:
        """As `PadBatch`; tilt goes with the slope of the curve, shear and twist with its secant.

        A small tilt presses one side more and the other less, along the slope. Cell walls that
        have buckled carry no more shear than the secant says.
        """
        curve = card_curve(self.material)
        stress = load / self.area
        strain = foam.strain_under(stress, *curve)
        slope = foam.curve_slope(strain, *curve)
        initial = float(foam.curve_slope(0.0, *curve))
        with np.errstate(invalid="ignore", divide="ignore"):
            secant = np.where(strain > 1e-6, stress / strain, initial)
        axial = self.area / self.thickness * slope
        return self._directions(load, strain, axial, slope, secant)

    def pressed(self, sag: Array, factor: Array | float = 1.0) -> tuple[Array, Array]:
        """As `PadBatch`; past its last point the curve goes on along its last slope."""
        curve = card_curve(self.material)
        strain = sag / self.thickness
        within = np.minimum(strain, curve[0][-1])
        tangent = foam.curve_slope(within, *curve)
        stress = foam.stress_at(within, *curve)
        force = self.area * (stress + tangent * (strain - within))
        return factor * force, factor * self.area * tangent / self.thickness


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetMounts(FlatPads):
    """Ready-made mounts of one data sheet, `MountSheet`."""

    def carrying(self, load: Array) -> PadState:
        """As `PadBatch`; tilt goes with the slope of the curve, shear and twist stay."""
        curve = mount_curve(self.material)
        strain = foam.strain_under(load, *curve)
        slope = foam.curve_slope(strain, *curve)
        same = np.ones_like(strain)
        initial = float(foam.curve_slope(0.0, *curve))
        return self._directions(load, strain, slope / self.thickness, slope / initial, same)

    def pressed(self, sag: Array, factor: Array | float = 1.0) -> tuple[Array, Array]:
        """As `PadBatch`."""
        curve = mount_curve(self.material)
        strain = sag / self.thickness
        within = np.minimum(strain, curve[0][-1])
        tangent = foam.curve_slope(within, *curve)
        force = foam.stress_at(within, *curve) + tangent * (strain - within)
        return factor * force, factor * tangent / self.thickness


@dataclass(frozen=True, slots=True, kw_only=True)
class HalfBalls(PadBatch):
    """Half-balls on their domes: every stiffness comes with the load."""

    wall: Array  # [m]
    youngs_modulus: Array  # [Pa]
    shear_modulus: Array  # [Pa]

    @property
    def volume(self) -> Array:
        """As `PadBatch`."""
        inside = np.maximum(self.thickness - self.wall, 0.0)
        return np.asarray(2.0 / 3.0 * np.pi * (self.thickness**3 - inside**3))

    def carrying(self, load: Array) -> PadState:
        """As `PadBatch`."""
        sizes = (self.thickness, self.wall)
        sag = ball.sag_under(load, *sizes, youngs_modulus=self.youngs_modulus)
        axial = ball.force(*sizes, sag, youngs_modulus=self.youngs_modulus)[1]
        found = ball.tangents(
            *sizes, sag, youngs_modulus=self.youngs_modulus, shear_modulus=self.shear_modulus
        )
        return PadState(
            strain=sag / self.thickness,
            linear=np.stack([found.shear, found.shear, axial], axis=-1),
            angular=np.stack([found.tilt, found.tilt, found.twist], axis=-1),
            buckling=load / ball.stop_load(*sizes, youngs_modulus=self.youngs_modulus),
            depth=self.thickness - sag - found.centre,
        )

    def pressed(self, sag: Array, factor: Array | float = 1.0) -> tuple[Array, Array]:
        """As `PadBatch`."""
        found = ball.force(self.thickness, self.wall, sag, youngs_modulus=self.youngs_modulus)
        return factor * found[0], factor * found[1]


def pad_state(pads: PadBatch, load: Array, *, modulus_factor: Array | float = 1.0) -> PadState:
    """Return how pads carry `load` (n, s) [N].

    A material that is stiffer by `modulus_factor`, one or (n, 1), at load P is as stiff as that
    many of the card's pads at P over the factor: every law here is linear in the modulus.
    """
    state = pads.carrying(np.maximum(load, 0.0) / modulus_factor)
    times = np.asarray(modulus_factor)[..., None]
    return replace(state, linear=times * state.linear, angular=times * state.angular)
