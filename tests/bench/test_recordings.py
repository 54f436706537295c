"""Ten minutes of sound at 48 kHz, read with a verdict and made a spectrum of: time and memory."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from paired import paired, python
from scipy.io import wavfile
from swept import swept

from isolator.commands.manifest import write_json
from isolator.measuring.moves import Bed, Point, plan_moves
from isolator.recordings.schedule import Step
from isolator.report.json.schedule import schedule_json

pytestmark = pytest.mark.bench

RATE, LONG = 48_000, 600
MOST_MEMORY = 1e9  # [bytes]
# of this process alone: what getrusage tells of a child begins with the size of its parent
MEMORY = """
peak = next(line for line in open("/proc/self/status") if line.startswith("VmHWM"))
print(int(peak.split()[1]) * 1024)
"""
OWN = f"""
import sys
from pathlib import Path
from isolator.physics.signals.spectra import density
from isolator.recordings.read import read_recording
found = read_recording(Path(sys.argv[1]))
density(found.samples, found.rate, 4096)
assert len(found.samples) == {RATE * LONG}
{MEMORY}
"""
BARE = """
import sys
from scipy.io import wavfile
from scipy.signal import welch
rate, samples = wavfile.read(sys.argv[1])
welch(samples, rate, nperseg=4096, axis=0)
"""
COMPARED = f"""
import sys
from pathlib import Path
from isolator.commands.compare import compare
folder = Path(sys.argv[1])
before, after = folder / "before.wav", folder / "after.wav"
compare(before, after, folder / "schedule.json", folder / "out")
{MEMORY}
"""


def sound(file: Path, channels: int) -> None:
    noise = np.random.default_rng(1).normal(0.0, 3000.0, (RATE * 10, channels)).astype(np.int16)
    wavfile.write(file, RATE, np.tile(noise, (LONG // 10, 1)))


def test_ten_minutes_of_sound(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Two thirds of a bare estimate was measured, which transforms all at once."""
    file = tmp_path / "long.wav"
    sound(file, 1)
    found = paired(
        2,
        lambda: python(tmp_path, OWN, str(file)),
        lambda: python(tmp_path, BARE, str(file)),
    )
    found.hold(1.2, "ten minutes of 48 kHz", "a bare spectrum of them", capsys)


@pytest.mark.parametrize("channels", [1, 2])
def test_memory_that_ten_minutes_take(
    tmp_path: Path, channels: int, capsys: pytest.CaptureFixture[str]
) -> None:
    file = tmp_path / "long.wav"
    sound(file, channels)
    taken = float(python(tmp_path, OWN, str(file)))
    with capsys.disabled():
        print(f"\nten minutes of 48 kHz, {channels} channels: {taken / 1e6:.0f} MB, 1000 allowed")
    assert taken < MOST_MEMORY


def test_two_recordings_of_ten_minutes_compared(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """In stereo: each is let go before the next is read. Four times was measured."""
    bed = Bed(size=(0.22, 0.22), zero=Point(0.0, 0.0), margin=0.015)
    speeds = [1e-3 * speed for speed in range(30, 151, 10)]
    moves = plan_moves(bed, 2.5, speeds, hold=8.5).schedule
    assert moves.length + 20.0 > LONG
    write_json(tmp_path / "schedule.json", schedule_json(moves))
    for name, gain in (("before", 1.0), ("after", 0.5)):

        def tones(step: Step, gain: float = gain) -> list[tuple[float, float]]:
            return [(2500.0 * step.speed, 0.05 * gain), (5000.0 * step.speed, 0.05 * gain)]

        one = (3e4 * swept(moves, RATE, tones, room=2e-3, seed=round(10 * gain))).astype(np.int16)
        wavfile.write(tmp_path / f"{name}.wav", RATE, np.column_stack([one, one // 2]))
    taken: list[float] = []
    found = paired(
        1,
        lambda: taken.append(float(python(tmp_path, COMPARED, str(tmp_path)))),
        lambda: python(tmp_path, BARE, str(tmp_path / "before.wav")),
    )
    with capsys.disabled():
        print(f"\ntwo of ten minutes in stereo, compared: {taken[0] / 1e6:.0f} MB, 1000 allowed")
    assert taken[0] < MOST_MEMORY
    found.hold(7.0, "two of ten minutes compared", "a bare spectrum of one", capsys)
