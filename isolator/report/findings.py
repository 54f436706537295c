"""What one run found: all that page, terminal and JSON tell.

SI throughout.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from isolator.design import Design
from isolator.design.damper import MotorDamper
from isolator.motors.results import MotorResult
from isolator.reading.notes import Assumed
from isolator.vibration.band import Band, Check
from isolator.vibration.results import Evaluation
from isolator.workshop.shopping import Item
from isolator.workshop.step import Step

Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class Cloud:
    """Every candidate that could be evaluated: quiet against sway, for the chart."""

    gain_db: Array  # (n,) how much quieter than before, mean over the speeds, nominal [dB(A)]
    sway: Array  # (n,) [m] peak at the tool's height
    passed: NDArray[np.bool_]  # (n,)
    family: NDArray[np.str_]  # (n,)
    chosen: int  # index of the chosen one, -1 for none


MOST_STOPPED = 0.5
"""Share of all candidates from which on the check that stops them is told by name."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Tally:
    """How the search went."""

    tried: int
    rejected: dict[str, int]  # check → how many it stopped
    passed: int
    seconds: float  # in the search alone, libraries loaded
    shut_out: dict[str, tuple[str, ...]]  # check → families of which it stopped every candidate
    without: dict[str, float | None] = field(default_factory=dict)
    """Check that stops most, or a whole family → how much quieter than the best that hold [dB(A)]
    the best are that it alone stops; None where other checks stop them too."""

    @property
    def widest(self) -> str:
        """Return the check that stops most, where that is `MOST_STOPPED` of all or more; or ""."""
        name = max(self.rejected, key=self.rejected.__getitem__, default="")
        return name if name and self.rejected[name] >= MOST_STOPPED * self.tried else ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Paver:
    """A slab that is to be bought."""

    size: tuple[float, float, float]  # width, depth, thickness [m]
    mass: float  # [kg]


@dataclass(frozen=True, slots=True, kw_only=True)
class Alternative:
    """Other feet that would do, or that would do but for the sway limit of the brief."""

    kind: str  # of isolator.feet.kinds, or "slab"
    why: str  # what it is the best of
    material: str  # name of the card; empty: what stands there now
    shape: str
    size: tuple[float, float, float]  # along x, along y, height of the pad [m]
    layers: int
    feet: int
    heard: tuple[Band, ...]  # at each speed of the brief, through the feet [dB(A)], minus: quieter
    sway: float  # worst over the band [m]
    sway_limit: float  # under which it was looked for [m]
    where: str  # it is got
    chosen: bool
    paver: Paver | None = None  # that stands on them; None: they go under the printer itself


@dataclass(frozen=True, slots=True, kw_only=True)
class Remedy:
    """What was tried where a check fails, and came out best."""

    kind: str  # "slab", "acceleration", "sway", or a figure of a check
    keys: tuple[tuple[str, str], ...]  # of the brief, with the values that they take
    passes: bool  # every check of the feet then
    softer: bool = False  # with softer feet than those that were chosen
    paver: Paver | None = None
    least_mass: float | None = None  # of a paver with which all checks hold on the same pads [kg]
    design_from: str = ""  # the brief that it takes a new design of; empty: of the one told
    thick: bool = False  # a paver heavier than the usual one
    speed: float | None = None  # at which it is heard most now [m/s]; None: no change in what is
    change: Band | None = (
        None  # there through the feet, against what all else is told against [dB(A)]
    )

    @property
    def pick(self) -> str:
        """Return what `design --pick` draws it; empty where its keys are typed."""
        usual = self.least_mass is not None or (bool(self.design_from) and not self.thick)
        return self.kind if self.paver is not None and usual else ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Judged:
    """Which feet a check judges."""

    feet: Literal["given", "designed", "there now"]
    file: str  # that tells them: a design.toml, or the brief
    made: float  # when that file was written, seconds since 1970
    looked: str = ""  # the folder where no design of the brief was found, if one was looked for


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
    alternatives: tuple[Alternative, ...] = ()  # the chosen feet first
    kept: bool = False  # the answer is to keep what stands there now
    material: str = ""  # name of the card that the feet are of
    buy: tuple[Item, ...] = ()  # besides filament, which only drawn parts tell
    judged: Judged | None = None  # None where the feet were designed in this run
    remedy: Remedy | None = None  # None where no check of the feet fails, or nothing was found
    noise: Mapping[str, bool] = field(default_factory=dict)  # what the brief answers of [noise]
    imperial: bool = False  # inches and pounds stand beside metric figures in the record

    @property
    def passed(self) -> bool:
        """Whether every check holds that binds."""
        return all(check.passed or not check.binding for check in self.checks)
