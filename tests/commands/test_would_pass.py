"""What a failed check says would make it pass is true: the check passes there, and not above."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import pytest
from briefs import ROOM
from command import isolator
from report_sample import evaluation

from isolator.commands.would_pass import with_speed
from isolator.feet.checks import QUIETER
from isolator.report.sentences.checks import advice
from isolator.vibration.band import Check


def found(brief: Path, *words: str) -> dict[str, dict]:
    ran = isolator("check", brief, "--now", "--json", "--out", brief.parent / "out", *words)
    assert (ran.code, ran.err) == (0, "")
    return {check["name"]: check for check in ran.json()["checks"]}


@pytest.mark.parametrize(
    ("name", "key", "value"),
    [("sway", "limits.sway", "0.035 mm"), ("tipping", "limits.tip_margin", "6")],
)
def test_a_lower_acceleration_that_is_told_passes(
    tmp_path: Path, name: str, key: str, value: str
) -> None:
    brief = tmp_path / "brief.toml"
    brief.write_text(ROOM, encoding="utf-8")
    limit = f"--set={key}={value}"
    failed = found(brief, limit)[name]
    assert not failed["passed"]
    told = re.match(
        r"it would pass at (\d+) mm/s\^2 \(motion\.acceleration\); or ", failed["advice"]
    )
    assert told is not None
    gentler = f"--set=motion.acceleration={told[1]} mm/s^2"
    assert found(brief, limit, gentler)[name]["passed"]
    # the next tenth of 2500 mm/s² that was tried above it
    higher = f"--set=motion.acceleration={int(told[1]) + 250} mm/s^2"
    assert not found(brief, limit, higher)[name]["passed"]


def test_what_no_acceleration_mends_is_told_as_before(tmp_path: Path) -> None:
    brief = tmp_path / "brief.toml"
    brief.write_text(ROOM, encoding="utf-8")
    failed = found(brief, "--set=limits.sway=0.0001 mm")["sway"]
    assert failed["advice"] == (
        "take stiffer or wider pads, or a lower acceleration; soft feet cost sway"
    )


def test_a_speed_from_which_it_is_quieter_is_told() -> None:
    loud = Check(name=QUIETER, value=-2.4, limit=0.0, unit="dB(A)", passed=False)
    found = replace(evaluation(), works_from=0.0721)
    (told,) = with_speed((loud,), found)
    assert advice(told).startswith("print at 73 mm/s or faster, put a slab under the printer")
    assert with_speed((loud,), replace(found, works_from=None)) == (loud,)
    quiet = replace(loud, value=2.4, passed=True)
    assert with_speed((quiet,), found) == (quiet,)
