"""Feet that are there and must hold the printer: evaluated, or refused where they cannot."""

from __future__ import annotations

import math

from isolator.reading.faults import Fault, InputError
from isolator.vibration.evaluation import Question, appraise
from isolator.vibration.installation import Installation
from isolator.vibration.results import Evaluation
from isolator.vibration.stand import Stand


def appraise_standing(
    installation: Installation,
    stand: Stand,
    question: Question,
    now: Stand | None = None,
    *,
    file: str,
) -> Evaluation:
    """Evaluate a stand that the brief in `file` says is there.

    Raises InputError where the printer finds no rest on it or tips over, in any case.
    """
    try:
        found = appraise(installation, stand, question, now)
    except ArithmeticError as error:
        raise InputError([_falls(file, stand, str(error))]) from None
    if min(mode.frequency.low for mode in found.modes) <= 0 or not math.isfinite(found.sway.worst):
        raise InputError([_falls(file, stand, "the printer tips over on them")])
    return found


def _falls(file: str, stand: Stand, reason: str) -> Fault:
    return Fault(
        file=file,
        key="feet",
        got=f"{stand.title} that do not hold the printer",
        wanted="feet that carry it upright",
        suggestion=f"{reason}; set the feet further apart or take stiffer ones",
    )
