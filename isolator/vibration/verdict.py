"""Quiet, neutral or amplified: what a speed's lines say together."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from isolator.vibration.results import Line

Levels = NDArray[np.float64] | float

DRONE = ("electrical", "twice electrical", "full step", "microstep")
"""Lines that a motor makes once an electrical cycle and more often: these are heard as drone."""
LISTENED = DRONE[:-1]
"""Drone lines within reach of a rigid-body model: a microstep line lies at several kHz."""
QUIET_DB = 6.0
"""Every drone line at least halved, even at the low end of the band."""
AMPLIFIED_DB = -3.0
"""A line raised by 3 dB can be told from one that is not; common practice, no source."""
RAISED_LOW_DB = 2.0 * AMPLIFIED_DB
"""At the low end of a band a line counts as raised by as much; convention, no source."""
FEW_DIRECTIONS, MOST_DIRECTIONS = 0.10, 0.50
"""Shares of the directions with a raised tone: up to the first a speed may be called quiet, above
the second it is amplified; convention, no source."""


def least_cut(lines: Sequence[Line]) -> Line | None:
    """Return the line of the motors' drone that the feet cut least in the mean over directions.

    None where the motors make none.
    """
    drone = [line for line in lines if line.source in LISTENED and line.direction_deg is None]
    return min(drone, key=lambda line: line.insertion_loss.low, default=None)


def judged(source: str) -> bool:
    """Return whether a line counts towards the verdict.

    The turn line does not: at print speeds it lies below 10 Hz, where it is sway, not drone, and
    its force is a hundredth of the reversals' that the sway check looks at.
    """
    return source in DRONE or source == "belt tooth"


def raised(nominal: Levels, low: Levels) -> NDArray[np.bool_]:
    """Return where a line is called amplified, from its nominal loss and its band's low end [dB].

    More than 3 dB nominally, or more than 6 dB somewhere in the band.
    """
    return np.asarray((nominal < AMPLIFIED_DB) | (low < RAISED_LOW_DB))


def verdict(lines: Sequence[Line], amplified_share: float) -> tuple[str, Line | None]:
    """Return the verdict on a speed's lines and the line that decides it, if any is judged.

    Lines are energy means over directions; over `amplified_share` of the directions some drone
    line is raised. "amplified": a judged line is raised by more than 3 dB, nominally or at twice
    that at the low end of its band, or most directions have a raised drone line. "quiet": every
    drone line is cut by 6 dB or more over its whole band, and few directions have a raised one.
    "neutral": all else.
    """

    def low(line: Line) -> float:
        return line.insertion_loss.low

    counted = [line for line in lines if judged(line.source)]
    amplified = [line for line in counted if raised(line.insertion_loss.nominal, low(line))]
    if amplified:
        return "amplified", min(amplified, key=low)
    worst = min((line for line in counted if line.source in DRONE), key=low, default=None)
    if amplified_share > MOST_DIRECTIONS:
        return "amplified", worst
    quiet = worst is not None and low(worst) >= QUIET_DB and amplified_share <= FEW_DIRECTIONS
    return "quiet" if quiet else "neutral", worst
