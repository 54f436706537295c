"""WAV files of 16, 24 and 32 bit and of floats, any number of channels up to eight."""

from __future__ import annotations

import warnings
from pathlib import Path

import numpy as np
from scipy.io import wavfile

from isolator.physics.arrays import Array
from isolator.reading.command_words import COMMAND_LINE
from isolator.reading.faults import refused
from isolator.reading.printable import printable
from isolator.recordings.options import ReadOptions
from isolator.recordings.recording import FULL_SCALE, Note, Recording
from isolator.recordings.scale import asked_scale
from isolator.recordings.verdict import judge_even

MAGIC = (b"RIFF", b"RIFX", b"RF64")
BLOCK = 1 << 20
"""Frames that are turned into floats at once."""
FEWEST = 32
NAMES = {1: ("mono",), 2: ("left", "right")}
MOST = 8
PLAIN = "save it as PCM of 16, 24 or 32 bit, or as floats"


def read_sound(path: Path, options: ReadOptions) -> Recording:
    """Return a WAV file's samples as shares of full scale, or in m/s² where a scale is told.

    Raises InputError for what is no plain WAV.
    """
    file = printable(str(path))
    for option, typed in (("--columns", options.columns), ("--time-unit", options.time_unit)):
        if typed:
            wanted = f"none, as {file} is a sound file, which has no columns"
            got = f'"{printable(typed)}"'
            raise refused(COMMAND_LINE, option, got, wanted, f"leave out {option}")
    rate, data, notes = _open(path, file)
    frames = data if data.ndim == 2 else data[:, np.newaxis]
    if len(frames) < FEWEST:
        advice = "record for longer"
        raise refused(file, "", f"{len(frames)} samples", f"at least {FEWEST}", advice)
    if frames.shape[1] > MOST:
        advice = "save the channels that matter"
        raise refused(file, "", f"{frames.shape[1]} channels", f"at most {MOST}", advice)
    if options.rate is not None:
        rate = options.rate
    if not rate > 0.0:
        raise refused(
            file, "", f"a rate of {rate:g} Hz", "a rate above 0", "say it with --rate 48000"
        )
    scale = asked_scale(options.unit or FULL_SCALE, FULL_SCALE)
    samples = _floats(frames, scale.factor)
    if not np.isfinite(samples).all():
        raise refused(file, "", "samples that are no numbers", "samples that are all finite", PLAIN)
    count = samples.shape[1]
    return Recording(
        clock=None,
        samples=samples,
        channels=NAMES.get(count) or tuple(f"channel {n + 1}" for n in range(count)),
        unit=scale.unit,
        calibrated=scale.calibrated,
        verdict=judge_even(rate, samples, notes),
    )


def _open(path: Path, file: str) -> tuple[float, np.ndarray, tuple[Note, ...]]:
    with warnings.catch_warnings(record=True) as seen:
        warnings.simplefilter("always")
        try:
            rate, data = _read(path)
        except OSError as error:
            reason = (error.strerror or "an error of the disk").lower()
            raise refused(file, "", reason, "a file that can be read", "check it") from None
        except Exception as error:  # the library raises a dozen kinds, all of them: no plain WAV
            got, advice = "a WAV file that broke off", "open and save it in a sound editor"
            if "nknown wave file format" in str(error):
                got, advice = "compressed sound", PLAIN
            raise refused(file, "", got, "a plain WAV file", advice) from None
    cut = any("prematurely" in str(each.message) for each in seen)
    return float(rate), np.asarray(data), ((Note("cut-off"),) if cut else ())


def _read(path: Path) -> tuple[int, np.ndarray]:
    try:
        return wavfile.read(path, mmap=True)
    except ValueError:  # 24 bit fits no array that could be mapped
        return wavfile.read(path)


def _floats(frames: np.ndarray, factor: float) -> Array:
    """Return frames (n, k) as floats, full scale times `factor`; block by block, for the memory."""
    found = np.empty(frames.shape, dtype=np.float64)
    kind = frames.dtype
    offset = 128.0 if kind == np.uint8 else 0.0
    top = 1.0 if kind.kind == "f" else 2.0 ** (8 * kind.itemsize - 1)
    for start in range(0, len(frames), BLOCK):
        found[start : start + BLOCK] = frames[start : start + BLOCK]
        if offset:
            found[start : start + BLOCK] -= offset
        with np.errstate(invalid="ignore"):  # what is no number is refused afterwards
            found[start : start + BLOCK] *= factor / top
    return found
