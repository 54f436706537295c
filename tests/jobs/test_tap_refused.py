"""What `isolator tap` refuses, and what it tells of recordings without taps."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from command import isolator
from recorded import lines, text

WRONG = {
    "two things": (
        ("--desk", "--hard"),
        "command line: --desk and --hard: found both; wanted one of them, or none for a printer on "
        "its feet; tap the desk in a recording of its own",
    ),
    "a desk and a brief": (
        ("--desk", "--brief", "room.toml"),
        "command line: --desk and --brief: found both; wanted one of them: a desk alone tells "
        "nothing of feet and frame; leave out --brief",
    ),
    "no such tone": (
        ("--known-tone", "50"),
        "command line: --known-tone: found 50 Hz; wanted a steady tone that stands out in FILE "
        "within 8% of it; name another tone, or leave it out",
    ),
    "a rate in metres": (
        ("--rate", "3 m"),
        'command line: --rate: found "3 m"; wanted a frequency, in one of its units; if it is in '
        'Hz, write it like "3 Hz"',
    ),
}


@pytest.mark.parametrize("case", WRONG)
def test_what_cannot_be_meant_is_refused(taps: Path, case: str) -> None:
    words, message = WRONG[case]
    ran = isolator("tap", taps, *words)
    assert (ran.code, ran.out) == (2, "")
    assert ran.err.strip().replace(str(taps), "FILE") == message


SLOW = {
    "asked": (
        400.0,
        ("--highest", "0.001 Hz"),
        "command line: --highest: found 0.001 Hz; wanted 2 Hz or more; raise it, or leave it out",
    ),
    "recorded": (
        0.5,
        (),
        "FILE: found 0.5 samples a second, good for no more than 0.2 Hz; wanted a recording that "
        "is good for 2 Hz or more; record faster, or correct --rate or --time-unit",
    ),
}


@pytest.mark.parametrize("case", SLOW)
def test_what_is_too_slow_for_any_mode_is_refused(tmp_path: Path, case: str) -> None:
    rate, words, message = SLOW[case]
    file = tmp_path / "slow.csv"
    noise = np.random.default_rng(1).normal(size=(400, 3))
    file.write_text(text("t [s],x [g],y [g],z [g]", lines((np.arange(400) / rate, *noise.T))))
    ran = isolator("tap", file, *words)
    assert (ran.code, ran.out) == (2, "")
    assert ran.err.strip().replace(str(file), "FILE") == message


def test_each_file_is_named_once_and_one_without_taps_is_told(taps: Path, tmp_path: Path) -> None:
    ran = isolator("tap", taps, taps.parent / "." / taps.name)
    assert ran.code == 2
    assert ran.err.strip().endswith(
        "found the same file twice; wanted each recording once; name it once"
    )
    noise = np.random.default_rng(3).normal(0.0, 0.1, (2000, 3))
    file = tmp_path / "quiet.csv"
    file.write_text(text("t [s],x [g],y [g],z [g]", lines((np.arange(2000) / 400.0, *noise.T))))
    assert f"note: {file}: no tap in it rings out." in isolator("tap", taps, file).out


def test_a_recording_in_which_nobody_tapped(tmp_path: Path) -> None:
    noise = np.random.default_rng(3).normal(0.0, 0.1, (2000, 3))
    file = tmp_path / "quiet.csv"
    file.write_text(text("t [s],x [g],y [g],z [g]", lines((np.arange(2000) / 200.0, *noise.T))))
    ran = isolator("tap", file)
    assert ran.code == 2
    assert ran.err.strip() == (
        f"{file}: found no tap that rings out; wanted a quiet second, a tap with a knuckle, three "
        "quiet seconds; five times or more; fix the sensor to what you tap, and record again with "
        "motors and fans off"
    )
