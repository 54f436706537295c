"""One damper under one motor, as it was judged."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from isolator.motors.belt_load import LoadedDamper
from isolator.motors.candidates import DamperBatch
from isolator.motors.plates import Plates
from isolator.vibration.band import Band
from isolator.vibration.heard import holds_least
from isolator.vibration.spreads import PadFactors
from isolator.vibration.verdict import heard_louder

WORTH = 3.0
"""Mean gain through the bracket over the print speeds, at the low end of its band, below which a
damper is not worth its stack [dB(A)]; convention."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Damper:
    """One damper under one motor, with what is heard of the motor through its bracket."""

    offered: DamperBatch  # one row
    loaded: LoadedDamper  # one row
    plates: Plates
    rubber: PadFactors  # (n,) in samples
    ring_left: float  # of the belts' resonance, as a share of today's
    changes: tuple[Band, ...] = ()  # how much louder at each print speed [dB(A)]
    feet: tuple[Band, ...] = ()  # and through the feet, all other motors bolted on
    helps_from: float | None = None  # speed from which it is nowhere louder [m/s]

    @property
    def clear(self) -> bool:
        """Whether it is louder at no print speed, over the whole band."""
        return bool(holds_least(np.array([each.high for each in self.changes]), 0.0).all())

    @property
    def worth(self) -> bool:
        """Whether it takes enough away to be worth its stack."""
        return float(np.mean([each.high for each in self.changes])) <= -WORTH

    @property
    def unheard(self) -> bool:
        """Whether it is called louder through the feet at no print speed."""
        return not any(heard_louder(each.nominal, each.high) for each in self.feet)


Shared = Mapping[int, Damper]
"""One damper under each of some motors, by index into the task's `belts`."""
