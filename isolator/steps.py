"""How feet go together, step by step, in words; the pictures are taken from the solids."""

from __future__ import annotations

from isolator.design import Design, Foot
from isolator.design.attachment import FLANGED, SLOTS
from isolator.making import covered
from isolator.result import Step
from isolator.words import millimetres

TIGHT = "hand-tight first, all of them, then a quarter turn each; plastic gives no torque figure"
CUT = "Knives slip: cut away from you on a board, in several light strokes."
HOT = "Iron and insert burn: let the part cool before you touch it."
UNPLUG = (
    "Pull the mains plug and wait until the supply has discharged; let motors, nozzle and bed cool."
)
HEAVY = "Two people turn or lift it, by its frame."
GLUE = "Air the room, wear gloves, and keep to what the glue's maker says."


def assembly_steps(design: Design | None) -> tuple[Step, ...]:
    """Return the steps in their order; none where no feet are designed."""
    if design is None or not design.feet:
        return ()
    foot = design.feet[0]
    if foot.kind == "bare":
        return (_cut(design), *_slab(design), _stand(design))
    return (
        _cut(design), *_prepare(foot), _turn(design), _fix(foot), *_close(foot), _pads(foot),
        _stand(design),
    )  # fmt: skip


def _cut(design: Design) -> Step:
    foot = design.feet[0]
    words = []
    if foot.kind != "bare":
        words.append("Print the plates as they lie, without supports, walls and infill solid.")
    if foot.kind == "printed":
        words.append(
            f"The pad is part of the printed foot: set its infill to the card {foot.pad.material} "
            "between the solid skins that the notes tell."
        )
        return Step(title="Print", words=tuple(words))
    if foot.kind == "ball":
        words.append(
            "Lay each ball into the saw guide and cut it along the flat face into halves that are "
            "equally high."
        )
        return Step(title="Print, and cut the balls", words=tuple(words), cautions=(CUT,))
    words.append(
        "Print a template at true scale, hold its ruler against a rule, and cut the pads; the cut "
        "plan shows how they lie on the sheet."
    )
    if len(design.feet) > 1:
        words.append("Mark every pad with its letter: they differ by tenths of a millimetre.")
    if foot.pad.layers > 1:
        words.append(f"Glue {foot.pad.layers} layers to each pad, edges flush, and let them cure.")
    return Step(title="Print and cut", words=tuple(words), cautions=(CUT,))


def _prepare(foot: Foot) -> tuple[Step, ...]:
    body, more = _body(foot), ""
    if foot.fixing == "insert":
        return (
            Step(
                title="Set the inserts",
                words=(
                    "Set an insert with a soldering iron into the recess of each "
                    f"{body}, from the pad's side, slowly and straight, until it is flush.",
                    "Let it cool under a flat piece of metal, and try a screw.",
                ),
                cautions=(HOT,), adds=(body,), hardware="held",
            ),
        )  # fmt: skip
    if foot.fixing == "nut":
        return (
            Step(
                title="Press the nuts in",
                words=(f"Press a nut into the hexagon of each {body}, from the pad's side.",),
                adds=(body,), hardware="held",
            ),
        )  # fmt: skip
    if foot.attachment == "rod-end":
        more = "socket"
        words = (
            "Put the screw up through the recess and turn the socket onto it until it lies tight "
            "on the foot: it cuts its own thread, so do it once.",
        )
    elif foot.attachment == "tube-end":
        more = "plug"
        words = (
            "Press a nut into each plug. Put the screw up through the recess and turn the plug "
            "onto it until it lies tight on the foot.",
        )
    else:
        return ()
    return (
        Step(
            title=f"Screw the {more}s on",
            words=words,
            there=(body,),
            adds=(more,),
            hardware="screws",
        ),
    )


def _turn(design: Design) -> Step:
    return Step(
        title="Turn the printer over",
        words=(
            "Take spool, print and anything loose off, tie the moving parts, and lay the printer "
            "on its side on a soft cloth. Take the old feet off.",
        ),
        cautions=(UNPLUG, HEAVY),
    )


