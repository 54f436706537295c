"""Files of many shapes say the same, whatever separators, names, units and clocks they use."""

from __future__ import annotations

import io
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest
from recorded import AXES, RATE, G, lines, shaken, text
from scipy.io import wavfile

from isolator.recordings.options import ReadOptions
from isolator.recordings.read import read_recording
from isolator.recordings.recording import Recording

TIME, SAMPLES = shaken()
X, Y, Z = SAMPLES.T
WHOLE = [f"{i}" for i in range(len(TIME))]
START = np.datetime64("2026-03-07T23:59:58", "ns")
DATES = [str(START + np.timedelta64(round(t * 1e9), "ns"))[:23] for t in TIME]
EPOCH = [f"{1_772_900_000_123_456_789 + round(t * 1e9)}" for t in TIME]
TURNING = [f"{(4_294_000_000 + round(t * 1e6)) % 2**32}" for t in TIME]


def comma(found: list[str]) -> list[str]:
    return [line.replace(".", ",") for line in found]


SHAPES: dict[str, tuple[str, ReadOptions]] = {
    "commas": (text("t [s],x [m/s^2],y [m/s^2],z [m/s^2]", lines((TIME, X, Y, Z))), ReadOptions()),
    "semicolons and decimal commas": (
        text(
            "Zeit (ms);Acceleration x (g);Acceleration y (g);Acceleration z (g)",
            comma(lines((TIME * 1e3, X / G, Y / G, Z / G), ";", 7)),
        ),
        ReadOptions(),
    ),
    "tabs, two header lines": (
        text(
            "time\tax\tay\taz",
            "us\tmm/s²\tmm/s²\tmm/s²",
            lines((TIME * 1e6, *SAMPLES.T * 1e3), "\t"),
        ),
        ReadOptions(),
    ),
    "blanks, no header": (text(lines((TIME, X, Y, Z), "  ")), ReadOptions(unit="m/s^2")),
    "blanks, decimal commas, a date of two columns": (
        text(comma(lines(([d.replace("T", " ") for d in DATES], X, Y, Z), " "))),
        ReadOptions(columns="-,t,x,y,z"),
    ),
    "z-y-x, dates": (
        text('"date","accZ","accY","accX"', lines((DATES, Z, Y, X))),
        ReadOptions(),
    ),
    "epoch in nanoseconds, doubled clocks, other sensors": (
        text(
            "timestamp,seconds_elapsed,gyro_x,gyro_y,gyro_z,acc_z,acc_y,acc_x",
            lines((EPOCH, TIME, Y, Z, X, Z, Y, X)),
        ),
        ReadOptions(),
    ),
    "epoch in seconds": (
        text("unix time;x;y;z", lines([[f"{1772900000 + t:.3f}" for t in TIME], X, Y, Z], ";")),
        ReadOptions(),
    ),
    "preamble": (
        text(
            "# sensor 4, range 2 g, 100 Hz",
            "# exported 2026-03-07",
            "",
            "# time_ms, x_mg, y_mg, z_mg",
            lines((TIME * 1e3, *SAMPLES.T / G * 1e3)),
        ),
        ReadOptions(),
    ),
    "counts": (
        text(
            "millis,raw_x,raw_y,raw_z",
            lines((TIME * 1e3, *SAMPLES.T / G * 16384), ",", 0),
        ),
        ReadOptions(unit="1/16384 g"),
    ),
    "numbered lines, no clock": (
        text("sample;x;y;z", lines((WHOLE, X, Y, Z), ";")),
        ReadOptions(rate=RATE),
    ),
    "columns as told": (
        text("Kanal 1,Kanal 2,Kanal 3,Kanal 4", lines((Z, Y, X, TIME * 1e9))),
        ReadOptions(columns="x=Kanal 3,y=Kanal 2,z=1,t=4", time_unit="ns", unit="m/s^2"),
    ),
    "a counter of microseconds that turns over": (
        text(
            "micros,x,y,z",
            lines((TURNING, X, Y, Z)),
        ),
        ReadOptions(),
    ),
    "a last line that broke off, empty columns": (
        text(
            "t (s),x (m/s²),y (m/s²),z (m/s²),",
            [f"{each}," for each in lines((TIME, X, Y, Z))],
            "4.00,0.3",
        ),
        ReadOptions(),
    ),
}


def read(path: Path, content: str | bytes, options: ReadOptions) -> Recording:
    path.write_bytes(content if isinstance(content, bytes) else content.encode())
    return read_recording(path, options)


