"""What is told of motors on dampers: every drone tone, and what is heard on both ways out."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import NamedTuple

import numpy as np

from isolator.motors.bracket import Bracket
from isolator.motors.drive_train import Tones, mean_weights, tones_of
from isolator.motors.floor import Floor, Floors
from isolator.motors.mount import Damper
from isolator.motors.results import DamperLine, DamperWorst, MotorHeard
from isolator.motors.sampled import Drawn
from isolator.motors.task import MotorTask
from isolator.motors.torque import Torque
from isolator.motors.whole import Whole
from isolator.physics.arrays import Array
from isolator.physics.drive.stepper import belt_factors
from isolator.vibration import directions
from isolator.vibration.band import Band
from isolator.vibration.curves import speed_grid
from isolator.vibration.excitation import motor_lines
from isolator.vibration.heard import desk_ear, louder, sound, strengths
from isolator.vibration.isolation import decibel
from isolator.vibration.lines import tone_weights
from isolator.vibration.results import Heard
from isolator.vibration.sampled import sample_band
from isolator.vibration.spectrum import grid_for, least_loss
from isolator.vibration.spreads import SHARP
from isolator.vibration.verdict import LISTENED


class OnDamper(NamedTuple):
    """What is told of one motor on its damper."""

    lines: tuple[DamperLine, ...]
    heard: tuple[MotorHeard, ...]  # at each print speed


class Telling:
    """What is told of motors on any of the dampers `offered`, in all samples."""

    def __init__(self, task: MotorTask, drawn: Drawn, offered: Iterable[Damper]) -> None:
        motion = task.motion
        self.task, self.drawn = task, drawn
        # the smallest loss factor of what resonates
        rubber = [one.offered.material.loss_factor.value for one in offered]
        loss = min([least_loss(drawn.feet.system), *rubber])
        lowest = max(float(drawn.feet.modes.frequency[0, 0]), directions.LOWEST)
        # no sample's modes lie lower
        softest = float(drawn.feet.modes.frequency[:, 0].min())
        self.over = speed_grid(motion)
        fastest = (*motion.speeds, float(self.over[-1]))
        self.grid = grid_for(task.excitation, fastest, loss, 0.9 * softest)
        top = (
            directions.top_factor(motion.layout)
            * motor_lines(motion, max(motion.speeds))[LISTENED[-1]]
        )
        self.angles = directions.looked_at(motion.layout, motion.infill_angles, lowest, top, loss)
        self.floors = Floors(task, drawn, self.grid)
        self.ear = desk_ear(task.desk, self.grid)
        self.strong = strengths(task.excitation, drawn.samples)
        self.weights = tone_weights(task.excitation, self.grid, motion.speeds)

    def over_speed(self, floor: Floor) -> Array:
        """Return how much louder (n, k) [dB(A)] all motors together are with the dampers over print
        speed, through the feet."""
        every = list(range(len(self.task.belts)))
        weights = tone_weights(self.task.excitation, self.grid, self.over)
        return self.louder(floor, every, weights)

    def louder(self, floor: Floor, motors: list[int], weights: Array | None = None) -> Array:
        """Return how much louder (n, k) [dB(A)] motors are heard through the feet.

        `weights` (f, m, k, l) of other speeds than the brief's. By the squared forces of all feet,
        which stand for what the desk feels: desk and feet are the same before and after.
        """
        own = self.weights if weights is None else weights
        ways = (each[..., motors] for each in (floor.feet, floor.both))
        return louder(*(sound(each, self.ear, own[:, motors], self.strong) for each in ways))

    def whole(self, floor: Floor, dampers: Mapping[int, Damper]) -> Whole:
        """Return how much louder all motors together are with dampers than without."""
        before = after = np.zeros(1)
        for index in range(len(self.task.belts)):
            bracket, own = Bracket(self.task, index, self.drawn, self.grid), self.weights[:, index]
            one = dampers.get(index)
            if one is None:
                bolted = soft = bracket.bolted(own)
            else:
                bolted, soft = bracket.sounds(one.offered, one.rubber, own)
            before, after = before + bolted, after + soft
        frame = louder(before, after)
        return Whole(
            speeds=self.task.motion.speeds,
            desk=self.louder(floor, list(range(len(self.task.belts)))),
            frame=tuple(sample_band(each, SHARP) for each in frame.T),
        )

    def heard(self, floor: Floor, dampers: Mapping[int, Damper]) -> dict[int, tuple[Heard, ...]]:
        """Return how much louder each motor is heard at each print speed, on both ways."""
        return {
            index: tuple(
                Heard(desk=sample_band(own, SHARP), frame=frame)
                for own, frame in zip(self.louder(floor, [index]).T, damper.changes, strict=True)
            )
            for index, damper in dampers.items()
        }

    def told(self, floor: Floor, dampers: Mapping[int, Damper]) -> dict[int, OnDamper]:
        """Return every drone tone of each motor on a damper with what damper and feet take of it,
        and how much louder the motor is heard on both ways."""
        heard, speeds = self.heard(floor, dampers), self.task.motion.speeds
        return {
            index: OnDamper(
                _Told(self.task, self.drawn, floor, damper, index, self.grid, self.angles).lines(),
                tuple(
                    MotorHeard(speed=speed, heard=each)
                    for speed, each in zip(speeds, heard[index], strict=True)
                ),
            )
            for index, damper in dampers.items()
        }


class _Told:
    """What is told of the tones of one motor on its damper."""

    def __init__(
        self,
        task: MotorTask,
        drawn: Drawn,
        floor: Floor,
        damper: Damper,
        index: int,
        grid: Array,
        angles: Array,
    ) -> None:
        belt, _ = task.belts[index]
        motion = task.motion
        self.tones: Tones = tones_of(motion)
        self.grid, self.angles = grid, angles
        self.floor = Floor(*(each[..., index] for each in floor))  # (n, f)
        torque = Torque(task, index, drawn, grid)
        self.torque = torque.energies(damper.offered, damper.rubber)  # (n, f)
        self.weights = mean_weights(motion, belt, self.tones.frequency.tolist(), grid)
        self.factors = belt_factors(motion.layout, angles)[belt]
        gained = decibel(self.floor.feet[0], self.floor.both[0])
        self.least = np.minimum(decibel(self.torque[0][0], self.torque[1][0]), gained)

    def lines(self) -> tuple[DamperLine, ...]:
        """Return all tones."""
        return tuple(self._line(line) for line in range(len(self.tones.source)))

    def _line(self, line: int) -> DamperLine:
        """Return tone number `line`."""
        tones, floor, weights = self.tones, self.floor, self.weights[:, line]
        return DamperLine(
            source=tones.source[line],
            speed=float(tones.speed[line]),
            frequency=float(tones.frequency[line]),
            torque=_loss(*self.torque, weights),
            damper=_loss(floor.neither, floor.damper, weights),
            feet=_loss(floor.neither, floor.feet, weights),
            both=_loss(floor.neither, floor.both, weights),
            worst=self._worst(float(tones.frequency[line])),
        )

    def _worst(self, frequency: float) -> DamperWorst:
        """Return the direction in which torque or floor gains least, of a tone at `frequency`."""
        heard = self.factors * frequency
        at = int(np.argmin(np.interp(heard, self.grid, self.least)))
        there = directions.point_weights(self.grid, heard[at : at + 1])
        return DamperWorst(
            direction_deg=float(np.degrees(self.angles[at])),
            frequency=float(heard[at]),
            torque=_loss(*self.torque, there),
            beyond=_loss(self.floor.feet, self.floor.both, there),
        )


def _loss(before: Array, after: Array, weights: Array) -> Band:
    """Return by how many dB one energy (n, f) is less than another, as means by `weights` (f,)."""
    return sample_band(decibel(before @ weights, after @ weights), SHARP)
