"""What a brief says, as frozen records: SI floats, lists as tuples, faults already sorted out.

The frame of reference is the printer's: x to the right, y to the back, z up, origin at the middle
of the foot rectangle on the underside of the printer's frame. A field that may be None says what
None means.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from isolator.design.axes import Axis, Pair, Tensor, Triple

Layout = Literal["crossed-belt", "motor-per-axis", "moving-bed"]
Drives = Literal["x", "y", "both"]
BracketMaterial = Literal["aluminium", "steel", "printed"]
DamperWish = Literal["auto", "always", "none"]
DamperShape = Literal["ring", "pads"]
PadsWish = Literal["auto", "equal", "level"]
"""Whether all feet get one pad, or each the one under which the printer stays level."""

LAYOUTS: tuple[Layout, ...] = ("crossed-belt", "motor-per-axis", "moving-bed")
DRIVES: tuple[Drives, ...] = ("x", "y", "both")
BRACKET_MATERIALS: tuple[BracketMaterial, ...] = ("aluminium", "steel", "printed")
DAMPER_WISHES: tuple[DamperWish, ...] = ("auto", "always", "none")
PADS_WISHES: tuple[PadsWish, ...] = ("auto", "equal", "level")


@dataclass(frozen=True, slots=True, kw_only=True)
class Lump:
    """One uniform box of the printer; a point where `size` is zero."""

    name: str
    mass: float  # [kg]
    position: Triple  # of its centre [m]
    size: Triple  # [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class Extra:
    """A point mass that comes and goes, such as a spool or a print."""

    name: str
    mass_low: float  # [kg]
    mass_high: float  # [kg]
    position: Triple  # [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class Printer:
    """The printer as a body, without its extras."""

    mass: float  # [kg]; the lumps' sum where there are lumps
    size: Triple  # outside width, depth, height [m]
    center_of_mass: Triple | None  # [m]; None: it follows from the lumps
    inertia: Tensor | None  # about the centre of mass [kg·m²]; None: from the lumps or the size
    lumps: tuple[Lump, ...]
    extras: tuple[Extra, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Motion:
    """What moves and how the belts drive it."""

    layout: Layout
    belt_pitch: float  # [m]
    pulley_teeth: int
    steps_per_turn: int
    microsteps: int
    tool_mass: float  # [kg]
    gantry_mass: float  # what moves with the tool along one axis only [kg]
    bed_mass: float  # moving bed alone [kg]; 0 for other layouts
    gantry_height: float  # of the tool's moving mass above the frame's underside [m]
    bed_height: float  # of the moving bed [m]; 0 for other layouts
    acceleration: float  # [m/s²]
    speeds: tuple[float, ...]  # print speeds asked about [m/s]
    belt_stiffness: float  # effective, from motor to moving mass [N/m]
    belt_tension: float  # one strand [N]; from the plucked span where that was given


@dataclass(frozen=True, slots=True, kw_only=True)
class Motor:
    """One belt motor as built now."""

    name: str
    frame_size: int  # 14 | 17 | 23
    position: Triple  # of its body's centre [m]
    axis: Axis  # of its shaft
    points: int  # 1: the shaft points along the axis, -1: against it
    drives: Drives
    mass: float  # [kg]
    body_length: float  # [m]
    rotor_inertia: float  # [kg·m²]
    holding_torque: float  # [N·m], both windings at rated current
    shaft_length: float  # from the face [m]
    shaft_diameter: float  # [m]
    screw_depth: float  # of its threaded blind holes [m]; 0: a flange with through holes
    pulley_standoff: float  # motor face to pulley, as built now [m]
    pulley_length: float  # whole pulley along the shaft [m]
    set_screw: float  # pulley's end at the motor to its set screws' axis [m]
    belt_offset: float  # pulley's end at the motor to the belt's middle [m]
    pull: Triple  # unit vector of the belts' pull on the shaft, across it
    wrap: float  # of the belt round the pulley [rad]
    bracket: float  # thickness of what the motor is bolted to [m]
    bracket_material: BracketMaterial
    bracket_area: float  # surface that cools the bracket [m²]
    radial_limit: float | None  # the motor's radial load limit [N]; None: not given
    radial_arm: float  # distance from the face at which that limit holds [m]
    rated_current: float  # of a winding [A]
    current: float  # set now, peak of the sine [A]
    winding_resistance: float  # [Ω]
    winding_inductance: float  # [H]
    damper: DamperWish
    spacer_plate: float  # height of a plain plate to go between motor and frame [m]; 0 for none


@dataclass(frozen=True, slots=True, kw_only=True)
class Fan:
    """One fan."""

    name: str
    speed: float  # turns a second [Hz]
    blades: int
    position: Triple  # [m]
    axis: Axis  # of rotation
    unbalance: float  # [kg·m]


@dataclass(frozen=True, slots=True, kw_only=True)
class GivenFoot:
    """A foot whose stiffness is already known, as it acts dynamically."""

    position: Triple  # of its elastic centre [m]
    stiffness: Triple  # along x, y, z [N/m]
    loss_factor: float
    angular: Triple  # about x, y, z [N·m/rad]


@dataclass(frozen=True, slots=True, kw_only=True)
class NowFoot:
    """What stands under the printer today: one pad of this kind at every place."""

    material: str  # a card's id
    shape: str  # one of isolator.design.SHAPES
    first: float  # as isolator.design.Pad.first [m]
    second: float  # as isolator.design.Pad.second [m]
    thickness: float  # [m]
    bonded: bool  # its faces cannot slip


@dataclass(frozen=True, slots=True, kw_only=True)
class Feet:
    """Where feet may stand and how they are fixed, or the feet that are there.

    `positions` rules where it is given; otherwise `foot_positions` makes them from one of `count`
    and `inset`. The first of `count` is also how many stand there now.
    """

    positions: tuple[Pair, ...] | None  # [m]; None: from count and inset
    count: tuple[int, ...]  # how many feet may be tried
    inset: float  # from the printer's outside to a foot's middle [m]
    attachment: str  # one of isolator.design.ATTACHMENTS
    bolt: float  # nominal thread diameter [m]; 0 for none
    tube: float  # inner diameter of the tube for "tube-end" [m]; 0 otherwise
    rod: float = 0.0  # outer diameter of the rod for "rod-end" [m]; 0 otherwise
    holes: tuple[Pair, ...] = ()  # places of screws from a foot's middle [m]
    grip: float = 0.0  # thickness of frame that the screws go through [m]; 0: not known
    fixing: str = "screw"  # of isolator.design.attachment.FIXINGS
    slot_along: str = "x"  # which way the slots run
    slot_key: float = 0.0  # width of the slot in which a loose key guides [m]; 0: no key
    tread: float = 0.0  # thickness of a flexible tread under the sole [m]; 0: none
    pads: PadsWish = "auto"
    engrave: bool = True
    weights: tuple[float, ...] = ()  # what scales show under the feet as they stand now [kg]
    given: tuple[GivenFoot, ...]  # empty: to be designed
    now: NowFoot | None  # None: the brief does not say
    design: Path | None  # a design.toml whose feet are meant; None: not from a design


@dataclass(frozen=True, slots=True, kw_only=True)
class Slab:
    """A slab, such as a paver, on which the printer stands; the feet go under it."""

    size: Triple  # width, depth, thickness [m]
    mass: float  # [kg]
    position: Pair  # of its middle [m]
    gap: float  # from the printer's underside down to its upper face [m]
    lip: float  # height of printed corners that keep the printer on it [m]; 0: none


@dataclass(frozen=True, slots=True, kw_only=True)
class Desk:
    """What the printer stands on; every number is 0 for a rigid one."""

    kind: Literal["rigid", "plate"]
    material: str
    thickness: float  # [m]
    youngs_modulus: float  # [Pa]
    density: float  # [kg/m³]
    poisson: float
    loss_factor: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Load:
    """A force of the user's own, amplitudes."""

    name: str
    force: Triple  # [N]
    moment: Triple  # [N·m]
    position: Triple  # [m]
    frequencies: tuple[float, ...]  # [Hz]; empty: those the command asks for
