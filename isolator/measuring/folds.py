"""Where motors' tones are seen in a recording that is too slow for them."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from isolator.brief import Motion
from isolator.physics.signals.spectra import folded
from isolator.vibration.excitation import motor_lines


class Fold(NamedTuple):
    """A tone that a recording shows where it is not."""

    speed: float  # of the belt [m/s]
    source: str  # line of the motor
    frequency: float  # its own [Hz]
    seen: float  # where the recording shows it [Hz]


def folds(motion: Motion, speeds: Sequence[float], rate: float) -> tuple[Fold, ...]:
    """Return the motors' lines at belt speeds [m/s] that fold down at a rate [Hz].

    They do unless a filter before the sampling keeps them out; many simple sensors have none.
    """
    return tuple(
        Fold(speed, source, hertz, float(folded(hertz, rate)))
        for speed in speeds
        for source, hertz in motor_lines(motion, speed).items()
        if hertz > rate / 2.0
    )
