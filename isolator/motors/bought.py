"""Dampers that are bought ready-made, as candidates: the stiffness is their data sheets'."""

from __future__ import annotations

import numpy as np

from isolator.brief import DamperMount, DamperStock, Motor
from isolator.cards.data_sheet import damper_material
from isolator.motors.candidates import DamperBatch
from isolator.physics.rubber.bonded import compression_ratio, tilt_ratio
from isolator.physics.rubber.section import section


def bought_batches(stock: DamperStock, motor: Motor) -> list[DamperBatch]:
    """Return the bought dampers that fit a motor, one a batch; where it is told which, that one."""
    return [
        _batch(mount)
        for mount in stock.mounts
        if mount.frame_size == motor.frame_size and motor.mount in ("", mount.name)
    ]


def ring_tilt(mount: DamperMount) -> float:
    """Return how stiffly a bonded ring of a mount's size tilts [N·m/rad], as stiff along its axis.

    Its E_t·I/t over E_a·A/t, see `isolator.physics.rubber.bonded`.
    """
    ring = ("ring", mount.outer, mount.hole, mount.rubber)
    part = section("ring", mount.outer, mount.hole)
    ratio = float(tilt_ratio(*ring)[0] / compression_ratio(*ring))
    return mount.axial * ratio * float(part.i_x / part.area)


def _batch(mount: DamperMount) -> DamperBatch:
    def one(value: float) -> np.ndarray:
        return np.array([value])

    material = damper_material(
        mount.id,
        mount.name,
        spread=mount.spread,
        loss=(mount.loss_factor, mount.loss_spread, mount.loss_told),
        ratio=(mount.dynamic_ratio, mount.ratio_told),
        conductivity=mount.conductivity,
        found=mount.found,
    )
    return DamperBatch(
        material=material,
        shape="ring",
        first=one(mount.outer),
        second=one(mount.hole),
        circle=one(0.0),
        rubber=one(mount.rubber),
        area=one(float(section("ring", mount.outer, mount.hole).area)),
        edge=one(mount.outer / 2.0),
        axial=one(mount.axial),
        shear=one(mount.radial),
        tilt=one(mount.tilt if mount.tilt > 0 else ring_tilt(mount)),
        twist=one(mount.twist),
        bought=mount,
    )
