"""A candidate becomes a drawing sheet: cap, sole, side room and hard stop round its pad."""

from __future__ import annotations

import math

from isolator.cards import Material
from isolator.design import FOOT_KINDS, OUTLINES, Foot, Pad, least_cap, quantise, quantise_up
from isolator.design.attachment import GLUED
from isolator.design.naming import letter
from isolator.design.soles import USUAL_TREAD, stands_with
from isolator.feet.task import FeetTask
from isolator.physics.arrays import Array
from isolator.physics.rubber import ball
from isolator.physics.rubber.large_strain import bulge

WALLS = 4  # extrusions side by side in a rim
CLEARANCE = 0.6e-3  # side room beyond the bulge at the stop [m]
BALL_ROOM = 0.4e-3  # side room round a half-ball beyond what it swells [m]
STOP_OVER_LIMIT = 1.6
"""Strain at the hard stop over the material's static limit; common practice, no source."""
STOP_CEILING = 0.65
"""No pad is let squash further than this, whatever its card says."""


def stop_strain(material: Material) -> float:
    """Return the strain at which cup and sole meet."""
    return min(STOP_OVER_LIMIT * material.strain_limit.value, STOP_CEILING)


def stop_share(material: Material, shape: str) -> float:
    """Return the compression over a pad's height at which its hard stop meets."""
    share = stop_strain(material)
    return min(share, ball.FURTHEST) if OUTLINES[shape].halved else share


def kind(task: FeetTask, material: Material, shape: str) -> str:
    """Return which kind of foot a pad of a material makes."""
    if task.slab is not None:
        return "bare"
    if OUTLINES[shape].bought:
        return "ball" if OUTLINES[shape].halved else "buffer"
    return "printed" if material.family == "printed" else "cup"


def cap_height(task: FeetTask, material: Material) -> float:
    """Return what lies between the printer's underside and a pad [m]; whole layers, or the slab."""
    if task.slab is not None:
        return task.slab.gap + task.slab.size[2]
    feet, layer = task.feet, task.print.layer
    least = least_cap(
        feet.attachment, feet.bolt, feet.tube, layer, fixing=feet.fixing, key=feet.slot_key
    )
    own = FOOT_KINDS["printed" if material.family == "printed" else "cup"].cap
    return max(least, quantise_up(own, layer))


def over_pad(task: FeetTask, material: Material) -> float:
    """Return the height between the printer's underside and a pad [m], with stud or socket."""
    if task.slab is not None:
        return cap_height(task, material)
    return cap_height(task, material) + task.fastening.lift(task.thread)


def sole_height(task: FeetTask, material: Material, shape: str) -> float:
    """Return the solid height under a pad, whole layers [m]; a ball and a bare pad have none."""
    own = FOOT_KINDS[kind(task, material, shape)].sole
    return quantise_up(own, task.print.layer) if own > 0 else 0.0


def tread_height(task: FeetTask, material: Material, shape: str) -> float:
    """Return the thickness of the tread under a sole, whole layers [m]; 0 for none.

    Where the brief leaves it open, of one that is there if it is needed.
    """
    asked = USUAL_TREAD if task.feet.tread is None else task.feet.tread
    if asked <= 0 or sole_height(task, material, shape) == 0:
        return 0.0
    return quantise_up(asked, task.print.layer)


def touches(task: FeetTask, material: Material, shape: str) -> str:
    """Return what a foot stands on the desk with, one of `isolator.design.soles.FRICTION`."""
    own = FOOT_KINDS[kind(task, material, shape)]
    return stands_with(own, tread_height(task, material, shape))


def foot_height(task: FeetTask, material: Material, shape: str, thickness: Array) -> Array:
    """Return how tall feet are with pads of `thickness` [m]; a slab does not count."""
    over = 0.0 if task.slab is not None else over_pad(task, material)
    sole, tread = sole_height(task, material, shape), tread_height(task, material, shape)
    return over + thickness + sole + tread


def wall_thickness(task: FeetTask) -> float:
    """Return the thickness of a cup's rim [m]."""
    return WALLS * task.print.nozzle * 1.1


def side_room(task: FeetTask, first: float, material: Material, shape: str) -> float:
    """Return the gap round an unloaded pad of outside `first` [m] that its bulge needs."""
    if not FOOT_KINDS[kind(task, material, shape)].rimmed:
        return 0.0
    if OUTLINES[shape].halved:
        swell = float(ball.girth(first / 2.0, stop_share(material, shape) * first / 2.0))
        return math.ceil((swell + BALL_ROOM) * 1e4 - 1e-6) / 1e4
    poisson = 0.5 if material.poisson is None else material.poisson.value
    swell = float(bulge(first, stop_strain(material))) * min(2.0 * poisson, 1.0)
    # to whole tenths of a millimetre, so that the sheet reads like one
    return math.ceil((swell + CLEARANCE) * 1e4 - 1e-6) / 1e4


def outer_width(task: FeetTask, first: float, material: Material, shape: str) -> float:
    """Return the outside of a foot [m] over a pad of outside `first` [m]."""
    if not FOOT_KINDS[kind(task, material, shape)].rimmed:
        return first
    return first + 2.0 * (side_room(task, first, material, shape) + wall_thickness(task))


def foot_of(
    task: FeetTask,
    material: Material,
    shape: str,
    first: float,
    second: float,
    thickness: float,
    layers: int,
    positions: tuple[tuple[float, float], ...],
    sag: float,
    name: str = "foot",
) -> Foot:
    """Return the foot that is solved and drawn."""
    layer, feet = task.print.layer, task.feet
    rim = quantise(thickness * (1.0 - stop_share(material, shape)), layer)
    under = task.slab is not None
    pad = Pad(
        shape=shape,
        first=first,
        second=second,
        thickness=thickness,
        layers=layers,
        material=material.id,
        printed=material.family == "printed",
        infill=material.infill or 0.0,
        pattern=material.pattern,
        wall=material.wall or 0.0,
    )
    return Foot(
        name=name,
        kind=kind(task, material, shape),
        pad=pad,
        positions=positions,
        attachment=GLUED if under else feet.attachment,
        bolt=0.0 if under else feet.bolt,
        tube=0.0 if under else feet.tube,
        cap=cap_height(task, material),
        sole=sole_height(task, material, shape),
        wall=0.0 if under else wall_thickness(task),
        side_room=side_room(task, max(first, second), material, shape),
        sag=sag,
        stop=thickness - rim,
        holes=() if under else feet.holes,
        rod=0.0 if under else feet.rod,
        grip=0.0 if under else feet.grip,
        fixing="screw" if under else feet.fixing,
        along=feet.slot_along,
        key=0.0 if under else feet.slot_key,
        tread=tread_height(task, material, shape),
        label=label_of(pad, name) if feet.engrave and not under else "",
    )


def label_of(pad: Pad, name: str) -> str:
    """Return what is engraved: the foot's own letter if it has one, its pad's card and size [mm].

    >>> label_of(Pad(shape="ring", first=0.042, second=0.024, thickness=0.0125, layers=1,
    ...              material="nr-50", printed=False), "foot-b")
    'B NR-50 42/24X12.5'
    """
    across = f"{pad.first * 1e3:g}" + (f"/{pad.second * 1e3:g}" if pad.second > 0 else "")
    return f"{letter(name)} {pad.material} {across}x{pad.thickness * 1e3:g}".strip().upper()
