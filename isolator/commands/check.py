"""The check: how the feet of a brief isolate at given speeds and frequencies; nothing is drawn."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import partial
from pathlib import Path
from typing import Literal

from isolator.brief import Brief, read_brief
from isolator.cards import Material
from isolator.commands.beside import Begin, here
from isolator.commands.designed import design_file, designed_stand
from isolator.commands.known_cards import known_cards
from isolator.commands.paver import Reread, under_paver, with_paver
from isolator.commands.remedies import best_remedy, loudest, of_paver
from isolator.commands.to_design import to_design
from isolator.commands.trial import failing
from isolator.commands.would_pass import with_all, with_speed
from isolator.design import Design
from isolator.design.read import is_design, read_design
from isolator.feet.checks import Bounds
from isolator.feet.foot_checks import final_checks, heard_checks, standing_checks
from isolator.feet.task import build_feet_task
from isolator.motors.dampers import best_dampers
from isolator.motors.task import build_motor_task
from isolator.motors.whole import spoiled, with_dampers
from isolator.reading.changes import Change
from isolator.reading.faults import refused
from isolator.reading.printable import printable
from isolator.report.findings import Findings, Judged, Remedy
from isolator.report.sentences import answer
from isolator.report.sentences.notes import MOVED
from isolator.vibration.compared import uncompared
from isolator.vibration.evaluation import Question
from isolator.vibration.holds_up import appraise_standing
from isolator.vibration.installation import build_installation
from isolator.vibration.own_feet import build_now_stand
from isolator.vibration.stand import given_stand
from isolator.vibration.targets import slowest_limit
from isolator.workshop.assembly import assembly_steps

MOST_SPEEDS = 8
"""At so many speeds asked about a paver is tried; more would take too long."""


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
    begin: Begin = here,
) -> tuple[Findings, ...]:
    """Evaluate the feet of a brief at the speeds and frequencies asked for.

    `directions` [rad] of moves are told one by one, beside the mean over all. `now` asks for the
    feet there now, whatever else there is. `others` are briefs, or designs for this printer, that
    are asked the same; their findings follow. `changes` are made to the first brief. What does
    not wait for anything else goes to `begin`.
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

    def reread(more: Sequence[Change]) -> Brief:
        return read_brief(path, (*changes, *more))

    # a design of the brief as it lies there is told, without changes made for one check
    first = _judge(briefs[0], out, question, begin, None if changes else reread, now=now)
    return (first, *(_judge(each, out, question) for each in briefs[1:]))


def _judge(
    brief: Brief,
    out: Path,
    question: Question,
    begin: Begin = here,
    reread: Reread | None = None,
    *,
    now: bool = False,
) -> Findings:
    """Evaluate the feet of one brief, and say which they are."""
    file = None if now else design_file(brief, out)
    design = None if file is None else read_design(file)
    found = assess(brief, known_cards(brief), question, design, begin, reread)
    if file is not None:
        return replace(found, judged=_judged("designed", file))
    kind: Literal["given", "there now"] = "given" if brief.feet.given else "there now"
    judged = _judged(kind, Path(brief.source_file))
    if kind == "there now" and not now:
        judged = replace(judged, looked=printable(str(out)))
    return replace(found, judged=judged)


def _judged(feet: Literal["given", "designed", "there now"], file: Path) -> Judged:
    return Judged(feet=feet, file=printable(str(file)), made=file.stat().st_mtime)


def _standing_now(brief: Brief) -> Brief:
    """Return the brief with no feet but those there now; refuse one that does not tell them."""
    if brief.feet.now is None:
        advice = "tell them under [feet.now], or leave out --now"
        raise refused(brief.source_file, "feet.now", "nothing", "the feet there now", advice)
    return replace(brief, feet=replace(brief.feet, given=(), design=None))


