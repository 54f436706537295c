"""A squash test's readings as runs up and down: checked, sorted, with what they lose and creep."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from isolator.measuring.squash_creep import creep_of
from isolator.physics.arrays import Array
from isolator.reading.faults import InputError
from isolator.reading.notes import Notes
from isolator.reading.units import format_quantity
from isolator.recordings.specimen import FOAM, Specimen
from isolator.recordings.squash_file import Readings

LEAST = 3
"""Different loads that a run needs."""
LEAST_FOAM = 5
"""The same of foam, whose curve bends twice."""
STEPS = 5.0
"""Steps of gauge and scale that readings have to span."""
BACK = 2.0
"""Steps of the gauge by which a piece may seem to rise under more load."""
MOST_STRAIN = 0.95
MOST_LOAD = 5000.0
"""That a piece is squeezed by at home [N]: half a ton; more is a mistaken unit."""
FAR = 2.0
"""Factor by which a height is off that is no other piece, but another unit or column."""
OTHER = 0.1
"""By how much a height without load may differ from thickness times layers; beyond, one is
mistyped."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Leg:
    """One way up or down: force [N] and compression [m] of each load, the last reading of each."""

    up: bool
    force: Array
    squeezed: Array


@dataclass(frozen=True, slots=True, kw_only=True)
class Runs:
    """All ways of a test, what of the work they lose, and what is known of creep."""

    legs: tuple[Leg, ...]
    used: tuple[Leg, ...]  # ways up that are fitted
    free: float | None  # height read without load [m]; None where only compressions were read
    lost: float | None  # share of the work of loading that a loop keeps [-]; None without loops
    crept: float | None  # what loads held added over the compression [-]; None within the scatter
    creep: float | None  # the same a decade of time [-]; None where no times tell


def read_runs(specimen: Specimen, readings: Readings) -> Runs:
    """Return readings as runs; raises InputError with every fault of the data."""
    notes = Notes(readings.file)
    if len(readings.force) < LEAST:
        _refuse_few(specimen, readings, notes)
        raise InputError(notes.faults)
    free, squeezed = _squeezed(specimen, readings, notes)
    if not notes.faults:
        _check_span(readings, squeezed, notes)
    ways = _ways(readings.force)
    legs = [_leg(readings, squeezed, *way) for way in ways]
    legs = [leg for leg in legs if len(leg.force) >= LEAST]
    ups = [leg for leg in legs if leg.up]
    if not notes.faults:
        for way in ways:
            _check_way(readings, squeezed, *way, notes)
    if not notes.faults:
        wanted = _least(specimen)
        most = max((len(leg.force) for leg in ups), default=0)
        if most < wanted:
            _refuse_few(specimen, readings, notes, most)
    if notes.faults:
        raise InputError(notes.faults)
    crept, creep = creep_of(readings, squeezed)
    return Runs(
        legs=tuple(legs),
        # the first squeeze breaks a piece in
        used=tuple(ups[1:] if len(ups) > 1 else ups),
        free=free,
        lost=_lost(legs),
        crept=crept,
        creep=creep,
    )


def _least(specimen: Specimen) -> int:
    return LEAST_FOAM if specimen.family == FOAM else LEAST


def _refuse_few(
    specimen: Specimen, readings: Readings, notes: Notes, most: int | None = None
) -> None:
    """Note too few loads; `most` is how many the longest run up has."""
    loads = len(np.unique(readings.force))
    run = "" if most is None else f", {most} in one run up"
    notes.fault(
        "readings",
        f"{loads} different load{'s' if loads != 1 else ''}{run}",
        f"{_least(specimen)} or more in one run up, for {specimen.family}",
        "pile up the weight in smaller steps",
    )


def _squeezed(specimen: Specimen, readings: Readings, notes: Notes) -> tuple[float | None, Array]:
    """Return the height without load, and compressions [m]."""
    for at in np.flatnonzero(readings.force < 0)[:1]:
        got = format_quantity(float(readings.force[at]), "N", 3)
        notes.fault(readings.rows[at], got, "a load of zero or more", "tare the scale first")
    for at in np.flatnonzero(readings.force > MOST_LOAD)[:1]:
        got = f"{readings.force[at]:.0f} N"
        wanted = f"no more than {MOST_LOAD:.0f} N, the weight of half a ton"
        notes.fault(readings.rows[at], got, wanted, "check the unit over the loads: is it g?")
    free = None
    squeezed = readings.place
    if readings.height:
        still = readings.place[readings.force <= readings.force_step]
        free = float(still[0]) if len(still) else specimen.height
        squeezed = free - readings.place
        for at in np.flatnonzero(readings.place <= 0)[:1]:
            got = format_quantity(float(readings.place[at]), "mm", 4)
            notes.fault(readings.rows[at], got, "a height above zero", "check the row")
        _check_free(specimen, readings, notes)
    away = squeezed - squeezed.mean()
    if float(away @ (readings.force - readings.force.mean())) < 0:
        name = "height" if readings.height else "compression"
        other = "compression" if readings.height else "height"
        got = f"a {name} that goes the wrong way with the load"
        notes.fault("header", got, "the right name over it", f"is the column the {other}?")
        return free, squeezed
    strain = squeezed / specimen.height
    # of heights that are no such piece's no compression follows
    beyond = np.flatnonzero(np.abs(strain) > MOST_STRAIN)[: 0 if notes.faults else 1]
    for at in beyond:
        notes.fault(
            readings.rows[at],
            f"a compression of {100 * strain[at]:.0f} % of the height",
            f"less than {100 * MOST_STRAIN:.0f} %",
            "check units, thickness and layers",
        )
    if readings.time is not None:
        for at in np.flatnonzero(np.diff(readings.time) < 0)[:1]:
            notes.fault(
                readings.rows[at + 1], "an earlier time", "times that go on", "sort the rows"
            )
    return free, squeezed


