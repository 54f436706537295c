"""What a command says and leaves behind when it cannot do what it was asked."""

from __future__ import annotations

import errno
import json
import os
import re
import shutil
import signal
import subprocess
import sys
import time
from importlib import import_module
from pathlib import Path

import pytest
from command import Ran, example, isolator, replaced, tree

from isolator.cli.run import _note_interrupt

READING = example("reading-room")
SMALL = '\n[stock]\nmaterials = ["nr-70"]\nshapes = ["disc"]\nwidths = ["24 mm", "40 mm", "4 mm"]\n'
"""A stock of so few pads that a run takes a second."""


def changed(key: str, value: str) -> str:
    return replaced(READING, key, value)


WRONG = {
    "a bare number": (
        changed("mass", "11.8"),
        'printer.mass: found 11.8; wanted a mass with its unit; write it like "11.8 kg"',
    ),
    "a unit of another kind": (
        changed("mass", '"11.8 mm"'),
        'printer.mass: found "11.8 mm"; wanted a mass, in one of its units; if it is in kg, '
        'write it like "11.8 kg"',
    ),
    "a minus sign": (
        changed("mass", '"-11.8 kg"'),
        'printer.mass: found "-11.8 kg"; wanted a mass above zero; check the value and its sign',
    ),
    "not a number": (
        changed("mass", '"nan kg"'),
        'printer.mass: found "nan kg"; wanted a mass with its unit; write it like "… kg"',
    ),
    "an expression": (
        changed("mass", '"3*4 kg"'),
        'printer.mass: found "3*4 kg"; wanted a mass with its unit; write it like "… kg"',
    ),
    "no teeth": (
        changed("pulley_teeth", "0"),
        "motion.pulley_teeth: found 0; wanted a whole number from 6 to 1000; check the value",
    ),
    "another layout": (
        changed("layout", '"crossed-belts"'),
        'motion.layout: found "crossed-belts"; wanted one of crossed-belt, motor-per-axis, '
        'moving-bed; did you mean "crossed-belt"?',
    ),
    "a slip of the pen": (
        READING.replace("belt_pitch", "belt_ptich"),
        "motion.belt_ptich: found an unknown key; wanted a key of [motion]; did you mean "
        "belt_pitch?",
    ),
    "two feet": (
        changed("positions", '[["-182 mm", "-191 mm"], ["182 mm", "-191 mm"]]'),
        "feet.positions: found 2 feet; wanted three feet or more; add places",
    ),
    "a centre beside the feet": (
        changed("center_of_mass", '["4 mm", "311 mm", "214 mm"]'),
        "feet.positions: found feet that leave the centre of mass of the printer at (4 mm, 311 "
        "mm) outside; wanted feet all round the centre of mass; it tips: move feet out by more "
        "than 124 mm there",
    ),
    "an inertia that no body has": (
        changed("inertia", '["0.47 kg*m^2", "0.44 kg*m^2", "4.40 kg*m^2"]'),
        "printer.inertia: found principal moments 0.44 kg*m^2, 0.47 kg*m^2, 4.4 kg*m^2; wanted "
        "three above zero, none larger than the other two together; check the order xx yy zz xy "
        "xz yz and the signs",
    ),
    "a material that nobody has": (
        READING + '\n[stock]\nmaterials = ["nr-50", "nr51"]\n',
        'stock.materials[2]: found "nr51"; wanted the id of a material card; did you mean nr-50, '
        "nr-70, nr-60?",
    ),
    "a page of the web": (
        "<html>",
        "found a line that is no TOML: Invalid statement (at line 1, column 1); wanted TOML; "
        'quantities and texts stand in quotes ("18 mm"), plain numbers bare (17), names of tables '
        "in [brackets]",
    ),
}


@pytest.mark.parametrize("what", WRONG)
@pytest.mark.parametrize("command", ["design", "check"])
def test_a_wrong_brief_is_refused_in_one_line(tmp_path: Path, command: str, what: str) -> None:
    text, message = WRONG[what]
    brief = tmp_path / "brief.toml"
    brief.write_text(text, encoding="utf-8")
    ran = isolator(command, brief, "--out", tmp_path / "out")
    where = f"{brief}" if message.startswith("found") else f"{brief}:"
    between = ": " if message.startswith("found") else " "
    assert ran == Ran(2, "", f"{where}{between}{message}\n")
    assert not (tmp_path / "out").exists()


