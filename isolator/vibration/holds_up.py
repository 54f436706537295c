"""Feet that are there and must hold the printer: evaluated, or refused where they cannot."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from typing import TypeVar

from isolator.reading.faults import InputError, refused
from isolator.vibration.evaluation import Question, appraise, held
from isolator.vibration.installation import Installation
from isolator.vibration.results import Evaluation, Held
from isolator.vibration.stand import Stand

H = TypeVar("H", bound=Held)


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
    return _carrying(lambda: appraise(installation, stand, question, now), stand, file)


def held_standing(
    installation: Installation, stand: Stand, speeds: Sequence[float], *, file: str
) -> Held:
    """Return how the printer stands, sways and swings on feet that are there, without their tones.

    Raises as `appraise_standing`.
    """
    return _carrying(lambda: held(installation, stand, speeds), stand, file)


def _carrying(work: Callable[[], H], stand: Stand, file: str) -> H:
    try:
        found = work()
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
