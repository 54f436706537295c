"""How one kind of foot is prepared and finished, step by step, in words."""

from __future__ import annotations

from collections.abc import Callable

from isolator.workshop.step import Care, Step
from isolator.workshop.step_items import Feet, fixed_part, printed, taken

PRESS = (
    "Press each together evenly, with a weight or a light clamp, until the glue has cured; "
    "nothing may stand on it before."
)


def prepared(feet: Feet) -> tuple[Step, ...]:
    """Return what is done on the bench before feet come to the printer."""
    foot = feet[0]
    step = _HELD.get(foot.fixing) or _SCREWED.get(foot.fastening.way)
    return () if step is None else (step(feet, fixed_part(foot)),)


def _inserted(feet: Feet, body: str) -> Step:
    """Return how inserts are set into the caps."""
    foot = feet[0]
    return Step(
        title="Set the inserts",
        words=(
            f"Set a threaded insert with a soldering iron into the recess of each {body}, "
            "from the pad's side, slowly and straight, until it sits on the plastic at its "
            "end, a little below the recess's edge.",
            "Let it cool under a flat piece of metal, and try a screw from the other side.",
        ),
        cautions=("hot insert",),
        adds=(body,),
        hardware="held",
        owner=foot.name,
        uses=taken(feet, "threaded insert"),
    )


def _nuts_pressed(feet: Feet, body: str) -> Step:
    """Return how nuts are pressed into the caps."""
    foot = feet[0]
    return Step(
        title="Press the nuts in",
        words=(
            f"Press a nut into the hexagon of each {body}, from the pad's side, down to "
            "its ground; pull it in with a screw where it is tight.",
        ),
        adds=(body,),
        hardware="held",
        owner=foot.name,
        uses=taken(feet, "nut "),
    )


def _socketed(feet: Feet, body: str) -> Step:
    """Return how rods' sockets are screwed on."""
    foot = feet[0]
    return Step(
        title="Screw the sockets on",
        words=(
            f"Put the screw up through the recess of each {body}, from the pad's side, and "
            "turn the socket onto it until it lies tight.",
            "The screw cuts its own thread in the socket: turn it in once, slowly.",
        ),
        there=(body,),
        adds=("socket",),
        hardware="screws",
        owner=foot.name,
        uses=(*printed(feet, (body, "socket")), *taken(feet, "screw ")),
    )


def _plugged(feet: Feet, body: str) -> Step:
    """Return how tubes' plugs are screwed on."""
    foot = feet[0]
    return Step(
        title="Screw the plugs on",
        words=(
            "Press a nut into the hexagon of each plug.",
            f"Put the screw up through the recess of each {body}, from the pad's side, and "
            "turn the plug onto it until it lies tight.",
        ),
        there=(body,),
        adds=("plug",),
        hardware="screws",
        owner=foot.name,
        uses=(*printed(feet, (body, "plug")), *taken(feet, "screw ", "nut ")),
    )


def _clamped(feet: Feet, body: str) -> Step:
    """Return how studs are clamped in their caps."""
    foot = feet[0]
    return Step(
        title="Clamp the studs",
        words=(
            f"Put the screw up through each {body} from the pad's side, a washer and a nut "
            f"on it, and tighten them onto the {body}: its head must not move in the "
            "recess.",
        ),
        adds=(body,),
        hardware="clamped",
        owner=foot.name,
        uses=taken(feet, "screw ", "nut ", "washer"),
    )


def _laid_in(feet: Feet, body: str) -> Step:
    """Return how a screw that stands up is put in before anything hides its head."""
    foot = feet[0]
    return Step(
        title="Lay the screws in",
        words=(
            f"Put the screw up through each {body} from the pad's side, its head into the "
            "hexagon: once that is closed it cannot be put in any more.",
        ),
        adds=(body,),
        hardware="standing",
        owner=foot.name,
        uses=taken(feet, "screw "),
    )


Made = Callable[[Feet, str], Step]
_HELD: dict[str, Made] = {"insert": _inserted, "nut": _nuts_pressed}
_SCREWED: dict[str, Made] = {
    "socket": _socketed,
    "plug": _plugged,
    "stud": _clamped,
    "captive": _laid_in,
}
"""How the cap gets what it holds, by the way to hold a foot."""


def late(feet: Feet) -> bool:
    """Return whether a foot is screwed on through its pocket, before its pad is glued in."""
    return feet[0].fastening.driven


def closed(feet: Feet) -> tuple[Step, ...]:
    """Return how the recess is closed that screw, nut or insert lies in."""
    foot = feet[0]
    if not foot.covered:
        return ()
    return (
        Step(
            title="Close the recess",
            words=(
                "Last look at what lies in it: nobody gets there again. Glue the cover into the "
                "cup, and let it cure.",
            ),
            cautions=("glue",),
            there=("cup",),
            adds=("cover",),
            owner=foot.name,
            uses=printed(feet, ("cover",)),
        ),
    )


def padded(feet: Feet) -> tuple[Step, ...]:
    """Return how pads, soles and treads are glued on, after all that they hide."""
    foot = feet[0]
    tread = ("tread",) if foot.tread > 0 else ()
    under = ("Glue the tread under it, grooves to the desk.",) if tread else ()
    cautions: tuple[Care, ...] = ("glue",)
    owner = foot.name
    if foot.mounted:
        return (
            Step(
                title="Glue the flexible bodies on",
                words=(
                    "Roughen both faces and glue each body to its mount all over, edges flush.",
                    *under,
                    PRESS,
                ),
                cautions=cautions,
                there=("mount",),
                adds=("foot", *tread),
                owner=owner,
                uses=printed(feet, ("foot", *tread)),
            ),
        )
    if foot.build.soft_body:
        return (
            (
                Step(
                    title="Glue the treads on",
                    words=(*under, "Let it cure."),
                    cautions=cautions,
                    there=("foot",),
                    adds=tread,
                    owner=owner,
                    uses=printed(feet, tread),
                ),
            )
            if tread
            else ()
        )
    if foot.pad.outline.halved:
        hole = (
            (
                "Pierce the wall of each half close to its flat face, some 2 mm wide: shut-in air "
                "would be a second spring.",
            )
            if foot.pad.second > 0
            else ()
        )
        return (
            Step(
                title="Glue the half-balls in",
                words=(
                    *hole,
                    "Roughen each half's flat face and glue it all over into its "
                    f"cup{_whose(feet)}.",
                    PRESS,
                ),
                cautions=cautions,
                there=("cup", "cover"),
                adds=("pad",),
                owner=owner,
                uses=printed(feet, ("pad",)),
            ),
        )
    return (
        Step(
            title="Glue pads and soles",
            words=(
                f"Glue each pad all over into its cup{_whose(feet)}, then the sole onto the pad "
                "inside the scribed line, edges of cup and sole flush: a pad that sticks to the "
                "rim isolates nothing.",
                *under,
                PRESS,
            ),
            cautions=cautions,
            there=("cup", "cover"),
            adds=("pad", "sole", *tread),
            owner=owner,
            uses=printed(feet, ("pad", "sole", *tread)),
        ),
    )


def _whose(feet: Feet) -> str:
    return ", letter to letter" if len(feet) > 1 else ""