def test_every_fault_is_told_at_once(tmp_path: Path) -> None:
    brief = tmp_path / "brief.toml"
    text = replaced(changed("mass", "11.8"), "pulley_teeth", "0")
    brief.write_text(replaced(text, "thickness", '"8"'), encoding="utf-8")
    ran = isolator("design", brief, "--out", tmp_path / "out")
    assert ran.code == 2
    keys = [line.split(": ")[1] for line in ran.err.splitlines()]
    assert keys == ["printer.mass", "motion.pulley_teeth", "feet.now.thickness"]


def test_there_is_no_brief(tmp_path: Path) -> None:
    ran = isolator("design", tmp_path / "none.toml", "--out", tmp_path / "out")
    assert ran == Ran(
        2,
        "",
        f"{tmp_path / 'none.toml'}: found no such file; wanted a brief; check the path, or "
        "write a starter with `isolator start FILE`\n",
    )
    assert isolator("check", tmp_path).err == (
        f"{tmp_path}: found a folder; wanted a brief; name the file inside it\n"
    )


def test_a_starter_never_overwrites(tmp_path: Path) -> None:
    file = tmp_path / "mine.toml"
    file.write_text("my own work", encoding="utf-8")
    assert isolator("start", file) == Ran(
        2,
        "",
        f"{file}: found a file that is there already; wanted a new file; choose another name\n",
    )
    assert file.read_text(encoding="utf-8") == "my own work"


def test_the_shell_is_told_about_a_wrong_word() -> None:
    assert isolator("desing").code == 2
    assert isolator("check").code == 2
    assert "Traceback" not in isolator("check").err


def test_impossible_limits_still_give_the_nearest(tmp_path: Path) -> None:
    brief = tmp_path / "brief.toml"
    slow = replaced(changed("sway", '"0.002 mm"'), "speeds", '["18 mm/s", "90 mm/s"]')
    brief.write_text(slow + SMALL, encoding="utf-8")
    ran = isolator("design", brief, "--out", tmp_path / "out")
    assert ran.code == 1
    assert ran.err == ""
    assert "Reading-room printer: no feet hold every limit. The nearest: " in ran.out
    assert re.search(r"(?m)^  PROBLEMS  sway: [\d.]+ mm, wanted at most 0.002 mm; ", ran.out)
    folder = tmp_path / "out" / "reading-room-printer"
    found = json.loads((folder / "result.json").read_text(encoding="utf-8"))
    assert found["passed"] is False
    missed = {check["name"]: check["advice"] for check in found["checks"] if not check["passed"]}
    assert re.fullmatch(
        r"it would pass at \d+ mm/s\^2 \(motion.acceleration\), or with limits.sway at [\d.]+ mm; "
        "or take stiffer or wider pads",
        missed["sway"],
    )
    assert found["candidates"]["passed"] == 0
    assert sum(found["candidates"]["rejected"].values()) == found["candidates"]["tried"] > 0
    assert (folder / "parts" / "foot-cup.stl").stat().st_size > 0
    assert "this is the nearest" in (folder / "report.html").read_text(encoding="utf-8")


@pytest.fixture
def sheet(tmp_path: Path, shipped) -> Path:
    """The shipped example's drawing sheet, to be edited."""
    path = tmp_path / "edited.toml"
    path.write_bytes((shipped.folder / "design.toml").read_bytes())
    return path


def edit(path: Path, **values: str) -> None:
    text = path.read_text(encoding="utf-8")
    for key, value in values.items():
        text = replaced(text, key, f'"{value}"')
    path.write_text(text, encoding="utf-8")


BROKEN = {
    "foot-cup: bolt: M7 is not among the threads drawn (M3, M4, M5, M6, M8, M10)": {
        "attachment": "bolt",
        "bolt": "7 mm",
    },
    "foot-cup: bolt: the M10 head needs 22.94 mm of plate; the foot has 22 mm": {
        "attachment": "bolt",
        "bolt": "10 mm",
        "cap": "11 mm",
        "first": "17.6 mm",
        "second": "17.6 mm",
        "side_room": "2.2 mm",
        "wall": "2.8 mm",
    },
    "foot-cup: bolt: the ear for M8 is 18 mm wide, wider than the foot's 12.12 mm": {
        "attachment": "slot-40",
        "bolt": "8 mm",
        "first": "8 mm",
        "second": "8 mm",
        "side_room": "0.3 mm",
    },
    "foot-cup: wall: 0.3 mm is thinner than the nozzle's 0.4 mm": {
        "attachment": "adhesive",
        "wall": "0.3 mm",
        "nozzle": "0.4 mm",
    },
    "foot-cup: cap: 2.2 mm is thinner than the 3 mm that an ear needs": {"cap": "2.2 mm"},
    "foot-sole: sole: 1 mm is thinner than 1.2 mm": {"sole": "1 mm"},
}


