"""Reading [slab]: what the printer stands on, and what the feet go under then."""

from __future__ import annotations

import math

from isolator.brief.model import Feet, Printer, Slab
from isolator.brief.notes import Notes
from isolator.brief.section import Section
from isolator.quantities import format_quantity

DENSITY = 2300.0
"""Of a concrete paver [kg/m³]; usual figure, from memory."""


def read_slab(section: Section) -> Slab:
    """Return the slab; its mass follows from its size where it is not weighed."""
    size = section.triple("size", "m", sign="positive")
    mass = section.quantity(
        "mass", "kg", DENSITY * math.prod(size), "a concrete paver of this size; weigh it",
        usual=(3.0, 60.0),
    )  # fmt: skip
    x, y = section.quantities("position", "m", (0.0, 0.0), "under the middle", lengths=(2,),
                              sign="any")  # fmt: skip
    slab = Slab(
        size=size, mass=mass, position=(x, y),
        gap=section.quantity(
            "gap", "m", 0.0, "the frame lies on it", sign="not negative", usual=(0.0, 0.04)
        ),
        lip=section.quantity(
            "lip", "m", 0.006, "keeps the printer from walking off", sign="not negative",
            usual=(0.0, 0.03),
        ),
    )  # fmt: skip
    section.done()
    return slab


def judge_slab(notes: Notes, slab: Slab, feet: Feet, printer: Printer) -> None:
    """Note what cannot be: a printer beyond its slab, feet beside it, feet that are screwed on."""
    if not notes.clean("slab", "feet", "printer"):
        return
    for axis, (side, own, middle) in enumerate(
        zip(slab.size[:2], printer.size[:2], slab.position, strict=True)
    ):
        if side / 2.0 - abs(middle) < 0.35 * own:
            notes.fault(
                "slab.size", format_quantity(side, "mm"),
                f"a slab under the printer's {format_quantity(own, 'mm')} along {'xy'[axis]}",
                "take a larger one, or mend slab.position",
            )  # fmt: skip
    for index, place in enumerate(feet.positions or (), 1):
        if any(
            abs(at - middle) > side / 2.0
            for at, middle, side in zip(place, slab.position, slab.size[:2], strict=True)
        ):
            notes.fault(
                f"feet.positions[{index}]", "a place beside the slab", "a place under it",
                "with [slab] the feet go under the slab",
            )  # fmt: skip
    if feet.attachment != "adhesive":
        notes.warn("feet.attachment", "is ignored: under a slab pads are glued")
    if feet.tread > 0:
        notes.warn("feet.tread", "is ignored: pads under a slab have none")
