"""`check --direction`: lines of one direction beside the mean over all."""

from __future__ import annotations

import json
import math
from importlib import resources
from pathlib import Path

import pytest
from typer.testing import CliRunner

from isolator.cli import app

EXAMPLE = str(resources.files("isolator.examples") / "reading-room.toml")


def checked(tmp_path: Path, *words: str) -> dict:
    told = CliRunner().invoke(
        app, ["check", EXAMPLE, "--now", "--json", "--out", str(tmp_path), *words]
    )
    found: dict = json.loads(told.stdout)
    return found


def test_a_direction_adds_lines_with_the_frequencies_of_its_belts(tmp_path: Path) -> None:
    found = checked(tmp_path, "--speed", "60 mm/s", "--direction", "30 deg", "--direction", "0 deg")
    (speed,) = found["speeds"]
    electrical = {}
    for line in speed["lines"]:
        if line["source"] == "electrical":
            electrical.setdefault(line["direction_deg"], []).append(line["frequency_hz"])
    # 150 Hz for a belt as fast as the tool; crossed belts run with v·(cos ψ ± sin ψ)
    turn = math.radians(30.0)
    both = [150.0 * (math.cos(turn) + math.sin(turn)), 150.0 * (math.cos(turn) - math.sin(turn))]
    assert sorted(round(angle) for angle in electrical if angle is not None) == [0, 30]
    assert electrical[None] == electrical[0.0] == [pytest.approx(150.0)]
    (oblique,) = (lines for angle, lines in electrical.items() if angle and angle > 1.0)
    assert sorted(oblique) == pytest.approx(sorted(both))


def test_what_is_said_and_judged_stays_the_mean(tmp_path: Path) -> None:
    plain = checked(tmp_path, "--speed", "60 mm/s")
    asked = checked(tmp_path, "--speed", "60 mm/s", "--direction", "42 deg")
    assert asked["answer"] == plain["answer"]
    for key in ("verdict", "reason", "amplified_share"):
        assert asked["speeds"][0][key] == plain["speeds"][0][key]
    assert len(asked["speeds"][0]["lines"]) > len(plain["speeds"][0]["lines"])


def test_every_tone_is_told_with_its_transmissibility(tmp_path: Path) -> None:
    words = ["check", EXAMPLE, "--now", "--out", str(tmp_path), "--speed", "60 mm/s"]
    told = CliRunner().invoke(app, words, env={"COLUMNS": "140"}).stdout
    table = told[told.index("dB less") : told.index("T, transmissibility")]
    (line,) = (each for each in table.splitlines() if each.split()[:1] == ["electrical"])
    by_json = checked(tmp_path, "--speed", "60 mm/s")["speeds"][0]["lines"]
    (found,) = (each for each in by_json if each["source"] == "electrical")
    assert line.split()[1:3] == ["mean", "150"]
    assert float(line.split()[3]) == pytest.approx(found["transmissibility"], rel=0.01)


@pytest.mark.parametrize(
    ("typed", "message"),
    [
        (
            "30",
            'command line: --direction: found "30"; wanted an angle with its unit; '
            'write it like "30 deg"',
        ),
        (
            "-30 deg",
            'command line: --direction: found "-30 deg"; wanted an angle from 0 to 360 degrees; '
            'write it like "30 deg"',
        ),
    ],
)
def test_a_direction_that_is_none(tmp_path: Path, typed: str, message: str) -> None:
    from isolator.reading.faults import InputError

    told = CliRunner().invoke(app, ["check", EXAMPLE, "--direction", typed])
    assert isinstance(told.exception, InputError)
    assert str(told.exception).splitlines() == [message]
