"""What was found: every number that the report, the JSON and the command line tell.

SI throughout. A `Band` is what real parts scatter over; `nominal` is the card's own value.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from isolator.design import Design
from isolator.design.damper import MotorDamper
from isolator.figures import Band, Check
from isolator.motor_result import MotorResult

Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class Mode:
    """One rigid-body mode of the printer on its feet."""

    name: str
    frequency: Band  # [Hz]
    damping_ratio: float


@dataclass(frozen=True, slots=True, kw_only=True)
class FootState:
    """One foot under the printer's weight."""

    position: tuple[float, float, float]  # of its elastic centre [m]
    load: Band  # [N]
    strain: float | None  # of the pad [-]; None where only stiffnesses were given
    sag: float  # [m]
    stiffness: tuple[float, float, float]  # dynamic, at the vertical mode's own frequency [N/m]


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One tone at one speed and direction, and what the feet make of it."""

    source: str
    frequency: float  # [Hz]
    direction_deg: float | None  # None for a fan: it does not follow the move
    transmissibility: float
    insertion_loss: Band  # [dB] against rigid feet on a rigid floor
    against_now: Band | None  # [dB] against the feet that stand there now
    on_desk: Band  # [dB] against rigid feet on the desk of the brief


@dataclass(frozen=True, slots=True, kw_only=True)
class Speed:
    """The verdict at one print speed."""

    speed: float  # [m/s]
    verdict: str  # "quiet" | "neutral" | "amplified"
    reason: str
    lines: tuple[Line, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class LoadPoint:
    """A force of the user's own at one frequency."""

    frequency: float  # [Hz]
    transmitted: tuple[float, float, float]  # amplitude of the summed foot force [N]
    transmissibility: float
    insertion_loss: Band  # [dB]


@dataclass(frozen=True, slots=True, kw_only=True)
class Load:
    """A force of the user's own over the frequencies asked for."""

    name: str
    points: tuple[LoadPoint, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Sway:
    """How far reversals rock the printer [m], worst over strokes and speeds."""

    worst: float  # peak displacement at the tool's height
    at_feet: float
    axis: str  # "x" | "y"
    stroke: float
    speed: float  # [m/s]
    limit: float
    step: float = 0.0  # peak at the tool's height after one sudden reversal


@dataclass(frozen=True, slots=True, kw_only=True)
class Stability:
    """Margins against tipping and sliding."""

    tip_margin: float  # restoring over overturning moment, worst edge
    slip_margin: float  # friction over the largest horizontal force
    force_factor: float = 1.0  # worst zigzag's horizontal foot force over the push that makes it
    gravity_factor: float  # share of the rocking stiffness that gravity leaves, worst axis


@dataclass(frozen=True, slots=True, kw_only=True)
class AvoidRange:
    """Speeds at which a line meets a rigid-body mode [m/s]."""

    low: float
    high: float
    source: str
    mode: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Curve:
    """Transmissibility over frequency for the motors' push along one axis."""

    axis: str  # "x" | "y" | "z"
    frequency: Array  # (n,) [Hz]
    low: Array  # (n,)
    nominal: Array
    high: Array
    now: Array | None  # the feet that stand there now, nominal


@dataclass(frozen=True, slots=True, kw_only=True)
class SpeedMap:
    """Insertion loss over print speed for every line, moves along one axis, nominal."""

    speed: Array  # (n,) [m/s]
    sources: tuple[str, ...]
    frequency: Array  # (sources, n) [Hz]
    insertion_loss: Array  # (sources, n) [dB]


@dataclass(frozen=True, slots=True, kw_only=True)
class CreepRow:
    """Sag after a time under load, and how far out of level the printer then stands."""

    label: str  # "a day", "a month", "a year"
    seconds: float
    sag: float  # mean over the feet [m]
    tilt: float  # [rad]


@dataclass(frozen=True, slots=True, kw_only=True)
class Evaluation:
    """One machine on one set of feet."""

    title: str
    modes: tuple[Mode, ...]
    feet: tuple[FootState, ...]
    speeds: tuple[Speed, ...]
    loads: tuple[Load, ...]
    sway: Sway
    stability: Stability
    avoid: tuple[AvoidRange, ...]
    isolates_from: float | None  # speed from which every motor line is isolated [m/s]
    curves: tuple[Curve, ...]
    speed_map: SpeedMap
    creep: tuple[CreepRow, ...]
    tilt: tuple[float, float]  # static tilt about x and y [rad]
    share: float  # share of the cases (modulus × mass × temperature) in which the target is met
    worst_strain: float | None = None  # largest static strain over all cases [-]
    worst_buckling: float = 0.0  # largest load over buckling load over all cases
    desk: str = "your desk"  # what `on_desk` stands on, in words
    least_load: float = 1.0  # smallest foot load over the mean, over all cases


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
class Assumption:
    """A value that the brief left open."""

    key: str
    value: str
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One step of assembly; steps are numbered in the order in which they stand.

    Its picture shows what belongs to `owner`: of a foot the roles of the parts that it `adds` to
    those `there` before, and its `hardware`; of a motor or the slab one of the draughtsman's
    views. A step that has neither `adds` nor `view` has no picture.
    """

    title: str
    words: tuple[str, ...]
    cautions: tuple[str, ...] = ()
    uses: tuple[str, ...] = ()  # parts and bought things that go in, with their number
    owner: str = ""  # name of a foot or motor, or "slab"
    there: tuple[str, ...] = ()
    adds: tuple[str, ...] = ()
    hardware: str = ""  # what the picture shows besides: "screws", "held" in the cap, or nothing
    view: str = ""

    @property
    def pictured(self) -> bool:
        """Return whether the step has a picture."""
        return bool(self.adds or self.view)


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
    motors: tuple[MotorResult, ...]
    tally: Tally | None  # None where nothing was searched
    cloud: Cloud | None
    design: Design | None
    make: tuple[str, ...]  # what to make, in words, one line a part
    assumed: tuple[Assumption, ...]
    warnings: tuple[str, ...]
    sources: tuple[str, ...]
    cautions: tuple[str, ...]
    dampers: tuple[MotorDamper, ...] = ()  # to draw where there is no design of feet
    steps: tuple[Step, ...] = ()  # how the feet go together

    @property
    def passed(self) -> bool:
        """Whether every check holds."""
        return all(check.passed for check in self.checks)
