"""What the feet make of pushes on the frame: the fans' tones and the user's own forces."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from isolator.physics.arrays import Array
from isolator.vibration.band import Band
from isolator.vibration.cases import NOMINAL, Case, Cases, Key, band, framed
from isolator.vibration.desk import StoodOn, under
from isolator.vibration.drives import AXES, move_points
from isolator.vibration.excitation import Excitation, Push, fan_tones, force_at, load_push
from isolator.vibration.isolation import OnDesk, Passed, decibel, on_desk, passed
from isolator.vibration.results import Line, Load, LoadPoint
from isolator.vibration.source import Source, push_source
from isolator.vibration.system import System
from isolator.vibration.targets import axis_line

PLAIN = (NOMINAL, 1.0)
"""The nominal case with its frame at its nominal frequencies."""


class _Through:
    """One push through all cases of a stand, at f frequencies."""

    def __init__(
        self, excitation: Excitation, cases: Cases, frequency: Array, push: Push, desk: StoodOn
    ) -> None:
        self.rows: dict[tuple[Key, float], tuple[Passed, OnDesk]] = {}
        first = cases[NOMINAL]
        below = under(desk, first.places, first.widths, first.height, frequency)
        for key, frame in framed(cases):
            system = cases[key].system
            source = push_source(excitation, system.case, frequency, [push], frame)
            felt = on_desk(system, source, below)
            self.rows[key, frame] = (passed(system, source), felt)

    def losses(self, at: int) -> Band:
        """Return the insertion loss [dB] at frequency number `at`."""
        levels = [float(decibel(one.rigid, one.feet)[0, at, 0]) for one, _ in self.rows.values()]
        nominal = self.rows[PLAIN][0]
        return band(levels, float(decibel(nominal.rigid, nominal.feet)[0, at, 0]))

    def felt(self, at: int) -> Band:
        """Return the same on the desk [dB]."""
        levels = [float(decibel(two.rigid, two.feet)[0, at, 0]) for _, two in self.rows.values()]
        nominal = self.rows[PLAIN][1]
        return band(levels, float(decibel(nominal.rigid, nominal.feet)[0, at, 0]))

    def transmissibility(self, at: int) -> float:
        """Return the nominal transmissibility."""
        one = self.rows[PLAIN][0]
        return float(np.sqrt(one.feet[0, at, 0] / one.static[0, at, 0]))

    def against(self, before: _Through, at: int) -> Band:
        """Return how much quieter than `before` [dB], printers alike against each other."""
        gains = {
            (old, new): float(decibel(there[0].feet, here[0].feet)[0, at, 0])
            for new, here in self.rows.items()
            for old, there in before.rows.items()
            if (new[0][1], new[1]) == (old[0][1], old[1])
        }
        return band(list(gains.values()), gains[PLAIN, PLAIN])


def fan_lines(
    excitation: Excitation, cases: Cases, before: Cases | None, desk: StoodOn
) -> tuple[Line, ...]:
    """Return the lines of the fans, the same at every print speed."""
    told = []
    for tone in fan_tones(excitation.fans):
        frequency = np.array([tone.frequency])
        found = _Through(excitation, cases, frequency, tone.push, desk)
        there = _Through(excitation, before, frequency, tone.push, desk) if before else None
        told.append(
            Line(
                source=tone.source,
                frequency=tone.frequency,
                direction_deg=None,
                transmissibility=found.transmissibility(0),
                insertion_loss=found.losses(0),
                against_now=found.against(there, 0) if there else None,
                on_desk=found.felt(0),
            )
        )
    return tuple(told)


def loads(
    excitation: Excitation,
    cases: Cases,
    desk: StoodOn,
    speeds: Sequence[float],
    frequencies: Sequence[float],
) -> tuple[Load, ...]:
    """Return the user's own forces through the feet, at the frequencies asked for.

    Where frequencies are asked for and the brief has no force, plain pushes of 1 N stand in.
    """
    pushes = [(load.name, load.frequencies, load_push(load)) for load in excitation.loads]
    if not pushes and frequencies:
        places = (*move_points(excitation.motion), cases[NOMINAL].system.case.com)
        pushes = [
            (f"1 N along {axis}", (), force_at(AXES[axis], place))
            for axis, place in zip("xyz", places, strict=True)
        ]
    lowest = tuple(axis_line(excitation.motion, speed) for speed in speeds)
    return tuple(
        Load(
            name=name,
            points=_points(excitation, cases, desk, np.array(frequencies or own or lowest), push),
        )
        for name, own, push in pushes
    )


def _points(
    excitation: Excitation, cases: Cases, desk: StoodOn, frequency: Array, push: Push
) -> tuple[LoadPoint, ...]:
    found = _Through(excitation, cases, frequency, push, desk)
    nominal = cases[NOMINAL]
    source = push_source(excitation, nominal.system.case, frequency, [push])
    transmitted = np.abs(summed_force(nominal.system, source))

    def point(index: int, hertz: float) -> LoadPoint:
        x, y, z = transmitted[index].tolist()
        return LoadPoint(
            frequency=float(hertz),
            transmitted=(x, y, z),
            transmissibility=found.transmissibility(index),
            insertion_loss=found.losses(index),
            on_desk=found.felt(index),
        )

    return tuple(point(index, hertz) for index, hertz in enumerate(frequency))


def summed_force(system: System, source: Source) -> Array:
    """Return the sum (f, 3) [N] of all foot forces of a batch of one under one push."""
    stiffness = system.stiffness(source.frequency)
    moved = np.linalg.solve(stiffness + source.dynamic, source.blocked)[0, :, :, 0]
    springs = system.factor(source.frequency)[0][:, None, None] * system.lossy[0, :3]
    return np.asarray((springs @ moved[..., None])[..., 0])


def axis_push(excitation: Excitation, case: Case, axis: str) -> Push:
    """Return a push of 1 N along `axis`: x and y where the tool moves, z through the centre."""
    places = dict(zip(("x", "y"), move_points(excitation.motion), strict=True))
    return force_at(AXES[axis], places.get(axis, case.system.case.com))
