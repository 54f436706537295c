"""The checks of one set of feet, with values and limits."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

import numpy as np

from isolator.brief import Motion
from isolator.cards import Material
from isolator.cards.pads import pad_state
from isolator.design import Foot
from isolator.design.soles import FRICTION
from isolator.feet.attachment_checks import holding_checks
from isolator.feet.checks import (
    BY_NAME,
    METAL,
    MODES,
    QUIETER,
    SHEARED,
    SIZE_VALUES,
    Bounds,
    allowed_strain,
    told,
)
from isolator.feet.on_metal import metal_left, off_metal
from isolator.feet.sized import sized_foot
from isolator.feet.sold_screws import sold_screw_check
from isolator.vibration.band import Check
from isolator.vibration.compared import least_gain
from isolator.vibration.drives import moved_masses
from isolator.vibration.results import Evaluation, Held
from isolator.vibration.stand import one_pad

APART = "screws apart"
"""Where screws have places of their own: a wider pad would only come nearer to them."""


def lean(held: Held) -> float:
    """Return how far out of level the printer stands after a year [rad]."""
    return held.creep[-1].tilt if held.creep else math.hypot(*held.tilt)


def standing_checks(held: Held, bounds: Bounds) -> tuple[Check, ...]:
    """Return the checks that any feet have to pass, given or designed."""
    stable = held.stability
    # what the feet feel grows where a zigzag meets a sway mode
    shaken = stable.force_factor
    values = {
        "every foot carries": held.least_load,
        "standing upright": stable.gravity_factor,
        "tipping": stable.tip_margin / shaken,
        "sliding": stable.slip_margin / shaken,
        "sway": held.sway.worst,
        MODES: _highest(held),
        "level": lean(held),
    }
    return tuple(told(name, value, bounds) for name, value in values.items())


def _highest(held: Held) -> float:
    """Return the stiff end of the highest mode [Hz], as modes are told."""
    return max((mode.frequency.high for mode in held.modes), default=0.0)


def with_modes(checks: Sequence[Check], held: Held, bounds: Bounds) -> tuple[Check, ...]:
    """Return checks of a search with the modes over all samples, as they are told of `held`."""
    again = told(MODES, _highest(held), bounds)
    return tuple(again if check.name == MODES else check for check in checks)


def heard_checks(found: Evaluation, bounds: Bounds) -> tuple[Check, ...]:
    """Return whether it is quieter than before at every speed asked; none where nothing drones."""
    heard = [speed.heard for speed in found.speeds if speed.heard is not None]
    return (told(QUIETER, least_gain(heard), bounds),) if heard else ()


def final_checks(
    bounds: Bounds, motion: Motion, held: Held, feet: Sequence[Foot], material: Material
) -> tuple[Check, ...]:
    """Return every check of designed feet; pads are judged at the worst end of their band."""
    strain = math.inf if held.worst_strain is None else held.worst_strain
    return (
        *_size_checks(bounds, feet, material),
        told("pad strain", strain / allowed_strain(bounds.limits, material), bounds),
        told("pad buckling", held.worst_buckling, bounds),
        *sheared(bounds, motion, held, feet, material),
        *_held(bounds, motion, held, feet),
        *sold_screw_check(feet, bounds.task.print.layer),
        *standing_checks(held, bounds),
    )


def _size_checks(bounds: Bounds, feet: Sequence[Foot], material: Material) -> Iterator[Check]:
    """Yield the checks that sizes decide, each for the foot that it is hardest for."""
    sizes = [sized_foot(bounds.task, foot, material) for foot in feet]
    for name, size_of in SIZE_VALUES.items():
        worst = min if BY_NAME[name].at_least else max
        value = worst(float(size_of(each)[0]) for each in sizes)
        if not math.isfinite(value):  # such feet need nothing of the kind
            continue
        check = told(name, value, bounds)
        apart = name == "room for its screw" and bounds.task.feet.holes and not check.passed
        if name == METAL and not check.passed:
            remedy, figures = off_metal(min(sizes, key=lambda each: float(metal_left(each)[0])))
            check = replace(check, remedy=remedy, figures=figures)
        yield replace(check, remedy=APART) if apart else check


def _sideways(motion: Motion, held: Held) -> float:
    """Return the push of the hardest reversal on one foot [N].

    Where it meets a sway mode; all feet share it.
    """
    push = max(moved_masses(motion)) * motion.acceleration
    return push * held.stability.force_factor / len(held.feet)


def sheared(
    bounds: Bounds, motion: Motion, held: Held, feet: Sequence[Foot], material: Material
) -> Iterator[Check]:
    """Yield how far moves shear ready-made mounts, at the soft end of their band."""
    for foot in feet:
        if foot.ends is None:
            continue
        load = np.array([[float(np.mean([state.load.nominal for state in held.feet]))]])
        across = float(pad_state(one_pad(material, foot.pad), load).linear[0, 0, 0])
        soft = across / material.stiffness_spread
        yield told(SHEARED, _sideways(motion, held) / soft / foot.pad.second, bounds)


def _held(bounds: Bounds, motion: Motion, held: Held, feet: Sequence[Foot]) -> tuple[Check, ...]:
    """Return the attachments' checks, each for the kind of foot that it is hardest for."""
    load = max(state.load.high for state in held.feet)
    sideways = _sideways(motion, held)
    worst: dict[str, Check] = {}
    told_grip = bounds.limits.desk_friction
    for foot in feet:
        for check in holding_checks(
            foot,
            load=load,
            friction=FRICTION[foot.touches] if told_grip is None else told_grip,
            sideways=sideways,
            filament=bounds.task.print.material,
        ):
            if check.name not in worst or check.value > worst[check.name].value:
                worst[check.name] = check
    return tuple(worst.values())
