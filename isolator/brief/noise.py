"""What is heard and when, before anything is built: [noise]."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from isolator.reading.keys import maybe
from isolator.reading.table import Table
from isolator.reading.word_keys import flag

QUESTIONS: Final[Mapping[str, str]] = {
    "fans_only": "motors off, fans on: is it heard?",
    "motors_still": "motors on but holding still, fans off: is it heard?",
    "pushed_by_hand": "motors off, a carriage pushed by hand: is it heard?",
    "held_panel": "a hand pressed on a panel or a cover: does it stop?",
    "on_towel": "on a folded towel, cold, for a minute: is it plainly quieter?",
    "one_speed": "is it loud at some speeds and quiet at others?",
    "hiss": "is it a hiss or a whistle, rather than a hum or a drone?",
    "slow_rattle": "does it rattle more at low speed?",
    "at_turns": "does it knock where a move turns round?",
}
"""What is asked, by key; the cheapest to try first."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Noise:
    """The answers that are known, by the keys of `QUESTIONS`."""

    answers: Mapping[str, bool]


class NoiseTable(Table):
    """[noise]."""

    locals().update(
        {key: maybe(flag(comment=question, example=True)) for key, question in QUESTIONS.items()}
    )


def read_noise(table: NoiseTable) -> Noise:
    """Return the answers that a brief tells."""
    found = {key: getattr(table, key) for key in QUESTIONS}
    table.done()
    return Noise(answers={key: value for key, value in found.items() if value is not None})