@pytest.mark.parametrize("shape", SHAPES)
def test_a_shape_is_read_right(tmp_path: Path, shape: str) -> None:
    content, options = SHAPES[shape]
    found = read(tmp_path / "a.csv", content, options)
    assert (found.unit, found.calibrated) == ("m/s^2", True)
    assert sorted(found.channels) == list(AXES)
    assert found.rate == pytest.approx(RATE, rel=1e-6)
    np.testing.assert_allclose(found.time, TIME, atol=2e-6)
    for name, wanted in zip(AXES, SAMPLES.T, strict=True):
        np.testing.assert_allclose(found.channel(name), wanted, atol=4e-4)
    verdict = found.verdict
    assert (verdict.gaps, verdict.repeats, verdict.clipped) == ((), 0, 0)


CODINGS: dict[str, Callable[[str], bytes]] = {
    "a mark before UTF-8": lambda told: told.encode("utf-8-sig"),
    "UTF-16": lambda told: told.encode("utf-16"),
    "an old code page, lines of another system": lambda told: told.replace("\n", "\r\n").encode(
        "cp1252"
    ),
}


@pytest.mark.parametrize("coding", CODINGS)
def test_the_letters_of_a_file_may_be_coded_in_many_ways(tmp_path: Path, coding: str) -> None:
    told = text("t [s];x [m/s²];y [m/s²];z [m/s²]", lines((TIME, X, Y, Z), ";"))
    found = read(tmp_path / "a.csv", CODINGS[coding](told), ReadOptions())
    np.testing.assert_allclose(found.channel("y"), Y, atol=1e-5)


WAVES = {
    "16 bit": (np.int16, 1.0 / 2**15),
    "32 bit": (np.int32, 1.0 / 2**31),
    "float": (np.float32, 1e-7),
    "8 bit": (np.uint8, 1.0 / 2**7),
}


@pytest.mark.parametrize("channels", [1, 2])
@pytest.mark.parametrize("kind", WAVES)
def test_sound_files_are_shares_of_full_scale(tmp_path: Path, kind: str, channels: int) -> None:
    dtype, step = WAVES[kind]
    shares = SAMPLES[:, :channels] / 4.0
    whole = np.issubdtype(dtype, np.integer)
    data = np.floor(shares / step + (128 if dtype is np.uint8 else 0)) if whole else shares
    wavfile.write(tmp_path / "a.wav", 8000, data.astype(dtype))
    found = read_recording(tmp_path / "a.wav", ReadOptions())
    assert found.channels == (("mono",) if channels == 1 else ("left", "right"))
    assert (found.unit, found.calibrated, found.rate) == ("full scale", False, 8000.0)
    np.testing.assert_allclose(found.samples, shares, atol=step)
    scaled = read_recording(tmp_path / "a.wav", ReadOptions(unit="4 m/s^2"))
    np.testing.assert_allclose(scaled.samples, 4.0 * found.samples)
    assert (scaled.unit, scaled.calibrated) == ("m/s^2", True)


def wave_24(samples: np.ndarray, rate: int) -> bytes:
    """Return a stereo or mono file of 24 bit, byte by byte as RIFF tells."""
    frames = samples.astype("<i4").reshape(len(samples), -1)
    raw = frames.view(np.uint8).reshape(*frames.shape, 4)[:, :, :3].tobytes()
    head = io.BytesIO()
    channels = frames.shape[1]
    head.write(b"RIFF" + (36 + len(raw)).to_bytes(4, "little") + b"WAVEfmt \x10\0\0\0\x01\0")
    head.write(channels.to_bytes(2, "little") + rate.to_bytes(4, "little"))
    head.write((rate * channels * 3).to_bytes(4, "little") + (channels * 3).to_bytes(2, "little"))
    head.write(b"\x18\0data" + len(raw).to_bytes(4, "little") + raw)
    return head.getvalue()


def test_sound_of_24_bit(tmp_path: Path) -> None:
    shares = SAMPLES[:, :2] / 4.0
    content = wave_24(np.floor(shares * 2**23), 44100)
    found = read(tmp_path / "a.wav", content, ReadOptions())
    assert (found.rate, found.channels) == (44100.0, ("left", "right"))
    np.testing.assert_allclose(found.samples, shares, atol=2.0**-23)


def test_a_sound_file_that_broke_off_says_so(tmp_path: Path) -> None:
    content = wave_24(np.floor(SAMPLES[:, :2] / 4.0 * 2**23), 44100)
    found = read(tmp_path / "a.wav", content[:-600], ReadOptions())
    assert [note.cause for note in found.verdict.notes] == ["cut-off"]
    assert len(found.samples) == len(SAMPLES) - 100
