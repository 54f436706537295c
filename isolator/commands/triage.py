"""`isolator triage`: whether it is the feet at all, before anything is built."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path

from isolator.brief import Brief, read_brief
from isolator.brief.noise import QUESTIONS
from isolator.commands.known_cards import known_cards
from isolator.measuring.heard_still import heard_still
from isolator.measuring.triage import Meeting, Triage, triage
from isolator.reading.changes import Change
from isolator.reading.command_words import COMMAND_LINE, word
from isolator.reading.faults import refused
from isolator.recordings.options import ReadOptions
from isolator.recordings.read import read_recording
from isolator.vibration.evaluation import held
from isolator.vibration.excitation import fan_tones, motor_lines
from isolator.vibration.frame_mode import first_frame_mode
from isolator.vibration.installation import build_installation
from isolator.vibration.own_feet import build_now_stand
from isolator.vibration.stand import given_stand
from isolator.vibration.verdict import LISTENED

SLOWEST = 5e-3
"""Speeds below are not printed at [m/s]."""
BEYOND = 1.25
"""So far beyond the fastest speed of the brief are meetings told; so far below the slowest they
count as met at the brief's speeds."""


def read_answers(yes: Sequence[str], no: Sequence[str]) -> dict[str, bool]:
    """Return answers typed as options; raises InputError for a question nobody asks, or both."""
    found: dict[str, bool] = {}
    names = tuple(key.replace("_", "-") for key in QUESTIONS)
    for option, texts in (("--yes", yes), ("--no", no)):
        for text in texts:
            key = word(option, text.replace("_", "-"), names).replace("-", "_")
            if found.get(key, option == "--yes") != (option == "--yes"):
                got, wanted = f"{text} answered both yes and no", "one answer"
                raise refused(COMMAND_LINE, option, got, wanted, "leave one out")
            found[key] = option == "--yes"
    return found


def left_open(path: Path, changes: Sequence[Change] = ()) -> dict[str, str]:
    """Return the questions that a brief does not answer."""
    told = read_brief(path, changes).noise.answers
    return {key: question for key, question in QUESTIONS.items() if key not in told}


def triaged(
    path: Path,
    answers: Mapping[str, bool],
    *,
    recording: Path | None = None,
    options: ReadOptions | None = None,
    changes: Sequence[Change] = (),
) -> Triage:
    """Return what a brief's [noise] and `answers`, which go before it, come to.

    A `recording` with motors off answers fans_only where it can; what was answered already stays.
    Raises InputError.
    """
    brief = read_brief(path, changes)
    still = None
    heard: dict[str, bool] = {}
    if recording is not None:
        still = heard_still(read_recording(recording, options), fan_tones(brief.fans))
        if still.fans is not None:
            heard["fans_only"] = still.fans
    whole = {**heard, **brief.noise.answers, **answers}
    verdict, causes = triage(whole)
    meetings, feet = _meetings(brief)
    return Triage(
        verdict=verdict,
        answers=whole,
        causes=causes,
        meetings=meetings,
        feet=feet,
        still=still,
    )


def _meetings(brief: Brief) -> tuple[tuple[Meeting, ...], str]:
    """Return the speeds at which the motors' tones meet a mode, and on which feet.

    Those that are given, as taps correct them; else those there now, else ordinary bumpers.
    """
    cards = known_cards(brief)
    installation = build_installation(brief, cards)
    given = given_stand(brief.feet.given) if brief.feet.given else None
    stand = given or build_now_stand(brief, cards) or installation.bumpers
    found = held(installation, stand, brief.motion.speeds)
    modes = [(mode.name, mode.frequency.nominal) for mode in found.modes]
    frame = first_frame_mode(installation.printer.nominal)
    modes.append(("frame bends", frame))
    lines = motor_lines(brief.motion, 1.0)
    slowest, fastest = min(brief.motion.speeds) / BEYOND, max(brief.motion.speeds) * BEYOND
    meetings = [
        Meeting(
            mode=name,
            frequency=frequency,
            source=source,
            speed=frequency / lines[source],
            asked=frequency / lines[source] >= slowest,
        )
        for name, frequency in modes
        for source in LISTENED
        if 0 < frequency < 1e6 and SLOWEST <= frequency / lines[source] <= fastest
    ]
    return tuple(sorted(meetings, key=lambda each: each.speed)), stand.title