@pytest.mark.parametrize(("message", "values"), BROKEN.items())
def test_what_cannot_be_drawn_is_refused_whole(
    tmp_path: Path, sheet: Path, message: str, values: dict[str, str]
) -> None:
    edit(sheet, **values)
    ran = isolator("draw", sheet, "--out", tmp_path / "out")
    assert ran == Ran(3, "", f"{message}\n")
    assert tree(tmp_path / "out") == {}  # nothing, and nothing half-written


def test_a_refused_drawing_leaves_the_one_before(tmp_path: Path, sheet: Path, shipped) -> None:
    shutil.copytree(shipped.out, tmp_path / "out")
    before = tree(tmp_path / "out")
    edit(sheet, sole="1 mm")
    assert isolator("draw", sheet, "--out", tmp_path / "out").code == 3
    assert tree(tmp_path / "out") == before


UNFIT = {
    'foot[1].pad.material: found "nr-51"; wanted the id of a material card; '
    "did you mean nr-50, nr-70, nr-60?": {"material": "nr-51"},
    "foot[1].side_room: found 0 mm round a pad 20 mm wide, which is larger than its cup under "
    "its load; wanted more than 0.541 mm; 1.55 mm is room enough up to the stop": {
        "side_room": "0 mm",
        "first": "20 mm",
        "second": "20 mm",
        "thickness": "10 mm",
        "sag": "1 mm",
        "stop": "2.5 mm",
    },
    "foot[1].side_room: found 0.5 mm round a pad 20 mm wide, which is larger than its cup under "
    "its load; wanted more than 0.541 mm; 1.55 mm is room enough up to the stop": {
        "side_room": "0.5 mm",
        "first": "20 mm",
        "second": "20 mm",
        "thickness": "10 mm",
        "sag": "1 mm",
        "stop": "2.5 mm",
    },
}


@pytest.mark.parametrize(("message", "values"), UNFIT.items())
def test_what_does_not_fit_together_is_refused(
    tmp_path: Path, sheet: Path, message: str, values: dict[str, str]
) -> None:
    text = sheet.read_text(encoding="utf-8")
    above, head, below = text.partition("[foot.pad]")
    room, foot, motors = above.partition("[[foot]]")
    assert (head, foot) == ("[foot.pad]", "[[foot]]")
    for key, value in values.items():
        if key in ("material", "first", "second", "thickness"):
            below = replaced(below, key, f'"{value}"')
        else:
            motors = replaced(motors, key, f'"{value}"')
    sheet.write_text(room + foot + motors + head + below, encoding="utf-8")
    ran = isolator("draw", sheet, "--out", tmp_path / "out")
    assert ran == Ran(2, "", f"{sheet}: {message}\n")
    assert not (tmp_path / "out").exists()


@pytest.mark.parametrize("command", ["design", "draw"])
@pytest.mark.parametrize("kind", ["folder", "its manifest", "file", "link"])
def test_what_somebody_else_made_is_left_alone(
    tmp_path: Path, sheet: Path, command: str, kind: str
) -> None:
    place = tmp_path / "out" / "reading-room-printer"
    place.parent.mkdir()
    if kind == "file":
        place.write_text("a list of books", encoding="utf-8")
    elif kind == "link":
        (tmp_path / "elsewhere").mkdir()
        place.symlink_to(tmp_path / "elsewhere")
    else:
        place.mkdir()
        name = "manifest.json" if kind == "its manifest" else "books.txt"
        (place / name).write_text('{"made_by": "a librarian"}', encoding="utf-8")
    before = tree(tmp_path)
    words = [sheet] if command == "draw" else []
    ran = isolator(command, *words, "--out", tmp_path / "out")
    assert ran == Ran(
        2,
        "",
        f"{place}: found something that this program did not write; wanted a place of its "
        "own for the output; move it away, rename the brief, or choose another --out\n",
    )
    assert tree(tmp_path) == before
    assert place.is_symlink() == (kind == "link")


