"""What `isolator triage` tells: is it the feet, what to try first, which speeds meet modes."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import groupby

from isolator.brief.noise import QUESTIONS
from isolator.measuring.heard_still import REACH, Still
from isolator.measuring.triage import NO, PARTLY, UNKNOWN, YES, Cause, Triage, triage
from isolator.report.sentences.numbers import number

VERDICTS = {
    YES: "yes, what is heard comes through them",
    PARTLY: "in part: feet take some of it, the rest has other causes",
    NO: "no: feet will not help",
    UNKNOWN: "open: what is told so far does not decide it",
}
BESIDE = "open: {names} are heard too; what else is heard with motors on?"
FEET = {YES: "feet help", PARTLY: "feet help in part", NO: "feet do nothing for it"}
UNTOLD = "Motors off, fans on: what you still hear, feet do not cure. More: isolator triage."


def verdict_line(verdict: str, causes: Sequence[Cause] = ()) -> str:
    """Return the answer to the one question.

    >>> verdict_line("no")
    'Is it the feet? No: feet will not help.'
    """
    told = VERDICTS[verdict]
    if verdict == UNKNOWN and causes:
        told = BESIDE.format(names=", ".join(cause.name for cause in causes))
    end = "" if told.endswith("?") else "."
    return f"Is it the feet? {told[0].upper()}{told[1:]}{end}"


def head_line(answers: Mapping[str, bool]) -> str:
    """Return the line at the head of a report, by the answers of its brief."""
    if not answers:
        return f"Is it the feet? {UNTOLD}"
    verdict, causes = triage(answers)
    first = next((f" First: {cause.first}." for cause in causes if cause.feet == NO), "")
    return verdict_line(verdict, causes) + first


def cause_lines(told: Triage) -> list[str]:
    """Return each cause with what feet do for it and what to try first."""
    return [
        f"{cause.name}: {FEET[cause.feet]}, {cause.why}. First: {cause.first}."
        for cause in told.causes
    ]


def meeting_lines(told: Triage) -> list[str]:
    """Return at which of the brief's speeds tones of the motors meet modes, a line a mode.

    What is met below them stands in one line.
    """
    rows = []
    asked = [each for each in told.meetings if each.asked]
    by_mode = sorted(asked, key=lambda each: (each.frequency, each.mode, each.speed))
    for (mode, frequency), some in groupby(by_mode, key=lambda each: (each.mode, each.frequency)):
        met = ", ".join(f"{number(1e3 * each.speed, 2)} ({each.source})" for each in some)
        rows.append(f"{mode}, {number(frequency, 2)} Hz, at {met} mm/s")
    slower = [each for each in told.meetings if not each.asked]
    if slower:
        low, high = (number(1e3 * pick(s.speed for s in slower), 2) for pick in (min, max))
        modes = ", ".join(dict.fromkeys(each.mode for each in slower))
        span = low if low == high else f"{low} to {high}"
        rows.append(f"slower, as in first layers: at {span} mm/s ({modes})")
    return rows


def still_lines(still: Still) -> list[str]:
    """Return what a recording with motors off holds."""
    low, high = (number(each, 2) for each in still.usable)
    lines = [
        f"{number(tone.frequency)} Hz, {number(tone.over, 2)} dB over what lies about it"
        + (f": {tone.likely}?" if tone.likely else "")
        for tone in still.tones
    ] or [f"no tone stands out between {low} and {high} Hz"]
    if still.hiss is not None:
        lines.append(f"{number(100 * still.hiss, 2)} % of its energy lies above 2 kHz")
    if still.changes:
        lines.append("tones change within it: were the motors off? fans-only stays open")
    elif still.fans is None and still.usable[1] < REACH:
        lines.append(f"it reaches {high} Hz only, and fans sound above: fans-only stays open")
    elif still.fans is None:
        lines.append("no tone is one of a fan that the brief tells: fans-only stays open")
    return lines


def open_questions(told: Triage) -> list[str]:
    """Return what was not answered, by key."""
    return [
        f"{key.replace('_', '-')}: {question}"
        for key, question in QUESTIONS.items()
        if key not in told.answers
    ]
