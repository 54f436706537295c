"""What was found of one motor: its damper or plate, stack-up, belt pull, heat and drive. SI."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from isolator.vibration.band import Band, Check
from isolator.vibration.results import Heard


@dataclass(frozen=True, slots=True, kw_only=True)
class Screws:
    """Screws of one kind that a motor needs."""

    count: int
    thread: str  # such as "M3"
    length: float  # [m], a standard length
    head: str  # such as "button head, ISO 7380-1"
    where: str
    engagement: float  # thread held in the motor or the nut [m]
    turns: float  # the same in turns
    beside: str = ""  # nuts and washers that go with them, empty for none


@dataclass(frozen=True, slots=True, kw_only=True)
class MotorHeard:
    """How much louder one motor is heard at one print speed on its damper than bolted on."""

    speed: float  # [m/s]
    heard: Heard  # through its bracket, and through the feet with all dampers in


@dataclass(frozen=True, slots=True, kw_only=True)
class DamperWorst:
    """The direction of a move in which a damper does worst by a tone; as `DamperLine` [dB]."""

    direction_deg: float
    frequency: float  # there [Hz]
    torque: Band
    beyond: Band  # what the damper takes of the force on the floor beyond the feet


@dataclass(frozen=True, slots=True, kw_only=True)
class DamperLine:
    """One tone of one motor at one speed: means of energies over all directions of a move.

    Losses are positive where quieter [dB]. `torque` compares the torque that the motor passes
    into the frame about its shaft, with the damper and bolted to the frame. The others compare
    the force of all feet on a rigid floor: with the dampers alone, with the chosen feet alone,
    with both; against neither.
    """

    source: str
    speed: float  # [m/s]
    frequency: float  # [Hz] of a belt as fast as the tool, as along an axis
    torque: Band
    damper: Band
    feet: Band
    both: Band
    worst: DamperWorst


@dataclass(frozen=True, slots=True, kw_only=True)
class Rubber:
    """What a damper's rubber is."""

    shape: str  # as isolator.design.damper.MotorDamper
    first: float  # [m]
    second: float  # [m]
    circle: float  # [m]
    thickness: float  # [m]
    material: str  # the card's name
    bought: bool = False  # `material` is what the bought damper is called


@dataclass(frozen=True, slots=True, kw_only=True)
class DamperMode:
    """One mode of the motor on its damper, the frame held still."""

    name: str  # "bounce" is along the shaft; "sway", "rocking" across it; "twist" about it
    frequency: Band  # [Hz]


@dataclass(frozen=True, slots=True, kw_only=True)
class DamperState:
    """A damper and what the belt makes of it."""

    rubber: Rubber
    axial: float  # static stiffness along the shaft [N/m]
    shear: tuple[float, float]  # along and across the pull [N/m]
    tilt: tuple[float, float]  # about the axis across the pull, and along it [N·m/rad]
    twist: float  # about the shaft [N·m/rad]
    modes: tuple[DamperMode, ...]  # six
    heard: tuple[MotorHeard, ...]  # at each print speed
    lines: tuple[DamperLine, ...]
    shift: float  # of the motor across its shaft under the belts' pull [m]
    wedge_angle: float  # [rad], 0 for none
    wedge_step: float  # how much thicker the wedge is on one side than on the other [m]
    tilt_left: float  # worst tilt that is left with the wedge, over the band, after a year [rad]
    helps_from: float | None  # speed from which it is louder through its bracket nowhere [m/s]
    ceiling: float  # no more than this is promised of it [dB]
    screw_end: float  # how far the frame-side screws stand out of the bracket [m]
    belt_edge: float  # how far above the bracket the belt's edge runs [m]
    bridge: float  # one screw across the rubber: its stiffness along the shaft over the rubber's
    two_heights: bool  # the first of two crossed belts that run at heights of their own
    plates: tuple[str, float] = ("printed", 0.0)  # of what, and the frame-side one's thickness [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class Belt:
    """The belt at one motor."""

    tension: float  # one strand [N]
    pull: float  # of both strands on the shaft [N]
    limit: float | None  # the motor's radial load limit [N]; None: not told
    usual_limit: tuple[float, float] | None  # [N] at [m] from the face, usual of such a motor
    arm: float  # motor's face to the belt's middle, with the stack [m]
    arm_before: float  # the same as built now [m]
    resonance_before: float  # belt and carriage, rotor held [Hz]
    resonance_after: float  # the same with the damper, tool close to the motor [Hz]

    @property
    def usual_shares(self) -> tuple[float, float] | None:
        """Return pull times arm over the usual limit's, as built now and with the stack."""
        if self.usual_limit is None:
            return None
        force, arm = self.usual_limit
        before, after = (self.pull * each / (force * arm) for each in (self.arm_before, self.arm))
        return before, after


@dataclass(frozen=True, slots=True, kw_only=True)
class ShortShaft:
    """A shaft too short for a stack, and what else would do [m]."""

    stack: float
    tallest: float  # stack that fits; 0: none of any height
    needed: float  # shaft that the stack needs, the pulley as it sits
    turned_spacer: float  # under the pulley turned round; negative: below the motor's face
    turned_needed: float  # shaft that the pulley turned round needs
    turned_fits: bool
    hub_away: bool  # turned round, the pulley's hub points away from the motor
    body: float  # length of the motor's body
    belt_above: float  # belt's middle above the bracket's far face


