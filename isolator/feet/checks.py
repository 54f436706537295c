"""What has to hold for feet to be offered: each check told once, for one design or for many."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from isolator.brief import Limits
from isolator.cards import Material
from isolator.feet.screw_clearance import NUT, least_head_room, least_screw_room
from isolator.feet.sized import SizedBatch
from isolator.feet.task import FeetTask
from isolator.vibration.band import Check

Array = NDArray[np.float64]


BUCKLING = 0.5
"""Load over buckling load that is allowed: half; common practice, no source."""
LEAST_LOAD = 0.1
"""Least foot load over the mean; convention, no source."""
LEVEL = 5e-3
"""How far out of level the printer may stand after a year [rad]; convention, no source."""
MODES = "modes below the motors"


@dataclass(frozen=True, slots=True, kw_only=True)
class Bounds:
    """What the limits of all checks follow from."""

    task: FeetTask
    limits: Limits
    modes: float  # what every mode must stay below [Hz]


@dataclass(frozen=True, slots=True, kw_only=True)
class Rule:
    """One check: its value must not pass its limit upwards (or downwards where `at_least`)."""

    name: str
    unit: str
    scale: float  # from SI to `unit`
    at_least: bool
    limit: Callable[[Bounds], float]  # [SI]
    value: Callable[[SizedBatch], Array] | None = None  # of a check that sizes alone decide [SI]


RULES: tuple[Rule, ...] = (
    Rule(
        name="foot width",
        unit="mm",
        scale=1e3,
        at_least=False,
        limit=lambda to: to.limits.foot_width,
        value=lambda of: of.width,
    ),
    Rule(
        name="room for its screw",
        unit="mm",
        scale=1e3,
        at_least=True,
        limit=lambda to: least_screw_room(to.task),
        value=lambda of: of.screw_room(),
    ),
    Rule(
        name="room under its screws",
        unit="mm",
        scale=1e3,
        at_least=True,
        limit=lambda to: least_head_room(to.task),
        value=lambda of: of.head_room(),
    ),
    Rule(
        name="frame beyond its screws",
        unit="mm",
        scale=1e3,
        at_least=True,
        limit=lambda to: NUT,
        value=lambda of: of.frame_left(),
    ),
    Rule(
        name="slab beyond its pads",
        unit="mm",
        scale=1e3,
        at_least=True,
        limit=lambda to: 0.0,
        value=lambda of: of.slab_left(),
    ),
    Rule(
        name="foot height",
        unit="mm",
        scale=1e3,
        at_least=False,
        limit=lambda to: to.limits.foot_height,
        value=lambda of: of.height,
    ),
    Rule(
        name="every foot carries",
        unit="% of the mean",
        scale=100.0,
        at_least=True,
        limit=lambda to: LEAST_LOAD,
    ),
    Rule(
        name="pad strain",
        unit="% of its limit",
        scale=100.0,
        at_least=False,
        limit=lambda to: 1.0,
    ),
    Rule(
        name="pad buckling",
        unit="% of the load it buckles at",
        scale=100.0,
        at_least=False,
        limit=lambda to: BUCKLING,
    ),
    Rule(
        name="modes below the motors",
        unit="Hz",
        scale=1.0,
        at_least=False,
        limit=lambda to: to.modes,
    ),
    Rule(
        name="standing upright",
        unit="% of rocking stiffness left",
        scale=100.0,
        at_least=True,
        limit=lambda to: 1.0 - to.limits.gravity_share,
    ),
    Rule(
        name="tipping",
        unit="×",
        scale=1.0,
        at_least=True,
        limit=lambda to: to.limits.tip_margin,
    ),
    Rule(
        name="sliding",
        unit="×",
        scale=1.0,
        at_least=True,
        limit=lambda to: to.limits.slip_margin,
    ),
    Rule(
        name="sway",
        unit="mm",
        scale=1e3,
        at_least=False,
        limit=lambda to: to.limits.sway,
    ),
    Rule(
        name="level",
        unit="mm/m",
        scale=1e3,
        at_least=False,
        limit=lambda to: LEVEL,
    ),
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
    )
