"""Broken files: each refused in one sentence that says where, what, and how to mend it."""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from recorded import lines, shaken, text

from isolator.reading.faults import InputError
from isolator.recordings.options import ReadOptions
from isolator.recordings.read import read_recording

TIME, SAMPLES = shaken(120)
X, Y, Z = SAMPLES.T
PLAIN = ReadOptions()
HEAD = "t [s],x [g],y [g],z [g]"
ROWS = lines((TIME, X, Y, Z))


def changed(at: int, line: str) -> str:
    """Return the plain file with one of its lines, counted from 1, replaced."""
    whole = [HEAD, *ROWS]
    whole[at - 1] = line
    return text(whole)


def clocked(stamps: list[str], head: str = "t [s],x,y,z") -> str:
    return text(head, lines((stamps, X, Y, Z)))


def steps(size: float) -> list[str]:
    return [f"{i * size:.6f}" for i in range(len(TIME))]


BACK = [f"{t if t < 0.7 else t - 0.5:.3f}" for t in TIME]
DAY = [f"2026-03-07T10:11:{t + 1:09.6f}" for t in TIME]

BROKEN: dict[str, tuple[str, ReadOptions, str]] = {
    "empty": (
        "",
        PLAIN,
        "a.csv: found nothing in it; "
        "wanted samples of an accelerometer, one a line, or a WAV file; "
        "export the recording as CSV",
    ),
    "prose": (
        text("the printer drones", "when the spool is full") * 30,
        PLAIN,
        "a.csv: found no lines of numbers; "
        "wanted samples of an accelerometer, one a line, or a WAV file; "
        "export the recording as CSV",
    ),
    "header alone": (
        text(HEAD),
        PLAIN,
        "a.csv: found no lines of numbers; "
        "wanted samples of an accelerometer, one a line, or a WAV file; "
        "export the recording as CSV",
    ),
    "few lines": (
        text(HEAD, ROWS[:20]),
        PLAIN,
        "a.csv: found 20 samples; "
        "wanted at least 32, better some seconds of them; "
        "record for longer",
    ),
    "a word": (
        changed(50, "0.48,0.1,abc,0.2"),
        PLAIN,
        'a.csv: line 50: found "abc"; wanted a number; mend or delete this line',
    ),
    "a time that is a word": (
        changed(50, "later,0.1,0.1,0.2"),
        PLAIN,
        'a.csv: line 50: found "later"; wanted a time; mend or delete this line',
    ),
    "short line": (
        changed(50, "0.48,0.1,0.2"),
        PLAIN,
        'a.csv: line 50: found 3 columns, "0.48,0.1,0.2"; '
        "wanted 4, as in the lines before; "
        "mend or delete this line",
    ),
    "long line": (
        changed(50, "0.48,0.1,0.2,0.3,0.4"),
        PLAIN,
        'a.csv: line 50: found 5 columns, "0.48,0.1,0.2,0.3,0.4"; '
        "wanted 4, as in the lines before; "
        "mend or delete this line",
    ),
    "second header": (
        text(HEAD, ROWS[:60], HEAD, ROWS[60:]),
        PLAIN,
        "a.csv: line 62: found the header again; "
        "wanted one recording; "
        "split the file there, or delete this line",
    ),
    "a note among the lines": (
        changed(50, "printer stopped here"),
        PLAIN,
        'a.csv: line 50: found one column, "printer stopped here"; '
        "wanted 4, as in the lines before; "
        "mend or delete this line",
    ),
    "endless": (
        changed(50, "0.48,0.1,inf,0.2"),
        PLAIN,
        "a.csv: line 50: found an endless number; wanted a reading; mend or delete this line",
    ),
    "commas for both": (
        text("t,x", [row.replace(".", ",") for row in lines((TIME, X))]),
        PLAIN,
        "a.csv: line 2: found 4 numbers under 2 names; "
        "wanted commas that part columns or decimals, not both; "
        "export it with semicolons or tabs between columns, or with decimal points",
    ),
    "no time": (
        text("x,y,z", lines((X, Y, Z))),
        PLAIN,
        "a.csv: found no column of time; "
        "wanted time, or the rate of evenly spaced samples; "
        "say it with --rate 100, or name the column with --columns",
    ),
    "no time, no names": (
        text(lines((X, Y, Z))),
        PLAIN,
        "a.csv: found no column of time; "
        "wanted time, or the rate of evenly spaced samples; "
        "say it with --rate 100, or name the column with --columns",
    ),
    "time alone": (
        text("t [s]", lines((TIME,))),
        PLAIN,
        'a.csv: found columns "t [s]"; '
        "wanted one of acceleration at least; "
        'say which it is, such as --columns "t=1,x=2"',
    ),
    "time alone, no name": (
        text(lines((TIME,))),
        PLAIN,
        "a.csv: found columns without names, none of which looks like a vibration; "
        "wanted one of acceleration at least; "
        'say which is which, such as --columns "t,x,y,z"',
    ),
    "turning rates alone": (
        text("t,gyro_x,gyro_y", lines((TIME, X, Y))),
        PLAIN,
        'a.csv: found columns "t", "gyro_x", "gyro_y"; '
        "wanted one of acceleration at least; "
        'say which it is, such as --columns "t=1,x=2"',
    ),
    "two sensors": (
        text("t,acc1_x,acc2_x", lines((TIME, X, Y))),
        PLAIN,
        'a.csv: found two columns for x, "acc1_x" and "acc2_x"; '
        "wanted one column an axis; "
        'say which ones, such as --columns "t=t,x=acc1_x"',
    ),
    "many columns without names": (
        text(lines((TIME, X, Y, Z, X))),
        PLAIN,
        "a.csv: found 4 columns without names; "
        "wanted time and up to three of acceleration; "
        'say which is which, with "-" for those to pass over, such as --columns "t,-,x,y,z"',
    ),
    "steps of one": (
        clocked(steps(1.0), "t,x,y,z"),
        PLAIN,
        "a.csv: found times in steps of 1 without a unit; "
        "wanted the unit of time; "
        "say it with --time-unit ms (or s, us, ns), or the rate with --rate 100",
    ),
    "steps of 80": (
        clocked(steps(80.0), "t,x,y,z"),
        PLAIN,
        "a.csv: found times in steps of 80 without a unit; "
        "wanted the unit of time; "
        "say it with --time-unit ms (or s, us, ns), or the rate with --rate 100",
    ),
    "clock stands": (
        clocked(["5.0"] * len(TIME)),
        PLAIN,
        "a.csv: found a column of time that does not rise; "
        "wanted times in order; "
        "name its column with --columns, or leave it out and say --rate 100",
    ),
    "clock runs back": (
        clocked(steps(-0.01)),
        PLAIN,
        "a.csv: found a column of time that does not rise; "
        "wanted times in order; "
        "name its column with --columns, or leave it out and say --rate 100",
    ),
    "last stamp the first again": (
        clocked([*steps(0.01)[:-1], steps(0.01)[0]], "t,x,y,z"),
        PLAIN,
        "a.csv: found times in steps of 0.01 without a unit; "
        "wanted the unit of time; "
        "say it with --time-unit ms (or s, us, ns), or the rate with --rate 100",
    ),
    "clock set back": (
        clocked(BACK),
        PLAIN,
        "a.csv: line 72: found a clock that goes back by 0.49 s; "
        "wanted one recording, times in order; "
        "cut the file there",
    ),
    "two zones": (
        clocked([each + ("+01:00" if i < 60 else "+02:00") for i, each in enumerate(DAY)]),
        PLAIN,
        "a.csv: found times of 2 time zones; "
        "wanted one zone in a recording; "
        "cut the file where the clock was changed",
    ),
    "31 February": (
        clocked([DAY[0], "2026-02-31T10:11:12", *DAY[2:]]),
        PLAIN,
        'a.csv: line 3: found "2026-02-31T10:11:12"; '
        "wanted a date and time such as 2026-03-07T10:11:12.345; "
        "mend or delete this line",
    ),
    "a date that is a number": (
        clocked([*DAY[:70], "71", *DAY[71:]]),
        PLAIN,
        'a.csv: line 72: found "71"; '
        "wanted a date and time such as 2026-03-07T10:11:12.345; "
        "mend or delete this line",
    ),
    "25 o'clock": (
        clocked(["10:11:12.0", "10:11"] + ["10:11:13.0"] * 118),
        PLAIN,
        'a.csv: line 3: found "10:11"; '
        "wanted a time of day such as 10:11:12.345; "
        "mend or delete this line",
    ),
    "readings that stand": (
        text(HEAD, [f"{t:.3f},0.1,0.2,0.3" for t in TIME]),
        PLAIN,
        "a.csv: found 120 samples of which all but 1 repeat the one before; "
        "wanted at least 32; "
        "check that the sensor was running",
    ),
    "columns filled in turn": (
        text(
            HEAD, [f"{t:.3f},0.{i},," if i % 2 else f"{t:.3f},,0.{i},1" for i, t in enumerate(TIME)]
        ),
        PLAIN,
        "a.csv: found 0 lines with a reading in every column; "
        "wanted at least 32; "
        "name fewer columns with --columns, or export one sensor alone",
    ),
}


@pytest.mark.parametrize("case", BROKEN)
def test_a_broken_file_is_refused(tmp_path: Path, case: str) -> None:
    content, options, message = BROKEN[case]
    path = tmp_path / "a.csv"
    path.write_text(content)
    with pytest.raises(InputError) as error:
        read_recording(path, options)
    (fault,) = error.value.faults
    assert fault.line().replace(f"{tmp_path}{os.sep}", "") == message
