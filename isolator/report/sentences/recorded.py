"""The verdict on a recording in words."""

from __future__ import annotations

from isolator.recordings.recording import LATE, Note, Recording, Verdict
from isolator.report.sentences.numbers import number

_NOTES = {
    "last-line-cut": "The last line broke off and was left out.",
    "cut-off": "The file ends before its header says: the recorder was stopped hard.",
    "columns-by-order": "The file names no columns: they were taken in the order t, x, y, z. "
    'If they are not, say --columns "t,z,y,x".',
    "swapped": "Samples that came in the wrong order were put right by their times.",
    "bunched": "Samples came in bunches, many with one time: within a stretch they were taken as "
    "evenly spaced.",
    "late-stamps": "Times come late by some milliseconds, but keep step with an even clock.",
    "counter-turned-over": "The counter of time turned over; that was put right.",
    "no-unit": "The unit is not known: sizes are the sensor's own numbers. Say it with --unit.",
}
_UNITS = {"m/s^2": "m/s²", "mm/s^2": "mm/s²"}


def _note(note: Note) -> str:
    """Return one note as a sentence."""
    if note.cause == "empty":
        return f"{note.amount:.0f} lines without a reading in every column were left out."
    for start, text in (
        ("time-unit-", "Times were taken as {}: only that makes a likely rate. "),
        ("unit-taken-", "Readings were taken as {}, as gravity shows. "),
        ("unit-is-", "The file's unit cannot be right: gravity shows {}, which was taken. "),
    ):
        if note.cause.startswith(start):
            unit = note.cause.removeprefix(start)
            option = "--time-unit" if start == "time-unit-" else "--unit"
            return text.format(_UNITS.get(unit, unit)) + f"Otherwise say {option}."
    return _NOTES[note.cause]


def read_notes(verdict: Verdict) -> list[str]:
    """Return how a file was read where it did not say it plainly, a sentence each."""
    return [_note(note) for note in verdict.notes]


def verdict_notes(verdict: Verdict) -> list[str]:
    """Return what was seen in the data and done about it, a sentence each."""
    told = read_notes(verdict)
    if verdict.gaps:
        longest = max(long for _, long in verdict.gaps)
        count = len(verdict.gaps)
        told.append(
            f"{count} gap{'s' if count > 1 else ''}, the longest {number(longest)} s: nothing was "
            f"put in {'them' if count > 1 else 'it'}."
        )
    if verdict.repeats:
        told.append(
            f"{verdict.repeats} samples only repeat the one before and were left out: the app asks "
            "faster than the sensor answers."
        )
    if verdict.clipped:
        told.append(
            f"{verdict.clipped} samples stand at the end of the sensor's range: hit softer, or set "
            "a wider range."
        )
    if verdict.jitter > LATE:
        told.append(
            f"Intervals scatter by {verdict.jitter:.0%}: a recorder that writes to a buffer "
            "first would do better."
        )
    return told


def recording_line(name: str, recording: Recording) -> str:
    """Return one line on a recording: what it is and between which frequencies it can be used."""
    verdict = recording.verdict
    low, high = verdict.usable_hz
    unit = "" if recording.calibrated else ", not calibrated"
    return (
        f"{name}: {number(recording.length)} s at {number(verdict.rate_hz, 4)} Hz, channels "
        f"{', '.join(recording.channels)}{unit}; usable from {number(low, 2)} to "
        f"{number(high, 3)} Hz"
    )
