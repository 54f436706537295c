"""A triage as JSON."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from isolator.brief.noise import QUESTIONS
from isolator.measuring.heard_still import Still
from isolator.measuring.triage import Cause, Triage
from isolator.report.json.values import Json, plain
from isolator.report.sentences.triage import verdict_line


def triage_json(told: Triage) -> Json:
    """Return what the answers come to, and the speeds at which tones meet modes."""
    return {
        **answers_json(told.answers, told.verdict, told.causes),
        "questions": dict(QUESTIONS),
        "meetings": {
            "feet": told.feet,
            "speeds": [
                {
                    "mode": each.mode,
                    "frequency_hz": plain(each.frequency),
                    "source": each.source,
                    "speed_m_per_s": plain(each.speed),
                    "asked": each.asked,
                }
                for each in told.meetings
            ],
        },
        "recording": None if told.still is None else _still(told.still),
    }


def answers_json(answers: Mapping[str, bool], verdict: str, causes: Sequence[Cause]) -> Json:
    """Return answers, null where nobody answered, and what they come to."""
    return {
        "verdict": verdict,
        "told": verdict_line(verdict, causes),
        "answers": {key: answers.get(key) for key in QUESTIONS},
        "causes": [
            {"name": each.name, "feet_help": each.feet, "why": each.why, "first": each.first}
            for each in causes
        ],
    }


def _still(still: Still) -> Json:
    return {
        "tones": [
            {
                "frequency_hz": plain(each.frequency),
                "over_db": plain(each.over),
                "likely": each.likely,
            }
            for each in still.tones
        ],
        "share_above_2_khz": plain(still.hiss),
        "usable_hz": plain(still.usable),
        "changes": still.changes,
    }