@dataclass(frozen=True, slots=True, kw_only=True)
class Stack:
    """Heights over the motor's face, and what is left of the shaft [m]."""

    shaft_end: float  # pulley's end beyond the shaft's end; negative: the shaft looks out
    set_screw_left: float  # shaft beyond the set screw's axis
    belt_error: float  # how far whole layers leave the belt from its old plane
    tolerance: float  # how far rubber and print may leave it besides, either way
    tallest: float  # stack that the shaft allows
    reach: float  # shaft that the pulley needs, the margin with it
    belt_height: float  # belt's middle above the bracket's motor side, unchanged by the stack
    short: ShortShaft | None  # None: the shaft is long enough


@dataclass(frozen=True, slots=True, kw_only=True)
class Heat:
    """Steady temperatures of a motor that holds its current [°C], room at its warm end."""

    power: float  # [W]
    case_before: float
    case_after: float
    case: Band  # after, room at its middle
    plate: float  # warmest face of a plate
    bracket: float | None  # warmest face of a printed bracket, None of metal
    bracket_high: float | None  # warm end of its band
    softening: float | None  # of the plates' filament, None where unknown
    limit: float | None  # softening less the margin


@dataclass(frozen=True, slots=True, kw_only=True)
class DriveRow:
    """One motor at one print speed, in the direction that asks most of it."""

    speed: float  # [m/s]
    turns: float  # [1/s]
    electrical: float  # [Hz]
    needed: float  # torque to accelerate [N·m]
    available: float  # at the set current and this speed [N·m]


@dataclass(frozen=True, slots=True, kw_only=True)
class CurrentRow:
    """What a lower current does, as shares of what the set current does."""

    share: float  # of the set current
    margin: float  # torque at hand over torque needed, worst speed
    ripple_db: float  # electrical lines against the set current [dB]
    detent_db: float  # full-step line [dB]: detent does not follow the current
    power: float  # [W]


@dataclass(frozen=True, slots=True, kw_only=True)
class DriveEstimates:
    """What is estimated of the drive: an aid to setting it, not a proof that no step is lost."""

    rows: tuple[DriveRow, ...]
    currents: tuple[CurrentRow, ...]
    step: float  # travel of one microstep [m]
    step_angle: float  # [rad]
    step_torque: float  # torque of one microstep of lag [N·m]
    standing: float  # torque of the set current standing still [N·m]
    accuracy: float  # travel that 5 % of a full step is [m]
    reference_voltage: float | None  # for the user's current shunt and gain [V]


Cause = Literal[
    "no belt",  # it drives none that is looked at
    "not wanted",
    "no stock",  # nothing that can be drawn
    "none holds",  # standing still, under belts and weight
    "fails",  # the best fails a check
    "floor",  # the best is louder through the feet
    "spoils",  # with it feet that are quieter are louder than before at a print speed
    "louder",  # every one is louder at a print speed
    "little",  # the best takes too little away
]


@dataclass(frozen=True, slots=True, kw_only=True)
class Offer:
    """A damper that a motor did not get: what it would gain, and what it would cost."""

    rubber: Rubber
    heard: tuple[MotorHeard, ...]  # at each print speed
    helps_from: float | None  # as in `DamperState`
    stack_height: float  # [m]
    belt: Belt
    heat: Heat


@dataclass(frozen=True, slots=True, kw_only=True)
class NoDamper:
    """Why a motor has no damper; numbers of other causes stay empty."""

    cause: Cause
    tried: int = 0
    mount: str = ""  # the only bought damper that the brief wants
    rule: str = ""  # "none holds": what stops most, of isolator.motors.belt_load.RULES
    short: ShortShaft | None = None  # "none holds": not even the lowest stack fits the shaft
    failed: tuple[Check, ...] = ()  # "fails"
    spoiled: tuple[float, ...] = ()  # "spoils": these print speeds [m/s]
    offer: Offer | None = None  # "fails", "floor", "spoils", "louder", "little"


@dataclass(frozen=True, slots=True, kw_only=True)
class MotorResult:
    """Everything found of one motor."""

    name: str
    kind: str  # "damper" | "plate" | "none"
    belted: bool  # it drives a belt that is looked at
    stack_height: float  # [m]
    pulley_spacer_height: float  # from its face to the pulley, of the spacer or the gauge [m]
    shaft_left: float  # [m] of shaft inside the pulley's place
    stack: Stack
    belt: Belt
    tilt: float = 0.0  # of the shaft under the belts' pull, nominal, without a wedge [rad]
    pulley_shift: float = 0.0  # of the belt's middle on the pulley under the pull, nominal [m]
    damper: DamperState | None = None  # None without rubber
    without: NoDamper | None = None  # why there is none; None on a damper or a plate
    declined: tuple[tuple[str, str], ...] = ()  # bought dampers not taken: what stops each
    gauge: bool = False  # a gauge that comes off sets the pulley's height, no spacer
    screws: tuple[Screws, ...]
    heat: Heat
    drive: DriveEstimates
    checks: tuple[Check, ...]

    @property
    def twist_frequency(self) -> Band | None:
        """The motor's twist about its shaft on the damper [Hz], None without rubber."""
        found = [] if self.damper is None else self.damper.modes
        return next((mode.frequency for mode in found if mode.name == "twist"), None)
