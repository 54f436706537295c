"""Stepper motors and belts: speed to frequency, ripple, how stiffly a rotor is held."""

from __future__ import annotations

from typing import Any, Literal, NamedTuple, get_args

import numpy as np
from numpy.typing import ArrayLike, NDArray

Layout = Literal["crossed-belt", "motor-per-axis", "moving-bed"]
LAYOUTS: tuple[Layout, ...] = get_args(Layout)
LINES = ("turn", "belt tooth", "electrical", "twice electrical", "full step", "microstep")
"""What a turning motor makes, slowest first."""


def lines(
    belt_speed: float, travel_per_turn: float, teeth: int, steps_per_turn: int, microsteps: int
) -> dict[str, float]:
    """Return the frequency [Hz] of each line that a turning motor makes, by its name.

    `belt_speed` [m/s], `travel_per_turn` [m] (pitch × teeth, or a lead screw's lead). A cycle of
    the coils is four full steps. Acarnley, Stepping Motors (from memory): orders 1, 2 and 4 of
    the electrical frequency come of offset, mismatch and detent.

    >>> lines(0.1, 0.04, 20, 200, 16)["electrical"]
    125.0
    """
    turn = abs(belt_speed) / travel_per_turn
    return {
        "turn": turn,
        "belt tooth": turn * teeth,
        "electrical": turn * steps_per_turn / 4,
        "twice electrical": turn * steps_per_turn / 2,
        "full step": turn * steps_per_turn,
        "microstep": turn * steps_per_turn * microsteps,
    }


def belt_factors(layout: str, direction_rad: ArrayLike) -> NDArray[Any]:
    """Return the speeds (2, ...) of belts A (x) and B (y) over the tool's, zero or more.

    `direction_rad` (...) of the move from x. Crossed belts: A runs with vx + vy and B with
    vx − vy; else each axis has its own motor ("moving-bed": the bed is the y axis).
    """
    if layout not in LAYOUTS:
        raise ValueError(f"layout {layout!r} is none of {', '.join(LAYOUTS)}")
    x, y = np.cos(direction_rad), np.sin(direction_rad)
    return np.abs([x + y, x - y] if layout == "crossed-belt" else [x, y])


def belt_speeds(layout: str, speed: float, direction_rad: float) -> tuple[float, float]:
    """Return the belt speeds [m/s], zero or more, of motor A (x) and motor B (y).

    `speed` [m/s] of the tool along `direction_rad` from x; see `belt_factors`.
    """
    first, second = speed * belt_factors(layout, direction_rad)
    return float(first), float(second)


def microstep_torque(holding_torque: ArrayLike, microsteps: ArrayLike) -> NDArray[Any]:
    """Return the torque T_h·sin(90°/µ) [N·m] that one microstep of lag makes.

    Sinusoidal torque–angle curve; what a motor pushes with before it has moved at all.
    """
    return np.asarray(np.asarray(holding_torque) * np.sin(np.pi / 2 / np.asarray(microsteps)))


def magnetic_stiffness(
    holding_torque: ArrayLike, steps_per_turn: ArrayLike, current_share: ArrayLike
) -> NDArray[Any]:
    """Return the torsional stiffness N_r·T_h/√2·I/I_rated [N·m/rad] of a driven rotor.

    `holding_torque` T_h [N·m] of the data sheet, both windings at rated current;
    `current_share` I/I_rated, the sine's peak over the rated current of a winding. N_r =
    steps_per_turn/4 rotor teeth (two windings, four steps a cycle). Held with both windings full
    on, the two torques add as vectors to √2 of one winding's; under sine currents their vector
    sum is that of one winding at the sine's peak. Small angles, no saturation; current control
    takes part of it away as the motor turns fast. [derived]

    >>> round(float(magnetic_stiffness(0.40, 200, 0.85)), 3)
    12.021
    """
    one_winding = np.asarray(holding_torque) / np.sqrt(2.0)
    return np.asarray(np.asarray(steps_per_turn) / 4 * one_winding * np.asarray(current_share))


class Ripple(NamedTuple):
    """Range of a torque ripple's amplitude as a share of holding torque."""

    low: float
    high: float


RIPPLE = {
    "turn": Ripple(0.002, 0.02),  # run-out of pulley and shaft; estimated, no source
    "belt tooth": Ripple(0.002, 0.02),  # belt teeth meeting the pulley; estimated, no source
    "electrical": Ripple(0.01, 0.05),  # offset of the coil currents; estimated, no source
    "twice electrical": Ripple(0.01, 0.05),  # mismatch of the two coils; estimated, no source
    "full step": Ripple(0.03, 0.08),  # detent torque, 4 to 6 % typical from memory; estimated
}
"""Ripple per line as a share of holding torque. Ratios between feet do not depend on these; which
line is loudest does."""

MICROSTEP_FLOOR = 0.005
"""Where detent and position error stop the fall of microstep ripple with 1/µ; estimated."""


def microstep_ripple(microsteps: int) -> Ripple:
    """Return the ripple at the microstep line: half a step of the staircase, down to a floor.

    The staircase of current leads and lags by half a microstep: T_h·sin(90°/µ)/2 at most; chopper
    filtering and inertia leave less, taken as a quarter of it at the low end (estimated).
    """
    staircase = float(microstep_torque(1.0, microsteps)) / 2
    return Ripple(max(staircase / 4, MICROSTEP_FLOOR / 2), max(staircase, MICROSTEP_FLOOR))
