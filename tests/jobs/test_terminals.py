"""Terminals that lack letters, output that cannot be printed, libraries that are kept quiet."""

from __future__ import annotations

import json
import os
import shlex
import subprocess
import sys
import warnings
from pathlib import Path

import numpy as np
import pytest
from briefs import BARE, with_motor
from command import isolator

from isolator.cli import check
from isolator.commands.libraries import CACHES, quiet_libraries
from isolator.commands.written import WRITTEN
from isolator.report.terminal.stream import PLAIN, plain

ROOT = Path(__file__).parents[2]
NOW = """
[feet.now]
material = "nr-40"
shape = "disc"
size = ["20 mm"]
thickness = "8 mm"
"""
FAILING = BARE.replace("Bare printer", "Büro 机 Ω") + NOW
GENTLE = with_motor("damper = 'none'", "acceleration = '1000 mm/s^2'", "[[motor]]\ndamper = 'none'")
BRIEF = GENTLE.replace("Bare printer", "Büro 机 Ω") + NOW
"""Holds every check, without dampers: nothing is tried in its stead, which would take long."""
FULL = (
    "stdout: found no space left on device; wanted a place that can be printed to; print to a "
    "file, or ask for --quiet\n"
)


def shell(line: str, *words: object, **environment: str) -> subprocess.CompletedProcess[bytes]:
    """Run a line of shell in which $RUN stands for the program and "$@" for `words`."""
    run = f"{shlex.quote(sys.executable)} -c 'from isolator.cli import main; main()'"
    return subprocess.run(
        ["bash", "-c", line.replace("$RUN", run), "bash", *map(str, words)],
        capture_output=True,
        cwd=ROOT,
        env={**os.environ, **environment},
        check=False,
    )


@pytest.fixture
def brief(tmp_path: Path) -> Path:
    path = tmp_path / "brief.toml"
    path.write_text(BRIEF, encoding="utf-8")
    return path


@pytest.mark.parametrize(
    ("encoding", "text", "end"),
    [
        ("cp1252", BRIEF, "."),
        ("latin-1", BRIEF, "."),
        ("ascii", BRIEF, "."),
        ("ascii", FAILING, "; 2 checks"),
    ],
)
def test_a_terminal_without_some_letters_gets_plain_ones(
    brief: Path, encoding: str, text: str, end: str
) -> None:
    brief.write_text(text, encoding="utf-8")
    ran = shell('$RUN check "$@"', brief, PYTHONIOENCODING=encoding)
    assert (ran.returncode, ran.stderr) == (0, b"")
    told = ran.stdout.decode(encoding)
    name = "Buro" if encoding == "ascii" else "Büro"
    lines = [line for line in told.splitlines() if "?" in line]
    now = "these are the feet there now: nothing to compare with"
    assert lines == [f"{name} ? ohm: {now}{end}"]
    assert ("2 checks fail." in " ".join(told.split())) == (text == FAILING)
    assert "\N{MINUS SIGN}" not in told


@pytest.mark.parametrize("encoding", ["cp1252", "ascii", "latin-1", "utf-8"])
def test_json_is_the_same_on_every_terminal(brief: Path, encoding: str) -> None:
    ran = shell('$RUN check --json "$@"', brief, PYTHONIOENCODING=encoding)
    assert (ran.returncode, ran.stderr) == (0, b"")
    assert json.loads(ran.stdout.decode(encoding))["name"] == "Büro 机 Ω"


def test_a_fault_is_told_on_a_plain_terminal(brief: Path) -> None:
    brief.write_text(BRIEF.replace('"9 kg"', '"9 Ω"'), encoding="utf-8")
    ran = shell('$RUN check "$@"', brief, PYTHONIOENCODING="ascii")
    assert ran.returncode == 2
    assert b'printer.mass: found "9 ohm"; wanted a mass' in ran.stderr


def test_the_table_of_plain_letters_is_plain() -> None:
    assert all(
        text.isascii() and text.isprintable() and len(sign) == 1 for sign, text in PLAIN.items()
    )
    assert plain("4 Ω − 2 × 3 → é …") == "4 ohm - 2 x 3 -> e ..."


