"""Test moves: the file is followed by an interpreter of its own."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import numpy as np
import pytest
from command import example, isolator, replaced, tree
from gcode_reader import Followed, follow

from isolator.measuring.gcode import WORDS
from isolator.measuring.moves import Bed, Point, plan_moves
from isolator.recordings.schedule import Schedule, read_schedule

BED = (235.0, 180.0)
MOVES = "reading-room-printer-moves"


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    place = tmp_path_factory.mktemp("sweep")
    brief = place / "brief.toml"
    text = replaced(example("reading-room"), "acceleration", '"1800 mm/s^2"')
    brief.write_text(text + '\n[print]\nbed = ["235 mm", "180 mm", "210 mm"]\n', encoding="utf-8")
    ran = isolator("sweep", brief, "--speeds", "25:145:40", "--hold", "3 s", "--out", place / "out")
    assert (ran.code, ran.err) == (0, "")
    return place / "out" / MOVES


@pytest.fixture(scope="module")
def followed(folder: Path) -> Followed:
    text = (folder / "test-moves.gcode").read_text(encoding="ascii")
    return follow(text, 1800.0, (0.0, 0.0, 0.0))


@pytest.fixture(scope="module")
def schedule(folder: Path) -> Schedule:
    return read_schedule(folder / "schedule.json")


def test_nothing_heats_and_nothing_is_set(folder: Path, followed: Followed) -> None:
    assert followed.words <= set(WORDS)
    assert not followed.words & {"M104", "M109", "M140", "M190", "M204", "M221"}
    text = (folder / "test-moves.gcode").read_text(encoding="ascii")
    code = [line for line in text.splitlines() if not line.startswith(";")]
    assert code[:4] == ["G21", "G90", "G28", "G1 Z10.000 F300"]
    assert code[-1] == "M84"
    assert " E" not in "\n".join(code)
    assert max(map(len, text.splitlines())) <= 96


def test_how_fast_it_goes_besides_the_steps_is_told(folder: Path, followed: Followed) -> None:
    told = (
        "besides: 3 marks for the recording at either end, strokes of 30 mm at up to 145 mm/s; "
        "from step to step it goes at 40 mm/s"
    )
    text = (folder / "test-moves.gcode").read_text(encoding="ascii")
    head = " ".join(line[2:] for line in text.splitlines() if line.startswith(";"))
    assert told[1:] in head
    brief = folder.parent.parent / "brief.toml"
    words = ("sweep", brief, "--speeds", "25:145:40", "--hold", "3 s", "--out", folder.parent)
    assert isolator(*words).out.splitlines()[1] == told
    # and so it does: nothing else is moved at
    assert followed.speed.max() == pytest.approx(145.0)
    feeds = {line.split("F")[1] for line in text.splitlines() if line.startswith("G1 X")}
    assert feeds == {f"{60 * speed}" for speed in (25, 40, 65, 105, 145)}


def test_it_stays_on_the_bed_with_its_margin(followed: Followed) -> None:
    inner = followed.place[followed.time >= 0.0]
    assert np.all(inner[:, :2] >= 15.0 - 1e-9)
    assert np.all(inner[:, :2] <= np.array(BED) - 15.0 + 1e-9)
    assert np.all(inner[:, 2] == 10.0)
    assert np.ptp(inner[:, 0]) > 190.0  # and it uses the bed


def test_steps_run_at_their_speed_when_the_schedule_says(
    followed: Followed, schedule: Schedule
) -> None:
    speed = followed.speed
    for step in schedule.steps:
        kept = 0.0
        for stroke in step.strokes:
            inside = (followed.time > stroke.start + 3e-3) & (followed.time < stroke.end - 3e-3)
            assert speed[inside] == pytest.approx(1e3 * step.speed, rel=1e-5)
            moved = np.diff(followed.place[inside][[0, -1]], axis=0)[0]
            found = np.degrees(np.arctan2(moved[1], moved[0])) % 180.0
            assert found == pytest.approx(step.direction_deg, abs=0.01)
            kept += stroke.length
        assert kept == pytest.approx(3.0, rel=1e-4)  # places are whole micrometres
        assert len(step.strokes) % 2 == 0  # as often each way
    told = {(round(1e3 * step.speed), step.direction_deg) for step in schedule.steps}
    assert told == {(v, d) for v in (25, 65, 105, 145) for d in (0.0, 45.0, 90.0, 30.0)}


def test_pauses_and_the_end_are_when_the_schedule_says(
    followed: Followed, schedule: Schedule
) -> None:
    still = np.zeros(len(followed.time), dtype=bool)
    for pause in schedule.pauses:
        inside = (followed.time > pause.start + 3e-3) & (followed.time < pause.end - 3e-3)
        assert np.all(followed.speed[inside] < 1e-6)
        still |= (followed.time > pause.start - 3e-3) & (followed.time < pause.end + 3e-3)
    moving = ~still & (followed.time >= 0.0)
    # between pauses it stands still only where it turns
    assert np.mean(followed.speed[moving] < 1.0) < 0.005
    assert followed.time[-1] == pytest.approx(schedule.length, abs=2e-3)


def test_pauses_look_like_themselves_at_no_other_shift(schedule: Schedule) -> None:
    time = np.arange(0.0, schedule.length, 0.05)
    moving = np.ones(len(time))
    for pause in schedule.pauses:
        moving[(time >= pause.start) & (time < pause.end)] = 0.0
    moving -= moving.mean()
    alike = np.correlate(moving, moving, "full") / np.sum(moving**2)
    middle = len(moving) - 1
    away = np.abs(np.arange(len(alike)) - middle) > 2.0 / 0.05
    assert alike[away].max() < 0.5


def test_the_same_brief_gives_the_same_files(folder: Path) -> None:
    before = tree(folder)
    brief = folder.parent.parent / "brief.toml"
    words = ("sweep", brief, "--speeds", "25:145:40", "--hold", "3 s", "--out", folder.parent)
    assert isolator(*words, "--quiet") == (0, "", "")
    assert tree(folder) == before


def test_a_schedule_that_may_be_recorded_is_kept(folder: Path, tmp_path: Path) -> None:
    brief = folder.parent.parent / "brief.toml"
    for speeds in ("25:145:40", "30:150:40", "30:150:40", "25:145:40"):
        ran = isolator("sweep", brief, "--speeds", speeds, "--hold", "3 s", "--out", tmp_path)
        assert (ran.code, ran.err) == (0, "")
    held = {path.read_bytes() for path in (tmp_path / MOVES).glob("schedule.2*.json")}
    now = (tmp_path / MOVES / "schedule.json").read_bytes()
    assert now == (folder / "schedule.json").read_bytes()
    assert now in held
    assert len(held) == 2
    assert f"earlier moves were others: kept as schedule.{date.today()}" in ran.out


def test_a_bed_round_its_middle() -> None:
    bed = Bed(size=(0.3, 0.2), zero=Point(-0.15, -0.1), margin=0.02)
    moves = plan_moves(bed, 3.0, (0.04, 0.2), (90.0,), 1.0)
    places = np.array([move[0] for move in moves.commands if len(move) == 2])
    assert places[:, 0] == pytest.approx(0.0, abs=1e-9)
    assert np.abs(places[:, 1]).max() <= 0.08
    assert moves.commands[0] == (4.0,)


def refused(tmp_path: Path, text: str, *words: object) -> str:
    brief = tmp_path / "brief.toml"
    brief.write_text(text, encoding="utf-8")
    ran = isolator("sweep", brief, "--out", tmp_path / "out", *words)
    assert (ran.code, ran.out) == (2, "")
    assert not (tmp_path / "out").exists()
    return ran.err.replace(str(brief), "BRIEF")


def test_what_cannot_be_moved_is_refused(tmp_path: Path) -> None:
    room = example("reading-room")
    assert refused(tmp_path, room, "--speed", "900 mm/s", "--speed", "480 mm/s") == (
        "command line: --speeds: found 900 mm/s along 0°, which the bed has no room to reach; "
        "wanted 0.35 s of constant speed or more; take slower speeds, or a brief with the true "
        "print.bed and motion.acceleration\n"
        "command line: --speeds: found 480 mm/s along 0°, which the bed holds for 0.2 s alone; "
        "wanted 0.35 s of constant speed or more; take slower speeds, or a brief with the true "
        "print.bed and motion.acceleration\n"
    )
    small = room + '\n[print]\nbed = ["58 mm", "220 mm", "200 mm"]\n'
    assert refused(tmp_path, small) == (
        "BRIEF: print.bed: found 58 x 220 x 200 mm; wanted more than 60 mm both ways and 20 mm "
        "high; tell the true bed, width, depth and height\n"
    )
    assert refused(tmp_path, room, "--hold", "6 mm") == (
        'command line: --hold: found "6 mm"; wanted a time, in one of its units; if it is in s, '
        'write it like "6 s"\n'
    )
    assert refused(tmp_path, room, "--hold", "1 h") == (
        "command line: --hold: found 3 600 s; wanted 60 s or less; 5 s tell a change of a decibel\n"
    )
    assert refused(tmp_path, room, "--hold", "60 s", "--speeds", "20:200:4") == (
        "command line: --hold: found moves that take 201 minutes; wanted an hour or less; take a "
        "shorter --hold, fewer speeds or fewer directions\n"
    )
    assert refused(tmp_path, room, "--zero", "left") == (
        'command line: --zero: found "left"; wanted one of corner, middle; write one '
        "of these words\n"
    )


def test_fast_speeds_of_the_brief_are_left_out_and_told(tmp_path: Path) -> None:
    brief = tmp_path / "brief.toml"
    text = replaced(example("reading-room"), "speeds", '["80 mm/s", "600 mm/s"]')
    brief.write_text(text, encoding="utf-8")
    ran = isolator("sweep", brief, "--out", tmp_path, "--json")
    told = ran.json()["sweep"]
    assert told["warnings"][0] == (
        "print.bed: 220 mm, 220 mm, 220 mm is assumed; tell yours in the brief before you run "
        "the moves"
    )
    assert [each.split(",")[0] for each in told["warnings"][1:]] == [
        "left out: 400 mm/s along 0°",
        "left out: 450 mm/s along 0°",
        "left out: 500 mm/s along 0°",
        "left out: 550 mm/s along 0°",
        "left out: 600 mm/s along 0°",
    ]
    assert max(step["speed_m_per_s"] for step in told["steps"]) == 0.35