def assess(
    brief: Brief,
    cards: dict[str, Material],
    question: Question,
    design: Design | None,
    begin: Begin = here,
    reread: Reread | None = None,
    *,
    kept: bool = False,
) -> Findings:
    """Evaluate the feet of a brief: those given, those of `design`, else those there now.

    The checks are the ones of a design. Where one fails a paver is tried with what `reread` reads,
    if it is given. Feet there now are compared with nothing, but with bumpers where they are
    `kept`, the answer of a search. Raises InputError where the brief has no feet, or where they
    cannot hold the printer up.
    """
    installation = build_installation(brief, cards)
    there = now = build_now_stand(brief, cards)
    material: Material | None = None
    if brief.feet.given:
        stand, design = given_stand(brief.feet.given), None
    elif design is not None:
        stand, material = designed_stand(brief, cards, design)
    elif now is not None:
        stand, now = now, None
        material = stand.material
    else:
        raise refused(
            brief.source_file,
            "feet",
            "no feet to check",
            "[[feet.given]], feet.design, or [feet.now]",
            "add one of them, run `isolator design` on this brief first, or, if it was designed "
            "into another folder, name that with --out",
        )
    chosen = appraise_standing(installation, stand, question, now, file=brief.source_file)
    if stand is there and not kept:
        chosen = uncompared(chosen)
    limit = slowest_limit(brief.motion, question.speeds)
    bounds = Bounds(task=build_feet_task(brief), limits=brief.limits, modes=limit)
    if design is not None and material is not None:
        checks = final_checks(bounds, brief.motion, chosen, design.feet, material)
    else:
        checks = standing_checks(chosen, bounds)
    feet = () if design is None else design.feet
    checks = with_all(checks, installation, stand, bounds, question.speeds, feet, material)
    heard = with_speed(heard_checks(chosen, bounds), chosen)
    worst, loud = loudest(chosen)
    slabbed = with_paver(brief, reread) if failing((*checks, *heard)) else None
    asked = _asked(brief, question.speeds, worst)
    prefer = brief.stock.prefer
    paver = begin(under_paver, slabbed, cards, prefer, True, asked) if slabbed else None
    before = None
    if now is not None:
        before = appraise_standing(
            installation, now, replace(question, frequencies=()), file=brief.source_file
        )
    if design is not None:
        brief = replace(brief, warnings=_warnings(brief, design))
    motor_task = build_motor_task(brief, chosen.ceiling)
    ceiling, least = brief.limits.promise_ceiling_db, brief.limits.least_gain_db
    spoils = partial(spoiled, chosen, ceiling=ceiling, least=least)
    mounted = best_dampers(motor_task, installation.printer, cards, stand, spoils, question.speeds)
    chosen = with_dampers(chosen, mounted.whole, ceiling, least)
    checks = (*checks, *with_speed(heard_checks(chosen, bounds), chosen))
    trials: list[Remedy] = []
    if failing(checks) and paver is not None:
        trials += of_paver(paver(), worst, failing(checks), loud, brief.source_file)
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
        remedy=best_remedy(checks, trials, loud),
        noise=brief.noise.answers,
    )
    if design is not None:
        return replace(found, dampers=mounted.dampers)
    # feet that are given are not built, but what goes under motors is
    drawn = to_design(brief, (), mounted.dampers)
    steps = assembly_steps(drawn, answer.names(cards))
    return replace(found, dampers=mounted.dampers, steps=steps)


def _asked(brief: Brief, speeds: tuple[float, ...], worst: float | None) -> tuple[float, ...]:
    """Return the speeds asked about [m/s]; of a long range the brief's own and the worst."""
    if len(speeds) > MOST_SPEEDS and worst is not None:
        return tuple(sorted({*brief.motion.speeds, worst}))
    return speeds


def _warnings(brief: Brief, design: Design) -> tuple[str, ...]:
    """Return the brief's warnings, and whether the feet stand elsewhere than it says."""
    warnings = brief.warnings
    wanted, there = brief.feet.positions, {at for foot in design.feet for at in foot.positions}
    if wanted is None or set(wanted) == there:
        return warnings
    return (*warnings, MOVED)
