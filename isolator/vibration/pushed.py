"""What the feet make of pushes on the frame: the fans' tones and the user's own forces."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from isolator.physics.arrays import Array
from isolator.vibration.band import Band
from isolator.vibration.desk import StoodOn
from isolator.vibration.drives import AXES, move_points
from isolator.vibration.excitation import Excitation, Push, fan_tones, force_at, load_push
from isolator.vibration.isolation import OnDesk, Passed, decibel, on_desk, passed
from isolator.vibration.results import Line, Load, LoadPoint
from isolator.vibration.sampled import Sampled, over_pushes, sample_band
from isolator.vibration.source import Source, push_source
from isolator.vibration.spreads import SHARP
from isolator.vibration.system import System
from isolator.vibration.targets import axis_line


class Through:
    """One push through a stand in all samples, at f frequencies, or f pushes, one at each."""

    def __init__(
        self, stand: Sampled, frequency: Array, pushes: Sequence[Push], desk: StoodOn
    ) -> None:
        below = stand.desk(desk, frequency)

        def both(system: System, source: Source) -> tuple[Passed, OnDesk]:
            return passed(system, source), on_desk(system, source, below)

        at = np.arange(len(frequency))
        own = (slice(None), at, np.minimum(at, len(pushes) - 1))
        found, felt = zip(*over_pushes(stand, frequency, pushes, both), strict=True)
        self.feet = np.concatenate([each.feet[own] for each in found])  # (n, f)
        self.rigid = np.concatenate([each.rigid[own] for each in found])
        self.static = np.concatenate([each.static[own] for each in found])
        self.desk = np.concatenate([each.feet[own] for each in felt])
        self.desk_rigid = np.concatenate([each.rigid[own] for each in felt])

    def losses(self, at: int) -> Band:
        """Return the insertion loss [dB] at frequency number `at`."""
        return sample_band(decibel(self.rigid[:, at], self.feet[:, at]), SHARP)

    def felt(self, at: int) -> Band:
        """Return the same on the desk [dB]."""
        return sample_band(decibel(self.desk_rigid[:, at], self.desk[:, at]), SHARP)

    def transmissibility(self, at: int) -> float:
        """Return the nominal transmissibility."""
        return float(np.sqrt(self.feet[0, at] / self.static[0, at]))

    def against(self, before: Through, at: int) -> Band:
        """Return how much quieter than `before` [dB], printers alike against each other."""
        return sample_band(decibel(before.feet[:, at], self.feet[:, at]), SHARP)


def fan_lines(
    excitation: Excitation, stand: Sampled, before: Sampled | None, desk: StoodOn
) -> tuple[Line, ...]:
    """Return the lines of the fans, the same at every print speed."""
    tones = fan_tones(excitation.fans)
    if not tones:
        return ()
    # all at once: each by itself takes three times as long
    frequency = np.array([tone.frequency for tone in tones])
    pushes = [tone.push for tone in tones]
    found = Through(stand, frequency, pushes, desk)
    there = Through(before, frequency, pushes, desk) if before else None
    return tuple(
        Line(
            source=tone.source,
            frequency=tone.frequency,
            direction_deg=None,
            transmissibility=found.transmissibility(at),
            insertion_loss=found.losses(at),
            against_now=found.against(there, at) if there else None,
            on_desk=found.felt(at),
        )
        for at, tone in enumerate(tones)
    )


def loads(
    excitation: Excitation,
    stand: Sampled,
    desk: StoodOn,
    speeds: Sequence[float],
    frequencies: Sequence[float],
) -> tuple[Load, ...]:
    """Return the user's own forces through the feet, at the frequencies asked for.

    Where frequencies are asked for and the brief has no force, plain pushes of 1 N stand in.
    """
    pushes = [(load.name, load.frequencies, load_push(load)) for load in excitation.loads]
    if not pushes and frequencies:
        places = (*move_points(excitation.motion), stand.system.case.com)
        pushes = [
            (f"1 N along {axis}", (), force_at(AXES[axis], place))
            for axis, place in zip("xyz", places, strict=True)
        ]
    lowest = tuple(axis_line(excitation.motion, speed) for speed in speeds)
    return tuple(
        Load(
            name=name,
            points=_points(excitation, stand, desk, np.array(frequencies or own or lowest), push),
        )
        for name, own, push in pushes
    )


def _points(
    excitation: Excitation, stand: Sampled, desk: StoodOn, frequency: Array, push: Push
) -> tuple[LoadPoint, ...]:
    found = Through(stand, frequency, [push], desk)
    source = push_source(excitation, stand.system.case, frequency, [push])
    transmitted = np.abs(summed_force(stand.system.take(np.array([0])), source))

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
    springs = system.moving(source.frequency)[0][:, None, None] * system.lossy[0, :3]
    return np.asarray((springs @ moved[..., None])[..., 0])


def axis_push(excitation: Excitation, system: System, axis: str) -> Push:
    """Return a push of 1 N along `axis`: x and y where the tool moves, z through the centre."""
    places = dict(zip(("x", "y"), move_points(excitation.motion), strict=True))
    return force_at(AXES[axis], places.get(axis, system.case.com))
