"""How feet are fixed to a printer's frame, in words for every attachment."""

from __future__ import annotations

from isolator.design import Foot
from isolator.design.attachment import LEVELLING
from isolator.design.phrases import millimetres
from isolator.design.screws import button_key
from isolator.workshop.step import Care, Step
from isolator.workshop.step_items import Feet, fixed_part, printed, taken

TIGHT = "hand-tight first, all of them, then a quarter turn each: plastic gives no torque figure"
SPREAD = "Put a washer under each head: without one it sinks into the soft plastic."
CRUSH = "Stop where the plastic begins to dent."


def fixed(feet: Feet) -> Step:
    """Return how feet are fixed to the printer's frame."""
    foot, body = feet[0], fixed_part(feet[0])
    held, count = foot.fastening, sum(len(each.positions) for each in feet)
    key = ("key",) if foot.key > 0 else ()
    made = "screwed together" if foot.ends is not None else "glued"
    uses = (f"{count} × foot as {made}", *printed(feet, key), *_bought(feet))
    adds, hardware = WHOLE, "whole"
    if held.driven:  # what is glued into it comes after
        adds, hardware, uses = (body,), "screws", (*printed(feet, (body,)), *taken(feet))
    elif held.pressed:  # as one body it was shown when it was put together
        adds, hardware = (), ""
    return Step(
        title="Fix the feet to the frame",
        words=_fixing(foot, body if held.driven else "foot"),
        cautions=_CARES.get(held.way, ()),
        owner=foot.name,
        adds=adds,
        hardware=hardware,
        uses=uses,
    )


_CARES: dict[str, tuple[Care, ...]] = {
    "tapping": ("drill",),
    "plug": ("press the rim", "glue"),
    "socket": ("press the rim", "glue"),
}
WHOLE: tuple[str, ...] = ("cup", "plate", "mount", "cover", "foot", "pad", "sole", "tread", "key")
"""Roles of all that may be put together before a foot comes to the frame."""


def _bought(feet: Feet) -> tuple[str, ...]:
    """Return the bought things that are used at the frame, not before."""
    foot = feet[0]
    if foot.fastening.pressed:
        return ()
    if foot.from_above:
        return taken(feet, "screw ", "washer", "large washer")
    if foot.fastening.turned:
        return taken(feet, "thin nut")
    if foot.fastening.hides and not foot.fastening.driven:
        return taken(feet, "nut ", "washer", "large washer")
    return taken(feet)


_WORDS = {
    "slot": (
        "Slide two slot nuts a foot into the profile; where its ends are closed take an end cap "
        "off first, or use slot nuts that swing in.",
        "Screw each {body} on from below, {tight}.",
        "No screw may bottom out in the slot: it would push the foot off.",
    ),
    "through": (
        "Put each {body} under its place and its screws, from below, up through {into}; a {washer} "
        "and a nut on each, {tight}. Where the frame is tapped no nut is needed: turn the foot.",
        CRUSH,
    ),
    "captive": (
        "Put each {body} under its place and its screw up through {into}; a {washer} and a nut on "
        "each, {tight}. Where the frame is tapped no nut is needed: turn the foot.",
        CRUSH,
    ),
    "tapping": (
        "Look first that no cable or board lies behind. Drill the printer's plastic as the screws' "
        "maker says.",
        "Drive the self-tapping screws through each {body} from below, {tight}. Turned too far "
        "they strip the plastic.",
    ),
    "driven": (
        "Hold each {body} to the end of its profile and drive the button screw, from the pad's "
        "side, up into the tapped bore, {tight}.",
    ),
    "stud": (
        "Turn a thin nut and a second washer on, then the whole foot up into the frame's thread; "
        "leave {half} between the nuts to level with. The thin nut stays loose until the printer "
        "stands level, then it is locked at the frame.",
    ),
    "plug": (
        "Deburr the tubes. Glue on, press each plug up into its tube, straight, until the foot "
        "lies on the tube's end: the ribs only centre it.",
    ),
    "socket": (
        "Deburr the rods. Glue in, press each socket onto its rod, straight, until the rod stands "
        "on the socket's floor: the ribs only centre it.",
    ),
    "glue": (
        "Degrease frame and {body}. Stick each {body} to the frame with its whole face: "
        "double-sided tape pressed on hard for half a minute, or glue.",
        "Let it hold for a day before the printer stands on it.",
    ),
}
"""How a foot comes to the frame, by the way to hold it."""
_FROM_ABOVE = (
    "Hold each {body} under its hole and screw it on from above, a {washer} under the head, {how}."
)
_KEY = (
    "Lay the key into the groove of each {body} with a drop of glue: it stands into the slot and "
    "guides it."
)


_OFF = (
    "To take a foot off again, or to tighten it, put a hexagon key of {key} up through the hole in "
    "its underside: it reaches this screw through the pad."
)
_HIDDEN = (
    "Try the fit now: the pad has no hole for a key and will hide this screw. Such a foot comes "
    "off again only by cutting its pad away."
)


def _fixing(foot: Foot, body: str) -> tuple[str, ...]:
    """Return the words for one attachment; each names its own hardware."""
    held, words = foot.fastening, _WORDS[foot.fastening.way]
    if held.driven:
        words = (*words, _OFF if foot.key_hole > 0 else _HIDDEN)
    if foot.from_above and held.slot is None and not held.turned:
        words = (_FROM_ABOVE,)
    if foot.key > 0 and held.slot is not None:
        words = (words[0], _KEY, *words[1:])
    if foot.soft_flange:
        words = (*words, SPREAD)
    how = (
        "slowly: the screw cuts its own thread, so turn it in once and stop as its head lies on"
        if foot.fixing == "direct"
        else f"{TIGHT}. {CRUSH.removesuffix('.')}"
    )
    return tuple(
        line.format(
            body=body,
            tight=TIGHT,
            into=held.into,
            washer="large washer" if held.sheet else "washer",
            half=millimetres(LEVELLING / 2.0, 0),
            key=millimetres(button_key(foot.thread), 1),
            how=how,
        )
        for line in words
    )
