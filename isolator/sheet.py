"""A candidate becomes a drawing sheet: cap, sole, side room and hard stop round its pad."""

from __future__ import annotations

import math
from importlib.metadata import PackageNotFoundError
from importlib.metadata import version as installed_version

import numpy as np
from numpy.typing import NDArray

from isolator.brief import Brief, Motor
from isolator.design import (
    Design,
    Foot,
    MotorSpacer,
    Pad,
    PrintSettings,
    least_cap,
    least_width,
    quantise,
    quantise_up,
)
from isolator.design.damper import MotorDamper
from isolator.materials import Material
from isolator.physics.elastomer import bulge

Array = NDArray[np.float64]

CUP_CAP = 4.0e-3  # solid height of a cup over its pad, unless its screw needs more [m]
SOLE = 2.4e-3  # [m]
PRINTED_SKIN = 1.6e-3  # solid skin of a printed foot, each face [m]
WALLS = 4  # extrusions side by side in a rim
CLEARANCE = 0.6e-3  # side room beyond the bulge at the stop [m]
SPACER_WALL = 2.4e-3  # of the ring under a pulley [m]
STOP_OVER_LIMIT = 1.6
"""Strain at the hard stop over the material's static limit; common practice, no source."""
STOP_CEILING = 0.65
"""No pad is let squash further than this, whatever its card says."""


def version() -> str:
    """Return the version of this program."""
    try:
        return installed_version("isolator")
    except PackageNotFoundError:  # run from a checkout that is not installed
        return "0+checkout"


def stop_strain(material: Material) -> float:
    """Return the strain at which cup and sole meet."""
    return min(STOP_OVER_LIMIT * material.strain_limit.value, STOP_CEILING)


def kind(material: Material) -> str:
    """Return which kind of foot a material makes."""
    return "printed" if material.family == "printed" else "cup"


def cap_height(brief: Brief, material: Material) -> float:
    """Return the solid height over a pad, whole layers [m]."""
    least = least_cap(brief.feet.attachment, brief.feet.bolt, brief.feet.tube, brief.print.layer)
    own = PRINTED_SKIN if kind(material) == "printed" else CUP_CAP
    return max(least, quantise_up(own, brief.print.layer))


def sole_height(brief: Brief, material: Material) -> float:
    """Return the solid height under a pad, whole layers [m]."""
    own = PRINTED_SKIN if kind(material) == "printed" else SOLE
    return quantise_up(own, brief.print.layer)


def wall_thickness(brief: Brief) -> float:
    """Return the thickness of a cup's rim [m]."""
    return WALLS * brief.print.nozzle * 1.1


def side_room(first: float, material: Material) -> float:
    """Return the gap round an unloaded pad of outside `first` [m] that its bulge needs."""
    if kind(material) == "printed":
        return 0.0
    poisson = 0.5 if material.poisson is None else material.poisson.value
    swell = float(bulge(first, stop_strain(material))) * min(2.0 * poisson, 1.0)
    # to whole tenths of a millimetre, so that the sheet reads like one
    return math.ceil((swell + CLEARANCE) * 1e4 - 1e-6) / 1e4


def outer_width(brief: Brief, first: float, material: Material) -> float:
    """Return the outside of a foot [m] over a pad of outside `first` [m]."""
    if kind(material) == "printed":
        return first
    return first + 2.0 * (side_room(first, material) + wall_thickness(brief))


def screw_room(
    brief: Brief, material: Material, shape: str, first: Array, second: Array, width: Array
) -> Array:
    """Return the width [m] that a foot's screw has to fit in, as `least_width` asks it.

    `first`, `second` of the pad and the foot's outside `width`, arrays of one shape [m].
    """
    slot = brief.feet.attachment.startswith("slot")
    flat = shape == "rectangle"
    outer = np.maximum(first, second) if flat else first
    narrow = np.where(slot, second, np.minimum(first, second)) if flat else first
    rim = 0.0 if slot or kind(material) == "printed" else 2.0 * wall_thickness(brief)
    return np.asarray(narrow + (width - outer) - rim)


def least_screw_room(brief: Brief) -> float:
    """Return the width [m] that the brief's attachment needs."""
    feet = brief.feet
    return least_width(feet.attachment, feet.bolt, feet.tube, brief.print.hole_compensation)


def foot_of(
    brief: Brief, material: Material, shape: str, first: float, second: float,
    thickness: float, layers: int, positions: tuple[tuple[float, float], ...], sag: float,
) -> Foot:  # fmt: skip
    """Return the foot that is solved and drawn."""
    layer = brief.print.layer
    rim = quantise(thickness * (1.0 - stop_strain(material)), layer)
    return Foot(
        name="foot", kind=kind(material),
        pad=Pad(
            shape=shape, first=first, second=second, thickness=thickness, layers=layers,
            material=material.id, printed=material.family == "printed",
        ),
        positions=positions, attachment=brief.feet.attachment, bolt=brief.feet.bolt,
        tube=brief.feet.tube, cap=cap_height(brief, material), sole=sole_height(brief, material),
        wall=wall_thickness(brief), side_room=side_room(max(first, second), material), sag=sag,
        stop=thickness - rim,
    )  # fmt: skip


def spacer_of(motor: Motor) -> MotorSpacer:
    """Return the plate that moves a motor back and the spacer that moves its pulley forward."""
    bore = motor.shaft_diameter
    return MotorSpacer(
        name=motor.name, frame_size=motor.frame_size, height=motor.spacer_plate,
        pulley_spacer=motor.pulley_standoff + motor.spacer_plate, bore=bore,
        outer=bore + 2 * SPACER_WALL,
    )  # fmt: skip


def sheet(
    brief: Brief, feet: tuple[Foot, ...], dampers: tuple[MotorDamper, ...] = ()
) -> Design:  # fmt: skip
    """Return the whole drawing sheet."""
    own = brief.print
    return Design(
        name=brief.name, slug=brief.slug, version=version(),
        print=PrintSettings(
            bed=own.bed, nozzle=own.nozzle, layer=own.layer,
            hole_compensation=own.hole_compensation,
            first_layer_chamfer=own.first_layer_chamfer, material=own.material,
        ),
        feet=feet,
        motor_spacers=tuple(spacer_of(motor) for motor in brief.motors if motor.spacer_plate > 0),
        motor_dampers=dampers, frame_size=brief.printer.size,
    )  # fmt: skip
