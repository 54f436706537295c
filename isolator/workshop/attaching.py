"""How feet are fixed to a printer's frame, in words for every attachment."""

from __future__ import annotations

from isolator.design import Foot
from isolator.design.attachment import CAPTIVE, FLANGED, LEVELLING, SLOTS
from isolator.design.phrases import millimetres
from isolator.feet.screw_lengths import from_above
from isolator.workshop.step import Care, Step
from isolator.workshop.step_items import Feet, fixed_part, printed, taken

TIGHT = "hand-tight first, all of them, then a quarter turn each: plastic gives no torque figure"
CRUSH = "Stop where the plastic begins to dent."


def fixed(feet: Feet) -> Step:
    """Return how feet are fixed to the printer's frame."""
    foot, body = feet[0], fixed_part(feet[0])
    pressed = foot.attachment in ("tube-end", "rod-end")
    pressed_on: tuple[Care, ...] = ("press the rim", "glue")
    cautions: dict[str, tuple[Care, ...]] = {
        "self-tapping": ("drill",),
        "tube-end": pressed_on,
        "rod-end": pressed_on,
    }
    if foot.attachment == "tapped-end":
        return Step(
            title="Fix the feet to the frame",
            words=_fixing(foot, body),
            owner=foot.name,
            adds=(body,),
            hardware="screws",
            uses=(*printed(feet, (body,)), *taken(feet)),
        )
    count = sum(len(each.positions) for each in feet)
    return Step(
        title="Fix the feet to the frame",
        words=_fixing(foot, "foot"),
        cautions=cautions.get(foot.attachment, ()),
        owner=foot.name,
        # what is pressed in as one body was shown when it was put together
        adds=() if pressed else WHOLE,
        hardware="" if pressed else "whole",
        uses=(
            f"{count} × foot as glued",
            *printed(feet, ("key",) if foot.key > 0 else ()),
            *_bought(feet),
        ),
    )


WHOLE = ("cup", "mount", "cover", "foot", "pad", "sole", "tread", "key")
"""Roles of all that may be put together before a foot comes to the frame."""


def _bought(feet: Feet) -> tuple[str, ...]:
    """Return the bought things that are used at the frame, not before."""
    foot = feet[0]
    if foot.attachment in ("tube-end", "rod-end"):
        return ()
    if from_above(foot):
        return taken(feet, "screw ", "washer", "large washer")
    if foot.attachment == "stud":
        return taken(feet, "thin nut")
    if foot.attachment in CAPTIVE:
        return taken(feet, "nut ", "washer", "large washer")
    return taken(feet)


def _fixing(foot: Foot, body: str) -> tuple[str, ...]:
    """Return the words for one attachment; each names its own hardware."""
    if foot.attachment in SLOTS:
        key = (
            (
                f"Lay the key into the groove of each {body} with a drop of glue: it stands into "
                "the slot and guides it.",
            )
            if foot.key > 0
            else ()
        )
        return (
            "Slide two slot nuts a foot into the profile; where its ends are closed take an end "
            "cap off first, or use slot nuts that swing in.",
            *key,
            f"Screw each {body} on from below, {TIGHT}.",
            "No screw may reach the ground of the slot: it would push the foot off.",
        )
    if foot.attachment == "stud":
        return (
            "Turn a thin nut and a second washer on, then the whole foot up into the frame's "
            f"thread; leave {millimetres(LEVELLING / 2.0, 0)} between the nuts to level with. The "
            "thin nut stays loose until the printer stands level, then it is locked at the frame.",
        )
    if from_above(foot):
        washer = "large washer" if foot.attachment == "panel" else "washer"
        how = (
            "slowly: the screw cuts its own thread, so turn it in once and stop as its head lies on"
            if foot.fixing == "direct"
            else f"{TIGHT}. {CRUSH.removesuffix('.')}"
        )
        return (
            f"Hold each {body} under its hole and screw it on from above, a {washer} under the "
            f"head, {how}.",
        )
    return _plain_fixing(foot, body)


def _plain_fixing(foot: Foot, body: str) -> tuple[str, ...]:
    washer = "large washer" if foot.attachment == "panel" else "washer"
    own = "its screws, from below," if foot.attachment in FLANGED else "its screw"
    holes = {"holes": "the old feet's holes", "panel": "the panel"}.get(
        foot.attachment, "the frame"
    )
    return {
        "adhesive": (
            f"Degrease frame and {body}. Stick each {body} to the frame with its whole face: "
            "double-sided tape pressed on hard for half a minute, or glue.",
            "Let it hold for a day before the printer stands on it.",
        ),
        "tapped-end": (
            f"Hold each {body} to the end of its profile and drive the button screw, from the "
            f"pad's side, up into the tapped bore, {TIGHT}.",
        ),
        "tube-end": (
            "Deburr the tubes. Glue on, press each plug up into its tube, straight, until the foot "
            "lies on the tube's end: the ribs only centre it.",
        ),
        "rod-end": (
            "Deburr the rods. Glue in, press each socket onto its rod, straight, until the rod "
            "stands on the socket's floor: the ribs only centre it.",
        ),
        "self-tapping": (
            "Look first that no cable or board lies behind. Drill the printer's plastic as the "
            "screws' maker says.",
            f"Drive the self-tapping screws through each {body} from below, {TIGHT}. Turned too "
            "far they strip the plastic.",
        ),
    }.get(
        foot.attachment,
        (
            f"Put each {body} under its place and {own} up through {holes}; a {washer} and a nut "
            f"on each, {TIGHT}. Where the frame is tapped no nut is needed: turn the foot.",
            CRUSH,
        ),
    )
