"""The feet: where they may stand and how they are held, or those that are there: [feet]."""

from __future__ import annotations

import textwrap
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Literal

from isolator.brief.known_feet import GivenFoot, GivenTable, NowFoot, NowTable
from isolator.design import ATTACHMENTS
from isolator.design.attachment import FIXINGS, GLUED, asking, attachment_thread
from isolator.design.axes import Pair
from isolator.design.sheet import MOST_HOLES
from isolator.reading.keys import Key, by, maybe
from isolator.reading.notes import Notes, shown
from isolator.reading.number_keys import places, quantities, quantity
from isolator.reading.table import Table, many, one
from isolator.reading.word_keys import beside, choice, flag

PadsWish = Literal["auto", "equal", "level"]
"""Whether all feet get one pad, or each the one under which the printer stays level."""

ATTACHMENT_MEANINGS = {
    **dict.fromkeys(("glue", "glued", "tape", "sticky", "nothing", "none"), GLUED),
    **{"2020": "slot-20", "3030": "slot-30", "4040": "slot-40"},
    **dict.fromkeys(("wood screw", "chipboard screw"), "self-tapping"),
    **dict.fromkeys(("rod", "threaded rod"), "rod-end"),
    **dict.fromkeys(("tube", "pipe"), "tube-end"),
    **dict.fromkeys(("sheet", "plate"), "panel"),
    **dict.fromkeys(("screw", "screwed", "bolted"), "bolt"),
}
"""Attachments by other words, the telling ones first."""
PADS_WISHES: tuple[PadsWish, ...] = ("auto", "equal", "level")
SHEET = "sheet"
METALS = (SHEET, "rails", "edges", "brackets")
"""What of a frame feet may be fixed to: its whole underside, or less."""
USUAL_WIDTHS = {"rails": 0.020, "edges": 0.015, "brackets": 0.040}
"""Of a profile, of a folded edge, of a bracket's side [m]; common practice, no source."""
MOST_FEET = 24
MOST_RAILS = 8
RULED_COUNTS = (3, 4, 6)
"""The counts that `foot_positions` can place by the inset."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Feet:
    """Where feet may stand and how they are fixed, or the feet that are there.

    `positions` rules where it is given; otherwise `foot_positions` makes them from one of `count`
    and `inset`. The first of `count` is also how many stand there now.
    """

    positions: tuple[Pair, ...] | None  # [m]; None: from count and inset
    count: tuple[int, ...]  # how many feet may be tried
    inset: float  # from the printer's outside to a foot's middle [m]
    attachment: str  # one of isolator.design.ATTACHMENTS
    bolt: float  # nominal thread diameter [m]; 0 for none
    tube: float  # inner diameter of the tube for "tube-end" [m]; 0 otherwise
    rod: float = 0.0  # outer diameter of the rod for "rod-end" [m]; 0 otherwise
    holes: tuple[Pair, ...] = ()  # places of screws from a foot's middle [m]
    grip: float = 0.0  # thickness of frame that the screws go through [m]; 0: not known
    fixing: str = "screw"  # of isolator.design.attachment.FIXINGS
    slot_along: str = "x"  # which way the slots run
    slot_key: float = 0.0  # width of the slot in which a loose key guides [m]; 0: no key
    tread: float | None = 0.0  # of a flexible one under the sole [m]; 0: none; None: where needed
    metal: str = SHEET  # one of METALS
    metal_width: float = 0.0  # of a rail, an edge or a bracket [m]; 0: the usual
    rails: tuple[float, ...] = ()  # middle lines of rails [m]; empty: the usual
    pads: PadsWish = "auto"
    weights: tuple[float, ...] = ()  # what scales show under the feet as they stand now [kg]
    engrave: bool = True
    given: tuple[GivenFoot, ...]  # empty: to be designed
    now: NowFoot | None  # None: the brief does not say
    design: Path | None  # a design.toml whose feet are meant; None: not from a design


def _read_count(notes: Notes, path: str, raw: Any) -> tuple[int, ...]:
    counts = raw if isinstance(raw, list) else [raw]
    fits = 1 <= len(counts) <= len(RULED_COUNTS) and all(type(n) is int for n in counts)
    if fits and all(n in RULED_COUNTS for n in counts):
        return tuple(dict.fromkeys(counts))
    got = ", ".join(shown(each) for each in counts[:6]) or "an empty list"
    wanted = "3, 4 or 6, or a list of these"
    notes.fault(path, got, wanted, "write other numbers of feet as positions")
    return (4,)


def _others(default: str) -> str:
    """Return the attachments besides the default, in lines that follow its own."""
    rows = ((name, row.of) for name, row in ATTACHMENTS.items() if name != default)
    told = ", ".join(f"{name} ({of})" if of else name for name, of in rows)
    return "\n".join(textwrap.wrap(f"or {told}", 96, initial_indent=" " * 48)).lstrip()


class FeetTable(Table):
    """[feet]."""

    count: Key[tuple[int, ...]] = Key(
        read=_read_count,
        write=lambda counts, digits: list(counts),
        default=((4,), "one in each corner, as printers stand"),
        comment="or 3, 6, or a list of those to try; the first stand there now",
    )
    inset = quantity(
        "m",
        lambda t: t.usual_inset,
        "estimated",
        usual=(0.0, 0.15),
        comment="from the outside to a foot's middle; along its rail where it hangs on one",
    )
    positions = places(
        0,
        MOST_FEET,
        wanted=f"a list of 3 to {MOST_FEET} places",
        like='[["180 mm", "190 mm"], …]',
        example=[["-180 mm", "-190 mm"], ["180 mm", "-190 mm"], ["0 mm", "190 mm"]],
    )
    attachment = choice(
        tuple(ATTACHMENTS),
        GLUED,
        "fits any frame with a flat underside",
        meanings=ATTACHMENT_MEANINGS,
        comment=_others(GLUED),
    )
    bolt = quantity(
        "m",
        lambda t: t.usual_thread,
        "goes with the attachment",
        example="5 mm",
        comment="thread, where the attachment has one",
    )
    fixing = choice(
        FIXINGS,
        "screw",
        "its head is hidden in the foot",
        example="screw",
        comment=f"for {' and '.join(asking('fixing'))}; or {', '.join(FIXINGS[1:])}",
    )
    grip = by(
        lambda t: not ATTACHMENTS[t.attachment].sheet,
        quantity(
            "m",
            0.0,
            usual=(0.0008, 0.06),
            example="4 mm",
            comment="thickness of frame that screws go through",
        ),
        quantity("m", usual=(0.0008, 0.02)),
    )
    slot_along = choice(
        ("x", "y"), "x", "the profile under the front edge", comment="which way the slots run; or y"
    )
    metal = choice(
        METALS,
        lambda t: "rails" if ATTACHMENTS[t.attachment].slot else SHEET,
        lambda t: (
            "slots are in rails"
            if ATTACHMENTS[t.attachment].slot
            else "flat all over, as far as the printer reaches; tell it where it is not"
        ),
        comment="over the feet: sheet all over; or rails, edges (of sheet), brackets (in corners)",
    )
    metal_width = quantity(
        "m",
        0.0,
        sign="not negative",
        usual=(0.008, 0.08),
        example="20 mm",
        comment="of a rail, an edge or a bracket's side",
    )
    rails = quantities(
        "m",
        range(1, MOST_RAILS + 1),
        (),
        sign="any",
        example=["-200 mm", "200 mm"],
        comment="their middle lines: y where slot_along is x, else x",
    )
    slot_key = quantity(
        "m",
        0.0,
        usual=(0.005, 0.0103),
        example="6 mm",
        comment="width of a slot that a loose key guides in",
    )
    tube = quantity(
        "m", usual=(0.01, 0.06), example="16 mm", comment='inner diameter, for "tube-end"'
    )
    rod = quantity("m", usual=(0.006, 0.03), example="8 mm", comment='diameter, for "rod-end"')
    spacing = quantity(
        "m",
        usual=(0.02, 0.15),
        example="60 mm",
        comment=f"of the two screws of {', '.join(asking('spacing'))}",
    )
    holes = places(
        1,
        MOST_HOLES,
        wanted=f"a list of 1 to {MOST_HOLES} places, from the middle of a foot",
        like='[["-22 mm", "0 mm"], ["22 mm", "0 mm"]]',
        example=[["-30 mm", "0 mm"], ["30 mm", "0 mm"]],
        comment='from a foot\'s middle, for "holes"',
    )
    tread = maybe(
        quantity(
            "m",
            sign="not negative",
            usual=(0.0008, 0.004),
            example="1.2 mm",
            comment="a flexible tread under the sole; 0 mm: none",
        ),
        "a bare sole slips sooner than rubber",
        told="a flexible one under soles that would slip",
    )
    weights = quantities(
        "kg",
        range(1, MOST_FEET + 1),
        (),
        example=["2.7 kg", "2.8 kg", "3.1 kg", "2.9 kg"],
        above="On scales under the feet as they stand, without the spool: in the order of "
        "positions, else\nfront left, front right, back right, back left.",
    )
    pads = choice(
        PADS_WISHES,
        "auto",
        "level where equal pads would not be",
        comment="or equal, level: a pad of its own for each foot",
    )
    engrave = flag(True, "parts say what they are", comment="parts say what they are")
    design = maybe(
        beside(
            folder=False,
            example="out/my-printer/design.toml",
            comment="feet that were designed before",
        )
    )
    given = many(
        GivenTable,
        aside=True,
        above="Feet that are known already, one table each, instead of being designed.",
    )
    now = one(
        NowTable, aside=True, above="What stands under it today; the gain is told against it."
    )

    @property
    def usual_inset(self) -> float:
        """Return where feet stand: half a rail, edge or bracket in where they are fixed to one."""
        if self.metal not in USUAL_WIDTHS or ATTACHMENTS[self.attachment].slot or self.rails:
            return 0.03
        return (self.metal_width or USUAL_WIDTHS[self.metal]) / 2.0

    @property
    def usual_thread(self) -> float:
        """Return the usual thread of the attachment [m]."""
        return ATTACHMENTS[self.attachment].typed or attachment_thread(self.attachment, 0.0, 0.0)
