"""Everything there is to tell of one set of feet: modes, feet, speeds, loads, sway, margins."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from isolator.physics.arrays import Array
from isolator.physics.rubber.viscoelastic import creep_factor
from isolator.vibration import curves
from isolator.vibration.cases import (
    NOMINAL,
    Case,
    Cases,
    Key,
    all_cases,
    band,
    highest,
    named_modes,
    over,
)
from isolator.vibration.desk import stood_on
from isolator.vibration.excitation import (
    AXES,
    Excitation,
    Tone,
    all_tones,
    move_points,
    single_push,
)
from isolator.vibration.installation import Installation
from isolator.vibration.isolation import Losses, losses
from isolator.vibration.results import CreepRow, Evaluation, FootState, Line, Load, LoadPoint, Speed
from isolator.vibration.reversal import stability, swayed, worst_sway, worst_tool_sway
from isolator.vibration.stand import Stand
from isolator.vibration.targets import axis_line, electrical_line, mode_limit
from isolator.vibration.verdict import verdict

TIMES = (("a day", 86_400.0), ("a month", 30 * 86_400.0), ("a year", 365 * 86_400.0))


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """At which speeds and frequencies a set of feet is asked about."""

    speeds: tuple[float, ...]  # [m/s]
    frequencies: tuple[float, ...]  # for the user's own forces [Hz]


def triple(values: Array) -> tuple[float, float, float]:
    """Return three numbers of an array (3,) as plain floats."""
    return (float(values[0]), float(values[1]), float(values[2]))


def appraise(
    installation: Installation, stand: Stand, question: Question, now: Stand | None = None
) -> Evaluation:
    """Evaluate one stand over all its cases; with `now`, also against what stands there now."""
    excitation, surroundings = installation.excitation, installation.surroundings
    motion, limits = excitation.motion, installation.limits
    printer = stand.printer or installation.printer
    cases = all_cases(stand, printer)
    before = None if now is None else all_cases(now, now.printer or printer)
    nominal = cases[NOMINAL]
    desk = stood_on(surroundings.desk)
    speeds = tuple(
        _speed(all_tones(excitation, speed), cases, before, speed, desk.mobility)
        for speed in question.speeds
    )
    moved = swayed(excitation, cases, question.speeds)
    top = highest(cases).high
    per_metre = electrical_line(motion, 1.0)
    return Evaluation(
        modes=named_modes(cases),
        feet=_feet(cases),
        speeds=speeds,
        loads=_loads(excitation, cases, question),
        sway=worst_sway(motion, cases, moved, limits.sway),
        stability=stability(
            motion, printer, cases, moved, height=stand.height, friction=surroundings.friction
        ),
        avoid=curves.avoid(excitation, cases),
        isolates_from=top / mode_limit(per_metre) if top > 0 else None,
        curves=curves.curves(motion, cases, before),
        speed_map=curves.speed_map(excitation, nominal),
        creep=_creep(stand, nominal),
        tilt=nominal.tilt,
        share=_share(excitation, cases, question.speeds, limits.sway),
        desk=desk.material,
        worst_strain=None
        if stand.material is None
        else max(float(case.system.feet.strain.max()) for case in cases.values()),
        worst_buckling=max(float(case.system.feet.buckling.max()) for case in cases.values()),
        least_load=min(
            float(case.system.feet.load.min() / case.system.feet.load.mean())
            for case in cases.values()
        ),
    )


def _feet(cases: Cases) -> tuple[FootState, ...]:
    nominal = cases[NOMINAL]
    feet = nominal.system.feet
    vertical = nominal.modes.frequency[:, nominal.names.index("bounce")]
    factor = float(nominal.system.factor(np.maximum(vertical, 1e-3)[:, None])[0, 0])

    def state(index: int) -> FootState:
        strain = float(feet.strain[0, index])
        stiffness = factor * feet.linear[0, index]
        return FootState(
            position=triple(feet.centres[0, index]),
            load=over(cases, lambda case: float(case.system.feet.load[0, index])),
            strain=None if math.isnan(strain) else strain,
            sag=float(feet.sag[0, index]),
            stiffness=triple(stiffness),
        )

    return tuple(state(index) for index in range(feet.load.shape[1]))


def _speed(
    tones: Sequence[Tone], cases: Cases, before: Cases | None, speed: float, mobility: float
) -> Speed:
    """Return what the feet make of the tones at one speed, on a desk of `mobility` [m/(N·s)]."""
    found = {key: losses(case.system, tones, mobility) for key, case in cases.items()}
    there = {key: losses(case.system, tones, 0.0) for key, case in (before or {}).items()}
    lines = tuple(_line(tone, index, found, there) for index, tone in enumerate(tones))
    judged, decided_by = verdict(lines)
    return Speed(speed=speed, verdict=judged, decided_by=decided_by, lines=lines)


def _line(tone: Tone, index: int, found: dict[Key, Losses], there: dict[Key, Losses]) -> Line:
    """Return one tone over all cases; `there` is empty where nothing is known to stand."""

    def gain(old: Losses, new: Losses) -> float:
        return 20.0 * math.log10(old.force[0, index] / new.force[0, index])

    gains = [
        gain(old, new)
        for (_, mass), new in found.items()
        for (_, old_mass), old in there.items()
        if mass == old_mass
    ]
    return Line(
        source=tone.source,
        frequency=float(tone.frequency[0]),
        direction_deg=tone.direction_deg,
        transmissibility=float(found[NOMINAL].transmissibility[0, index]),
        insertion_loss=over(found, lambda each: float(each.insertion_loss[0, index])),
        against_now=band(gains, gain(there[NOMINAL], found[NOMINAL])) if there else None,
        on_desk=over(found, lambda each: float(each.on_desk[0, index])),
    )


def _loads(excitation: Excitation, cases: Cases, question: Question) -> tuple[Load, ...]:
    """Return the user's own forces through the feet, at the frequencies asked for.

    Where frequencies are asked for and the brief has no force, plain pushes of 1 N stand in.
    """
    pushes = [
        (
            load.name,
            load.frequencies,
            single_push(*map(np.array, (load.force, load.moment, load.position))),
        )
        for load in excitation.loads
    ]
    if not pushes and question.frequencies:
        places = (*move_points(excitation.motion), cases[NOMINAL].system.case.com)
        pushes = [
            (f"1 N along {axis}", (), single_push(AXES[axis], np.zeros(3), place))
            for axis, place in zip("xyz", places, strict=True)
        ]
    told = []
    for name, own, push in pushes:
        lowest = tuple(axis_line(excitation.motion, speed) for speed in question.speeds)
        asked = np.array(question.frequencies or own or lowest)
        tone = Tone(source=name, frequency=asked, direction_deg=None, pushes=(push,))
        told.append(Load(name=name, points=_points(cases, tone)))
    return tuple(told)


def _points(cases: Cases, tone: Tone) -> tuple[LoadPoint, ...]:
    found = {key: losses(case.system, [tone], 0.0) for key, case in cases.items()}
    summed = np.abs(curves.summed_force(cases[NOMINAL].system, [tone]))

    def point(index: int, frequency: float) -> LoadPoint:
        return LoadPoint(
            frequency=float(frequency),
            transmitted=triple(summed[index]),
            transmissibility=float(found[NOMINAL].transmissibility[0, index]),
            insertion_loss=over(found, lambda each: float(each.insertion_loss[0, index])),
        )

    return tuple(point(index, frequency) for index, frequency in enumerate(tone.frequency))


def _creep(stand: Stand, nominal: Case) -> tuple[CreepRow, ...]:
    if stand.material is None:
        return ()
    sag, tilt = float(np.mean(nominal.system.feet.sag)), math.hypot(*nominal.tilt)
    creep = stand.material.creep.value
    growths = [float(creep_factor(seconds, creep)) for _, seconds in TIMES]
    return tuple(
        CreepRow(label=label, seconds=seconds, sag=sag * growth, tilt=tilt * growth)
        for (label, seconds), growth in zip(TIMES, growths, strict=True)
    )


def _share(
    excitation: Excitation, cases: Cases, speeds: tuple[float, ...], sway_limit: float
) -> float:
    """Return the share of cases whose modes all lie below the motors and which sway in bounds."""
    limit = mode_limit(electrical_line(excitation.motion, min(speeds)))
    kept = [
        case.modes.frequency[0, 0] > 0
        and case.modes.frequency[0, -1] <= limit
        and float(worst_tool_sway(excitation, case.system, case.modes, speeds)[0]) <= sway_limit
        for case in cases.values()
    ]
    return float(np.mean(kept))
