"""The main job: a brief goes in, a folder of parts and a report comes out."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from isolator.brief import Brief, read_brief
from isolator.cards import Material
from isolator.commands.check import assess
from isolator.commands.known_cards import known_cards
from isolator.commands.manifest import origin_of
from isolator.commands.output import make_ready
from isolator.commands.progress import Progress
from isolator.commands.publish_design import Made, publish_design
from isolator.commands.search import best_feet, offered_feet
from isolator.commands.to_design import to_design
from isolator.feet.task import build_feet_task
from isolator.motors.dampers import best_dampers
from isolator.motors.task import build_motor_task
from isolator.report.findings import Findings
from isolator.report.sentences import answer
from isolator.report.sentences.notes import not_designed_from
from isolator.vibration.evaluation import Question, appraise
from isolator.vibration.holds_up import appraise_standing
from isolator.vibration.installation import build_installation
from isolator.vibration.stand import build_now_stand, feet_stand


def design(path: Path, out: Path, progress: Progress) -> Made:
    """Design the feet of a brief and write everything into `out`/<slug>/."""
    brief = read_brief(path)
    cards = known_cards(brief)
    origin = origin_of(brief.name, path)
    make_ready(out, brief.slug, origin)
    findings = solve(brief, cards, progress)
    if brief.feet.design is not None and not brief.feet.given:
        told = (not_designed_from(brief.feet.design), *findings.warnings)
        findings = replace(findings, warnings=told)
    return publish_design(out, brief, cards, origin, findings, progress)


def solve(brief: Brief, cards: dict[str, Material], progress: Progress) -> Findings:
    """Return all that is told of the best feet and dampers, or of the feet that are given.

    Raises InputError where the stock makes no pad at all, or where what stands there now cannot
    hold the printer.
    """
    question = Question(speeds=brief.motion.speeds, frequencies=())
    if brief.feet.given:
        return assess(brief, cards, question, None)
    installation, task = build_installation(brief, cards), build_feet_task(brief)
    now = build_now_stand(brief, cards)
    file = brief.source_file
    before = appraise_standing(installation, now, question, file=file) if now else None
    offered = offered_feet(task, cards, file)
    found = best_feet(task, installation, offered, progress)
    feet = found.choice.feet
    material = cards[feet[0].pad.material]
    progress("mounting the motors", 0, 1)
    stand = feet_stand(brief.room, feet, material)
    chosen = appraise(installation, stand, question, now)
    motor_task = build_motor_task(brief, chosen.ceiling)
    motors = best_dampers(motor_task, installation.printer, cards, stand)
    return answer.findings(
        name=brief.name,
        slug=brief.slug,
        ceiling_db=chosen.ceiling,
        assumed=brief.assumed,
        warnings=brief.warnings,
        chosen=chosen,
        checks=found.choice.checks,
        design=to_design(brief, feet, motors.dampers),
        cards=cards,
        now=before,
        motors=motors.results,
        material=material,
        slow=found.slow,
        tally=found.tally,
        cloud=found.cloud,
    )
