"""Whatever is typed into a file: read as finite numbers in order, or refused in a sentence."""

from __future__ import annotations

import io
from pathlib import Path

import numpy as np
import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st
from recorded import lines, shaken, text
from scipy.io import wavfile

from isolator.reading.faults import InputError
from isolator.recordings.read import read_recording

TIME, SAMPLES = shaken(60)
PLAIN = text("t [s],x [g],y [g],z [g]", lines((TIME, *SAMPLES.T)))
PIECES = (
    "",
    ",",
    ";",
    "\t",
    "\n",
    "#",
    '"',
    "nan",
    "inf",
    "1e400",
    "abc",
    "1,5",
    "-",
    "\0",
    "9" * 30,
)
PIECES += ("2026-13-45T99:99:99", "2026-03-07T10:11:12", "25:61:61", "0x10", "²", "٣")
edits = st.lists(
    st.tuples(st.integers(0, len(PLAIN)), st.integers(0, 9), st.sampled_from(PIECES)),
    min_size=1,
    max_size=4,
)


def read_or_refuse(file: Path) -> None:
    try:
        found = read_recording(file)
    except InputError as error:
        (fault,) = error.faults
        assert fault.got
        assert fault.wanted
        assert fault.suggestion
        return
    assert np.isfinite(found.samples).all()
    assert (np.diff(found.time) >= 0.0).all()
    assert found.rate > 0.0


@settings(
    max_examples=80, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(edits)
def test_a_text_with_anything_in_it(tmp_path: Path, changes: list[tuple[int, int, str]]) -> None:
    told = PLAIN
    for at, long, piece in changes:
        told = told[:at] + piece + told[at + long :]
    (tmp_path / "a.csv").write_text(told, encoding="utf-8")
    read_or_refuse(tmp_path / "a.csv")


LENGTH_AT = 40
"""Where the head says how many bytes of sound follow, least byte first: 240 of them here."""


@pytest.fixture(scope="module")
def sound() -> bytes:
    held = io.BytesIO()
    wavfile.write(held, 8000, (SAMPLES[:, :2] * 1000).astype(np.int16))
    return held.getvalue()


@settings(
    max_examples=80, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(st.lists(st.tuples(st.integers(4, 59), st.integers(0, 255)), min_size=1, max_size=3))
@example(changes=[(LENGTH_AT, 0)])
def test_a_sound_file_with_anything_in_its_head(
    tmp_path: Path, sound: bytes, changes: list[tuple[int, int]]
) -> None:
    content = bytearray(sound)
    for at, value in changes:
        content[at] = value
    (tmp_path / "a.wav").write_bytes(content)
    read_or_refuse(tmp_path / "a.wav")
