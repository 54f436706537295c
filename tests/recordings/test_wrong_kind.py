"""Files of another kind, and options that do not fit a file: refused in one sentence each."""

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
WAVE = b"RIFF\x24\0\0\0WAVEfmt \x10\0\0\0"

REFUSED: dict[str, tuple[str | bytes, ReadOptions, str]] = {
    "a unit that is none": (
        text(HEAD, ROWS),
        ReadOptions(unit="furlongs"),
        'command line: --unit: found "furlongs"; '
        "wanted g, mg, m/s^2, mm/s^2 or counts, or what a reading of 1 is worth; "
        'write it like --unit g, --unit "0.061 mg" or --unit "1/16384 g"',
    ),
    "a unit of time that is none": (
        text("t,x,y,z", ROWS),
        ReadOptions(time_unit="days"),
        'command line: --time-unit: found "days"; wanted s, ms, us or ns; write --time-unit ms',
    ),
    "more columns asked for": (
        text(HEAD, ROWS),
        ReadOptions(columns="t,x,y,z,w"),
        'command line: --columns: found "t,x,y,z,w"; '
        "wanted at most 4 names, one a column of a.csv; "
        'write it in the file\'s order like "t,x,y,z", or by name like "t=time,x=ax"',
    ),
    "a name that is not there": (
        text(HEAD, ROWS),
        ReadOptions(columns="t=t,x=acc"),
        'a.csv: found columns "t [s]", "x [g]", "y [g]", "z [g]", and no "acc"; '
        "wanted the column that --columns names; "
        "take one of them, or its number from 1 to 4",
    ),
    "one name twice": (
        text(HEAD, ROWS),
        ReadOptions(columns="t,x,x,z"),
        'command line: --columns: found "t,x,x,z"; '
        "wanted one name at least beside t, each name once; "
        'write it in the file\'s order like "t,x,y,z", or by name like "t=time,x=ax"',
    ),
    "columns of words": (
        text("who,t [s],x", lines((["me"] * len(TIME), TIME, X))),
        ReadOptions(columns="t,-,x"),
        'command line: --columns: found "t,-,x"; '
        "wanted columns of numbers: column 1 holds words; "
        'write it in the file\'s order like "t,x,y,z", or by name like "t=time,x=ax"',
    ),
    "a picture": (
        b"\x89PNG\r\n\x1a\n" + bytes(200),
        PLAIN,
        "a.csv: found a picture; wanted a recording as CSV or WAV; name the recording",
    ),
    "a spreadsheet": (
        b"PK\x03\x04" + bytes(60),
        PLAIN,
        "a.csv: found a zip file or a spreadsheet; "
        "wanted a recording as CSV or WAV; "
        "unpack it, or save the sheet as CSV",
    ),
    "packed": (
        b"\x1f\x8b\x08\0" + bytes(60),
        PLAIN,
        "a.csv: found a packed file; wanted a recording as CSV or WAV; unpack it",
    ),
    "packed sound": (
        b"OggS" + bytes(60),
        PLAIN,
        "a.csv: found compressed sound; wanted a recording as CSV or WAV; save it as WAV",
    ),
    "bytes": (
        bytes(range(1, 255)) + bytes(9),
        PLAIN,
        "a.csv: found bytes that are no text; "
        "wanted a recording as CSV or WAV; "
        "save it as CSV in UTF-8",
    ),
    "sound that is cut off in its head": (
        WAVE,
        PLAIN,
        "a.csv: found a WAV file that broke off; "
        "wanted a plain WAV file; "
        "open and save it in a sound editor",
    ),
    "compressed sound": (
        WAVE + b"\x02\0\x01\0\x40\x1f\0\0\0\0\0\0\0\0\x04\0data\4\0\0\0abcd",
        PLAIN,
        "a.csv: found compressed sound; "
        "wanted a plain WAV file; "
        "save it as PCM of 16, 24 or 32 bit, or as floats",
    ),
    "sound of two samples": (
        WAVE + b"\x01\0\x01\0\x40\x1f\0\0\x80\x3e\0\0\x02\0\x10\0data\4\0\0\0abcd",
        PLAIN,
        "a.csv: found 2 samples; wanted at least 32; record for longer",
    ),
    "sound without a rate": (
        WAVE + b"\x01\0\x01\0\0\0\0\0\0\0\0\0\x02\0\x10\0data\x80\0\0\0" + b"ab" * 64,
        PLAIN,
        "a.csv: found a rate of 0 Hz; wanted a rate above 0; say it with --rate 48000",
    ),
}


@pytest.mark.parametrize("case", REFUSED)
def test_a_file_of_another_kind_is_refused(tmp_path: Path, case: str) -> None:
    content, options, message = REFUSED[case]
    path = tmp_path / "a.csv"
    path.write_bytes(content if isinstance(content, bytes) else content.encode())
    with pytest.raises(InputError) as error:
        read_recording(path, options)
    (fault,) = error.value.faults
    assert fault.line().replace(f"{tmp_path}{os.sep}", "") == message
