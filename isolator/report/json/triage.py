"""A triage as JSON."""

from __future__ import annotations

from isolator.brief.noise import QUESTIONS
from isolator.measuring.heard_still import Still
from isolator.measuring.triage import Triage
from isolator.report.json.values import Json, plain
from isolator.report.sentences.triage import verdict_line


def triage_json(told: Triage) -> Json:
    """Return what the answers come to; `answers` are null where nobody answered."""
    return {
        "verdict": told.verdict,
        "told": verdict_line(told.verdict, told.causes),
        "answers": {key: told.answers.get(key) for key in QUESTIONS},
        "questions": dict(QUESTIONS),
        "causes": [
            {"name": each.name, "feet_help": each.feet, "why": each.why, "first": each.first}
            for each in told.causes
        ],
        "meetings": {
            "feet": told.feet,
            "speeds": [
                {
                    "mode": each.mode,
                    "frequency_hz": plain(each.frequency),
                    "source": each.source,
                    "speed_m_per_s": plain(each.speed),
                }
                for each in told.meetings
            ],
        },
        "recording": None if told.still is None else _still(told.still),
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
