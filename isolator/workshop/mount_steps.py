"""How feet on ready-made mounts are put together, in words."""

from __future__ import annotations

from isolator.design import Foot
from isolator.design.ends import STUD, THREAD, seat
from isolator.design.phrases import millimetres
from isolator.workshop.mount_hardware import mount_uses
from isolator.workshop.step import Step
from isolator.workshop.step_items import Feet, printed

HELD = (
    "Hold the buffer by its metal at that end, never by the other one: tightened across its rubber "
    "it tears off the metal."
)
TURNED = "Stop where the plastic begins to dent; hand-tight and a quarter turn will do."


def plated(feet: Feet, layer: float) -> tuple[Step, ...]:
    """Return how mounts are screwed between their plates, and treads glued on.

    `layer` [m] is the layer height that the plates are drawn in.
    """
    foot = feet[0]
    assert foot.ends is not None
    parts = ("plate", *(("sole",) if foot.sole > 0 else ()))
    words = [_screwed("plate", foot, foot.ends.upper, layer)]
    if foot.sole > 0:
        words.append(_screwed("sole", foot, foot.ends.lower, layer))
    else:
        words.append("Its lower face stands on the desk by itself.")
    screwed = Step(
        title="Screw the buffers to their plates",
        words=(*words, HELD, TURNED),
        adds=(*parts, "pad"),
        hardware="mount",
        owner=foot.name,
        uses=(*printed(feet, parts), *mount_uses(feet, layer)),
    )
    if foot.tread == 0:
        return (screwed,)
    glued = Step(
        title="Glue the treads on",
        words=("Glue a tread under each sole, grooves to the desk.", "Let it cure."),
        cautions=("glue",),
        there=(*parts, "pad"),
        adds=("tread",),
        owner=foot.name,
        uses=printed(feet, ("tread",)),
    )
    return screwed, glued


def _screwed(part: str, foot: Foot, end: str, layer: float) -> str:
    """Return how a plate is screwed to one end of its mount."""
    assert foot.ends is not None
    found, size = seat(foot.ends, end, layer), f"M{foot.ends.thread * 1e3:g}"
    where = "above" if part == "plate" else "below"
    if end == THREAD and found is not None:
        reach = millimetres(found.screw - found.floor, 1)
        return (
            f"Lay each {part} on its buffer, recess away from it, and screw it on from {where} "
            f"with a button screw {size} × {found.screw * 1e3:g}: it reaches {reach} into the "
            "thread. A longer one would end on its ground and clamp nothing."
        )
    assert end == STUD
    return (
        f"Put the stud through each {part}, recess away from the buffer, and a nut {size} on it, "
        "down in the recess: nothing may stand out."
    )
