"""Which feet a check judges, from which file, made when; and several side by side."""

from __future__ import annotations

import os
import re
from datetime import UTC, datetime
from pathlib import Path

import pytest
from command import example, isolator, without

MADE = 1_790_000_000.0  # seconds since 1970
LOCAL = f"{datetime.fromtimestamp(MADE):%Y-%m-%d %H:%M}"
GIVEN = "".join(
    f'[[feet.given]]\nposition = ["{x} mm", "{y} mm", "0 mm"]\n'
    'stiffness = ["2 N/mm", "2 N/mm", "5 N/mm"]\n'
    for x, y in ((180, 190), (-180, 190), (-180, -190), (180, -190))
)

FEW_DAMPERS = '\n[damper]\nmaterials = ["nr-50"]\nthicknesses = ["2 mm", "4 mm"]\n'


def written(path: Path, text: str) -> Path:
    path.write_text(text, encoding="utf-8")
    os.utime(path, (MADE, MADE))
    return path


def first_line(monkeypatch: pytest.MonkeyPatch, *words: object) -> str:
    monkeypatch.setenv("COLUMNS", "1000")
    ran = isolator("check", *words)
    assert (ran.code, ran.err) == (0, "")
    return ran.out.splitlines()[0].rstrip()


def test_the_first_line_tells_designed_feet_and_now_asks_for_todays(
    tmp_path: Path, shipped, monkeypatch: pytest.MonkeyPatch
) -> None:
    brief = written(tmp_path / "brief.toml", example("reading-room"))
    sheet = shipped.folder / "design.toml"
    made = f"{datetime.fromtimestamp(sheet.stat().st_mtime):%Y-%m-%d %H:%M}"
    words = (brief, "--out", shipped.out)
    told = f"Feet: as designed in {sheet}, made {made}; nothing is drawn."
    assert first_line(monkeypatch, *words) == told
    told = f"Feet: those there now, as told in {brief}, written {LOCAL}; nothing is drawn."
    assert first_line(monkeypatch, *words, "--now") == told
    none = tmp_path / "none"
    told = told.replace(
        "; nothing",
        f"; {none} has no design of this brief: where it lies, --out FOLDER tells; nothing",
    )
    assert first_line(monkeypatch, brief, "--out", none) == told
    today = isolator("check", *words, "--now", "--json").json()
    alone = isolator("check", brief, "--out", tmp_path / "none", "--json").json()
    assert today == alone
    assert today["judged"] == {
        "feet": "there now",
        "file": str(brief),
        "made": datetime.fromtimestamp(MADE, UTC).isoformat(timespec="seconds"),
    }


def test_the_first_line_tells_given_feet(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    text = without(example("reading-room"), "[feet]", "[feet.now]") + GIVEN
    brief = written(tmp_path / "brief.toml", text)
    told = f"Feet: as given in {brief}, written {LOCAL}; nothing is drawn."
    assert first_line(monkeypatch, brief, "--out", tmp_path / "out") == told


def test_now_without_feet_there_now_is_refused(tmp_path: Path) -> None:
    brief = written(tmp_path / "brief.toml", without(example("reading-room"), "[feet.now]"))
    assert isolator("check", brief, "--out", tmp_path / "out", "--now") == (
        2,
        "",
        f"{brief}: feet.now: found nothing; wanted the feet there now; tell them under "
        "[feet.now], or leave out --now\n",
    )


def test_briefs_and_designs_stand_side_by_side(
    tmp_path: Path, shipped, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("COLUMNS", "1000")
    whole = written(tmp_path / "whole.toml", example("reading-room"))
    brief = written(tmp_path / "brief.toml", example("reading-room") + FEW_DAMPERS)
    text = without(example("reading-room"), "[feet]", "[feet.now]") + FEW_DAMPERS + GIVEN
    other = written(tmp_path / "other.toml", text.replace("Reading-room", "Other", 1))
    sheet = shipped.folder / "design.toml"
    words = ("check", brief, "--out", tmp_path / "out", "--with", sheet, "--with", other)
    ran = isolator(*words)
    assert (ran.code, ran.err) == (0, "")
    table = ran.out[ran.out.index("Side by side") :].splitlines()
    rows = {line.split("  ")[0].strip(): line for line in table[2:]}
    feet = [word for word in ("there now", "designed", "given") if word in rows["feet"]]
    assert feet == ["there now", "designed", "given"]
    assert [str(path) in rows["from"] for path in (brief, sheet, other)] == [True] * 3
    assert len(re.findall("all hold|FAILS: ", rows["checks"])) == 3
    assert rows["made"].count(LOCAL) == 2
    speeds = [line for line in rows if line.endswith("mm/s")]

    found = isolator(*words, "--json").json()
    assert [each["judged"]["feet"] for each in found["beside"]] == ["designed", "given"]
    alone = isolator("check", brief, "--out", tmp_path / "out", "--json").json()
    assert {key: value for key, value in found.items() if key != "beside"} == alone
    designed = isolator("check", whole, "--out", shipped.out, "--json").json()
    assert found["beside"][0]["modes"] == designed["modes"]
    assert len(speeds) == len(found["speeds"]) == len(found["beside"][1]["speeds"])


def test_a_wrong_file_beside_is_refused_by_its_name(tmp_path: Path) -> None:
    brief = written(tmp_path / "brief.toml", example("reading-room"))
    none = tmp_path / "none.toml"
    assert isolator("check", brief, "--out", tmp_path / "out", "--with", none) == (
        2,
        "",
        f"{none}: found no such file; wanted a brief; check the path, or write a starter with "
        "`isolator start FILE`\n",
    )
