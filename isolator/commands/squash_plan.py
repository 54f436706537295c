"""The test piece and the protocol of a squash test, for the feet of a design."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from isolator.brief import read_brief
from isolator.cards import Material
from isolator.commands.designed import design_file
from isolator.commands.known_cards import known_cards
from isolator.commands.undisturbed import undisturbed
from isolator.design import Design
from isolator.design.read import read_design
from isolator.design.squash_piece import piece_fill
from isolator.measuring.squash_plan import SquashPlan, squash_plan
from isolator.reading.faults import refused
from isolator.reading.printable import printable
from isolator.report.sentences.squash_plan import (
    READINGS,
    plan_steps,
    plan_title,
    readings_text,
)

FOLDER, PROTOCOL = "squash", "protocol.txt"


def plan_of(design: Design, cards: Mapping[str, Material]) -> SquashPlan | None:
    """Return what to squash for the feet of a design; None where they are bought ready."""
    for foot in design.feet:
        card = cards.get(foot.pad.material)
        plan = None if card is None else squash_plan(foot.pad, card, design.print.layer)
        if plan is not None:
            return plan
    return None


def protocol(plan: SquashPlan, design: Design, out: str = "out") -> tuple[str, list[str]]:
    """Return the protocol's title and its steps; `out` is the folder of all designs."""
    fill = piece_fill(plan.piece, design.print)
    return plan_title(plan), plan_steps(plan, fill, f"{out}/{design.slug}")


def write_plan(
    folder: Path, design: Design, cards: Mapping[str, Material]
) -> tuple[str, list[str]] | None:
    """Write protocol, file for readings and, of a print, the test piece into `folder`/squash.

    Return the protocol's title and steps; None, and nothing written, where nothing is to squash.
    """
    plan = plan_of(design, cards)
    if plan is None:
        return None
    title, steps = protocol(plan, design)
    place = folder / FOLDER
    place.mkdir(exist_ok=True)
    lines = [title, "", *(f"{number}. {step}." for number, step in enumerate(steps, 1)), ""]
    (place / PROTOCOL).write_text("\n".join(lines), encoding="utf-8")
    (place / READINGS).write_text(readings_text(plan), encoding="utf-8")
    if plan.piece.pad.printed:
        with undisturbed():
            from geometry.coupon.squash_piece import write_squash_piece
        write_squash_piece(plan.piece, design.print, place)
    return title, steps


def told_plan(path: Path, out: Path) -> tuple[str, list[str]]:
    """Return the protocol for the feet designed from a brief; raises InputError for none."""
    brief = read_brief(path)
    file = design_file(brief, out)
    plan = None
    if file is not None:
        design = read_design(file)
        plan = plan_of(design, known_cards(brief))
        if plan is not None:
            return protocol(plan, design, printable(str(out)))
    raise refused(
        printable(str(path)),
        "feet",
        "feet with nothing to squash" if file is not None else "no feet designed from it",
        "feet of sheet or of flexible filament",
        "run `isolator design` on it first" if file is None else "squash what you can cut or print",
    )
