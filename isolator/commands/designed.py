"""The feet of a design that is there already: where it lies, and how its feet stand."""

from __future__ import annotations

import contextlib
from pathlib import Path

from isolator.brief import Brief
from isolator.cards import Material
from isolator.commands.exchange import mend
from isolator.commands.known_cards import unknown_card
from isolator.commands.manifest import SHEET, is_of, origin_of
from isolator.design import Design
from isolator.reading.faults import InputError, refused
from isolator.vibration.stand import Stand, feet_stand

UNEQUAL = 1e-5
"""By how much feet under one printer may differ in height [m]."""


def design_file(brief: Brief, out: Path) -> Path | None:
    """Return the design that a brief means: the file it names, else what was designed from it.

    That lies under `out`; what another brief of the same name left there is not meant. A file that
    the brief names must be there; without one, nothing is also an answer.
    """
    if brief.feet.given:
        return None
    if brief.feet.design is not None:
        return brief.feet.design
    folder = out / brief.slug
    with contextlib.suppress(OSError):  # where nothing may be written, nothing was left either
        mend(out)
    origin = origin_of(brief.name, Path(brief.source_file))
    there = folder / SHEET
    return there if there.is_file() and is_of(folder, origin) else None


def designed_stand(
    brief: Brief, cards: dict[str, Material], design: Design
) -> tuple[Stand, Material]:
    """Return the stand of a design's feet; all must be of one material and equally tall."""
    where = str(brief.feet.design or "design.toml")
    if not design.feet:
        raise refused(
            where,
            "foot",
            "no feet",
            "one kind of feet or more",
            "run `isolator design` on the brief again",
        )
    if design.slab is not None and brief.slab is None:
        size = ", ".join(f'"{side * 1e3:g} mm"' for side in design.slab.size)
        raise refused(
            where,
            "slab",
            "feet designed under a slab",
            "the same slab in the brief",
            f"write [slab] with size = [{size}] there, or say it with --set slab.size='[{size}]'",
        )
    idents = list(dict.fromkeys(foot.pad.material for foot in design.feet))
    if len(idents) > 1:
        raise refused(
            where,
            "foot.pad.material",
            f'"{idents[0]}" and "{idents[1]}"',
            "pads of one material",
            "check one material at a time",
        )
    heights = [foot.height for foot in design.feet]
    if max(heights) - min(heights) > UNEQUAL:
        raise refused(
            where,
            "foot",
            f"feet {min(heights) * 1e3:g} to {max(heights) * 1e3:g} mm tall",
            "feet that are equally tall",
            "make cap, pad, sole and tread add up to the same height",
        )
    material = cards.get(idents[0])
    if material is None:
        raise InputError([unknown_card(where, "foot.pad.material", idents[0], cards)])
    return feet_stand(brief.room, design.feet, material), material
