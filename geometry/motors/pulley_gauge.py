"""Fork that holds a pulley at its height while its set screw is tightened, and comes off [mm]."""

from __future__ import annotations

import math
from typing import Any

import cadquery as cq

from geometry.lettering.lettering import engraved, lettering
from geometry.motors.pulley_spacer import RUNNING
from geometry.solids import booleans, features
from geometry.solids.outline import Outline, chamfered_volume
from geometry.solids.part import CannotDraw, Part, layer_notes, mm
from isolator.design import MotorSpacer, PrintSettings, quantise_up
from isolator.design.faceplates import FACEPLATES
from isolator.design.naming import slug

PLAY = 1.0  # of shaft and boss in the fork's slots, on the width [mm]
PRONG = 3.0  # wall of the fork beside the boss [mm]
GRIP = 12.0  # of the fork behind the boss's wall, to pull it out by [mm]
LEAST_DECK = 1.2  # of the fork between boss and pulley [mm]
CORNER = 2.0  # radius of its corners [mm]


def pulley_gauge(spacer: MotorSpacer, settings: PrintSettings) -> Part:
    """Return the fork: it straddles the boss, stands on the motor's face and carries the pulley.

    It lies on the bed with the pulley's side, its open side towards x > 0; `shaft_at` tells where
    the shaft goes. It is its own mirror image.
    """
    name = slug(spacer.name, "pulley-gauge")
    settings = settings.for_filament(spacer.filament)
    face = FACEPLATES[spacer.frame_size]
    height, chamfer = mm(spacer.pulley_spacer), mm(settings.first_layer_chamfer)
    high = spacer.boss_height or face.pilot_height
    # over the boss it is hollow, so that it stands on the face whatever the boss's edge is like
    hollow = mm(quantise_up(high + RUNNING / 1e3, settings.layer))
    deck = round(height - hollow, 9)
    if deck < LEAST_DECK - 1e-9:
        raise CannotDraw(
            name,
            "pulley_spacer",
            f"{height:g} mm leaves {max(deck, 0.0):.2f} mm of gauge over the boss of "
            f"{mm(high):g} mm; {LEAST_DECK:g} mm is the least",
        )
    outline, at = _outline(spacer, settings), shaft_at(spacer, settings)
    narrow, wide = _slots(spacer, settings)
    over, front = 1.0, outline.size[0] / 2
    cutters = [
        _slot(narrow, at, front + over, -over, height + over),
        _slot(wide, at, front + over, deck, height + over),
    ]
    volume = chamfered_volume(lambda inset: outline.grown(-inset).area, chamfer, height)
    volume -= _slot_area(narrow, front - at) * deck + _slot_area(wide, front - at) * hollow
    volume += narrow * chamfer**2 / 2  # what the chamfer of the open end has taken already
    solid = features.cut_all(features.prism(outline, 0.0, height, chamfer), *cutters)
    told = f"{height:g}"
    # the height stands in the grip, on the bed, where nothing rests on it
    room = Outline(core_x=outline.core_y, core_y=GRIP - 2 * CORNER, offset=CORNER - chamfer)
    letters = lettering(told, room, settings)
    notes = [
        "slip it onto the shaft from the side, open end first, feet on the motor's face; press the "
        "pulley down on it, tighten the set screw and pull it out: it does not stay",
        *layer_notes(settings.layer, gauge=height),
    ]
    if letters is not None:
        aside = cq.Location(cq.Vector((outline.size[0] - GRIP) / 2, 0, 0))
        by = cq.Location(cq.Vector(0, 0, 0), cq.Vector(0, 0, 1), 90.0) * aside
        solid, removed = engraved(solid.moved(by), letters, 0.0, mirrored=True, into=1)
        solid, volume = solid.moved(by.inverse), volume - removed
        notes.append(f"engraved: {told}")
    return Part(
        name=name,
        owner=spacer.name,
        role="pulley-gauge",
        quantity=1,
        solid=solid,
        material=spacer.filament,
        orientation="as drawn: the pulley's side on the bed, feet upwards",
        notes=tuple(notes),
        box=(*outline.size, height),
        volume=volume,
        loaded=(),
        places=(),
    )


def shaft_at(spacer: MotorSpacer, settings: PrintSettings) -> float:
    """Return the x of the shaft's axis in the gauge as it lies on the bed [mm]."""
    return _outline(spacer, settings).size[0] / 2 - _slots(spacer, settings)[1] / 2


def on_motor(spacer: MotorSpacer, settings: PrintSettings) -> Any:
    """Return the gauge on the motor: its face at z = 0, the shaft along z, open to x > 0."""
    part = pulley_gauge(spacer, settings)
    over = cq.Location(cq.Vector(0, 0, mm(spacer.pulley_spacer)), cq.Vector(1, 0, 0), 180.0)
    return part.solid.moved(over * cq.Location(cq.Vector(-shaft_at(spacer, settings), 0, 0)))


def _slots(spacer: MotorSpacer, settings: PrintSettings) -> tuple[float, float]:
    """Return the widths of the slots for the shaft and for the boss [mm]."""
    more = PLAY + mm(settings.for_filament(spacer.filament).hole_compensation)
    boss = spacer.boss or FACEPLATES[spacer.frame_size].pilot
    return mm(spacer.bore) + more, mm(boss) + more


def _outline(spacer: MotorSpacer, settings: PrintSettings) -> Outline:
    wide = _slots(spacer, settings)[1]
    return Outline(
        core_x=wide + PRONG + GRIP - 2 * CORNER, core_y=wide + 2 * PRONG - 2 * CORNER, offset=CORNER
    )


def _slot(wide: float, at: float, end: float, low: float, high: float) -> Any:
    """Return the cutter of a slot with a round end about x = `at`, open towards x > 0."""
    straight = cq.Solid.makeBox(end - at, wide, high - low, cq.Vector(at, -wide / 2, low))
    return features.one_solid(booleans.fused(straight, features.hole(wide, low, high, at)).clean())


def _slot_area(wide: float, long: float) -> float:
    return wide * long + math.pi * wide**2 / 8
