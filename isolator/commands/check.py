"""The check: how the feet of a brief isolate at given speeds and frequencies; nothing is drawn."""

from __future__ import annotations

import contextlib
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from typing import Literal

from isolator.brief import Brief, read_brief
from isolator.cards import Material
from isolator.commands.exchange import mend
from isolator.commands.known_cards import known_cards, unknown_card
from isolator.commands.manifest import SHEET, is_of, origin_of
from isolator.commands.to_design import to_design
from isolator.commands.would_pass import (
    with_acceleration,
    with_centre,
    with_settings,
    with_speed,
    with_wider_pads,
)
from isolator.design import Design
from isolator.design.read import is_design, read_design
from isolator.feet.checks import Bounds
from isolator.feet.foot_checks import final_checks, heard_checks, standing_checks
from isolator.feet.task import build_feet_task
from isolator.motors.dampers import best_dampers
from isolator.motors.task import build_motor_task
from isolator.motors.whole import with_dampers
from isolator.reading.changes import Change
from isolator.reading.faults import InputError, refused
from isolator.reading.printable import printable
from isolator.report.findings import Findings, Judged
from isolator.report.sentences import answer
from isolator.report.sentences.notes import MOVED
from isolator.vibration.evaluation import Question
from isolator.vibration.holds_up import appraise_standing
from isolator.vibration.installation import build_installation
from isolator.vibration.stand import Stand, build_now_stand, feet_stand, given_stand
from isolator.vibration.targets import slowest_limit
from isolator.workshop.assembly import assembly_steps

UNEQUAL = 1e-5
"""By how much feet under one printer may differ in height [m]."""


def check(
    path: Path,
    out: Path,
    speeds: tuple[float, ...],
    frequencies: tuple[float, ...],
    directions: tuple[float, ...] = (),
    *,
    now: bool = False,
    others: Sequence[Path] = (),
    changes: Sequence[Change] = (),
) -> tuple[Findings, ...]:
    """Evaluate the feet of a brief at the speeds and frequencies asked for.

    `directions` [rad] of moves are told one by one, beside the mean over all. `now` asks for the
    feet there now, whatever else there is. `others` are briefs, or designs for this printer, that
    are asked the same; their findings follow. `changes` are made to the first brief.
    """
    brief = read_brief(path, changes)
    question = Question(
        speeds=speeds or brief.motion.speeds, frequencies=frequencies, directions=directions
    )
    briefs = [(_standing_now(brief) if now else brief)]
    for other in others:
        if is_design(other):
            feet = replace(brief.feet, given=(), design=other)
            briefs.append(replace(brief, feet=feet))
        else:
            briefs.append(read_brief(other))
    return tuple(
        _judge(each, out, question, now=now and number == 0) for number, each in enumerate(briefs)
    )


def _judge(brief: Brief, out: Path, question: Question, *, now: bool) -> Findings:
    """Evaluate the feet of one brief, and say which they are."""
    file = None if now else design_file(brief, out)
    design = None if file is None else read_design(file)
    found = assess(brief, known_cards(brief), question, design)
    if file is not None:
        return replace(found, judged=_judged("designed", file))
    kind: Literal["given", "there now"] = "given" if brief.feet.given else "there now"
    return replace(found, judged=_judged(kind, Path(brief.source_file)))


def _judged(feet: Literal["given", "designed", "there now"], file: Path) -> Judged:
    return Judged(feet=feet, file=printable(str(file)), made=file.stat().st_mtime)


def _standing_now(brief: Brief) -> Brief:
    """Return the brief with no feet but those there now; refuse one that does not tell them."""
    if brief.feet.now is None:
        advice = "tell them under [feet.now], or leave out --now"
        raise refused(brief.source_file, "feet.now", "nothing", "the feet there now", advice)
    return replace(brief, feet=replace(brief.feet, given=(), design=None))


def assess(
    brief: Brief, cards: dict[str, Material], question: Question, design: Design | None
) -> Findings:
    """Evaluate the feet of a brief: those given, those of `design`, else those there now.

    The checks are the ones of a design. Raises InputError where the brief has no feet, or where
    they cannot hold the printer up.
    """
    installation = build_installation(brief, cards)
    now = build_now_stand(brief, cards)
    material: Material | None = None
    if brief.feet.given:
        stand, design = given_stand(brief.feet.given), None
    elif design is not None:
        stand, material = _designed(brief, cards, design)
    elif now is not None:
        stand, now = now, None
        material = stand.material
    else:
        raise refused(
            brief.source_file,
            "feet",
            "no feet to check",
            "[[feet.given]], feet.design, or [feet.now]",
            "add one of them, or run `isolator design` on this brief first",
        )
    chosen = appraise_standing(installation, stand, question, now, file=brief.source_file)
    limit = slowest_limit(brief.motion, question.speeds)
    bounds = Bounds(task=build_feet_task(brief), limits=brief.limits, modes=limit)
    if design is not None and material is not None:
        checks = final_checks(bounds, brief.motion, chosen, design.feet, material)
    else:
        checks = standing_checks(chosen, bounds)
    grip = installation.surroundings.grip(stand.touches)
    checks = with_centre(checks, installation, stand, bounds)
    checks = with_settings(checks, bounds, grip, material)
    if design is not None and material is not None:
        checks = with_wider_pads(checks, installation, design.feet, material, bounds)
    checks = with_acceleration(checks, installation, stand, bounds, question.speeds)
    before = None
    if now is not None:
        asked = replace(question, frequencies=())
        before = appraise_standing(installation, now, asked, file=brief.source_file)
    if design is not None:
        brief = replace(brief, warnings=_warnings(brief, design))
    motor_task = build_motor_task(brief, chosen.ceiling)
    mounted = best_dampers(motor_task, installation.printer, cards, stand)
    limits = installation.limits
    chosen = with_dampers(chosen, mounted.whole, limits.promise_ceiling_db, limits.least_gain_db)
    checks = (*checks, *with_speed(heard_checks(chosen, bounds), chosen))
    found = answer.findings(
        name=brief.name,
        slug=brief.slug,
        ceiling_db=chosen.ceiling,
        assumed=brief.assumed,
        warnings=brief.warnings,
        chosen=chosen,
        checks=checks,
        design=design,
        cards=cards,
        now=before,
        motors=mounted.results,
        material=material,
    )
    if design is not None:
        return replace(found, dampers=mounted.dampers)
    # feet that are given are not built, but what goes under motors is
    drawn = to_design(brief, (), mounted.dampers)
    steps = assembly_steps(drawn, answer.names(cards))
    return replace(found, dampers=mounted.dampers, steps=steps)


def _warnings(brief: Brief, design: Design) -> tuple[str, ...]:
    """Return the brief's warnings, and whether the feet stand elsewhere than it says."""
    warnings = brief.warnings
    wanted, there = brief.feet.positions, {at for foot in design.feet for at in foot.positions}
    if wanted is None or set(wanted) == there:
        return warnings
    return (*warnings, MOVED)


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


def _designed(brief: Brief, cards: dict[str, Material], design: Design) -> tuple[Stand, Material]:
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
