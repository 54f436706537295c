"""Quiet, neutral or amplified: what is said of a speed, and of one line."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from isolator.vibration.band import Band

Levels = NDArray[np.float64] | float

DRONE = ("electrical", "twice electrical", "full step", "microstep")
"""Lines that a motor makes once an electrical cycle and more often: these are heard as drone."""
LISTENED = DRONE[:-1]
"""Drone lines within reach of a rigid-body model: a microstep line lies at several kHz."""
QUIET_DBA = 3.0
"""So much quieter at the louder end of the band is plainly quieter; common practice, no source."""
LOUDER_DBA, MUCH_LOUDER_DBA = 1.0, 3.0
"""Louder by the first nominally, or by the second somewhere in the band, is amplified; common
practice, no source: 1 dB is about what can just be heard side by side, 3 dB is plain."""
AMPLIFIED_DB = -3.0
"""A line raised by 3 dB can be told from one that is not; common practice, no source."""
RAISED_LOW_DB = 2.0 * AMPLIFIED_DB
"""At the low end of a band a line counts as raised by as much; convention, no source."""


def raised(nominal: Levels, low: Levels) -> NDArray[np.bool_]:
    """Return where a line is called amplified, from its nominal loss and its band's low end [dB].

    More than 3 dB nominally, or more than 6 dB somewhere in the band.
    """
    return np.asarray((nominal < AMPLIFIED_DB) | (low < RAISED_LOW_DB))


def verdict(change: Band) -> str:
    """Return the verdict on how much louder a speed is heard than before [dB(A)]: "quiet",
    "neutral" or "amplified"."""
    if bool(heard_louder(change.nominal, change.high)):
        return "amplified"
    return "quiet" if change.high <= -QUIET_DBA else "neutral"


def heard_louder(nominal: Levels, high: Levels) -> NDArray[np.bool_]:
    """Return where a change is called amplified, from its nominal value and louder end [dB(A)]."""
    return np.asarray((nominal >= LOUDER_DBA) | (high >= MUCH_LOUDER_DBA))
