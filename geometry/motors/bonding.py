"""The bonding wire's end at a motor on a damper: terminal, screw, and what holds them [mm]."""

from __future__ import annotations

from typing import Any

import cadquery as cq

from geometry.motors import hardware
from geometry.motors.damper_plates import bond_radius, screw_at
from geometry.solids import booleans
from geometry.solids.part import mm
from isolator.design import PrintSettings
from isolator.design.damper import BOND_RING, MotorDamper, bond_screw
from isolator.design.faceplates import screw_of
from isolator.design.plate_kinds import EAR_WALL, TOOTHED
from isolator.design.plate_room import ear, outline_side

LUG_PLAY = 1.0  # by which the ring terminal is narrower than the ear [mm]

Held = list[tuple[str, str, Any]]


def in_corner(damper: MotorDamper, settings: PrintSettings) -> Held:
    """Return name, role and solid of terminal and screw on the motor, in a print's free corner."""
    screw, at = screw_of(damper.frame_size), screw_at(damper.frame_size)
    eye = 2 * bond_radius(damper, settings) - mm(settings.hole_compensation) - 0.2
    lug = hardware.terminal(eye, mm(BOND_RING), mm(screw.clearance))
    earth = hardware.button_screw(screw, mm(bond_screw(damper)), mm(BOND_RING))
    there = cq.Location(cq.Vector(at, -at, 0))
    return [
        ("bonding-terminal", "terminal", lug.moved(there)),
        ("bonding-screw", "screw", earth.moved(there)),
    ]


def on_screw(damper: MotorDamper) -> Held:
    """Return name, role and solid of the terminal under a motor screw, its toothed washer on it."""
    screw, ring, tooth = screw_of(damper.frame_size), mm(BOND_RING), mm(TOOTHED)
    at, low = screw_at(damper.frame_size), mm(damper.motor_plate)
    wide = mm(screw.clearance) + mm(2 * EAR_WALL) - LUG_PLAY
    lug = hardware.terminal(wide, ring, mm(screw.clearance))
    # its tongue points out of the plates' corner
    lug = lug.moved(cq.Location(cq.Vector(-at, -at, low), cq.Vector(0, 0, 1), -90.0))
    washer = cq.Solid.makeCylinder(mm(screw.button) / 2, tooth, cq.Vector(-at, -at, low + ring))
    hole = cq.Solid.makeCylinder(
        mm(screw.clearance) / 2, tooth + 2, cq.Vector(-at, -at, low + ring - 1)
    )
    return [
        ("bonding-terminal", "terminal", lug),
        ("bonding-washer", "nut", booleans.cut(washer, hole)),
    ]


def on_ear(damper: MotorDamper) -> Held:
    """Return name, role and solid of the bonding screw in the ear, its terminal and its nut."""
    screw, ring = screw_of(damper.frame_size), mm(BOND_RING)
    off, wide = (mm(each) for each in ear(damper.frame_size))
    there = cq.Location(cq.Vector(mm(outline_side(damper.frame_size)) / 2 + off, 0, 0))
    lug = hardware.terminal(2 * wide - LUG_PLAY, ring, mm(screw.clearance))
    lug = lug.moved(cq.Location(cq.Vector(0, 0, -ring), cq.Vector(0, 0, 1), 45.0))
    held = hardware.button_screw(screw, mm(bond_screw(damper)), mm(damper.motor_plate))
    under = hardware.toothed_nut(screw, -ring)
    return [
        ("bonding-terminal", "terminal", lug.moved(there)),
        ("bonding-screw", "screw", held.moved(there)),
        ("bonding-nut", "nut", under.moved(there)),
    ]
