"""What has to hold for feet to be offered: each check told once, for one design or for many."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from isolator.brief import Limits
from isolator.cards import Material
from isolator.cards.pad_law import BUCKLING
from isolator.feet.on_metal import metal_left
from isolator.feet.screw_clearance import (
    NUT,
    frame_left,
    head_room,
    least_head_room,
    least_screw_room,
    screw_room,
    slab_left,
)
from isolator.feet.sized import SizedBatch
from isolator.feet.task import FeetTask
from isolator.physics.arrays import Array
from isolator.vibration.band import Check

LEAST_LOAD = 0.1
"""Least foot load over the mean; convention, no source."""
LEVEL = 5e-3
"""How far out of level the printer may stand after a year [rad]; convention, no source."""
MODES = "modes below the motors"
METAL = "metal over every foot"
QUIETER = "quieter than before"
SLIDING = "sliding"
SHEARED = "mount sheared by moves"
SHEAR_LIMIT = 0.25
"""Of its height a mount's rubber may be sheared by the printer's hardest reversal: half of the
published average design limit of bonded rubber, 50 per cent, as moves push a million times;
common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Bounds:
    """What the limits of all checks follow from."""

    task: FeetTask
    limits: Limits
    modes: float  # what every mode must stay below [Hz]


class Rule(NamedTuple):
    """One check: its value must not pass its limit upwards (or downwards where `at_least`)."""

    name: str
    unit: str
    scale: float  # from SI to `unit`
    at_least: bool
    limit: Callable[[Bounds], float]  # [SI]
    value: Callable[[SizedBatch], Array] | None = None  # of a check that sizes alone decide [SI]
    binding: bool = True  # false where it is told alone


MOST, LEAST = False, True
RULES = (
    Rule("foot width", "mm", 1e3, MOST, lambda to: to.limits.foot_width, lambda of: of.width),
    Rule("room for its screw", "mm", 1e3, LEAST, lambda to: least_screw_room(to.task), screw_room),
    Rule("room under its screws", "mm", 1e3, LEAST, lambda to: least_head_room(to.task), head_room),
    Rule("frame beyond its screws", "mm", 1e3, LEAST, lambda to: NUT, frame_left),
    Rule(METAL, "mm", 1e3, LEAST, lambda to: 0.0, metal_left),
    Rule("slab beyond its pads", "mm", 1e3, LEAST, lambda to: 0.0, slab_left),
    Rule("foot height", "mm", 1e3, MOST, lambda to: to.limits.foot_height, lambda of: of.height),
    Rule("every foot carries", "% of the mean", 100.0, LEAST, lambda to: LEAST_LOAD),
    Rule("pad strain", "% of its limit", 100.0, MOST, lambda to: 1.0),
    Rule(SHEARED, "% of its height", 100.0, MOST, lambda to: SHEAR_LIMIT),
    Rule("pad buckling", "% of the load it buckles at", 100.0, MOST, lambda to: BUCKLING),
    # told as a target: what is heard decides
    Rule(MODES, "Hz", 1.0, MOST, lambda to: to.modes, binding=False),
    Rule(
        "standing upright",
        "% of rocking stiffness left",
        100.0,
        LEAST,
        lambda to: 1.0 - to.limits.gravity_share,
    ),
    Rule("tipping", "×", 1.0, LEAST, lambda to: to.limits.tip_margin),
    Rule(SLIDING, "×", 1.0, LEAST, lambda to: to.limits.slip_margin),
    Rule("sway", "mm", 1e3, MOST, lambda to: to.limits.sway),
    Rule("level", "mm/m", 1e3, MOST, lambda to: LEVEL),
    Rule(QUIETER, "dB(A)", 1.0, LEAST, lambda to: to.limits.least_gain_db),
)
"""In the order in which a candidate meets them: the cheap ones first."""

BY_NAME: Mapping[str, Rule] = {rule.name: rule for rule in RULES}
SIZE_VALUES = {rule.name: rule.value for rule in RULES if rule.value is not None}


def allowed_strain(limits: Limits, material: Material) -> float:
    """Return the largest static strain of a pad: what is asked, else the card's own."""
    return material.strain_limit.value if limits.static_strain is None else limits.static_strain


def holds(rule: Rule, value: Array | float, limit: Array | float) -> NDArray[np.bool_]:
    """Return where a rule holds; a value that is not a number never does."""
    with np.errstate(invalid="ignore"):
        kept = value >= limit if rule.at_least else value <= limit
    return np.asarray(kept, dtype=bool)


def shortfall(rule: Rule, value: Array, limit: Array | float) -> Array:
    """Return by which fraction of the limit a rule is missed, 0 where it holds."""
    size = np.maximum(np.abs(limit), 1e-12)
    missed = (limit - value) / size if rule.at_least else (value - limit) / size
    return np.where(holds(rule, value, limit), 0.0, np.nan_to_num(missed, nan=1e3))


def told(name: str, value: float, bounds: Bounds) -> Check:
    """Return one check as it is told: in its own unit."""
    rule = BY_NAME[name]
    limit = rule.limit(bounds)
    passed = bool(holds(rule, value, limit))
    return Check(
        name=name,
        value=value * rule.scale,
        limit=limit * rule.scale,
        unit=rule.unit,
        passed=passed,
        binding=rule.binding,
    )
