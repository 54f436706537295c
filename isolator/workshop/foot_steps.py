"""How one kind of foot is prepared and finished, step by step, in words."""

from __future__ import annotations

from typing import NamedTuple

from isolator.workshop.step import Care, Step
from isolator.workshop.step_items import Feet, fixed_part, printed, taken

KEYED = " The holes for the key lie in line, free of glue: try the key before it cures."
PRESS = (
    "Press each together evenly, with a weight or a light clamp, until the glue has cured; "
    "nothing may stand on it before."
)


class Bench(NamedTuple):
    """How the cap gets what it holds; {body} is the part that is fixed to the frame."""

    title: str
    words: tuple[str, ...]
    hardware: str
    takes: tuple[str, ...]  # of what is bought, by how it begins
    part: str = ""  # printed, that is screwed on
    cautions: tuple[Care, ...] = ()


UP = "Put the screw up through the recess of each {body}, from the pad's side, and turn the "
_HELD = {
    "insert": Bench(
        "Set the inserts",
        (
            "Set a threaded insert with a soldering iron into the recess of each {body}, from the "
            "pad's side, slowly and straight, until it sits on the plastic at its end, a little "
            "below the recess's edge.",
            "Let it cool under a flat piece of metal, and try a screw from the other side.",
        ),
        "held",
        ("threaded insert",),
        cautions=("hot insert",),
    ),
    "nut": Bench(
        "Press the nuts in",
        (
            "Press a nut into the hexagon of each {body}, from the pad's side, down to its ground; "
            "pull it in with a screw where it is tight.",
        ),
        "held",
        ("nut ",),
    ),
}
_SCREWED = {
    "socket": Bench(
        "Screw the sockets on",
        (
            f"{UP}socket onto it until it lies tight.",
            "The screw cuts its own thread in the socket: turn it in once, slowly.",
        ),
        "screws",
        ("screw ",),
        part="socket",
    ),
    "plug": Bench(
        "Screw the plugs on",
        ("Press a nut into the hexagon of each plug.", f"{UP}plug onto it until it lies tight."),
        "screws",
        ("screw ", "nut "),
        part="plug",
    ),
    "stud": Bench(
        "Clamp the studs",
        (
            "Put the screw up through each {body} from the pad's side, a washer and a nut on it, "
            "and tighten them onto the {body}: its head must not move in the recess.",
        ),
        "clamped",
        ("screw ", "nut ", "washer"),
    ),
    "captive": Bench(
        "Lay the screws in",
        (
            "Put the screw up through each {body} from the pad's side, its head into the hexagon: "
            "once that is closed it cannot be put in any more.",
        ),
        "standing",
        ("screw ",),
    ),
}
"""By the fixing in the cap, else by the way to hold a foot."""


def prepared(feet: Feet) -> tuple[Step, ...]:
    """Return what is done on the bench before feet come to the printer."""
    foot, body = feet[0], fixed_part(feet[0])
    if foot.fixing == "direct":
        return ()  # its thread is the cap's own: nothing lies in it
    row = _HELD.get(foot.fixing) or _SCREWED.get(foot.fastening.way)
    if row is None:
        return ()
    return (
        Step(
            title=row.title,
            words=tuple(line.format(body=body) for line in row.words),
            cautions=row.cautions,
            there=(body,) if row.part else (),
            adds=(row.part or body,),
            hardware=row.hardware,
            owner=foot.name,
            uses=(*printed(feet, (body, row.part) if row.part else ()), *taken(feet, *row.takes)),
        ),
    )


def late(feet: Feet) -> bool:
    """Return whether a foot is screwed on through its pocket, before its pad is glued in."""
    return feet[0].fastening.driven


def closed(feet: Feet) -> tuple[Step, ...]:
    """Return how the recess is closed that screw, nut or insert lies in."""
    if not feet[0].covered:
        return ()
    words = (
        "Last look at what lies in it: nobody gets there again. Glue the cover into the cup, and "
        "let it cure.",
    )
    return (_gluing(feet, "Close the recess", words, ("cup",), ("cover",)),)


def padded(feet: Feet) -> tuple[Step, ...]:
    """Return how pads, soles and treads are glued on, after all that they hide."""
    foot = feet[0]
    tread = ("tread",) if foot.tread > 0 else ()
    under = ("Glue the tread under it, grooves to the desk.",) if tread else ()
    if foot.mounted:
        words = (
            "Roughen both faces and glue each body to its mount all over, edges flush."
            + (KEYED if foot.key_hole > 0 else ""),
            *under,
            PRESS,
        )
        added = ("foot", *tread)
        return (_gluing(feet, "Glue the flexible bodies on", words, ("mount",), added),)
    if foot.build.soft_body:
        words = (*under, "Let it cure.")
        return (_gluing(feet, "Glue the treads on", words, ("foot",), tread),) if tread else ()
    if foot.pad.outline.halved:
        return (_gluing(feet, "Glue the half-balls in", _balls(feet), ("cup", "cover"), ("pad",)),)
    words = (
        f"Glue each pad all over into its cup{_whose(feet)}, within the line scribed there, then "
        "the sole onto the pad within its own line, edges of cup and sole flush: a pad that sticks "
        f"to the rim isolates nothing.{KEYED if foot.key_hole > 0 else ''}",
        *under,
        PRESS,
    )
    added = ("pad", "sole", *tread)
    return (_gluing(feet, "Glue pads and soles", words, ("cup", "cover"), added),)


def _gluing(
    feet: Feet, title: str, words: tuple[str, ...], there: tuple[str, ...], added: tuple[str, ...]
) -> Step:
    """Return the step that glues the parts `added` to those `there`."""
    return Step(
        title=title,
        words=words,
        cautions=("glue",),
        there=there,
        adds=added,
        owner=feet[0].name,
        uses=printed(feet, added),
    )


def _balls(feet: Feet) -> tuple[str, ...]:
    onto = (
        f"Roughen each half's flat face and glue it all over into its cup{_whose(feet)}, "
        "within the line scribed there."
    )
    if feet[0].pad.second == 0:
        return onto, PRESS
    pierced = (
        "Pierce the wall of each half close to its flat face, some 2 mm wide: shut-in air would be "
        "a second spring."
    )
    return pierced, onto, PRESS


def _whose(feet: Feet) -> str:
    return ", letter to letter" if len(feet) > 1 else ""
