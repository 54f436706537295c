"""The first line: at which speeds it works, at which it does not."""

from __future__ import annotations

from collections.abc import Sequence

from isolator.feet.checks import QUIETER
from isolator.report.findings import Findings
from isolator.report.sentences.answer import heading
from isolator.report.sentences.heard_words import alone_words
from isolator.report.sentences.listed import listed
from isolator.report.sentences.speeds import VERDICTS
from isolator.vibration.band import failed
from isolator.vibration.results import Speed
from isolator.vibration.verdict import QUIET_DBA

_WORDS = ("quieter", "probably quieter", "little change", "may be louder", "louder")
"""What is said of a speed, the best first."""
EVERY, EVERY_ASKED = "every speed you print at", "every speed asked about"
"""What is said of all speeds at once: of a design's, of a check's."""
MOST_NAMED = 8
"""So many speeds are named one by one, of more their number is told."""


def speed_word(speed: Speed) -> str:
    """Return what is said of one speed; "" where nothing drives a belt.

    Quieter: plainly so over the whole band. Probably: in the middle of it. May be louder: where
    the band, as it is told in whole decibels, reaches to louder.
    """
    if speed.heard is None:
        return ""
    change = speed.heard.desk
    if speed.verdict == "amplified":
        return "louder" if change.nominal >= 1.0 else "may be louder"
    if speed.verdict == "quiet":
        return "quieter"
    if round(change.high) >= 1:
        return "may be louder"
    return "probably quieter" if round(change.nominal) <= -QUIET_DBA else "little change"


def verdict_words(speed: Speed) -> tuple[str, str]:
    """Return a speed's mark and what is said of it; a dash where it is compared with nothing."""
    if speed.heard is None and speed.decided_by is not None:
        return "–", "not compared"
    mark, word = VERDICTS.get(speed.verdict, ("■", speed.verdict))
    return mark, speed_word(speed) or word


def headline(findings: Findings) -> str:
    """Return at which speeds it works and at which not, as one clause without its full stop."""
    if findings.kept:
        return "keep the feet that are there; nothing within your limits is plainly quieter"
    every = EVERY if findings.judged is None else EVERY_ASKED
    heard = alone_words(findings.chosen) or _heard(findings.chosen.speeds, every)
    if not heard:
        told = heading(findings)
        return f"{told[:1].lower()}{told[1:]}"
    missed = [check.name for check in failed(findings.checks) if check.name != QUIETER]
    if not missed:
        return heard
    if findings.tally is None:
        what = "a check fails" if len(missed) == 1 else f"{len(missed)} checks fail"
        return f"{heard}; {what}"
    own = {each.name for motor in findings.motors for each in motor.checks}
    if all(name in own for name in missed):
        return f"{heard}; a motor does not hold its checks"
    return f"no feet hold every limit. The nearest: {heard}"


def _heard(speeds: Sequence[Speed], every: str) -> str:
    """Return what is heard in groups of speeds: "quieter at 60 and 150 mm/s, louder at 20 mm/s".

    Where all of them sound alike `every` stands for their names.
    """
    groups = {word: [each for each in speeds if speed_word(each) == word] for word in _WORDS}
    return ", ".join(
        f"{word} at {_at(found, len(speeds), every)}" for word, found in groups.items() if found
    )


def _at(speeds: Sequence[Speed], asked: int, every: str) -> str:
    if len(speeds) == asked > 1:
        return every
    if asked > MOST_NAMED:
        return f"{len(speeds)} of {asked} speeds"
    return f"{listed([f'{speed.speed * 1e3:.3g}' for speed in speeds])} mm/s"
