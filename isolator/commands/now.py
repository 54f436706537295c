"""What is told of the feet that are there now, beside those that were designed."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from isolator.brief import Brief
from isolator.cards import Material
from isolator.commands.progress import Progress
from isolator.report.findings import Findings
from isolator.vibration.evaluation import Question
from isolator.vibration.holds_up import appraise_standing
from isolator.vibration.installation import build_installation
from isolator.vibration.own_feet import build_now_stand
from isolator.vibration.results import Evaluation


def with_now(
    findings: Findings, brief: Brief, cards: Mapping[str, Material], progress: Progress
) -> Findings:
    """Return what a search found with all that is told of the feet there now beside it.

    Left as it is where they are not told, where they are the answer, or nothing was searched.
    """
    if findings.tally is None or findings.kept:
        return findings
    progress("looking at today's feet", 0, 1)
    return replace(findings, now=evaluate_now(brief, dict(cards)))


def evaluate_now(brief: Brief, cards: dict[str, Material]) -> Evaluation | None:
    """Return all that is told of the feet that are there now, None where the brief does not say.

    Raises InputError where they cannot hold the printer.
    """
    now = build_now_stand(brief, cards)
    if now is None:
        return None
    question = Question(speeds=brief.motion.speeds, frequencies=())
    installation = build_installation(brief, cards)
    return appraise_standing(installation, now, question, file=brief.source_file)
