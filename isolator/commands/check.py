"""The check: how the feet of a brief isolate at given speeds and frequencies; nothing is drawn."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from isolator.brief import Brief, Motion, read_brief
from isolator.cards import Material
from isolator.commands.known_cards import known_cards, unknown_card
from isolator.commands.to_design import to_design
from isolator.design import Design
from isolator.design.read import read_design
from isolator.feet.checks import Bounds
from isolator.feet.foot_checks import final_checks, standing_checks
from isolator.feet.task import build_feet_task
from isolator.motors.dampers import best_dampers
from isolator.motors.task import build_motor_task
from isolator.reading.faults import InputError, refused
from isolator.report.findings import Findings
from isolator.report.sentences import answer
from isolator.report.sentences.notes import MOVED, checked
from isolator.vibration.evaluation import Question
from isolator.vibration.holds_up import appraise_standing
from isolator.vibration.installation import build_installation
from isolator.vibration.results import Evaluation
from isolator.vibration.stand import Stand, build_now_stand, feet_stand, given_stand
from isolator.vibration.targets import electrical_line, mode_limit
from isolator.workshop.assembly import assembly_steps

UNEQUAL = 1e-5
"""By how much feet under one printer may differ in height [m]."""


def check(
    path: Path, out: Path, speeds: tuple[float, ...], frequencies: tuple[float, ...]
) -> Findings:
    """Evaluate the feet of a brief at the speeds and frequencies asked for."""
    brief = read_brief(path)
    question = Question(speeds=speeds or brief.motion.speeds, frequencies=frequencies)
    return assess(brief, known_cards(brief), question, find_design(brief, out))


def assess(
    brief: Brief, cards: dict[str, Material], question: Question, design: Design | None
) -> Findings:
    """Evaluate the feet of a brief: those given, those of `design`, else those there now.

    The checks are the ones of a design, and as there the modes are asked to lie below the
    electrical line of the slowest speed at which they do, else of the slowest asked about. Raises
    InputError where the brief has no feet, or where they cannot hold the printer up.
    """
    installation = build_installation(brief)
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
    limit = mode_limit(
        electrical_line(brief.motion, _isolated_speed(brief.motion, chosen, question.speeds))
    )
    bounds = Bounds(task=build_feet_task(brief), limits=brief.limits, modes=limit)
    if design is not None and material is not None:
        checks = final_checks(bounds, brief.motion, chosen, design.feet, material)
    else:
        checks = standing_checks(chosen, bounds)
    before = None
    if now is not None:
        asked = replace(question, frequencies=())
        before = appraise_standing(installation, now, asked, file=brief.source_file)
    if design is not None:
        brief = replace(brief, warnings=_warnings(brief, design))
    mounted = best_dampers(build_motor_task(brief), installation.printer, cards, stand)
    found = answer.findings(
        name=brief.name,
        slug=brief.slug,
        ceiling_db=brief.limits.promise_ceiling_db,
        assumed=brief.assumed,
        warnings=brief.warnings,
        chosen=chosen,
        checks=checks,
        design=design,
        cards=cards,
        now=before,
        motors=mounted.results,
        material=material,
        slow=None,
        tally=None,
        cloud=None,
    )
    if design is not None:
        return replace(found, dampers=mounted.dampers)
    # feet that are given are not built, but what goes under motors is
    drawn = to_design(brief, (), mounted.dampers)
    steps = assembly_steps(drawn, answer.names(cards))
    return replace(found, dampers=mounted.dampers, steps=steps)


def _warnings(brief: Brief, design: Design) -> tuple[str, ...]:
    """Return the brief's warnings, with which feet are checked and whether they stand elsewhere."""
    warnings = (checked(brief.feet.design), *brief.warnings)
    wanted, there = brief.feet.positions, {at for foot in design.feet for at in foot.positions}
    if wanted is None or set(wanted) == there:
        return warnings
    return (*warnings, MOVED)


def _isolated_speed(motion: Motion, chosen: Evaluation, speeds: tuple[float, ...]) -> float:
    """Return the slowest speed whose electrical line every mode is below, else the slowest."""
    top = max(mode.frequency.high for mode in chosen.modes)
    below = [each for each in speeds if top <= mode_limit(electrical_line(motion, each))]
    return min(below or speeds)


def find_design(brief: Brief, out: Path) -> Design | None:
    """Return the design that a brief means: the file it names, else what was designed under `out`.

    A file that the brief names must be there; without one, nothing is also an answer.
    """
    if brief.feet.given:
        return None
    if brief.feet.design is not None:
        return read_design(brief.feet.design)
    there = out / brief.slug / "design.toml"
    return read_design(there) if there.is_file() else None


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
