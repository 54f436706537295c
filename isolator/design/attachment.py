"""How a foot is held under a printer, and the sizes that belong to it [m].

Four ways to hold: a flange beside the pad, through which screws go up into the frame; a hexagon
head, nut, insert or thread in the cap over the pad; a screw driven from below through the cap
before the pad is glued in; glue.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

from isolator.design.screws import (
    DIRECT_DEPTH,
    screw,
    thin_nut,
)

EAR_MARGIN = 2.0e-3  # solid left round a screw head [m]
HEAD_GAP = 0.5e-3  # between a screw head and the foot's side [m]
HEAD_UNDER = 1.0e-3  # free height that a head under a flange needs besides its own [m]
SQUASHED = 0.7  # of a printed foot's free height is left at the hardest knock; no source
HEX_FIT = 0.2e-3  # play across flats of a pressed-in hexagon [m]
HEAD_PLAY = 0.6e-3  # on the diameter of a pocket that a round head is let into [m]
COVER = 1.6e-3  # printed layer between a captive screw head and the pad [m]
FLOOR = 2.4e-3  # least solid under a captive screw head [m]
EAR = 3.0e-3  # least thickness of an ear that a slot screw clamps [m]
SPARE = 1.5e-3  # of a nut's or insert's recess, or a blind thread, beyond what it holds [m]
LEVELLING = 10.0e-3  # by which a stud can be turned; it is drawn half out; convention, no source
PLATE = 1.2e-3  # least thickness of any printed plate under a pad [m]
KEY_GROOVE = 1.0e-3  # depth to which a loose slot key is let into the cap [m]
KEY_SHORT = 0.3e-3  # by which it ends before the slot's lips do, clear of the slot nuts [m]
KEY_STANDS = 3.0e-3  # height by which it stands into a slot with thick lips, at most [m]
KEY_PLAY = 0.3e-3  # of the key's width in the slot [m]
SOCKET_FIT = 0.5e-3  # bore of a rod's socket over the rod [m]
SOCKET_WALL = 2.4e-3  # round a rod [m]
SHORTEST_PLUG = 12.0e-3  # a plug or socket holds over its tube's or rod's width, and this [m]
PLUG_NUT = 0.5e-3  # by which the nut in a plug lies below the plug's end [m]
GLUED = "adhesive"  # what holds a foot of which nothing is told
FIXINGS = ("screw", "nut", "insert", "direct")
"""What the cap holds of a captive attachment: the head of a screw that stands up, or a nut, a
heat-set insert or a thread of its own for a screw from above."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Slot:
    """The slot of an extrusion [m]: usual profiles, common practice, no source."""

    profile: float  # width of the extrusion
    lip: float  # thickness beside the slot
    depth: float  # of the slot, less a little; from memory
    threads: tuple[float, ...]  # that slot nuts are sold with

    @property
    def key_stands(self) -> float:
        """Return how far a loose key stands into the slot [m].

        Nearly through its lips: their edges are rounded or cut off by about a millimetre (from
        memory), and only what reaches past them guides.
        """
        return min(self.lip - KEY_SHORT, KEY_STANDS)


@dataclass(frozen=True, slots=True, kw_only=True)
class Attachment:
    """One way to hold a foot; each room has one table of functions by `way`.

    `way`: "slot" screws into slot nuts, "through" screws through the frame, "tapping" into its
    plastic, all through a flange; one "captive" screw, nut or insert, a "driven" screw, a "stud", a
    "plug" or a "socket" screwed on, all hidden in the cap; "glue".
    """

    way: str
    where: Literal["flange", "cap", "face"]  # of the foot takes what holds it
    keys: tuple[str, ...] = ()  # of the brief that it asks for
    thread: float = 0.0  # that usually goes with it [m]; common practice, no source
    typed: float = 0.0  # that a brief takes where it is silent, if not the usual one [m]
    threads_by_tube: tuple[tuple[float, float], ...] = ()  # least inner diameter, thread [m]
    slot: Slot | None = None
    lift: Callable[[float], float] = lambda thread: 0.0  # of the cap off the frame, by thread [m]
    least_holes: int = 0  # places of screws that must be told
    coarse: bool = False  # its holes were measured by hand
    sheet: bool = False  # its frame is thin: a wide washer spreads the load
    turned: bool = False  # it is levelled by turning the foot
    of: str = ""  # of what, in words
    into: str = "the frame"  # what its screws go through, in words

    @property
    def flanged(self) -> bool:
        """Return whether screws go up through a flange beside the pad, heads below it."""
        return self.where == "flange"

    @property
    def hides(self) -> bool:
        """Return whether the cap holds a screw, nut, insert or thread over the pad."""
        return self.where == "cap"

    @property
    def tapping(self) -> bool:
        """Return whether it is held by self-tapping screws."""
        return self.way == "tapping"

    @property
    def driven(self) -> bool:
        """Return whether a button head is driven from below, through the cap."""
        return self.way == "driven"

    @property
    def pressed(self) -> bool:
        """Return whether it is pressed into or onto the frame, with a part of its own."""
        return self.way in ("plug", "socket")

    @property
    def gripping(self) -> bool:
        """Return whether its screws clamp the frame's whole thickness."""
        return "grip" in self.keys and not self.tapping

    @property
    def fixings(self) -> tuple[str, ...]:
        """Return what may hold it, of `FIXINGS`."""
        return FIXINGS if "fixing" in self.keys else FIXINGS[:1]