def _fix(foot: Foot) -> Step:
    body = _body(foot)
    adds = (body, *(("key",) if foot.key > 0 else ()))
    words = {
        "adhesive": (
            f"Degrease frame and {body}, and stick each {body} to the frame with its whole face: "
            "tape pressed on hard for half a minute, or glue.",
        ),
        "tapped-end": (
            f"Screw each {body} to the end of its profile, from the pad's side up into the tapped "
            f"bore, {TIGHT}.",
        ),
        "tube-end": (f"Press the plug of each {body} up into its tube until the foot lies on.",),
        "rod-end": (f"Press the socket of each {body} onto its rod until the rod stands on it.",),
        "stud": (
            f"Turn a thin nut and a washer onto the screw of each {body}, then the screw up into "
            f"the frame's thread. Leave {millimetres(0.01, 0)} to level with, lock the nut last.",
        ),
        "self-tapping": (
            f"Drill the printer's plastic as the screws' maker says and screw each {body} on from "
            f"below, {TIGHT}. Look first that no cable or board lies behind.",
        ),
    }
    if foot.attachment in SLOTS:
        key = " Lay the key into the groove; it stands into the slot." if foot.key > 0 else ""
        told: tuple[str, ...] = (
            f"Slide two slot nuts a foot into the profile.{key} Screw each {body} on from below, "
            f"{TIGHT}. No screw may reach the ground of the slot.",
        )
    elif foot.attachment in words:
        told = words[foot.attachment]
    elif foot.attachment in FLANGED:
        told = (
            f"Put the screws of each {body} up through the frame's holes, washer and nut above, "
            f"{TIGHT}.",
        )
    elif foot.fixing == "screw":
        told = (
            f"Put the screw of each {body} up through the frame, washer and nut above, {TIGHT}.",
        )
    else:
        told = (f"Hold each {body} under its hole and screw it on from above, {TIGHT}.",)
    shown = "" if foot.attachment in ("adhesive", "tube-end", "rod-end") else "screws"
    there = {"tube-end": ("plug",), "rod-end": ("socket",)}.get(foot.attachment, ())
    return Step(
        title="Fix the feet to the frame", words=told, there=there, adds=adds, hardware=shown
    )


def _close(foot: Foot) -> tuple[Step, ...]:
    if not covered(foot):
        return ()
    return (
        Step(
            title="Close the recess",
            words=("Glue the cover over it, chamfered face in, and let it cure.",),
            cautions=(GLUE,), there=("cup",), adds=("cover",),
        ),
    )  # fmt: skip


def _pads(foot: Foot) -> Step:
    tread = " Glue the tread under it, grooves down." if foot.tread > 0 else ""
    added = ("tread",) if foot.tread > 0 else ()
    if foot.kind == "printed":
        if "mount" not in _mounted(foot):
            return Step(
                title="Look at the feet", words=(f"They stand on their flat faces.{tread}",),
                there=("foot",), adds=added,
            )  # fmt: skip
        return Step(
            title="Glue the flexible bodies on",
            words=(f"Glue each body to its mount all over, edges flush, and let it cure.{tread}",),
            cautions=(GLUE,), there=("mount",), adds=("foot", *added),
        )  # fmt: skip
    if foot.kind == "ball":
        return Step(
            title="Glue the half-balls in",
            words=("Glue each half's flat face into its cup, all over, and let it cure.",),
            cautions=(GLUE,), there=("cup",), adds=("pad",),
        )  # fmt: skip
    return Step(
        title="Glue pads and soles",
        words=(
            "Glue each pad all over into its cup, then the sole onto it inside the scribed line, "
            "edges of cup and sole flush: a pad that sticks to the rim isolates nothing."
            + tread,
            "Weigh the soles down evenly and let the glue cure before the printer stands on them.",
        ),
        cautions=(GLUE,), there=("cup", "cover"), adds=("pad", "sole", *added),
    )  # fmt: skip


def _slab(design: Design) -> tuple[Step, ...]:
    lips = design.slab is not None and design.slab.lip > 0
    glued = Step(
        title="Glue the pads under the slab",
        words=(
            "Lay the slab on its upper face, brush and degrease it, mark the places by the plan, "
            "glue each pad on all over and let it cure.",
        ),
        cautions=(HEAVY, GLUE),
    )  # fmt: skip
    if not lips:
        return (glued,)
    corners = Step(
        title="Glue the corners on",
        words=("Turn the slab over and glue a printed corner to each of its corners, lip up.",),
        cautions=(HEAVY,),
    )  # fmt: skip
    return glued, corners


def _stand(design: Design) -> Step:
    slab = design.slab is not None
    what = "Set the slab on its place and the printer on it" if slab else "Set the printer down"
    return Step(
        title="Set it down and try it",
        words=(
            f"{what}, slack in every cable. Look that every foot carries and nothing but the feet "
            "touches the desk.",
            "After a day look at the level again: pads creep. Check belt path, homing, level and "
            "first layer, and attend the first print.",
        ),
        cautions=(
            HEAVY,
            "It now sways and tips more easily: keep children and pets from it.",
        ),
    )


def _body(foot: Foot) -> str:
    return _mounted(foot)[0]


def _mounted(foot: Foot) -> tuple[str, ...]:
    """Return the role of the part that is fixed to the frame."""
    if foot.kind != "printed":
        return ("cup",)
    hides = foot.attachment not in (*FLANGED, "adhesive")
    return ("mount", "foot") if hides else ("foot",)
