"""Ranges of speeds typed on the command line: "20 to 120 mm/s", or 20:120:20."""

from __future__ import annotations

import re
from collections.abc import Sequence

import numpy as np

from isolator.reading.command_words import COMMAND_LINE, quantities
from isolator.reading.faults import InputError
from isolator.reading.notes import Notes, shown

ONE, SEVERAL = "--speed", "--speeds"
"""The two names of the option."""
MOST = 50
"""Speeds that one command is asked about."""
USUAL = 10
"""A range without a step gets about so many."""
STEPS = (1.0, 2.0, 5.0)
"""Steps are so many of a power of ten mm/s."""
_WORDS = re.compile(
    r"\s*(?P<low>[^:]*?)(?:\s+to\s+|\s*\.\.\s*)(?P<high>[^:]*?)(?:\s+by\s+(?P<step>.+?))?\s*"
)
_NUMBER = r"\s*([0-9.]+)\s*"
_COLONS = re.compile(rf"{_NUMBER}:{_NUMBER}(?::{_NUMBER})?(mm/s)?\s*")
LIKE = 'write it like "20 to 120 mm/s", "20 to 120 mm/s by 10 mm/s", or 20:120:20 in mm/s'


def speeds_of(texts: Sequence[str]) -> tuple[float, ...]:
    """Return the speeds [m/s] that are asked for, each once in the order typed.

    A text is one speed, or a range of them with both its ends. Raises InputError, which names one
    speed and several as the options do.
    """
    found: list[float] = []
    for text in texts:
        found += _range(text) or quantities([ONE], [text], "m/s")
    speeds = tuple(dict.fromkeys(found))
    if len(speeds) > MOST:
        _refuse(f"{len(speeds)} speeds", f"at most {MOST}", "take a wider step")
    return speeds


def _range(text: str) -> list[float]:
    """Return the speeds of a range [m/s]; none where `text` is no range."""
    colons, words = _COLONS.fullmatch(text), _WORDS.fullmatch(text)
    if colons:
        ends = [f"{each} mm/s" for each in colons.groups()[:3] if each]
    elif words and words["low"] and words["high"]:
        unit = re.sub(r"^[-+0-9.,\s]*", "", words["high"])
        low = (
            words["low"]
            if re.search("[a-zA-Z]", words["low"])
            else f"{words['low']} {unit}".strip()
        )
        ends = [low, words["high"], *([words["step"]] if words["step"] else [])]
    else:
        return []
    low_end, high_end, *step = quantities([SEVERAL] * len(ends), ends, "m/s")
    if high_end <= low_end:
        _refuse(shown(text), "a range from a slower to a faster speed", LIKE)
    wide = step[0] if step else usual_step(high_end - low_end)
    if (high_end - low_end) / wide > 10 * MOST:
        _refuse(shown(text), f"at most {MOST} speeds", "take a wider step")
    inner = np.arange(np.ceil(low_end / wide + 1e-9), high_end / wide - 1e-9) * wide
    if colons or step:  # steps are counted from the first speed
        inner = np.arange(low_end + wide, high_end - 1e-9 * wide, wide)
    return [round(float(each), 9) for each in (low_end, *inner, high_end)]


def usual_step(span: float) -> float:
    """Return a round step [m/s] that makes about `USUAL` speeds of a span.

    >>> [round(usual_step(span), 6) for span in (0.1, 0.28, 0.05)]
    [0.01, 0.02, 0.005]
    """
    power = 10.0 ** np.floor(np.log10(span / USUAL) + 1e-9)
    return float(min((n * power for n in (*STEPS, 10.0)), key=lambda one: abs(span / one - USUAL)))


def _refuse(got: str, wanted: str, advice: str) -> None:
    notes = Notes(COMMAND_LINE)
    notes.fault(SEVERAL, got, wanted, advice)
    raise InputError(notes.faults)
