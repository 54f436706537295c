"""Motor dampers that are bought, by their data sheets: [[damper.mount]]."""

from __future__ import annotations

import math
from dataclasses import dataclass

from isolator.brief.damper_mount_table import DamperMountTable, widest_ring
from isolator.brief.mounts import LOSS, RATIO
from isolator.brief.sheet_points import Direction, stiffness_of
from isolator.design.faceplates import FACEPLATES
from isolator.design.naming import slug
from isolator.reading.units import format_quantity

ODD = 4.0
"""A twist so many times off a ring's that gives as far sideways is doubted; convention."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DamperMount:
    """A bought damper as its data sheet tells it [SI]: a rubber ring between two steel plates."""

    id: str  # of the material that its rubber is taken for
    name: str
    frame_size: int  # of the motors that it fits
    outer: float  # diameter of its rubber
    hole: float  # in its rubber
    thickness: float  # from face to face
    plate: float  # of that each plate
    mass: float  # 0: not told
    twist: float  # about the shaft, static [N·m/rad]
    radial: float  # across the shaft [N/m]
    axial: float  # along it [N/m]
    tilt: float  # about an axis across the shaft [N·m/rad]; 0: as of a ring of its size
    spread: float  # ×/÷ on all of them
    loss_factor: float
    loss_spread: float  # ×/÷
    loss_told: bool  # rather than estimated
    dynamic_ratio: float
    ratio_told: bool
    conductivity: float | None  # of its rubber [W/(m·K)]; None: not told
    found: str  # where it is got, of isolator.design.got.SHOPS

    @property
    def rubber(self) -> float:
        """Return the thickness of its rubber [m]."""
        return round(self.thickness - 2.0 * self.plate, 9)


def read_damper_mount(table: DamperMountTable) -> DamperMount:
    """Return a bought damper; what contradicts itself becomes faults."""
    table.check("name", "frame_size", "thickness", "plate", "outer", "hole")
    _judge_sizes(table)
    rubber = table.thickness - 2.0 * table.plate
    twist, radial, axial = (
        stiffness_of(table, way)
        for way in (
            Direction("twist", "torques", "angles", "N*m", "rad", "14 N*m/rad", most=math.pi / 4.0),
            Direction("radial", "radial_loads", "radial_sags", "N", "m", "120 N/mm", most=rubber),
            Direction("axial", "axial_loads", "axial_sags", "N", "m", "800 N/mm", most=rubber),
        )
    )
    _judge_twist(table, twist.stiffness, radial.stiffness)
    found = DamperMount(
        id=f"damper-{slug(table.name)}",
        name=table.name,
        frame_size=table.frame_size,
        outer=table.outer,
        hole=table.hole,
        thickness=table.thickness,
        plate=table.plate,
        mass=table.mass,
        twist=twist.stiffness,
        radial=radial.stiffness,
        axial=axial.stiffness,
        tilt=table.tilt,
        # points that lie on no line through zero are off besides
        spread=math.exp(
            math.hypot(math.log(table.spread), max(twist.bent, radial.bent, axial.bent))
        ),
        loss_factor=LOSS if table.loss_factor is None else table.loss_factor,
        loss_spread=table.loss_spread,
        loss_told=table.loss_factor is not None,
        dynamic_ratio=RATIO if table.dynamic_ratio is None else table.dynamic_ratio,
        ratio_told=table.dynamic_ratio is not None,
        conductivity=table.conductivity,
        found=table.found,
    )
    table.done()
    return found


def _judge_sizes(table: DamperMountTable) -> None:
    """Refuse plates thicker than the whole, and rubber where screws or the boss are."""
    if table.clean("thickness", "plate") and table.thickness <= 2.0 * table.plate + 1e-9:
        table.fault(
            "thickness",
            format_quantity(table.thickness, "mm"),
            f"more than its two plates, {format_quantity(2.0 * table.plate, 'mm')}",
            "thickness counts plates and rubber; tell plate if they are thinner",
        )
    if not table.clean("frame_size"):
        return
    outer, _ = widest_ring(table)
    boss = FACEPLATES[table.frame_size].pilot
    for name, bad, wanted in (
        (
            "outer",
            table.outer > outer + 1e-9,
            f"no more than {format_quantity(outer, 'mm')}, clear of the heads of a size "
            f"{table.frame_size} motor's screws",
        ),
        (
            "hole",
            table.hole < boss - 1e-9,
            f"at least {format_quantity(boss, 'mm')}, the boss of a size {table.frame_size} motor",
        ),
        ("hole", table.hole >= table.outer, f"less than outer, {_mm(table.outer)}"),
    ):
        if bad and table.clean(name, "outer"):
            told = "measure it again, or tell the frame_size that it fits"
            table.fault(name, _mm(getattr(table, name)), wanted, told)


def _judge_twist(table: DamperMountTable, twist: float, radial: float) -> None:
    """Doubt a twist that goes with no ring: stiffness per degree is the usual slip."""
    if not table.clean("outer", "hole"):
        return
    # sheared alike all over, rubber at r gives a torque of r² times its share of the force
    ring = radial * (table.outer**2 + table.hole**2) / 8.0
    times = max(twist / ring, ring / twist)
    if times > ODD:
        told = format_quantity(twist, "N*m/rad", 3)
        like = format_quantity(ring, "N*m/rad", 3)
        table.warn(
            "twist" if table.has("twist") else "torques",
            f"{told} is {times:.0f} times off the {like} of a ring of its size that is as stiff "
            "across the shaft; check both, and that twist is per radian, not per degree",
        )


def _mm(length: float) -> str:
    return format_quantity(length, "mm")
