"""What stands there now as an answer: kept where nothing else is heard less."""

from __future__ import annotations

from dataclasses import replace

from isolator.brief import Brief
from isolator.cards import Material
from isolator.commands.alternatives import kept
from isolator.commands.check import assess
from isolator.commands.search import FoundFeet
from isolator.feet.checks import QUIETER, Bounds
from isolator.feet.foot_checks import standing_checks
from isolator.feet.kinds import KEEP
from isolator.feet.task import FeetTask
from isolator.reading.faults import refused
from isolator.report.findings import Alternative, Findings
from isolator.vibration.band import Check, failed
from isolator.vibration.evaluation import Question
from isolator.vibration.installation import Installation
from isolator.vibration.results import Held
from isolator.vibration.targets import slowest_limit

KEPT = (
    "Keep the feet that are there: nothing in the stock that holds every limit is heard at least "
    "1 dB(A) less, at the louder end of its band."
)


def standing_now(
    installation: Installation, task: FeetTask, before: Held | None, keep: str = ""
) -> Alternative | None:
    """Return what stands there now as one of the answers, None where it fails a check or is not
    told.

    `keep` is the brief's file where it is to be kept: InputError is raised where it cannot be.
    """
    motion, limits = installation.excitation.motion, installation.limits
    bounds = Bounds(task=task, limits=limits, modes=slowest_limit(motion))
    others = f"ask for feet of another kind than {KEEP}"
    if before is None:
        if keep:
            advice = f"tell them under [feet.now], or {others}"
            raise refused(keep, "feet.now", "nothing", "the feet there now", advice)
        return None
    broken = failed(standing_checks(before, bounds))
    if broken:
        if keep:
            names = ", ".join(check.name for check in broken)
            advice = f"look at them with isolator check --now, or {others}"
            raise refused(
                keep, "feet.now", f"feet that fail: {names}", "feet that hold every check", advice
            )
        return None
    return kept(before.sway.worst, limits.sway, len(motion.speeds), len(before.feet))


def keep_now(
    brief: Brief,
    cards: dict[str, Material],
    question: Question,
    found: FoundFeet,
    others: tuple[Alternative, ...],
) -> Findings:
    """Return what is told of the feet that are there, as the answer of a search."""
    there = replace(brief, feet=replace(brief.feet, given=(), design=None))
    findings = assess(there, cards, question, None, kept=True)
    same = tuple(_unchanged(check, brief.limits.least_gain_db) for check in findings.checks)
    told = [replace(each, chosen=each.kind == KEEP) for each in others]
    told.sort(key=lambda each: not each.chosen)
    return replace(
        findings,
        answer=(KEPT, *findings.answer),
        checks=same,
        tally=found.tally(),
        cloud=replace(found.cloud, chosen=-1),
        alternatives=tuple(told),
        kept=True,
    )


def _unchanged(check: Check, least: float) -> Check:
    """Return a check with what is heard as it was: against itself nothing changes."""
    if check.name != QUIETER:
        return check
    return replace(check, value=0.0, passed=least <= 0.0)
