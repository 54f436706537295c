"""`isolator tap` as a whole: recordings in, modes, verdict, picture and cautions out."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from command import isolator
from scipy.io import wavfile
from taps_made import TWO, Tapping


def test_modes_with_bands_and_a_verdict(taps: Path) -> None:
    ran = isolator("tap", taps, "--json")
    assert (ran.code, ran.err) == (0, "")
    told = ran.json()["tap"]
    assert set(told["recording"]) >= {
        *("rate_hz", "jitter", "gaps", "repeats", "clipped", "usable_hz")
    }
    assert told["recording"]["rate_hz"] == pytest.approx(400.0)
    assert told["recording"]["channels"] == ["z", "y", "x"]
    assert told["recording"]["unit"] == "m/s^2"
    for mode, hertz, ratio in zip(told["modes"], TWO.frequency, TWO.damping, strict=True):
        assert mode["taps"] == 4
        assert mode["frequency_hz"]["nominal"] == pytest.approx(hertz, rel=0.005)
        assert mode["damping_ratio"]["nominal"] == pytest.approx(ratio, rel=0.1)
        low, nominal, high = (mode["damping_ratio"][end] for end in ("low", "nominal", "high"))
        assert 0.0 < low < nominal < high


def test_what_a_terminal_shows(taps: Path) -> None:
    ran = isolator("tap", taps, "--desk")
    first, *rest = ran.out.splitlines()
    assert first == "The desk alone: 2 modes from 4 taps, up to 150 Hz"
    assert rest[0].startswith("  7.0") or rest[0].startswith("  6.9")
    assert "in 4 taps" in rest[1]
    assert rest[2].startswith(f"{taps}: ")
    assert rest[2].endswith(" s at 400 Hz, channels z, y, x; usable from 0.29 to 160 Hz")
    assert rest[3] == (
        "note: A swing that no tap starts is not in the list: tap along x, y and z, one hit each "
        "time."
    )
    assert rest[4] == (
        "note: Frequencies are as true as the recorder's clock: one that is 4 % off shifts all of "
        "them by 4 %, and nothing in a recording tells but a known tone (--known-tone)."
    )
    assert len(rest) == 5


def test_picture_and_result_go_into_a_folder(taps: Path, tmp_path: Path) -> None:
    ran = isolator("tap", taps, "--out", tmp_path, "--json")
    folder = tmp_path / "four taps-tap"
    assert (folder / "tap.svg").read_text().count("<svg") == 1
    assert (folder / "tap.json").read_text() == ran.out
    again = isolator("tap", taps, "--out", tmp_path)
    assert again.out.splitlines()[-1] == f"picture: {folder / 'tap.svg'}"
    other = tmp_path / taps.name
    other.write_bytes(taps.read_bytes())
    ran = isolator("tap", other, "--out", tmp_path)
    assert (ran.code, ran.out) == (2, "")
    assert ran.err.strip() == (
        f"{folder}: found what another recording told ({taps}); wanted a place of its own for the "
        "output; move it away, rename the recording, or choose another --out"
    )


def test_a_sound_recording_of_taps(tmp_path: Path) -> None:
    """48 kHz is thinned out first; a microphone's numbers have no unit."""
    loud = Tapping(
        frequency=TWO.frequency * 4, damping=TWO.damping, shapes=TWO.shapes, rate=48_000.0, count=3
    )
    _, samples = loud.tapped(seed=2)
    wave = (samples[:, 0] / np.abs(samples[:, 0]).max() * 2e4).astype(np.int16)
    wavfile.write(tmp_path / "desk.wav", 48_000, wave)
    told = isolator("tap", tmp_path / "desk.wav", "--json").json()["tap"]
    assert (told["recording"]["unit"], told["recording"]["calibrated"]) == ("full scale", False)
    found = [mode["frequency_hz"]["nominal"] for mode in told["modes"]]
    assert found == pytest.approx([28.0, 76.0], rel=0.005)
