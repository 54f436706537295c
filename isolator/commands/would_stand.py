"""How feet and printer would have to stand for a check to pass: looked for with the model."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import replace

import numpy as np

from isolator.brief.feet import SHEET
from isolator.cards import Material
from isolator.design import Foot
from isolator.feet.checks import Bounds, allowed_strain, told
from isolator.feet.foot_checks import lean, standing_checks
from isolator.physics.arrays import Array
from isolator.vibration.band import Check
from isolator.vibration.evaluation import held
from isolator.vibration.installation import Installation
from isolator.vibration.printer import RigidPrinter
from isolator.vibration.results import Held
from isolator.vibration.stand import Stand, feet_stand

WIDER = (5, 10, 15, 20, 30, 40, 50, 70, 100)
"""By how much wider pads are tried, in this order [%]."""
OUTWARD = 5e-3
"""Step in which feet are tried further out [m]."""
Judge = Callable[[Held, Bounds, Material], Check]

BY_WIDTH: dict[str, Judge] = {
    "pad strain": lambda found, bounds, material: told(
        "pad strain",
        math.inf
        if found.worst_strain is None
        else found.worst_strain / allowed_strain(bounds.limits, material),
        bounds,
    ),
    "pad buckling": lambda found, bounds, material: told(
        "pad buckling", found.worst_buckling, bounds
    ),
}
"""Checks that wider pads can make pass."""
BY_CENTRE: dict[str, Callable[[Held], float]] = {
    "every foot carries": lambda found: found.least_load,
    "level": lean,
}
"""Checks that a centre of mass nearer to the middle can make pass: what they look at."""
BY_STANCE = ("standing upright", "tipping")
"""Checks that feet further out can make pass."""


def with_wider_pads(
    checks: tuple[Check, ...],
    installation: Installation,
    feet: Sequence[Foot],
    material: Material,
    bounds: Bounds,
) -> tuple[Check, ...]:
    """Return checks; pads that are strained too far, or buckle, tell by how much wider ones pass.

    Wider in both directions, holes too, as thick as before. Balls and ready-made mounts come in
    their own sizes and are told nothing.
    """
    failing = [name for name in _failing(checks) if name in BY_WIDTH]
    if not failing or any(foot.ends is not None or foot.pad.outline.halved for foot in feet):
        return checks
    motion, room = installation.excitation.motion, installation.surroundings.room
    passes: dict[str, float] = {}
    for percent in WIDER:
        wide = 1.0 + percent / 100.0
        pads = (
            replace(foot.pad, first=wide * foot.pad.first, second=wide * foot.pad.second)
            for foot in feet
        )
        wider = tuple(replace(foot, pad=pad) for foot, pad in zip(feet, pads, strict=True))
        found = held(installation, feet_stand(room, wider, material), motion.speeds)
        for name in failing:
            if BY_WIDTH[name](found, bounds, material).passed:
                passes.setdefault(name, float(percent))
        if len(passes) == len(failing):
            break
    return with_figure(checks, "wider_percent", passes)


def with_centre(
    checks: tuple[Check, ...], installation: Installation, stand: Stand, bounds: Bounds
) -> tuple[Check, ...]:
    """Return checks; where a foot hardly carries, or the printer leans, how far inward the centre
    of mass has to move.

    Towards the middle of the feet, in steps of whole millimetres, some 25 to the way. A printer
    with feet of its own on a slab is told nothing: slab and printer would move apart.
    """
    printer = stand.printer or installation.printer
    failing = [name for name in _failing(checks) if name in BY_CENTRE]
    if not failing or printer.nominal.on_slab is not None:
        return checks
    places = stand.settled(printer.nominal, "nominal")[0].centres[0, :, :2]
    off = places.mean(axis=0) - printer.nominal.com[:2]
    away = math.hypot(*off)
    step = max(math.ceil(40.0 * away), 1) * 1e-3
    passes: dict[str, float] = {}
    for moved in (count * step for count in range(1, 25)):
        if moved > away or len(passes) == len(failing):
            break
        shift = np.append(moved * off / away, 0.0)
        light, nominal, heavy = (replace(case, com=case.com + shift) for case in printer.cases)
        there = replace(stand, printer=RigidPrinter(light=light, nominal=nominal, heavy=heavy))
        found = held(installation, there, installation.excitation.motion.speeds)
        for name in failing:
            if told(name, BY_CENTRE[name](found), bounds).passed:
                passes.setdefault(name, float(round(moved * 1e3)))
    return with_figure(checks, "inward_mm", passes)


def with_stance(
    checks: tuple[Check, ...],
    installation: Installation,
    feet: Sequence[Foot],
    material: Material,
    bounds: Bounds,
) -> tuple[Check, ...]:
    """Return checks; a printer that may tip tells how much further out its feet would hold it.

    Every foot along x and along y, no further than under the frame's or the slab's outside. Feet
    on rails, edges and brackets stand where the metal is and are told nothing.
    """
    task = bounds.task
    failing = [name for name in _failing(checks) if name in BY_STANCE]
    if not failing or (task.feet.metal != SHEET and task.slab is None):
        return checks
    motion, room = installation.excitation.motion, installation.surroundings.room
    size = task.frame if task.slab is None else task.slab.size
    middle = np.zeros(2) if task.slab is None else np.array(task.slab.position)
    places = np.concatenate([foot.positions for foot in feet])
    reach = np.array(size[:2]) / 2.0 - max(max(foot.pad.widths) for foot in feet) / 2.0
    most = float((reach - np.abs(places - middle)).min())
    passes: dict[str, float] = {}
    for count in range(1, math.floor(most / OUTWARD + 1e-9) + 1):
        if len(passes) == len(failing):
            break
        wider = tuple(_further_out(foot, count * OUTWARD, middle) for foot in feet)
        found = held(installation, feet_stand(room, wider, material), motion.speeds)
        for check in standing_checks(found, bounds):
            if check.name in failing and check.passed:
                passes.setdefault(check.name, float(round(count * OUTWARD * 1e3)))
    return with_figure(checks, "outward_mm", passes)


def _further_out(foot: Foot, by: float, middle: Array) -> Foot:
    """Return a foot whose places are `by` [m] further from the `middle` along x and along y."""
    moved = [np.array(at) + by * np.sign(np.round(at - middle, 9)) for at in foot.positions]
    return replace(foot, positions=tuple((float(x), float(y)) for x, y in moved))


def _failing(checks: Sequence[Check]) -> list[str]:
    return [check.name for check in checks if not check.passed]


def with_figure(
    checks: tuple[Check, ...], figure: str, passes: dict[str, float]
) -> tuple[Check, ...]:
    """Return checks with a figure before their own, those that are named in `passes`."""
    return tuple(
        replace(check, figures=((figure, passes[check.name]), *check.figures))
        if check.name in passes and not check.passed
        else check
        for check in checks
    )