def _slot(profile: float, lip: float, depth: float, thread: float, *more: float) -> Attachment:
    return Attachment(
        way="slot",
        where="flange",
        keys=("bolt", "slot_along", "slot_key"),
        thread=thread,
        slot=Slot(profile=profile, lip=lip, depth=depth, threads=more),
    )


def _stud_lift(thread: float) -> float:
    """Return what lies between a stud's cap and the frame [m].

    A washer and a nut clamp its head in the cap, a thin nut and a washer lock it at the frame;
    between them half of `LEVELLING`.
    """
    row = screw(thread)
    return 2.0 * row.washer_height + row.nut_height + LEVELLING / 2.0 + thin_nut(thread)


ATTACHMENTS = {
    "slot-20": _slot(0.020, 1.8e-3, 6.2e-3, 0.005, 0.003, 0.004, 0.005),
    "slot-30": _slot(0.030, 2.2e-3, 9.0e-3, 0.006, 0.004, 0.005, 0.006, 0.008),
    "slot-40": _slot(0.040, 4.5e-3, 12.0e-3, 0.008, 0.004, 0.005, 0.006, 0.008),
    "tapped-end": Attachment(
        way="driven", where="cap", keys=("bolt",), thread=0.005, of="of an extrusion"
    ),
    "bolt": Attachment(
        way="captive", where="cap", keys=("fixing", "bolt", "grip"), thread=0.006, typed=0.005
    ),
    "two-bolts": Attachment(
        way="through",
        where="flange",
        keys=("bolt", "grip", "spacing"),
        thread=0.005,
        least_holes=2,
        coarse=True,
    ),
    "tube-end": Attachment(
        way="plug",
        where="cap",
        keys=("tube",),
        thread=0.003,
        threads_by_tube=((0.013, 0.005), (0.0116, 0.004)),  # so that a wall is left round the nut
    ),
    "rod-end": Attachment(
        way="socket",
        where="cap",
        keys=("rod",),
        thread=0.005,
        # a rod stands on the closed end of its socket
        lift=lambda thread: DIRECT_DEPTH * thread,
    ),
    "panel": Attachment(
        way="captive",
        where="cap",
        keys=("fixing", "bolt", "grip"),
        thread=0.005,
        sheet=True,
        into="the panel",
    ),
    "self-tapping": Attachment(
        way="tapping",
        where="flange",
        keys=("bolt", "grip", "spacing"),
        thread=0.0035,
        least_holes=2,
    ),
    "stud": Attachment(
        way="stud", where="cap", keys=("bolt", "grip"), thread=0.008, lift=_stud_lift, turned=True
    ),
    "holes": Attachment(
        way="through",
        where="flange",
        keys=("bolt", "grip", "holes"),
        thread=0.004,
        least_holes=1,
        coarse=True,
        of="of old feet",
        into="the old feet's holes",
    ),
    GLUED: Attachment(way="glue", where="face"),
}


def asking(key: str) -> tuple[str, ...]:
    """Return the attachments that ask for a key of the brief.

    >>> asking("rod")
    ('rod-end',)
    """
    return tuple(name for name, row in ATTACHMENTS.items() if key in row.keys)


def attachment_thread(attachment: str, bolt: float, tube: float) -> float:
    """Return the thread diameter [m] that an attachment is drawn with, 0 for glue.

    `bolt` [m] rules where it is given (above 0) and there is a thread; else the usual one, which
    may follow from the inner diameter `tube` of a tube [m].
    """
    row = ATTACHMENTS[attachment]
    if bolt > 0 and row.where != "face":
        return bolt
    return next((each for least, each in row.threads_by_tube if tube >= least), row.thread)


UNDER_SLAB = "pads under a slab are glued to it, and a mount has nothing there to be screwed to"
"""Why ready-made mounts are not offered there."""


def no_room_for_mounts(attachment: str) -> str:
    """Return why ready-made mounts hang by no such attachment, "" where they do.

    >>> no_room_for_mounts("slot-20")
    ''
    """
    if ATTACHMENTS[attachment].where != "cap":
        return ""
    others = ", ".join(name for name, row in ATTACHMENTS.items() if row.where != "cap")
    return (
        f'what holds a foot by "{attachment}" stands in its middle, where the mount\'s own screw '
        f"would be; beside it hold {others}"
    )
