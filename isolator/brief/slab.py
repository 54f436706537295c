"""What the printer may stand on, and what the feet go under then: [slab]."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from isolator.brief.feet import Feet
from isolator.brief.known_feet import NowFoot
from isolator.brief.printer import Printer
from isolator.design.attachment import GLUED
from isolator.design.axes import Pair, Triple
from isolator.design.lips import BESIDE_FRAME, LEAST_SHELF, beside_frame, least_lip
from isolator.reading.notes import Notes
from isolator.reading.number_keys import pair, quantity, triple
from isolator.reading.table import Table
from isolator.reading.units import format_quantity
from isolator.reading.word_keys import choice

THINNEST = 5e-3
"""Of a slab that corners can grip [m]."""
OVER_GAP = 6e-3
"""By which printed corners stand over the frame's underside where nothing is told [m]."""
DENSITY = 2300.0
"""Of a concrete paver [kg/m³]; usual figure, from memory."""
OWN_INSET = 0.03
"""From the outside to the middle of a printer's own feet [m]; estimated."""
BETWEEN = ("feet", "none")
"""What stands between the printer and its slab: its own feet, or nothing, so that both are one."""
USUAL_FEET = NowFoot(
    material="nr-70", shape="disc", first=0.02, second=0.0, thickness=0.01, bonded=True
)
"""A printer's own feet where the brief does not tell them: rubber bumpers; estimated."""
HEAVIER = ((120.0, 0.02), (270.0, 0.03), (480.0, 0.04), (1080.0, 0.06))
"""Up to which load on each [N] bumpers are how wide [m]; half as tall; estimated."""


