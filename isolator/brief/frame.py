"""How the printer's frame bends: [frame], by its kind, or by what a tap on it showed."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any, NamedTuple

from isolator.brief.printer import Printer
from isolator.reading.keys import Key, maybe
from isolator.reading.notes import Notes, shown
from isolator.reading.number_keys import number, quantities, quantity
from isolator.reading.table import Table
from isolator.reading.units import format_quantity
from isolator.reading.word_keys import choice

RIGID = "rigid"
TAPPED = 1.15
"""Factor either way on a frequency that a tap showed: spools and prints, heat, the tap itself;
estimated."""
MEASURED = ("frequency", "damping", "top_mass")
SLOWEST, FASTEST = 1.0, 1000.0
"""Natural frequencies that a frame may be told to have [Hz]."""
TOP_SHARE = (0.1, 0.9)
"""Of the printer's mass that the upper half of a frame may be told to carry."""


class FrameKind(NamedTuple):
    """A kind of frame as usually built; estimated."""

    shear: float  # shear modulus × thickness of the panel at each side, as it acts [N/m]
    spread: float  # factor either way on its frequencies
    of: str


KINDS = {
    "open": FrameKind(0.0, 2.0, "posts and beams, no panels"),
    "enclosed": FrameKind(7e4, 2.0, "doors and panels that hang in the frame"),
    "panelled": FrameKind(4e5, 2.0, "sheets that are screwed or glued on all round"),
}
"""Frames by kind. A plastic sheet of 3 mm has G·t = 3.6 MN/m (1.2 GPa, from memory); screws every
10 cm leave it a tenth, clips and hinges a fiftieth; estimated, no source."""
_NAMES = (*KINDS, RIGID)


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """How the frame bends: its top against its base."""

    kind: str  # "rigid", or one of KINDS
    frequency: tuple[float, ...]  # racking along x, y, and twist, base held [Hz]; empty: estimated
    damping: tuple[float, ...]  # ratios, as many; or one for all
    top_mass: float | None  # what the upper half carries and weighs [kg]; None: from the printer

    @property
    def spread(self) -> float:
        """Return the factor either way on the frame's frequencies."""
        return TAPPED if self.frequency else KINDS[self.kind].spread


def _one_or_more(several: Key[tuple[float, ...]], one: Key[float]) -> Key[tuple[float, ...]]:
    """Return a key for a list of which a single entry may stand without brackets."""

    def read(notes: Notes, path: str, raw: Any) -> tuple[float, ...]:
        if isinstance(raw, list):
            return several.read(notes, path, raw)
        return (one.read(notes, path, raw),)

    return replace(several, read=read)


_DAMPING = number((0.001, 0.3))


def _read_dampings(notes: Notes, path: str, raw: Any) -> tuple[float, ...]:
    if 1 <= len(raw) <= 3:
        return _DAMPING.each(notes, path, raw)
    notes.fault(path, shown(raw), "1 to 3 damping ratios", "write one, or one for each frequency")
    return (math.nan,)


class FrameTable(Table):
    """[frame]."""

    kind = choice(
        _NAMES,
        "open",
        lambda t: "" if t.has("frequency") else "the softest; a tap on the frame tells more",
        comment=f"or {', '.join(_NAMES[1:])}",
    )
    frequency = _one_or_more(
        quantities(
            "Hz",
            (1, 2, 3),
            (),
            usual=(5.0, 150.0),
            example=["24 Hz", "27 Hz", "41 Hz"],
            comment="from taps along x, along y, in twist, standing hard",
        ),
        quantity("Hz", usual=(5.0, 150.0)),
    )
    damping = _one_or_more(
        Key(
            read=_read_dampings,
            write=lambda values, digits: list(values) if len(values) > 1 else values[0],
            default=(
                (0.02,),
                lambda t: "" if t.kind == RIGID else "bolted frames have 0.01 to 0.04; estimated",
            ),
            comment="ratio, from the same taps",
        ),
        _DAMPING,
    )
    top_mass = maybe(
        quantity(
            "kg",
            usual=(0.5, 25.0),
            example="4.6 kg",
            comment="of the upper half with what it carries",
        )
    )


def read_frame(table: FrameTable, printer: Printer) -> Frame:
    """Return how the frame bends; `printer` is what it carries."""
    if table.kind == RIGID:
        for key in MEASURED:
            if table.has(key):
                table.warn(key, "is ignored: the frame is rigid")
    frame = table.whole(Frame)
    for hertz in frame.frequency:
        if not math.isnan(hertz) and not SLOWEST <= hertz <= FASTEST:
            table.fault(
                "frequency",
                format_quantity(hertz, "Hz"),
                f"{SLOWEST:g} Hz to {FASTEST:g} Hz",
                "the frame's own ringing, with the printer standing hard on a hard floor",
            )
    _judge_dampings(table, frame.frequency, frame.damping)
    _judge_top(table, frame.top_mass, printer.mass)
    return frame


def _judge_dampings(table: FrameTable, found: Sequence[float], told: Sequence[float]) -> None:
    if table.has("damping") and len(told) > 1 and len(told) != len(found):
        table.fault(
            "damping",
            f"{len(told)} ratios for {len(found)} frequencies",
            "one, or one for each frequency",
            "add or remove some",
        )


def _judge_top(table: FrameTable, top: float | None, mass: float) -> None:
    if top is None or math.isnan(top) or math.isnan(mass):
        return
    least, most = (share * mass for share in TOP_SHARE)
    if not least <= top <= most:
        table.fault(
            "top_mass",
            format_quantity(top, "kg"),
            f"{format_quantity(least, 'kg', 3)} to {format_quantity(most, 'kg', 3)} of the "
            f"printer's {format_quantity(mass, 'kg')}",
            "the upper half of the frame with motors, gantry and tool; leave it out if unsure",
        )
