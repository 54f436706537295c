"""What was found of one motor: its damper or plate, stack-up, belt pull, heat and drive. SI."""

from __future__ import annotations

from dataclasses import dataclass

from isolator.vibration.band import Band, Check


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
    beside: str  # nuts and washers that go with them, empty for none


@dataclass(frozen=True, slots=True, kw_only=True)
class DamperLine:
    """One tone of one motor at one speed and direction; losses are positive where quieter [dB].

    `torque` compares the torque that the motor passes into the frame about its shaft, with the
    damper and bolted to the frame. The others compare the force of all feet on a rigid floor:
    with this damper alone, with the chosen feet alone, with both; against neither.
    """

    source: str
    speed: float  # [m/s]
    direction_deg: float
    frequency: float  # [Hz]
    torque: Band
    damper: Band
    feet: Band
    both: Band


@dataclass(frozen=True, slots=True, kw_only=True)
class DamperMode:
    """One mode of the motor on its damper, the frame held still."""

    name: str  # "bounce" is along the shaft; "sway", "rocking" across it; "twist" about it
    frequency: Band  # [Hz]


@dataclass(frozen=True, slots=True, kw_only=True)
class DamperState:
    """A damper and what the belt makes of it."""

    title: str  # what it is, in words
    axial: float  # static stiffness along the shaft [N/m]
    shear: tuple[float, float]  # along and across the pull [N/m]
    tilt: tuple[float, float]  # about the axis across the pull, and along it [N·m/rad]
    twist: float  # about the shaft [N·m/rad]
    modes: tuple[DamperMode, ...]  # six
    lines: tuple[DamperLine, ...]
    shift: float  # of the motor across its shaft under the belts' pull [m]
    wedge_angle: float  # [rad], 0 for none
    wedge_step: float  # how much thicker the wedge is on one side than on the other [m]
    tilt_left: float  # worst tilt that is left with the wedge, over the band, after a year [rad]
    helps_from: float | None  # speed from which every drone line is weaker [m/s]


@dataclass(frozen=True, slots=True, kw_only=True)
class Belt:
    """The belt at one motor."""

    tension: float  # one strand [N]
    pull: float  # of both strands on the shaft [N]
    arm: float  # motor's face to the belt's middle, with the stack [m]
    arm_before: float  # the same as built now [m]
    resonance_before: float  # belt and carriage, rotor held [Hz]
    resonance_after: float  # the same with the damper, tool close to the motor [Hz]


@dataclass(frozen=True, slots=True, kw_only=True)
class Stack:
    """Heights over the motor's face, and what is left of the shaft [m]."""

    shaft_end: float  # pulley's end beyond the shaft's end; negative: the shaft looks out
    set_screw_left: float  # shaft beyond the set screw's axis
    belt_error: float  # how far whole layers leave the belt from its old plane
    tolerance: float  # how far rubber and print may leave it besides, either way
    tallest: float  # stack that the shaft allows
    belt_height: float  # belt's middle above the bracket's motor side, unchanged by the stack
    words: tuple[str, ...]  # alternatives and what else to know


@dataclass(frozen=True, slots=True, kw_only=True)
class Heat:
    """Steady temperatures of a motor that holds its current [°C], room at its warm end."""

    power: float  # [W]
    case_before: float
    case_after: float
    plate: float  # warmest face of a printed plate
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
    accuracy: float  # travel that 5 % of a full step is [m]
    reference_voltage: float | None  # for the user's sense resistor and gain [V]


@dataclass(frozen=True, slots=True, kw_only=True)
class MotorResult:
    """Everything found of one motor."""

    name: str
    kind: str  # "damper" | "plate" | "none"
    words: tuple[str, ...]  # what to do and why, most important first
    stack_height: float  # [m]
    pulley_spacer_height: float  # [m]
    shaft_left: float  # [m] of shaft inside the pulley's place
    stack: Stack
    belt: Belt
    tilt: float  # of the shaft under the belts' pull, nominal, without a wedge [rad]
    pulley_shift: float  # of the belt's middle on the pulley under the pull, nominal [m]
    damper: DamperState | None  # None without rubber
    screws: tuple[Screws, ...]
    heat: Heat
    drive: DriveEstimates
    checks: tuple[Check, ...]

    @property
    def twist_frequency(self) -> Band | None:
        """The motor's twist about its shaft on the damper [Hz], None without rubber."""
        found = [] if self.damper is None else self.damper.modes
        return next((mode.frequency for mode in found if mode.name == "twist"), None)