def _check_free(specimen: Specimen, readings: Readings, notes: Notes) -> None:
    """Note a height without load that is another piece's; under load it may only be less."""
    tall = specimen.height
    free = np.flatnonzero(readings.force <= readings.force_step)[:1]
    off = free[np.abs(readings.place[free] / tall - 1.0) > OTHER]
    if not len(free):
        free = np.array([int(readings.place.argmax())])
        off = free[readings.place[free] / tall - 1.0 > OTHER]
    for at in off:
        far = not 1.0 / FAR < readings.place[at] / tall < FAR
        load = format_quantity(float(readings.force[at]), "N", 3)
        notes.fault(
            readings.rows[at],
            f"{1e3 * readings.place[at]:.0f} mm under {load}"
            if far
            else f"{format_quantity(float(readings.place[at]), 'mm', 4)} under {load}",
            f"within {100 * OTHER:.0f} % of {format_quantity(tall, 'mm', 4)}, which thickness and "
            "layers make",
            "check the unit, and that load and height stand under their own heads"
            if far
            else "measure the piece again, without boards",
        )


def _check_span(readings: Readings, squeezed: Array, notes: Notes) -> None:
    rows = (
        ("readings", "loads", readings.force, readings.force_step, "N", "pile up more weight"),
        (
            "readings",
            "compressions",
            squeezed,
            readings.place_step,
            "mm",
            "pile up more weight, stack more layers, or read finer",
        ),
    )
    for key, what, values, step, unit, mend in rows:
        span = float(np.ptp(values))
        if span < STEPS * step * (1 - 1e-9):
            notes.fault(
                key,
                f"{what} over {format_quantity(span, unit, 3)} in steps of "
                f"{format_quantity(step, unit, 3)}",
                f"{STEPS:.0f} steps or more",
                mend,
            )


def _ways(force: Array) -> list[tuple[bool, int, int]]:
    """Return each way up or down with its first and last reading, turns counted in both."""
    ways, start, sign = [], 0, 0
    for at, turn in enumerate(np.sign(np.diff(force)).astype(int).tolist(), 1):
        if turn and sign and turn != sign:
            ways.append((sign > 0, start, at - 1))
            start = at - 1
        sign = turn or sign
    if sign:
        ways.append((sign > 0, start, len(force) - 1))
    return ways


def _leg(readings: Readings, squeezed: Array, up: bool, first: int, last: int) -> Leg:
    force, place = readings.force[first : last + 1], squeezed[first : last + 1]
    ends = np.append(np.flatnonzero(np.diff(force)), len(force) - 1)  # last reading of each load
    return Leg(up=up, force=force[ends], squeezed=place[ends])


def _check_way(
    readings: Readings, squeezed: Array, up: bool, first: int, last: int, notes: Notes
) -> None:
    """Note the first reading at which more load squeezes less, or less load more."""
    if last - first < LEAST - 1:
        return
    sense = 1.0 if up else -1.0
    path = sense * squeezed[first : last + 1]
    loads = readings.force[first : last + 1]
    for at in range(1, len(path)):
        if path[at] < path[:at].max() - BACK * readings.place_step and loads[at] != loads[at - 1]:
            row = readings.rows[first + at]
            before = readings.rows[first + int(np.argmax(path[:at]))]
            notes.fault(
                row,
                f"{format_quantity(float(readings.place[first + at]), 'mm', 4)} under "
                f"{format_quantity(float(loads[at]), 'N', 3)}, "
                f"squeezed {'less' if up else 'more'} than at {before}",
                f"more squeeze under {'more' if up else 'less'} load"
                if up
                else "less squeeze under less load",
                "read it again, or drop the row",
            )
            return


def _lost(legs: list[Leg]) -> float | None:
    """Return what the last loop keeps of the work of its way up [-]."""
    for up, down in reversed([*pairwise(legs)]):
        if up.up and not down.up:
            back = down.squeezed[::-1], down.force[::-1]
            low = max(up.squeezed[0], back[0][0])
            grid = np.linspace(low, min(up.squeezed[-1], back[0][-1]), 201)
            work = np.interp(grid, up.squeezed, up.force)
            kept = work - np.interp(grid, *back)
            return float(np.trapezoid(kept, grid) / np.trapezoid(work, grid))
    return None
