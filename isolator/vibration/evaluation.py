"""Everything there is to tell of one set of feet: modes, feet, speeds, loads, sway, margins."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, fields, replace
from functools import partial
from typing import TypedDict

import numpy as np
from numpy.typing import NDArray

from isolator.physics.arrays import Array
from isolator.physics.rubber.viscoelastic import creep_factor
from isolator.vibration import curves
from isolator.vibration.cases import NOMINAL, Case, Cases, all_cases, highest, named_modes, over
from isolator.vibration.compared import Compared
from isolator.vibration.desk import StoodOn, stood_on
from isolator.vibration.excitation import Excitation
from isolator.vibration.heard import desk_ear, strengths
from isolator.vibration.helps import Ways, helps
from isolator.vibration.installation import Installation
from isolator.vibration.lines import Spectra, direction_lines, speed_row
from isolator.vibration.over_speed import over_speed, told_over
from isolator.vibration.print_effect import print_effect
from isolator.vibration.promise import bending_source, promised
from isolator.vibration.pushed import fan_lines, loads
from isolator.vibration.results import (
    AvoidRange,
    CreepRow,
    Evaluation,
    FootState,
    Heard,
    HeardOver,
    Held,
    Help,
    Line,
    OverSpeed,
    Speed,
)
from isolator.vibration.reversal import quick_tool_sway, stability, swayed, told_sway
from isolator.vibration.sampled import Sampled, sample_band, sampled, sampled_modes
from isolator.vibration.spectrum import THIN, grid_for, least_loss, spectrum, way_out
from isolator.vibration.spreads import Samples, draw
from isolator.vibration.stand import Stand
from isolator.vibration.targets import electrical_line, mode_limit, slowest_limit

TIMES = (("a day", 86_400.0), ("a month", 30 * 86_400.0), ("a year", 365 * 86_400.0))


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """At which speeds and frequencies a set of feet is asked about."""

    speeds: tuple[float, ...]  # [m/s]
    frequencies: tuple[float, ...]  # for the user's own forces [Hz]
    directions: tuple[float, ...] = ()  # of moves told one by one, beside the mean [rad]


def triple(values: Array) -> tuple[float, float, float]:
    """Return three numbers of an array (3,) as plain floats."""
    return (float(values[0]), float(values[1]), float(values[2]))


def held(installation: Installation, stand: Stand, speeds: Sequence[float]) -> Held:
    """Return how the printer stands, sways and swings on one stand, over all its cases."""
    printer = stand.printer or installation.printer
    return _held(installation, stand, all_cases(stand, printer), speeds)


def _held(installation: Installation, stand: Stand, cases: Cases, speeds: Sequence[float]) -> Held:
    excitation = installation.excitation
    motion, limits = excitation.motion, installation.limits
    moved = swayed(excitation, cases, speeds)
    top = highest(cases).high
    feet = [case.system.feet for case in cases.values()]
    return Held(
        modes=named_modes(cases),
        highest=top,
        feet=_feet(cases),
        sway=told_sway(motion, cases, moved, limits.sway),
        stability=stability(
            motion,
            stand.printer or installation.printer,
            cases,
            moved,
            height=stand.height,
            friction=installation.surroundings.grip(stand.touches),
        ),
        isolates_from=top / mode_limit(electrical_line(motion, 1.0)) if top > 0 else None,
        creep=_creep(stand, cases[NOMINAL]),
        tilt=cases[NOMINAL].tilt,
        worst_strain=None if stand.material is None else max(float(x.strain.max()) for x in feet),
        worst_buckling=max(float(x.buckling.max()) for x in feet),
        least_load=min(float(x.load.min() / x.load.mean()) for x in feet),
    )


def appraise(
    installation: Installation, stand: Stand, question: Question, now: Stand | None = None
) -> Evaluation:
    """Evaluate one stand, and how it is heard against what stands there now, or against bumpers.

    With `now` each line is told against that too. Bands are told over samples of all spreads;
    limits look at the corners of modulus and mass.
    """
    excitation = installation.excitation
    printer = installation.printer
    cases, samples = all_cases(stand, stand.printer or printer), draw(printer.extras)
    found = sampled(stand, printer, excitation, samples, "feet")
    baseline = now or installation.bumpers
    before = sampled(baseline, printer, excitation, samples, "now", like=found)
    there = None if now is None else before
    desk = stood_on(installation.surroundings.desk)
    spectra = _spectra(excitation, found, before, there, desk, question)
    ceiling = _ceiling(installation, cases[NOMINAL])
    compared = _compared(
        excitation, samples, spectra, before, desk, installation.limits.promise_ceiling_db
    )
    stands = _held(installation, stand, cases, question.speeds)
    reach = tool_sways(excitation, found, question.speeds)
    stands = replace(
        stands,
        modes=sampled_modes(found, stands.modes),
        feet=_sampled_feet(found, stands.feet),
        sway=replace(stands.sway, usual=sample_band(reach)),
    )
    least = installation.limits.least_gain_db
    return Evaluation(
        **{field.name: getattr(stands, field.name) for field in fields(stands)},
        speeds=_speeds(
            excitation, spectra, compared, question, fan_lines(excitation, found, there, desk)
        ),
        loads=loads(excitation, found, desk, question.speeds, question.frequencies),
        curves=partial(curves.curves, excitation, found, there),
        speed_map=curves.speed_map(excitation, spectra.feet),
        share=_share(excitation, found, question.speeds, reach <= installation.limits.sway),
        desk=desk.material,
        ceiling=ceiling,
        baseline=baseline.title if now is None else f"the {now.title}",
        changes=compared.changes(question.speeds) if excitation.belts else None,
        prints=print_effect(excitation, cases, stands.sway, question.speeds),
        **_heard_over(excitation, cases[NOMINAL], compared, least, question.speeds),
    )


class _OverSpeed(TypedDict):
    avoid: tuple[AvoidRange, ...]
    heard_over: HeardOver | None
    over_speed: OverSpeed | None
    works_from: float | None
    helps: tuple[Help, ...]


def _heard_over(
    excitation: Excitation,
    nominal: Case,
    compared: Compared,
    least: float,
    speeds: Sequence[float],
) -> _OverSpeed:
    """Return how it is heard over print speed, what to avoid, from where on it works, and what else
    would help at `speeds` [m/s]."""
    if not excitation.belts:
        silent: _OverSpeed = {
            "avoid": (),
            "heard_over": None,
            "over_speed": None,
            "works_from": None,
            "helps": (),
        }
        return silent
    over = over_speed(excitation, nominal, compared, curves.speed_grid(excitation.motion))
    return {
        **told_over(over, compared.ceiling, least),
        "over_speed": over,
        "helps": helps(excitation, _ways(compared), speeds),
    }


def _ways(compared: Compared) -> Ways:
    return Ways(
        grid=compared.grid,
        feet=compared.after,
        ear=compared.ear,
        strong=compared.strong,
    )


def _compared(
    excitation: Excitation,
    samples: Samples,
    spectra: Spectra,
    before: Sampled,
    desk: StoodOn,
    ceiling: float,
) -> Compared:
    """Return what leaves through the feet beside what leaves through those before."""
    grid = spectra.feet.grid
    soft = desk if desk.material else None
    return Compared(
        excitation=excitation,
        grid=grid,
        before=way_out(before, soft, grid)
        if spectra.now is None or soft is not None
        else spectra.now,
        after=spectra.feet.feet if soft is None else spectra.feet.desk,
        ear=desk_ear(desk, grid),
        strong=strengths(excitation, samples),
        ceiling=ceiling,
    )


def ceiling_of(installation: Installation, stand: Stand) -> float:
    """Return the loss [dB] beyond which nothing is promised of feet."""
    cases = all_cases(stand, stand.printer or installation.printer)
    return _ceiling(installation, cases[NOMINAL])


def _ceiling(installation: Installation, nominal: Case) -> float:
    """Return the loss [dB] beyond which nothing is promised of these feet."""
    bending = bending_source(installation.excitation, nominal.system.case)
    return float(promised(nominal.system, bending, installation.limits.promise_ceiling_db)[0])


def _spectra(
    excitation: Excitation,
    found: Sampled,
    before: Sampled,
    there: Sampled | None,
    desk: StoodOn,
    question: Question,
) -> Spectra:
    """Return what the feet, and those there now, pass on over all frequencies of the lines."""
    speeds = (*question.speeds, float(curves.speed_grid(excitation.motion)[-1]))
    losses = [least_loss(each.system) for each in (found, before)]
    modes = min(float(np.abs(each.modes.frequency).min()) for each in (found, before))
    grid = grid_for(excitation, speeds, min(losses), 0.5 * modes)
    return Spectra(
        feet=spectrum(found, desk, grid),
        now=way_out(there, None, grid, THIN) if there else None,
    )


def _speeds(
    excitation: Excitation,
    spectra: Spectra,
    compared: Compared,
    question: Question,
    fans: tuple[Line, ...],
) -> tuple[Speed, ...]:
    """Return what the feet make of each print speed, with the fans' lines."""
    speeds = question.speeds
    heard: Sequence[Heard | None] = [None] * len(speeds)
    loud = [""] * len(speeds)
    if excitation.belts:
        heard, loud = compared.heard(speeds), compared.loudest(speeds)
    rows = []
    for speed, change, source in zip(speeds, heard, loud, strict=True):
        row = speed_row(excitation, spectra, speed, change, source)
        asked = [
            line
            for angle in question.directions
            for line in direction_lines(excitation, spectra, speed, angle)
        ]
        rows.append(replace(row, lines=(*row.lines, *asked, *fans)))
    return tuple(rows)


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


def _sampled_feet(found: Sampled, feet: tuple[FootState, ...]) -> tuple[FootState, ...]:
    """Return feet with the bands of their loads over samples."""
    loads = found.system.feet.load
    return tuple(
        replace(foot, load=sample_band(loads[:, index])) for index, foot in enumerate(feet)
    )


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


def tool_sways(excitation: Excitation, found: Sampled, speeds: tuple[float, ...]) -> Array:
    """Return the worst sway (n,) [m] at the tool's height in every sample."""
    cases = [above.case for above in found.above]
    return quick_tool_sway(excitation, found.system, found.modes, speeds, cases)


def _share(
    excitation: Excitation, found: Sampled, speeds: tuple[float, ...], sways: NDArray[np.bool_]
) -> float:
    """Return the share of samples whose modes all lie below the motors and which sway in bounds."""
    limit = slowest_limit(excitation.motion, speeds)
    frequency = found.modes.frequency
    kept = (frequency[:, 0] > 0.0) & (frequency[:, -1] <= limit) & sways
    return float(np.mean(kept[1:]))
