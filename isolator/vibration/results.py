"""What was found: every number that the report, the JSON and the command line tell.

SI throughout. A `Band` is what real parts scatter over; `nominal` is the card's own value.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from isolator.physics.arrays import Array
from isolator.vibration.band import Band


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
class Worst:
    """The direction of a move in which a motor's line is cut least."""

    direction_deg: float
    frequency: float  # there [Hz]
    insertion_loss: Band  # [dB] there


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One line at one speed, and what the feet make of it: energy mean over the directions."""

    source: str
    frequency: float  # [Hz]; of a motor's line for a belt as fast as the tool, as along an axis
    direction_deg: float | None  # where one was asked for; None: the mean, or a fan
    transmissibility: float
    insertion_loss: Band  # [dB] against rigid feet on a rigid floor
    against_now: Band | None  # [dB] against the feet that stand there now
    on_desk: Band  # [dB] against rigid feet on the desk of the brief
    worst: Worst | None = None  # None for a fan, and where a direction was asked for


@dataclass(frozen=True, slots=True, kw_only=True)
class Heard:
    """How much louder it is heard than before [dB(A)], minus is quieter, on each way out.

    What is heard lies between the two: how much goes which way is not known.
    """

    desk: Band  # through the feet
    frame: Band  # through the motors' brackets


@dataclass(frozen=True, slots=True, kw_only=True)
class Help:
    """Something else that changes what is heard, on these feet, mean over the speeds asked."""

    name: str
    heard: Heard


@dataclass(frozen=True, slots=True, kw_only=True)
class HeardOver:
    """How much louder it is heard through the feet than before, over print speed."""

    speed: Array  # (n,) [m/s]
    low: Array  # (n,) [dB(A)]
    nominal: Array
    high: Array


@dataclass(frozen=True, slots=True, kw_only=True)
class OverSpeed:
    """How much louder it is over print speed on the feet alone, and what it meets there."""

    speed: Array  # (k,) [m/s]
    changes: Array  # (n, k) in all samples, the nominal one first [dB(A)]
    loudest: Callable[[Array], list[str]]  # source of the line heard most at each of some speeds
    lines: Mapping[str, float]  # every line's frequency at 1 m/s [Hz]
    resonances: tuple[tuple[str, float], ...]  # by name [Hz]


@dataclass(frozen=True, slots=True, kw_only=True)
class Speed:
    """The verdict at one print speed."""

    speed: float  # [m/s]
    verdict: str  # "quiet" | "neutral" | "amplified"
    decided_by: Line | None  # the loudest line on these feet; None where there is none
    lines: tuple[Line, ...]
    heard: Heard | None = None  # None where no motor drives a belt
    amplified_share: float = 0.0  # of the directions in which a drone line is amplified


@dataclass(frozen=True, slots=True, kw_only=True)
class LoadPoint:
    """A force of the user's own at one frequency."""

    frequency: float  # [Hz]
    transmitted: tuple[float, float, float]  # amplitude of the summed foot force [N]
    transmissibility: float
    insertion_loss: Band  # [dB] against rigid feet on a rigid floor
    on_desk: Band  # [dB] against rigid feet on the desk of the brief


@dataclass(frozen=True, slots=True, kw_only=True)
class Load:
    """A force of the user's own over the frequencies asked for."""

    name: str
    points: tuple[LoadPoint, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Sway:
    """How far reversals rock the printer [m], worst over strokes and speeds, from rest on.

    Motion of the frame where the tool is, as a rigid body on its feet; the print rides on it, so it
    is no error of the print. What the frame itself bends is not in it.
    """

    worst: float  # peak displacement at the tool's height
    at_feet: float
    axis: str  # "x" | "y"
    stroke: float
    speed: float  # [m/s]
    limit: float
    step: float = 0.0  # peak at the tool's height after one sudden reversal
    usual: Band | None = None  # `worst` over samples; None where none were drawn


@dataclass(frozen=True, slots=True, kw_only=True)
class PrintEffect:
    """What of the worst sway shows between tool and bed, and what the sway would be [m] with ..."""

    frequency: float  # at which the frame sways [Hz]
    belts: float  # lowest resonance of a moving mass on its belts [Hz]
    shows: float  # between tool and bed [m]
    less_acceleration: float  # a fifth less acceleration
    slower: float  # a fifth less speed
    stiffer: float  # feet a quarter stiffer


@dataclass(frozen=True, slots=True, kw_only=True)
class Stability:
    """Margins against tipping and sliding."""

    tip_margin: float  # restoring over overturning moment, worst edge
    slip_margin: float  # friction over the largest horizontal force
    force_factor: float = 1.0  # worst zigzag's horizontal foot force over the push that makes it
    gravity_factor: float  # share of the rocking stiffness that gravity leaves, worst axis


@dataclass(frozen=True, slots=True, kw_only=True)
class AvoidRange:
    """Speeds at which a line meets a resonance [m/s]."""

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
    """Insertion loss over print speed for every line, mean over directions, nominal."""

    speed: Array  # (n,) [m/s]
    sources: tuple[str, ...]
    frequency: Array  # (sources, n) [Hz] of a move along an axis
    insertion_loss: Array  # (sources, n) [dB]


@dataclass(frozen=True, slots=True, kw_only=True)
class CreepRow:
    """Sag after a time under load, and how far out of level the printer then stands."""

    label: str  # "a day", "a month", "a year"
    seconds: float
    sag: float  # mean over the feet [m]
    tilt: float  # [rad]


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """How one machine stands on one set of feet: all that the checks look at."""

    modes: tuple[Mode, ...]
    highest: float  # highest mode over all cases, what the limit looks at [Hz]
    feet: tuple[FootState, ...]
    sway: Sway
    stability: Stability
    isolates_from: float | None  # speed from which every motor line is isolated [m/s]
    creep: tuple[CreepRow, ...]
    tilt: tuple[float, float]  # static tilt about x and y [rad]
    worst_strain: float | None = None  # largest static strain over all cases [-]
    worst_buckling: float = 0.0  # largest load over buckling load over all cases
    least_load: float = 1.0  # smallest foot load over the mean, over all cases


@dataclass(frozen=True, slots=True, kw_only=True)
class Evaluation(Held):
    """One machine on one set of feet, with all that it passes on."""

    speeds: tuple[Speed, ...]
    loads: tuple[Load, ...]
    avoid: tuple[AvoidRange, ...]
    curves: Callable[[], tuple[Curve, ...]]  # worked out for who draws them
    speed_map: SpeedMap
    ceiling: float  # no more loss than this is promised [dB]
    share: float  # share of the samples in which the target is met
    baseline: str = ""  # the feet that what is heard is compared with; empty: with none
    heard_over: HeardOver | None = None  # None where no motor drives a belt
    over_speed: OverSpeed | None = None  # the same on the feet alone, in all samples
    changes: Array | None = None  # (n, k) in all samples at each of `speeds`, feet alone [dB(A)]
    prints: PrintEffect | None = None  # None where no motor drives a belt
    helps: tuple[Help, ...] = ()  # what else would help, the best first
    works_from: float | None = None  # from this speed on it is quieter by what is asked [m/s]
    desk: str = ""  # material of the desk; empty: a soft stand-in
