"""Schedules of test moves: read with what they leave out, refused in a sentence."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from isolator.reading.faults import InputError
from isolator.recordings.schedule import read_schedule

STEPS = [
    {"start_s": 2, "end_s": 5.5, "speed_m_per_s": 0.05, "direction_deg": 90},
    {"start_s": 7, "end_s": 9, "speed_m_per_s": 0.08, "direction_deg": 0},
]
TAKE = "take the schedule.json that `isolator sweep` wrote"


def lines(tmp_path: Path, text: str) -> list[str]:
    file = tmp_path / "s.json"
    file.write_text(text, encoding="utf-8")
    with pytest.raises(InputError) as refusal:
        read_schedule(file)
    return [fault.line().replace(str(file), "FILE") for fault in refusal.value.faults]


def test_steps_are_enough(tmp_path: Path) -> None:
    file = tmp_path / "s.json"
    file.write_text(json.dumps({"steps": STEPS}), encoding="utf-8")
    read = read_schedule(file)
    assert [(each.start, each.end) for each in read.pauses] == [(5.5, 7.0)]
    assert [(each.start, each.end) for each in read.steps[1].strokes] == [(7.0, 9.0)]
    assert (read.length, read.steps[0].speed, read.steps[0].direction_deg) == (9.0, 0.05, 90.0)


def test_wrong_ones_are_refused_in_a_sentence_each(tmp_path: Path) -> None:
    assert lines(tmp_path, "G28\n") == [f"FILE: found what is no JSON; wanted a schedule; {TAKE}"]
    for text in ("[]", "{}", '{"steps": []}', '{"steps": 3}'):
        assert lines(tmp_path, text) == [f"FILE: steps: found none; wanted a list of steps; {TAKE}"]
    first = {**STEPS[0], "end_s": 1.0, "speed_m_per_s": "50"}
    second = {**STEPS[1], "direction_deg": None}
    pauses = [{"start_s": 1e6, "end_s": 3}]
    assert lines(tmp_path, json.dumps({"steps": [first, second], "pauses": pauses})) == [
        f"FILE: steps[1]: found an end at 1 s, the start at 2 s; wanted an end behind its start; "
        f"{TAKE}",
        f'FILE: steps[1].speed_m_per_s: found "50"; wanted a number from 1e-06 to 10; {TAKE}',
        f"FILE: steps[2].direction_deg: found nothing; wanted a number from -360 to 360; {TAKE}",
        f"FILE: pauses[1].start_s: found 1000000.0; wanted a number from 0 to 86400; {TAKE}",
    ]
    late = {"steps": STEPS[::-1]}
    assert lines(tmp_path, json.dumps(late)) == [
        "FILE: steps[2]: found a start at 2 s, before the one before ends; wanted steps one "
        f"behind another; {TAKE}"
    ]
    out = {**STEPS[0], "strokes": [{"start_s": 1.5, "end_s": 3}]}
    assert lines(tmp_path, json.dumps({"steps": [out]})) == [
        f"FILE: steps[1].strokes[1]: found it outside its step; wanted strokes within; {TAKE}"
    ]
    with pytest.raises(InputError) as refusal:
        read_schedule(tmp_path)
    assert str(refusal.value) == f"{tmp_path}: found a folder; wanted a schedule; {TAKE}"
