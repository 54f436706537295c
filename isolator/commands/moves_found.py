"""A recording of test moves read from a file, and the moves found in it, or a refusal."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from isolator.measuring.alignment import ALIKE, CLOCKS, OVERLAP, Aligned, align
from isolator.measuring.evened import Evened, evened
from isolator.measuring.steps import HIGHEST
from isolator.reading.faults import InputError, refused
from isolator.reading.printable import printable
from isolator.recordings.options import ReadOptions
from isolator.recordings.read import read_recording
from isolator.recordings.recording import FULL_SCALE, Recording
from isolator.recordings.schedule import Schedule

AIR, DESK, PRINTER = PLACES = ("air", "desk", "printer")
"""Where a recorder was."""
FEWEST_PAUSES = 4
LOWEST = {True: 20.0, False: 10.0}
"""Frequencies looked at begin here [Hz], of sound and of shaking."""
LEAST_HIGH = 60.0
"""Recordings that are good for less tell next to nothing of motors [Hz]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """A recording, and where the moves lie in it."""

    recording: Recording
    evened: Evened
    aligned: Aligned


def find_moves(
    path: Path, schedule: Schedule, schedule_file: Path, options: ReadOptions | None = None
) -> Found:
    """Return a recording and where the moves lie; raises InputError where they do not."""
    file, moves = printable(str(path)), printable(str(schedule_file))
    if len(schedule.pauses) < FEWEST_PAUSES:
        got, wanted = f"{len(schedule.pauses)} of them", f"{FEWEST_PAUSES} pauses or more"
        advice = "take moves with pauses between steps, as `isolator sweep` writes them"
        raise refused(moves, "pauses", got, wanted, advice)
    recording = read_recording(path, options)
    high = recording.verdict.usable_hz[1]
    if high < LEAST_HIGH:
        got = f"a recording that is good for no more than {high:.0f} Hz"
        advice = "record faster, or with a steadier clock"
        raise refused(file, "", got, f"{LEAST_HIGH:.0f} Hz or more", advice)
    whole = schedule.length
    if recording.length < OVERLAP * CLOCKS[0] * whole:
        got, wanted = f"{recording.length:.0f} s", f"the {whole:.0f} s of the moves in {moves}"
        advice = "record from before the start to the end"
        raise refused(file, "", got, wanted, advice)
    even = evened(recording)
    aligned = align(even, schedule, recording.verdict.usable_hz)
    if not aligned.sure:
        raise _not_found(file, moves, aligned)
    return Found(recording=recording, evened=even, aligned=aligned)


def usual_place(unit: str) -> str:
    """Return where a recorder of samples in `unit` is taken to have been."""
    return AIR if unit == FULL_SCALE else DESK


def joint_band(usable: Sequence[tuple[float, float]], ear: bool) -> tuple[float, float]:
    """Return the frequencies [Hz] that all recordings are good for, by those that each one is."""
    low = max(LOWEST[ear], *(each[0] for each in usable))
    return low, min(HIGHEST, *(each[1] for each in usable))


def _not_found(file: str, moves: str, aligned: Aligned) -> InputError:
    """Return the refusal of a recording in which the moves do not lie plainly."""
    wanted = f"a recording of the moves in {moves}"
    if aligned.alike < ALIKE:
        got = "nothing that goes and stops as the moves do"
        advice = (
            "record close to the printer in a quiet room, automatic gain off, or check the files"
        )
    elif not CLOCKS[0] < aligned.ratio < CLOCKS[-1]:
        got = f"moves that take {100 * abs(aligned.ratio - 1):.0f} % longer or shorter"
        advice = "take the schedule of these moves, and the acceleration that it was made with"
    else:
        got = "moves that fit in more places than one, or only in parts"
        advice = (
            "take the schedule of these moves: of earlier ones `isolator sweep` keeps a dated copy "
            "beside the new; record all of them without a break, automatic gain off"
        )
    return refused(file, "", got, wanted, advice)
