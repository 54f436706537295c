"""The schedule of test moves as JSON, SI: what `isolator.recordings.schedule` reads."""

from __future__ import annotations

from collections.abc import Sequence

from isolator.recordings.schedule import Schedule, Span
from isolator.report.json.values import Json


def schedule_json(schedule: Schedule) -> Json:
    """Return what moves when: steps with their strokes, pauses, and moves between them."""
    return {
        "steps": [
            {
                **_span(step),
                "speed_m_per_s": step.speed,
                "direction_deg": step.direction_deg,
                "strokes": _spans(step.strokes),
            }
            for step in schedule.steps
        ],
        "pauses": _spans(schedule.pauses),
        "moves": _spans(schedule.moves),
        "length_s": _told(schedule.length),
    }


def _spans(spans: Sequence[Span]) -> list[Json]:
    return [_span(each) for each in spans]


def _span(span: Span) -> Json:
    return {"start_s": _told(span.start), "end_s": _told(span.end)}


def _told(seconds: float) -> float:
    """Return a time to the microsecond: nobody records finer."""
    return round(seconds, 6)
