"""What was tried where a check fails, and what it gains."""

from __future__ import annotations

import shlex

from isolator.report.findings import Remedy
from isolator.report.sentences.folds import paver_words
from isolator.report.sentences.heard_words import change
from isolator.report.sentences.numbers import number, readable


def remedy_words(remedy: Remedy | None) -> str:
    """Return what helps most, what it gains and how to take it; empty where nothing does."""
    if remedy is None:
        return ""
    holds = "all checks of the feet hold" if remedy.passes else "not every check holds yet"
    return f"Tried: {_told(remedy, _whole(remedy), holds)} ({_how(remedy)})"


def remedy_items(remedy: Remedy | None) -> tuple[str, ...]:
    """Return the same in short, as an item of a row."""
    if remedy is None:
        return ()
    holds = "the feet pass" if remedy.passes else "a check fails yet"
    if remedy.paver is None:
        return (_told(remedy, _whole(remedy), holds),)
    what = f"a paver of {number(remedy.paver.mass, 2)} kg"
    return (f"{_told(remedy, what, holds)} ({_how(remedy)})",)


def _told(remedy: Remedy, what: str, holds: str) -> str:
    """Return what a remedy gains and whether all checks hold then."""
    gain = ""
    if remedy.change is not None and remedy.speed is not None:
        gain = f"{change(remedy.change)} at {readable(remedy.speed, 'm/s')}, "
    least = ""
    if remedy.least_mass is not None:
        least = f", from {number(remedy.least_mass, 2)} kg on"
    return f"{what}: {gain}{holds}{least}"


def _whole(remedy: Remedy) -> str:
    if remedy.paver is not None:
        return paver_words(remedy.paver).removesuffix(",")
    told = ", ".join(f"{key} at {value}" for key, value in remedy.keys)
    return f"{told} and softer feet" if remedy.softer else told


def _how(remedy: Remedy) -> str:
    design = (
        f"try: isolator design {shlex.quote(remedy.design_from)} " if remedy.design_from else ""
    )
    if remedy.pick:
        return f"{design or 'design '}--pick {remedy.pick}"
    quoted = [(key, f"'{value}'" if '"' in value else f'"{value}"') for key, value in remedy.keys]
    return design + " ".join(f"--set {key}={value}" for key, value in quoted)