def test_output_that_cannot_be_put_anywhere(tmp_path: Path, sheet: Path) -> None:
    (tmp_path / "out").write_text("a file", encoding="utf-8")
    ran = isolator("draw", sheet, "--out", tmp_path / "out")
    assert ran == Ran(
        2,
        "",
        f"{tmp_path / 'out'}: found file exists; wanted a place that can be written to; "
        "choose another folder with --out\n",
    )


@pytest.mark.skipif(os.geteuid() == 0, reason="the superuser may write anywhere")
def test_a_folder_that_may_not_be_written_to(tmp_path: Path, sheet: Path) -> None:
    locked = tmp_path / "locked"
    locked.mkdir(mode=0o555)
    ran = isolator("draw", sheet, "--out", locked)
    assert ran == Ran(
        2,
        "",
        f"{locked}: found permission denied; wanted a place that can be written to; choose "
        "another folder with --out\n",
    )
    assert list(locked.iterdir()) == []


STOPPED = {
    "the disk is full": (OSError(errno.ENOSPC, os.strerror(errno.ENOSPC)), 2),
    "the user has had enough": (KeyboardInterrupt(), 130),
    "the program is wrong": (RuntimeError("a slip"), 70),
}


@pytest.mark.parametrize("why", STOPPED)
def test_whatever_stops_a_run_nothing_is_left(
    tmp_path: Path, sheet: Path, shipped, monkeypatch: pytest.MonkeyPatch, why: str
) -> None:
    import geometry.export

    shutil.copytree(shipped.out, tmp_path / "out")
    before = tree(tmp_path / "out")
    error, code = STOPPED[why]

    def stop(design: object, folder: Path, parts: object) -> None:
        (folder / "half.step").write_text("half a part", encoding="utf-8")
        raise error

    monkeypatch.setattr(geometry.export, "write_files", stop)
    ran = isolator("draw", sheet, "--out", tmp_path / "out")
    assert ran.code == code
    assert "Traceback" not in ran.err
    assert tree(tmp_path / "out") == before
    if code == 2:
        place = tmp_path / "out" / "reading-room-printer"
        assert ran.err == (
            f"{place}: found no space left on device; wanted a place that can be written to; "
            "choose another folder with --out\n"
        )


@pytest.mark.parametrize("number", [signal.SIGINT, signal.SIGTERM])
def test_an_interrupt_leaves_nothing(
    tmp_path: Path, tmp_path_factory: pytest.TempPathFactory, number: signal.Signals
) -> None:
    brief = tmp_path_factory.mktemp("brief") / "brief.toml"
    brief.write_text(READING.replace("pull =", 'damper = "none"\npull =') + SMALL, "utf-8")
    # at the moment when the output's own folder has just been begun
    running = subprocess.Popen(
        [
            sys.executable,
            "-c",
            "from isolator.cli import main; main()",
            "design",
            str(brief),
            "--quiet",
            "--out",
            str(tmp_path / "out"),
        ],
        stderr=subprocess.PIPE,
        text=True,
        cwd=Path(__file__).parents[2],
        # a shell starts what runs behind it deaf to Ctrl-C
        preexec_fn=lambda: signal.signal(number, signal.SIG_DFL),
    )
    while running.poll() is None and not any((tmp_path / "out").glob(".*")):
        time.sleep(0.01)
    running.send_signal(number)
    _, told = running.communicate()
    assert running.returncode == 130
    assert "Traceback" not in told
    assert tree(tmp_path) == {}
    assert list((tmp_path / "out").iterdir()) == []


SWALLOWS = """
import os, signal, time
try:
    os.kill(os.getpid(), signal.SIGINT)
    time.sleep(0.1)
    swallowed = False
except KeyboardInterrupt:
    swallowed = True
"""
"""A module that would carry on as if nobody had pressed Ctrl-C."""


def test_an_interrupt_waits_until_a_module_is_loaded(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "deaf_library.py").write_text(SWALLOWS)
    monkeypatch.syspath_prepend(tmp_path)
    before = [(each, signal.getsignal(each)) for each in (signal.SIGINT, signal.SIGTERM)]
    try:
        interrupted = _note_interrupt()
        library = import_module("deaf_library")
        assert not library.swallowed
        assert not interrupted
        with pytest.raises(KeyboardInterrupt):
            time.sleep(5.0)
        assert interrupted
    finally:
        for each, handler in before:
            signal.signal(each, handler)