@pytest.mark.parametrize(
    ("line", "got"),
    [
        ('$RUN check "$@" >/dev/full', "no space left on device"),
        ('$RUN check --json "$@" >/dev/full', "no space left on device"),
        ('$RUN check "$@" >&-', "closed"),
        ('{ $RUN check "$@"; echo $? >&2; } | true; exit 2', "broken pipe"),
        ("$RUN --help >/dev/full", "no space left on device"),
    ],
)
def test_output_that_cannot_be_printed(brief: Path, line: str, got: str) -> None:
    ran = shell(line, brief)
    told = ran.stderr.decode().removesuffix("2\n") if "true" in line else ran.stderr.decode()
    assert told == FULL.replace("no space left on device", got)
    assert ran.returncode == 2
    if "true" in line:
        assert ran.stderr.endswith(b"\n2\n")


def test_what_was_written_before_is_named(tmp_path: Path) -> None:
    ran = shell('$RUN start "$@" >/dev/full', tmp_path / "new.toml")
    assert ran.returncode == 2
    assert ran.stderr.decode() == FULL[:-1] + f"; written and whole: {tmp_path}/new.toml\n"


def test_closed_streams_do_not_matter_to_who_is_quiet(brief: Path) -> None:
    assert shell('$RUN check --quiet "$@" >&- 2>&-', brief).returncode == 0
    assert shell('$RUN check "$@" 2>&-', brief / "none").returncode == 2


@pytest.mark.parametrize("written", [[], ["out/a", "b.toml"]])
def test_a_bug_says_what_was_written(
    monkeypatch: pytest.MonkeyPatch, brief: Path, written: list[str]
) -> None:
    def broken(*_: object) -> None:
        WRITTEN.extend(written)
        raise ZeroDivisionError("bang\x1b[31m")

    monkeypatch.setattr(check, "tell_check", broken)
    ran = isolator("check", brief)
    assert ran.code == 70
    end = "written and whole: out/a, b.toml" if written else "nothing was written"
    assert ran.err == (
        "isolator: a bug of this program, not of your input (ZeroDivisionError: bang�[31m); "
        f"{end}\n"
    )


def test_the_next_command_is_quoted_for_the_shell(tmp_path: Path) -> None:
    file = tmp_path / "my brief; rm $HOME's.toml"
    ran = isolator("start", file)
    assert ran.code == 0
    assert shlex.split(ran.out.split("then run: ")[1]) == ["isolator", "design", str(file)]


def test_control_characters_never_reach_the_terminal(tmp_path: Path) -> None:
    file = tmp_path / "red\x1b[31m.toml"
    ran = isolator("start", file)
    assert ran.code == 0
    assert "\x1b" not in ran.out
    again = shell(f"printf %s {ran.out.split('isolator design ')[1].strip()}")
    assert again.stdout == os.fsencode(file)


def test_libraries_are_quiet_and_keep_no_cache_at_home(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(sys, "warnoptions", [])
    for name in CACHES:
        monkeypatch.setenv(name, str(tmp_path))
    with warnings.catch_warnings():
        warnings.simplefilter("always")
        with quiet_libraries():
            assert all(os.environ[name] != str(tmp_path) for name in CACHES)
            assert all(os.stat(os.environ[name]).st_mode & 0o777 == 0o700 for name in CACHES)
            warnings.warn("a glyph is missing", UserWarning, stacklevel=1)
            assert np.isinf(np.float64(1e308) * np.float64(1e308))
    assert capsys.readouterr().err == ""


def test_a_design_writes_nothing_home(tmp_path: Path) -> None:
    text = BRIEF + (
        '[stock]\nmaterials = ["sponge-2"]\nshapes = ["disc"]\n'
        'widths = ["18 mm", "42 mm", "8 mm"]\n'
    )
    (tmp_path / "brief.toml").write_text(text, encoding="utf-8")
    home = tmp_path / "home"
    home.mkdir()
    ran = shell(
        '$RUN design --quiet "$@"',
        tmp_path / "brief.toml",
        "--out",
        tmp_path / "out",
        HOME=str(home),
    )
    assert ran.returncode in (0, 1)
    assert ran.stderr == b""
    assert list(home.rglob("*")) == []
