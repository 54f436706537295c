"""What would make a check pass: looked for with the model, never guessed."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from typing import NamedTuple

from isolator.cards import Material
from isolator.commands.would_stand import (
    with_centre,
    with_figure,
    with_stance,
    with_wider_pads,
)
from isolator.design import Foot
from isolator.feet.checks import QUIETER, SHEARED, SLIDING, Bounds
from isolator.feet.foot_checks import sheared, standing_checks
from isolator.vibration.band import Check
from isolator.vibration.evaluation import held
from isolator.vibration.installation import Installation
from isolator.vibration.results import Evaluation
from isolator.vibration.stand import Stand

GENTLER = ("sway", "tipping", "sliding", SHEARED)
"""Checks that a lower acceleration can make pass."""
UPRIGHT = "standing upright"
MOST_GRAVITY = 0.5
"""No larger share of the rocking stiffness is left to gravity; convention, no source."""
SHARES = tuple(tenth / 10.0 for tenth in range(9, 0, -1))
"""Of the acceleration, tried in this order; each is rounded down to two digits first."""

STRAIN = "pad strain"


class Setting(NamedTuple):
    """A value of the brief to which a check's own margin is proportional."""

    figure: str
    value: float  # now, in the figure's unit
    step: float  # to which it is rounded up
    most: float  # nothing above is advised


def with_settings(
    checks: tuple[Check, ...], bounds: Bounds, grip: float, material: Material | None = None
) -> tuple[Check, ...]:
    """Return checks; those that fail tell the limit, or the friction, at which they just pass.

    `grip` is the friction on the desk now. A limit beyond what is usual is not told, and no pad is
    strained beyond its card's own limit.
    """
    limits = bounds.limits
    settings = {
        "foot width": Setting("foot_width_mm", limits.foot_width * 1e3, 0.1, 150.0),
        "foot height": Setting("foot_height_mm", limits.foot_height * 1e3, 0.1, 100.0),
        "sway": Setting("sway_mm", limits.sway * 1e3, 0.01, 3.0),
        SLIDING: Setting("friction", grip, 0.01, 1.0),
    }
    checks = tuple(_upright(check) for check in checks)
    if material is not None and limits.static_strain is not None:
        most = material.strain_limit.value
        settings[STRAIN] = Setting("static_strain", limits.static_strain, 0.01, most)
    return tuple(_set(check, settings.get(check.name)) for check in checks)


def _upright(check: Check) -> Check:
    """Return a check with the share of the rocking stiffness at which it passes, if it fails."""
    if check.name != UPRIGHT or check.passed or not math.isfinite(check.value):
        return check
    share = round(math.ceil(100.0 - check.value - 1e-9) / 100.0, 2)  # of what gravity takes
    if share > MOST_GRAVITY:
        return check
    return replace(check, figures=(*check.figures, ("gravity_share", share)))


def _set(check: Check, setting: Setting | None) -> Check:
    """Return a check with the value of its setting that passes, if it fails and there is one."""
    if setting is None or check.passed or not math.isfinite(check.value) or check.value <= 0:
        return check
    share = check.value / check.limit
    wanted = setting.value * (share if share > 1 else 1 / share)
    # up, so that what is advised is enough
    passes = round(math.ceil(wanted / setting.step - 1e-9) * setting.step, 2)
    if passes > setting.most:
        return check
    return replace(check, figures=(*check.figures, (setting.figure, passes)))


def with_acceleration(
    checks: tuple[Check, ...],
    installation: Installation,
    stand: Stand,
    bounds: Bounds,
    speeds: Sequence[float],
    feet: Sequence[Foot] = (),
    material: Material | None = None,
) -> tuple[Check, ...]:
    """Return checks; those that fail and hold at a lower acceleration tell the highest tried.

    One that holds at none of `SHARES` of it stays as it is. `speeds` [m/s] are those asked about,
    `feet` of `material` those that stand there, where they are known.
    """
    failing = {each.name for each in checks if each.name in GENTLER and not each.passed}
    passes: dict[str, float] = {}
    for share in SHARES:
        if failing <= passes.keys():
            break
        slower = gentler(installation, share)
        motion, there = slower.excitation.motion, held(slower, stand, speeds)
        again = [*standing_checks(there, bounds)]
        if material is not None:
            again += sheared(bounds, motion, there, feet, material)
        for check in again:
            if check.passed:
                passes.setdefault(check.name, motion.acceleration)
    told = {name: float(round(passes[name] * 1e3)) for name in failing & passes.keys()}
    return with_figure(checks, "acceleration_mm_s2", told)


def with_speed(checks: tuple[Check, ...], found: Evaluation) -> tuple[Check, ...]:
    """Return checks; where it may be louder at a speed asked, from which speed on it is not."""
    if found.works_from is None:
        return checks
    # up, so that what is advised is enough
    figures = (("speed_mm_s", math.ceil(found.works_from * 1e3 - 1e-6)),)
    return tuple(
        replace(check, remedy="quieter from a speed", figures=figures)
        if check.name == QUIETER and not check.passed
        else check
        for check in checks
    )


def gentler(installation: Installation, share: float) -> Installation:
    """Return a printer with a share of its acceleration, rounded down to two digits."""
    excitation = installation.excitation
    acceleration = _rounded(share * excitation.motion.acceleration)
    motion = replace(excitation.motion, acceleration=acceleration)
    return replace(installation, excitation=replace(excitation, motion=motion))


def _rounded(acceleration: float) -> float:
    """Return an acceleration [m/s²] rounded down to two digits of mm/s², as it is set."""
    whole = int(acceleration * 1e3)
    step = int(10 ** max(len(str(whole)) - 2, 0))
    return float(whole // step * step) * 1e-3


def with_all(
    checks: tuple[Check, ...],
    installation: Installation,
    stand: Stand,
    bounds: Bounds,
    speeds: Sequence[float],
    feet: Sequence[Foot] = (),
    material: Material | None = None,
) -> tuple[Check, ...]:
    """Return checks of one stand; those that fail tell each value that would make them pass.

    `feet` of `material` are those that stand there, where they are known.
    """
    grip = installation.surroundings.grip(stand.touches)
    checks = with_centre(checks, installation, stand, bounds)
    checks = with_settings(checks, bounds, grip, material)
    if feet and material is not None:
        checks = with_wider_pads(checks, installation, feet, material, bounds)
        checks = with_stance(checks, installation, feet, material, bounds)
    return with_acceleration(checks, installation, stand, bounds, speeds, feet, material)