def usual_feet(load: float) -> NowFoot:
    """Return the bumpers that usually stand under a printer with `load` [N] on each."""
    wide = next((width for most, width in HEAVIER if load <= most), 0.08)
    return replace(USUAL_FEET, first=wide, thickness=wide / 2.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Slab:
    """A slab, such as a paver, on which the printer stands; the feet go under it."""

    size: Triple  # width, depth, thickness [m]
    mass: float  # [kg]
    position: Pair  # of its middle [m]
    gap: float  # from the printer's underside down to its upper face [m]
    between: str = "none"  # one of BETWEEN
    lip: float  # height of printed corners that hold the printer's frame [m]; 0: none


class SlabTable(Table):
    """[slab]."""

    size = triple(
        "m",
        sign="positive",
        names="width, depth and thickness",
        example=["460 mm", "480 mm", "40 mm"],
    )
    mass = quantity(
        "kg",
        lambda t: DENSITY * math.prod(t.size),
        "a concrete paver of this size; weigh it",
        usual=(3.0, 60.0),
        example="20.3 kg",
        comment="weigh it",
    )
    position = pair("m", (0.0, 0.0), "under the middle", sign="any", comment="of its middle")
    gap = quantity(
        "m",
        lambda t: t.own_height if t.on_feet else 0.0,
        lambda t: "the height of its own feet" if t.on_feet else "the frame lies on it",
        sign="not negative",
        usual=(0.0, 0.04),
        comment="from the printer's underside down to it",
    )
    between = choice(
        BETWEEN,
        lambda t: "feet" if t.on_feet else "none",
        lambda t: (
            "rubber bumpers, 20 mm by 10 mm high, where feet.now does not tell"
            if t.on_feet
            else "the frame lies on it or is glued to it"
        ),
        comment='or "feet": the printer keeps its own',
    )
    lip = quantity(
        "m",
        lambda t: round(t.gap + OVER_GAP, 9),
        "holds the printer's frame, so that it cannot walk off",
        sign="not negative",
        usual=(0.0, 0.05),
        comment="height of printed corners that hold the frame",
    )

    @property
    def on_feet(self) -> bool:
        """Return whether the printer stands on feet of its own on the slab."""
        if self.has("between"):
            return self.between == "feet"
        return self.gap > 0.0 if self.has("gap") else self.own_now

    @property
    def own_now(self) -> bool:
        """Return whether the printer's own feet are told."""
        feet = self.up.feet
        return bool(feet.has("now") and feet.now.under == "printer")

    @property
    def own_height(self) -> float:
        """Return how tall its own feet are [m]."""
        return float(self.up.feet.now.thickness) if self.own_now else USUAL_FEET.thickness


def read_slab(table: SlabTable) -> Slab:
    """Return the slab; its mass follows from its size where it is not weighed."""
    size = table.size
    table.check("mass", "position")
    if size[2] < THINNEST:
        table.fault(
            "size",
            format_quantity(size[2], "mm"),
            f"a thickness of {format_quantity(THINNEST, 'mm')} or more",
            "width, depth, then the thickness of the slab",
        )
    return table.whole(Slab)


def judge_slab(notes: Notes, slab: Slab, feet: Feet, printer: Printer) -> Slab:
    """Note what cannot be: a printer beyond its slab, feet beside it, feet that are screwed on.

    Returns the slab, without lips where the brief does not ask for them and they find no room.
    """
    if not notes.clean("slab", "feet", "printer"):
        return slab
    for axis, (side, own, middle) in enumerate(
        zip(slab.size[:2], printer.size[:2], slab.position, strict=True)
    ):
        if side / 2.0 - abs(middle) < 0.35 * own:
            notes.fault(
                "slab.size",
                format_quantity(side, "mm"),
                f"a slab under the printer's {format_quantity(own, 'mm')} along {'xy'[axis]}",
                "take a larger one, or mend slab.position",
            )
    if slab.between == "feet":
        _judge_stance(notes, slab, printer)
    for index, place in enumerate(feet.positions or (), 1):
        if any(
            abs(at - middle) > side / 2.0
            for at, middle, side in zip(place, slab.position, slab.size[:2], strict=True)
        ):
            notes.fault(
                f"feet.positions[{index}]",
                "a place beside the slab",
                "a place under it",
                "with [slab] the feet go under the slab",
            )
    if feet.attachment != GLUED:
        notes.warn("feet.attachment", "is ignored: under a slab pads are glued")
    if feet.tread:
        notes.warn("feet.tread", "is ignored: pads under a slab have none")
    return _judge_lips(notes, slab, printer)


def _judge_stance(notes: Notes, slab: Slab, printer: Printer) -> None:
    """Doubt a slab that the printer's own feet would stand beside."""
    for axis, middle in enumerate(slab.position):
        apart = printer.size[axis] - 2.0 * OWN_INSET
        if slab.size[axis] / 2.0 - abs(middle) < apart / 2.0:
            notes.warn(
                "slab.size",
                f"{format_quantity(slab.size[axis], 'mm')} along {'xy'[axis]} is less than the "
                f"printer's own feet need: they stand {format_quantity(apart, 'mm')} apart, as far "
                "as is known; measure them",
            )


def _judge_lips(notes: Notes, slab: Slab, printer: Printer) -> Slab:
    if slab.lip == 0:
        return slab
    if slab.lip < least_lip(slab.gap) - 1e-9:
        notes.fault(
            "slab.lip",
            format_quantity(slab.lip, "mm"),
            f"{format_quantity(least_lip(slab.gap), 'mm')} or more",
            f"the frame is {format_quantity(slab.gap, 'mm')} over the slab: lower corners would "
            'hold nothing; or write lip = "0 mm"',
        )
        return slab
    room = min(min(each) for each in beside_frame(slab.size, slab.position, printer.size))
    if room >= LEAST_SHELF + BESIDE_FRAME - 1e-9:
        return slab
    least = format_quantity(LEAST_SHELF + BESIDE_FRAME, "mm")
    if any(each.key == "slab.lip" for each in notes.assumed):
        notes.warn(
            "slab.lip",
            f"is left out: the slab is not {least} wider than the printer at every side; put an "
            "anti-slip sheet between them",
        )
        return replace(slab, lip=0.0)
    notes.fault(
        "slab.lip",
        format_quantity(slab.lip, "mm"),
        f"{least} of slab beside the printer at every side",
        'take a larger slab, or write lip = "0 mm"',
    )
    return slab
