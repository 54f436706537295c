"""The checks of one set of feet, told with values, limits and advice."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from isolator.brief import Brief
from isolator.cards import Material
from isolator.design import Foot, Pad
from isolator.feet.attachment_checks import holding_checks
from isolator.feet.checks import told
from isolator.feet.screw_clearance import (
    NUT,
    frame_left,
    head_room,
    least_head_room,
    least_screw_room,
    screw_room,
    slab_left,
)
from isolator.feet.sizing import outer_width
from isolator.vibration.band import Check
from isolator.vibration.excitation import moved_masses
from isolator.vibration.results import Evaluation

BUCKLING = 0.5
"""Load over buckling load that is allowed: half; common practice, no source."""
LEAST_LOAD = 0.1
"""Least foot load over the mean; convention, no source."""
BOTH = (
    "softer feet would sway more and stiffer ones would drone: lower the acceleration, print "
    "faster, or add mass, such as a slab under the printer"
)
"""Advice where sway and modes fail together: each one's own would make the other worse."""
APART = "take a narrower pad, set the screws further apart, or glue the foot on"
"""Advice where screws have places of their own: a wider pad would only come nearer to them."""
LEVEL = 5e-3
"""How far out of level the printer may stand after a year [rad]; convention, no source."""


def lean(evaluation: Evaluation) -> float:
    """Return how far out of level the printer stands after a year [rad]."""
    return evaluation.creep[-1].tilt if evaluation.creep else math.hypot(*evaluation.tilt)


def standing_checks(brief: Brief, evaluation: Evaluation, mode_limit: float) -> tuple[Check, ...]:
    """Return the checks that any feet have to pass, given or designed."""
    limits, stable = brief.limits, evaluation.stability
    top = max(mode.frequency.high for mode in evaluation.modes)
    # what the feet feel grows where a zigzag meets a sway mode
    shaken = stable.force_factor
    checks = (
        told("every foot carries", evaluation.least_load, LEAST_LOAD),
        told("standing upright", stable.gravity_factor, 1.0 - limits.gravity_share),
        told("tipping", stable.tip_margin / shaken, limits.tip_margin),
        told("sliding", stable.slip_margin / shaken, limits.slip_margin),
        told("sway", evaluation.sway.worst, limits.sway),
        told("modes below the motors", top, mode_limit),
        told("level", lean(evaluation), LEVEL),
    )
    failed = {check.name for check in checks if not check.passed}
    if {"sway", "modes below the motors"} <= failed:
        return tuple(
            replace(check, advice=BOTH)
            if check.name in ("sway", "modes below the motors")
            else check
            for check in checks
        )
    return checks


def final_checks(
    brief: Brief,
    evaluation: Evaluation,
    feet: Sequence[Foot],
    material: Material,
    mode_limit: float,
) -> tuple[Check, ...]:
    """Return every check of designed feet; pads are judged at the worst end of their band."""
    limits = brief.limits
    own = material.strain_limit.value
    allowed = own if limits.static_strain is None else limits.static_strain
    strain = math.inf if evaluation.worst_strain is None else evaluation.worst_strain
    widths = [_width(brief, foot.pad, material) for foot in feet]
    tall = max(foot.height - (0.0 if foot.build.hung else foot.cap) for foot in feet)
    return (
        told("foot width", max(widths), limits.foot_width),
        *_screwed(brief, feet, material, widths),
        told("foot height", tall, limits.foot_height),
        told("pad strain", strain / allowed, 1.0),
        told("pad buckling", evaluation.worst_buckling, BUCKLING),
        *_held(brief, evaluation, feet),
        *standing_checks(brief, evaluation, mode_limit),
    )


def _screwed(
    brief: Brief, feet: Sequence[Foot], material: Material, widths: Sequence[float]
) -> tuple[Check, ...]:
    """Return whether every foot leaves its screws the room that they need."""
    found = []
    sides = [
        (foot.pad.shape, np.array(foot.pad.first), np.array(foot.pad.second), np.array(width))
        for foot, width in zip(feet, widths, strict=True)
    ]
    least = least_screw_room(brief)
    if least > 0:
        room = min(float(screw_room(brief, material, *each)) for each in sides)
        check = told("room for its screw", room, least)
        if brief.feet.holes and not check.passed:
            check = replace(check, advice=APART)
        found.append(check)
    under = least_head_room(brief)
    if under > 0:
        room = min(
            float(head_room(brief, material, foot.pad.shape, foot.pad.thickness)) for foot in feet
        )
        found.append(told("room under its screws", room, under))
    left = min(
        float(frame_left(brief, *each, np.array(foot.positions)))
        for each, foot in zip(sides, feet, strict=True)
    )
    edge = min(
        float(slab_left(brief, *each[:3], np.array(foot.positions)))
        for each, foot in zip(sides, feet, strict=True)
    )
    if math.isfinite(edge):
        found.append(told("slab beyond its pads", edge, 0.0))
    if math.isfinite(left):
        found.append(told("frame beyond its screws", left, NUT))
    return tuple(found)


def _held(brief: Brief, evaluation: Evaluation, feet: Sequence[Foot]) -> tuple[Check, ...]:
    """Return the attachments' checks, each for the kind of foot that it is hardest for."""
    load = max(state.load.high for state in evaluation.feet)
    # the hardest reversal where it meets a sway mode, shared by all feet
    push = max(moved_masses(brief)) * brief.motion.acceleration
    sideways = push * evaluation.stability.force_factor / len(evaluation.feet)
    worst: dict[str, Check] = {}
    for foot in feet:
        for check in holding_checks(
            foot,
            load=load,
            friction=brief.limits.desk_friction,
            sideways=sideways,
            filament=brief.print.material,
        ):
            if check.name not in worst or check.value > worst[check.name].value:
                worst[check.name] = check
    return tuple(worst.values())


def _width(brief: Brief, pad: Pad, material: Material) -> float:
    return outer_width(brief, max(pad.widths), material, pad.shape)
