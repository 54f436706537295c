"""What the feet make of every line of motors and fans at the print speeds, over all directions."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from isolator.physics.arrays import Array
from isolator.physics.drive.stepper import belt_factors
from isolator.vibration import directions
from isolator.vibration.band import Band
from isolator.vibration.excitation import (
    MOTOR_SOURCES,
    Excitation,
    motor_lines,
    ripples,
)
from isolator.vibration.isolation import decibel
from isolator.vibration.results import Heard, Line, Speed, Worst
from isolator.vibration.sampled import sample_band
from isolator.vibration.spectrum import Spectrum
from isolator.vibration.verdict import AMPLIFIED_DB, LISTENED, verdict


@dataclass(frozen=True, slots=True, kw_only=True)
class Spectra:
    """The feet asked about, and those that stand there now."""

    feet: Spectrum
    now: Array | None  # (c, f, m) squared norm of all foot forces [N²] on the latter


def line_weights(
    excitation: Excitation, grid: Array, source: str, speed: float, angles: Sequence[float]
) -> Array:
    """Return weights (f, m) that sum energies for 1 N·m into a line's energy at `speed` [m/s].

    The mean over directions `angles` [rad], over all of them where none are given; each motor with
    its ripple squared, as their phases are not known.
    """
    layout = excitation.motion.layout
    line = motor_lines(excitation.motion, speed)[source]
    means = [
        directions.mean_weights(layout, belt, line, grid, angles) for belt, _ in excitation.belts
    ]
    return np.asarray(np.stack(means, axis=-1) * ripples(excitation, source) ** 2)


def tone_weights(excitation: Excitation, grid: Array, speeds: Sequence[float] | Array) -> Array:
    """Return weights (f, m, k, l) of the l lines of the motors at `speeds` (k,) [m/s].

    They sum energies for a ripple of 1 N·m at each of m motors into the energy of each line, of
    mean strength, mean over the directions of the brief.
    """
    motion, belts = excitation.motion, [belt for belt, _ in excitation.belts]
    strong = np.stack([ripples(excitation, source) for source in MOTOR_SOURCES], axis=-1) ** 2
    means = np.empty((len(grid), *strong.shape))
    weights = np.empty((len(grid), len(belts), len(speeds), len(MOTOR_SOURCES)))
    for at, speed in enumerate(speeds):
        lines = motor_lines(motion, float(speed))
        for motor, belt in enumerate(belts):
            for line, source in enumerate(MOTOR_SOURCES):
                means[:, motor, line] = directions.mean_weights(
                    motion.layout, belt, lines[source], grid, motion.infill_angles
                )
        weights[:, :, at] = means * strong
    return weights


def summed(energies: Array, weights: Array) -> Array:
    """Return the energy (c, ...) of a line, from `energies` (c, f, m) and `weights` (f, m, ...)."""
    return np.asarray(np.tensordot(energies, weights, axes=2))


def mean_loss(before: Array, after: Array, weights: Array) -> Array:
    """Return by how many dB (c, ...) one line's energy is less than another's.

    `before`, `after` (c, f, m), `weights` (f, m, ...) of a line, or of several.
    """
    return decibel(summed(before, weights), summed(after, weights))


def speed_row(
    excitation: Excitation,
    spectra: Spectra,
    speed: float,
    heard: Heard | None = None,
    loud: str = "",
) -> Speed:
    """Return what the feet make of all lines of the motors at one print speed.

    `heard` is how much louder it is than before, `loud` the source of the line heard most.
    """
    angles = excitation.motion.infill_angles
    sweep = _Sweep.over(excitation, spectra.feet, speed, angles)
    lines = tuple(
        _line(excitation, spectra, sweep, source, speed)
        for source in MOTOR_SOURCES
        if excitation.belts
    )
    return Speed(
        speed=speed,
        verdict="neutral" if heard is None else verdict(heard.desk),
        decided_by=next((line for line in lines if line.source == loud), None),
        lines=lines,
        heard=heard,
        amplified_share=sweep.amplified(),
    )


def direction_lines(
    excitation: Excitation, spectra: Spectra, speed: float, angle: float
) -> tuple[Line, ...]:
    """Return the lines of a move at `angle` [rad]; motors that share a frequency share a line."""
    motion = excitation.motion
    factors = belt_factors(motion.layout, np.array([angle]))[:, 0]
    rows = []
    for source in MOTOR_SOURCES:
        weights = line_weights(excitation, spectra.feet.grid, source, speed, (angle,))
        line = motor_lines(motion, speed)[source]
        turning = [round(float(factors[belt]), 9) for belt, _ in excitation.belts]
        for factor in dict.fromkeys(turning):
            if factor > 0.0:
                own = weights * (np.array(turning) == factor)
                frequency, told = line * factor, float(np.degrees(angle))
                rows.append(_told(spectra, own, source, frequency, told, None))
    return tuple(rows)


def _line(
    excitation: Excitation, spectra: Spectra, sweep: _Sweep, source: str, speed: float
) -> Line:
    angles = excitation.motion.infill_angles
    weights = line_weights(excitation, spectra.feet.grid, source, speed, angles)
    return _told(
        spectra,
        weights,
        source,
        motor_lines(excitation.motion, speed)[source],
        None,
        sweep.worst(source),
    )


def _told(
    spectra: Spectra,
    weights: Array,
    source: str,
    frequency: float,
    angle: float | None,
    worst: Worst | None,
) -> Line:
    feet = spectra.feet
    square = summed(feet.feet[:1], weights) / summed(feet.static, weights)
    return Line(
        source=source,
        frequency=frequency,
        direction_deg=angle,
        transmissibility=float(np.sqrt(square[0])),
        insertion_loss=sample_band(mean_loss(feet.rigid, feet.feet, weights)),
        against_now=_gain(spectra, weights),
        on_desk=sample_band(mean_loss(feet.desk_rigid, feet.desk, weights)),
        worst=worst,
    )


def _gain(spectra: Spectra, weights: Array) -> Band | None:
    if spectra.now is None:
        return None
    # row by row: one printer in one state, on other feet
    return sample_band(mean_loss(spectra.now, spectra.feet.feet, weights))


@dataclass(frozen=True, slots=True, kw_only=True)
class _Sweep:
    """Every line of every motor over the directions looked at, nominal and over all cases."""

    feet: Spectrum
    angles: Array  # (k,) [rad]
    factors: Array  # (m, k) belt speed of each motor over the tool's
    lines: dict[str, float]  # [Hz] of a belt as fast as the tool
    level: Array  # (f, m) nominal loss of each motor's line over the frequencies [dB]

    @staticmethod
    def over(
        excitation: Excitation, feet: Spectrum, speed: float, angles: Sequence[float]
    ) -> _Sweep:
        motion = excitation.motion
        lines = motor_lines(motion, speed)
        top = lines["full step"] * directions.top_factor(motion.layout)
        turned = directions.looked_at(motion.layout, angles, feet.lowest, top, feet.loss)
        both = belt_factors(motion.layout, turned)
        return _Sweep(
            feet=feet,
            angles=turned,
            factors=both[[belt for belt, _ in excitation.belts]],
            lines=lines,
            level=decibel(feet.rigid[0], feet.feet[0]),
        )

    def losses(self, source: str) -> Array:
        """Return the nominal loss (m, k) [dB] of every motor's line in every direction."""
        heard = zip(self.lines[source] * self.factors, self.level.T, strict=True)
        return np.array([np.interp(own, self.feet.grid, level) for own, level in heard])

    def worst(self, source: str) -> Worst | None:
        """Return the direction in which a motor's line is cut least."""
        losses = self.losses(source)
        motor, at = np.unravel_index(int(np.argmin(losses)), losses.shape)
        frequency = float(self.lines[source] * self.factors[motor, at])
        grid = self.feet.grid
        left = int(np.clip(np.searchsorted(grid, frequency, side="right") - 1, 0, len(grid) - 2))
        beside = (slice(None), slice(left, left + 2), motor)
        levels = decibel(self.feet.rigid[beside], self.feet.feet[beside])
        there = np.array([np.interp(frequency, grid[left : left + 2], level) for level in levels])
        return Worst(
            direction_deg=float(np.degrees(self.angles[at])),
            frequency=frequency,
            insertion_loss=sample_band(there),
        )

    def amplified(self) -> float:
        """Return the share of directions in which a drone line of some motor is amplified."""
        if not len(self.factors):
            return 0.0
        hit = np.zeros(len(self.angles), dtype=bool)
        for source in LISTENED:
            hit |= (self.losses(source) < AMPLIFIED_DB).any(axis=0)
        return float(hit.mean())
