"""The drawing sheet: all that a draughtsman needs to draw every part of a design, its file, and
tables of standard parts. No solving and no stock belong here.

Lengths are metres, loads newtons. The frame of reference is the printer's: x to the right, y to
the back, z up, origin at the middle of the foot rectangle on the underside of the printer's frame.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from isolator.design.attachment import (
    ATTACHMENTS,
    COVER,
    EAR,
    EAR_MARGIN,
    FLOOR,
    HEX_FIT,
    PLATE,
    Attachment,
    attachment_thread,
)
from isolator.design.attachment_room import least_cap, least_width
from isolator.design.damper import MotorDamper
from isolator.design.ends import Ends, disc
from isolator.design.filaments import family_of
from isolator.design.foot_kinds import FOOT_KINDS, FootKind
from isolator.design.layers import quantise, quantise_up
from isolator.design.outlines import BALL, BUFFER, OUTLINES, SHAPES, PadOutline
from isolator.design.screws import screw
from isolator.design.soles import stands_with

__all__ = [
    "ATTACHMENTS",
    "BALL",
    "BUFFER",
    "COVER",
    "EAR",
    "EAR_MARGIN",
    "FLOOR",
    "FOOT_KINDS",
    "HEX_FIT",
    "OUTLINES",
    "PLATE",
    "SHAPES",
    "Design",
    "Ends",
    "FilamentFit",
    "Foot",
    "MotorSpacer",
    "Pad",
    "PrintSettings",
    "Slab",
    "attachment_thread",
    "least_cap",
    "least_width",
    "quantise",
    "quantise_up",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class FilamentFit:
    """What is drawn otherwise in one filament than in that of the rigid parts [m]."""

    filament: str  # family, such as "asa"
    hole_compensation: float
    first_layer_chamfer: float


@dataclass(frozen=True, slots=True, kw_only=True)
class PrintSettings:
    """How the user's printer makes parts [m]; holes and chamfers are those of `material`."""

    bed: tuple[float, float, float]
    nozzle: float
    layer: float
    hole_compensation: float  # added to every hole's diameter
    first_layer_chamfer: float
    material: str  # filament family for rigid parts, such as "petg"
    flexible: str = "tpu-95"  # filament family for treads
    paper: str = "a4"  # of isolator.design.paper.PAPERS
    wedge_layer: float = 0.0  # layer height of wedges, on plates of their own; 0: `layer`
    bed_margin: float = 8e-3  # left free along every edge of the bed
    fits: tuple[FilamentFit, ...] = ()  # of other filaments whose parts are drawn otherwise

    def for_filament(self, name: str) -> PrintSettings:
        """Return how parts of a filament are drawn: with its own holes and first layer."""
        own = next((each for each in self.fits if each.filament == family_of(name)), None)
        if own is None:
            return self
        return replace(
            self,
            hole_compensation=own.hole_compensation,
            first_layer_chamfer=own.first_layer_chamfer,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Pad:
    """One pad as cut from sheet (or printed), unloaded [m].

    `first`, `second` are: disc diameter, 0; ring outer, inner diameter; rectangle x, y side;
    square-with-hole side, hole diameter; half-ball outer diameter, that of its cavity or 0; buffer
    diameter, height of its rubber. `thickness` is the whole free height, all layers; of a half-ball
    half of its diameter, of a buffer its metal counted in.
    """

    shape: str  # of OUTLINES
    first: float
    second: float
    thickness: float
    layers: int
    material: str  # the card's id
    printed: bool  # printed as one body with its foot rather than cut from sheet
    infill: float = 0.0  # of a print, as its card says, 0..1; 0 where that is not told
    pattern: str = ""  # of the infill, such as "gyroid"
    wall: float = 0.0  # of a print: solid, all round [m]

    @property
    def outline(self) -> PadOutline:
        """Return what is known of the pad's outline."""
        return OUTLINES[self.shape]

    @property
    def widths(self) -> tuple[float, float]:
        """Return the outside widths along x and along y [m]."""
        return self.first, self.outline.along_y(self.first, self.second)


@dataclass(frozen=True, slots=True, kw_only=True)
class Foot:
    """One kind of foot and the places where it stands [m, N].

    `cap` is the solid height between the printer's underside and the pad's upper face (under a
    slab all that is between them), `sole` the solid height between the pad's lower face and the
    desk, its tread left out. `stop` is the compression of the pad, from its free height, at which
    the cup's rim touches what is below it; a bare or printed foot has none.
    """

    name: str
    kind: str  # of FOOT_KINDS
    pad: Pad
    positions: tuple[tuple[float, float], ...]
    attachment: str
    bolt: float  # nominal thread diameter of the attachment, 0 for none
    tube: float  # inner diameter of the tube that a plug goes into, 0 otherwise
    cap: float
    sole: float
    wall: float
    side_room: float  # free gap round the unloaded pad
    sag: float  # compression under the nominal static load
    stop: float
    holes: tuple[tuple[float, float], ...] = ()
    """Places of the screws from the foot's middle, x right and y back."""
    rod: float = 0.0  # outer diameter of the rod that goes into a socket, 0 otherwise
    grip: float = 0.0  # thickness of the frame that the screws go through, 0 where not known
    fixing: str = "screw"  # of isolator.design.attachment.FIXINGS
    along: str = "x"  # which way the slot runs, for slots: "x" | "y"
    key: float = 0.0  # width of the slot in which a loose key guides the foot, 0 for no key
    tread: float = 0.0  # thickness of the flexible tread glued under the sole, 0 for none
    label: str = ""  # engraved on cup and sole, or on the printed foot; empty: nothing
    ends: Ends | None = None  # of a ready-made mount

    @property
    def build(self) -> FootKind:
        """Return what is known of the foot's kind."""
        return FOOT_KINDS[self.kind]

    @property
    def rim(self) -> float:
        """Return how far the foot's body reaches beyond its pad on every side [m]."""
        return self.side_room + self.wall if self.build.rimmed or self.ends is not None else 0.0

    @property
    def widths(self) -> tuple[float, float]:
        """Return the outside widths of the foot's body along x and along y [m]."""
        first, second = self.pad.widths
        return first + 2.0 * self.rim, second + 2.0 * self.rim

    @property
    def mounted(self) -> bool:
        """Return whether a flexible body is glued to a rigid mount, which hides what holds it."""
        return self.build.soft_body and self.fastening.hides

    @property
    def soft_flange(self) -> bool:
        """Return whether screw heads bear on flexible plastic, each on a washer."""
        return self.build.soft_body and self.fastening.flanged

    @property
    def covered(self) -> bool:
        """Return whether a printed cover closes the recess over the pad."""
        return self.build.rimmed and self.fastening.hides and self.fixing != "direct"

    @property
    def fastening(self) -> Attachment:
        """Return what is known of the foot's attachment."""
        return ATTACHMENTS[self.attachment]

    @property
    def thread(self) -> float:
        """Return the thread diameter of what holds the foot [m], 0 for glue."""
        return attachment_thread(self.attachment, self.bolt, self.tube)

    @property
    def over_rubber(self) -> float:
        """Return the solid height between the frame and what gives way [m], stud or socket too."""
        metal = 0.0
        if self.ends is not None:
            metal = disc(self.ends, self.pad.thickness, self.pad.second)
        return self.lift + self.cap + metal

    @property
    def from_above(self) -> bool:
        """Return whether the foot's screw comes from above, through the frame."""
        return self.fixing != "screw"

    @property
    def key_hole(self) -> float:
        """Return the hole through cover and sole for the key of a driven screw [m]; 0 for none.

        It ends in the pad's own hole, so that it takes nothing of the loaded area; a pad that has
        none, or a narrower one, hides the screw for good.
        """
        if not self.fastening.driven or not self.pad.outline.cut_hole:
            return 0.0
        wide = screw(self.thread).key_hole
        return wide if wide <= self.pad.second + 1e-9 else 0.0

    @property
    def lift(self) -> float:
        """Return how far a stud or a rod's socket holds the cap off the frame [m]; else 0."""
        return self.fastening.lift(self.thread)

    @property
    def touches(self) -> str:
        """Return what stands on the desk, one of `isolator.design.soles.FRICTION`."""
        return stands_with(self.build, self.tread, self.sole)

    @property
    def height(self) -> float:
        """Return the unloaded height from the printer's underside to the desk [m]."""
        return self.lift + self.cap + self.pad.thickness + self.sole + self.tread


@dataclass(frozen=True, slots=True, kw_only=True)
class MotorSpacer:
    """Parts that move a belt motor back by `height` and its pulley forward by as much [m]."""

    name: str  # the motor's name
    frame_size: int  # 14, 17, 23
    height: float  # of the plate between motor and frame
    pulley_spacer: float  # height of the spacer between motor face (boss) and pulley
    bore: float  # shaft diameter
    outer: float  # outer diameter of the pulley spacer
    filament: str = "asa"  # of both
    motor_screw: float = 0.0  # length of each of the screws through the plate, 0 where not known
    nose: float = 0.0  # diameter of the ring's end on the bearing's inner ring, 0: as `outer`
    nose_height: float = 0.0  # of that end
    boss: float = 0.0  # diameter of the motor's boss, 0: usual of the frame size
    boss_height: float = 0.0  # 0: usual of the frame size
    gauge: bool = False  # a gauge that comes off sets the pulley's height, no spacer


@dataclass(frozen=True, slots=True, kw_only=True)
class Slab:
    """A slab, such as a paver, that the printer stands on; its feet are glued under it [m]."""

    size: tuple[float, float, float]  # width, depth, thickness
    position: tuple[float, float]  # of its middle
    gap: float  # from the printer's underside down to its upper face
    lip: float  # height of the printed corners over the upper face, 0 for none


@dataclass(frozen=True, slots=True, kw_only=True)
class Design:
    """A whole design, ready to be drawn."""

    name: str
    slug: str
    version: str
    print: PrintSettings
    feet: tuple[Foot, ...]
    motor_spacers: tuple[MotorSpacer, ...]
    motor_dampers: tuple[MotorDamper, ...] = ()
    frame_size: tuple[float, float, float]  # the printer's outside, for the assembly picture
    slab: Slab | None = None
