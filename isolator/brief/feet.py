"""Reading the feet: [feet], [[feet.given]], [feet.now]."""

from __future__ import annotations

from pathlib import Path

from isolator.brief.attaching import read_fixing
from isolator.brief.model import PADS_WISHES, Feet, GivenFoot, NowFoot
from isolator.design import OUTLINES, SHAPES
from isolator.design.axes import Pair
from isolator.reading.notes import shown
from isolator.reading.table import Section
from isolator.reading.values import read_quantities

MOST_FEET = 24
RULED_COUNTS = (3, 4, 6)
"""The counts that `foot_positions` can place by the inset."""


def read_feet(section: Section) -> Feet:
    """Return the feet of a brief; whether the printer stands on them is judged elsewhere."""
    given = _read_given(section.sections("given"))
    design = read_path(section, "design", folder=False)
    ways = [name for name in ("positions", "given", "design") if section.has(name)]
    if len(ways) > 1:
        section.notes.fault(
            section.key,
            " and ".join(ways),
            "one way to say where the feet are",
            f"keep {ways[-1]} or {ways[0]} alone",
        )
    positions = _read_positions(section, given)
    count, inset = _read_count(section, positions)
    held = read_fixing(section)
    feet = Feet(
        positions=positions,
        count=count,
        inset=inset,
        attachment=held.attachment,
        bolt=held.bolt,
        tube=held.tube,
        rod=held.rod,
        holes=held.holes,
        grip=held.grip,
        fixing=held.fixing,
        slot_along=held.slot_along,
        slot_key=held.slot_key,
        tread=(
            section.quantity("tread", "m", sign="not negative", usual=(0.0008, 0.004))
            if section.has("tread")
            else 0.0
        ),
        pads=section.choice("pads", PADS_WISHES, "auto", "level where equal pads would not be"),
        weights=(
            section.quantities("weights", "kg", lengths=range(1, MOST_FEET + 1))
            if section.has("weights")
            else ()
        ),
        engrave=section.flag("engrave", True, "parts say what they are"),
        given=given,
        now=_read_now(section.section("now")) if section.has("now") else None,
        design=design,
    )
    section.done()
    return feet


def read_path(section: Section, name: str, *, folder: bool) -> Path | None:
    """Return a path written relative to the brief, None where the key is absent."""
    if not section.has(name):
        return None
    text = section.text(name, most=300)
    path = Path(section.notes.file).parent / text
    try:
        there = path.is_dir() if folder else path.is_file()
    except OSError:  # a name too long, a folder that may not be entered
        there = False
    if text and not there:
        section.notes.fault(
            section.path(name),
            f'"{text}"',
            "a folder that is there" if folder else "a file that is there",
            "write it relative to the brief's own folder",
        )
    return path


def _read_positions(section: Section, given: tuple[GivenFoot, ...]) -> tuple[Pair, ...] | None:
    if section.has("positions"):
        return _read_places(section)
    if given:
        return tuple((foot.position[0], foot.position[1]) for foot in given)
    return None


def _read_places(section: Section) -> tuple[Pair, ...]:
    key, raw = section.path("positions"), section.raw("positions")
    if not isinstance(raw, list) or len(raw) > MOST_FEET:
        section.notes.fault(
            key,
            shown(raw),
            f"a list of 3 to {MOST_FEET} places",
            'write it like [["180 mm", "190 mm"], …]',
        )
        return ()
    rows = [
        read_quantities(section.notes, f"{key}[{index}]", row, "m", (2,), "any")
        for index, row in enumerate(raw, 1)
    ]
    return tuple((row[0], row[1]) for row in rows)


def _read_count(
    section: Section, positions: tuple[Pair, ...] | None
) -> tuple[tuple[int, ...], float]:
    if positions is not None:
        for name in ("count", "inset"):
            if section.has(name):
                section.notes.fault(
                    section.path(name),
                    f"{name} beside the feet's places",
                    "either the places, or count and inset",
                    f"remove {name}",
                )
        return (len(positions),), 0.0
    key, wanted = section.path("count"), "3, 4 or 6, or a list of these"
    inset = section.quantity("inset", "m", 0.03, "estimated", usual=(0.0, 0.15))
    if not section.has("count"):
        section.notes.assume(key, "4, 3, 6", "all that the rule of places knows are tried")
        return (4, 3, 6), inset
    raw = section.raw("count")
    counts = raw if isinstance(raw, list) else [raw]
    fits = 1 <= len(counts) <= len(RULED_COUNTS) and all(type(n) is int for n in counts)
    if fits and all(n in RULED_COUNTS for n in counts):
        return tuple(dict.fromkeys(counts)), inset
    got = ", ".join(shown(each) for each in counts[:6]) or "an empty list"
    section.notes.fault(key, got, wanted, "write other numbers of feet as positions")
    return (4,), inset


def _read_given(sections: list[Section]) -> tuple[GivenFoot, ...]:
    given = []
    for section in sections:
        given.append(
            GivenFoot(
                position=section.triple("position", "m"),
                stiffness=section.triple("stiffness", "N/m", sign="positive"),
                loss_factor=section.number("loss_factor", 0.1, "estimated", within=(0.0, 2.0)),
                angular=section.triple(
                    "angular",
                    "N*m/rad",
                    (0.0, 0.0, 0.0),
                    "small beside what the feet's distance gives",
                    sign="not negative",
                ),
            )
        )
        section.done()
    return tuple(given)


def _read_now(section: Section) -> NowFoot:
    shape = section.choice("shape", SHAPES, "disc", "the usual shape")
    size = section.quantities("size", "m", lengths=(len(OUTLINES[shape].sizes),))
    first, second = (*size, 0.0)[:2]
    if OUTLINES[shape].holed and second >= first:
        section.notes.fault(
            section.path("size"),
            "a hole as large as the pad",
            "the outer size first, then the hole",
            "turn them round",
        )
    now = NowFoot(
        material=section.text("material"),
        shape=shape,
        first=first,
        second=second,
        thickness=section.quantity("thickness", "m"),
        bonded=section.flag("bonded", True, "friction holds both faces at small motion"),
    )
    section.done()
    return now
