"""What is told of how test moves were found in a recording, and of what its data are worth."""

from __future__ import annotations

from collections.abc import Sequence

from isolator.measuring.alignment import Aligned
from isolator.measuring.evened import Evened
from isolator.recordings.recording import Verdict
from isolator.report.sentences.listed import listed
from isolator.report.sentences.numbers import number
from isolator.report.sentences.recorded import read_notes

CLOCK = 0.005
"""A clock that is off by more is told."""


def found_lines(name: str, verdict: Verdict, evened: Evened, aligned: Aligned) -> list[str]:
    """Return what may be wrong with one recording, called `name`."""
    lines = [f"{name}: {each[0].lower()}{each[1:].rstrip('.')}" for each in read_notes(verdict)]
    if evened.silent:
        lines.append(
            f"{name} has nothing on channel {listed(evened.silent)}: levels are those of the rest; "
            "mend the cable, or save of both recordings what is alive"
        )
    if abs(aligned.ratio - 1.0) > CLOCK:
        lines.append(
            f"the clock of {name} runs {clock_words(aligned.ratio)} against the moves, or the "
            "printer moves otherwise than the schedule says; frequencies are put right by that"
        )
    if verdict.clipped:
        lines.append(
            f"{verdict.clipped} samples of {name} stand at the end of the range: its loudest steps "
            "are told too low; record with less gain"
        )
    if verdict.gaps:
        lost = sum(long for _, long in verdict.gaps)
        gaps = "a gap of" if len(verdict.gaps) == 1 else f"{len(verdict.gaps)} gaps, in all"
        lines.append(f"{name} has {gaps} {number(lost, 2)} s, left out")
    if evened.bridged:
        lines.append(
            f"samples of {name} are unevenly spaced (jitter {100 * verdict.jitter:.0f} %); "
            "straight lines were laid between them"
        )
    return lines


def gain_line(name: str) -> str:
    """Return what is said of a recording whose gain moved by itself."""
    return f"in {name} pauses grow louder by themselves: automatic gain is suspected"


def clock_words(ratio: float) -> str:
    """Return how far a clock is off.

    >>> clock_words(1.04), clock_words(0.98), clock_words(0.9996)
    ('4.0 % fast', '2.0 % slow', 'right')
    """
    if abs(ratio - 1.0) < 5e-4:
        return "right"
    return f"{100 * abs(ratio - 1.0):.1f} % {'fast' if ratio > 1.0 else 'slow'}"


def kept_lines(what: str, names: Sequence[str]) -> list[str]:
    """Return what is said of earlier files that were others: `what` they are, and their copies."""
    return [f"earlier {what} were others: kept as {listed(names)}"] if names else []
