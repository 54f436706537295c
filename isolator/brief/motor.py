"""A belt motor as it is built now, and what may go under it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from isolator.design.axes import AXES, Axis, Triple

Drives = Literal["x", "y", "both"]
BracketMaterial = Literal["aluminium", "steel", "printed"]
DamperWish = Literal["auto", "always", "none"]
PulleySetting = Literal["spacer", "gauge"]

DRIVES: tuple[Drives, ...] = ("x", "y", "both")
BRACKET_MATERIALS: tuple[BracketMaterial, ...] = ("aluminium", "steel", "printed")
DAMPER_WISHES: tuple[DamperWish, ...] = ("auto", "always", "none")
PULLEY_SETTINGS: tuple[PulleySetting, ...] = ("spacer", "gauge")
SIGNED_AXES = (*AXES, "-x", "-y", "-z")


@dataclass(frozen=True, slots=True, kw_only=True)
class Motor:
    """One belt motor as built now."""

    name: str
    frame_size: int  # 14 | 17 | 23
    position: Triple  # of its body's centre [m]
    axis: Axis  # of its shaft
    points: int  # 1: the shaft points along the axis, -1: against it
    drives: Drives
    radial_limit: float | None  # the motor's radial load limit [N]; None: not given
    screw_depth: float  # of its threaded blind holes [m]; 0: a flange with through holes
    mass: float  # [kg]
    body_length: float  # [m]
    rotor_inertia: float  # [kg·m²]
    holding_torque: float  # [N·m], both windings at rated current
    shaft_length: float  # from the face [m]
    shaft_diameter: float  # [m]
    boss_diameter: float  # of the raised ring round the bearing, which stands still [m]
    boss_height: float  # of it over the face [m]
    inner_ring: float  # outer diameter of the bearing's inner ring, which turns [m]
    radial_arm: float  # distance from the face at which the radial limit holds [m]
    pulley_standoff: float  # motor face to pulley, as built now [m]
    pulley_length: float  # whole pulley along the shaft [m]
    set_screw: float  # pulley's end at the motor to its set screws' axis [m]
    belt_offset: float  # pulley's end at the motor to the belt's middle [m]
    wrap: float  # of the belt round the pulley [rad]
    bracket: float  # thickness of what the motor is bolted to [m]
    bracket_material: BracketMaterial
    bracket_area: float  # surface that cools the bracket [m²]
    rated_current: float  # of a winding [A]
    current: float  # set now, peak of the sine [A]
    winding_resistance: float  # [Ω]
    winding_inductance: float  # [H]
    damper: DamperWish
    mount: str  # the only bought damper wanted, by its name; empty: any
    spacer_plate: float  # height of a plain plate to go between motor and frame [m]; 0 for none
    pulley_set_by: PulleySetting  # what gives the pulley its height over the motor's face
    pull: Triple  # unit vector of the belts' pull on the shaft, across it
