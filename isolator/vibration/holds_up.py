"""Feet that are there and must hold the printer: evaluated, or refused where they cannot."""

from __future__ import annotations

import math

from isolator.reading.faults import InputError, refused
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
        raise _falls(file, stand, str(error)) from None
    if min(mode.frequency.low for mode in found.modes) <= 0 or not math.isfinite(found.sway.worst):
        raise _falls(file, stand, "the printer tips over on them")
    return found


def _falls(file: str, stand: Stand, reason: str) -> InputError:
    return refused(
        file,
        "feet",
        f"{stand.title} that do not hold the printer",
        "feet that carry it upright",
        f"{reason}; set the feet further apart or take stiffer ones",
    )
