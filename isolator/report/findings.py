"""What one run found: all that page, terminal and JSON tell.

SI throughout.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from isolator.design import Design
from isolator.design.damper import MotorDamper
from isolator.motors.results import MotorResult
from isolator.reading.notes import Assumed
from isolator.vibration.band import Check
from isolator.vibration.results import Evaluation
from isolator.workshop.step import Step

Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class Cloud:
    """Every candidate that could be evaluated: quiet against sway, for the chart."""

    quiet_db: Array  # (n,) insertion loss at the slowest speed's electrical line
    sway: Array  # (n,) [m] peak at the tool's height
    passed: NDArray[np.bool_]  # (n,)
    family: NDArray[np.str_]  # (n,)
    chosen: int  # index of the chosen one, -1 for none


@dataclass(frozen=True, slots=True, kw_only=True)
class Tally:
    """How the search went."""

    tried: int
    rejected: dict[str, int]  # check → how many it stopped
    passed: int
    seconds: float  # in the search alone, libraries loaded


@dataclass(frozen=True, slots=True, kw_only=True)
class TooSlow:
    """A speed that no feet isolate, and why."""

    speed: float  # the slowest of the brief [m/s]
    sways: bool  # feet that are soft enough sway past the limit; else the stock has none


@dataclass(frozen=True, slots=True, kw_only=True)
class Judged:
    """Which feet a check judges."""

    feet: Literal["given", "designed", "there now"]
    file: str  # that tells them: a design.toml, or the brief
    made: float  # when that file was written, seconds since 1970


@dataclass(frozen=True, slots=True, kw_only=True)
class Findings:
    """Everything one run found."""

    name: str
    slug: str
    version: str
    answer: tuple[str, ...]  # plain words, most important first
    chosen: Evaluation
    now: Evaluation | None
    checks: tuple[Check, ...]
    ceiling_db: float  # no more than this is promised [dB]
    motors: tuple[MotorResult, ...]
    tally: Tally | None  # None where nothing was searched
    cloud: Cloud | None
    design: Design | None
    make: tuple[str, ...]  # what to make, in words, one line a part
    assumed: tuple[Assumed, ...]
    warnings: tuple[str, ...]
    sources: tuple[str, ...]
    cautions: tuple[str, ...]
    dampers: tuple[MotorDamper, ...] = ()  # to draw where there is no design of feet
    steps: tuple[Step, ...] = ()  # how the feet go together
    judged: Judged | None = None  # None where the feet were designed in this run

    @property
    def passed(self) -> bool:
        """Whether every check holds."""
        return all(check.passed for check in self.checks)
