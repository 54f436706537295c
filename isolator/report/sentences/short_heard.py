"""What is heard, a line a speed, and what to avoid."""

from __future__ import annotations

from collections.abc import Sequence

from isolator.report.sentences.headline import speed_word
from isolator.report.sentences.heard_words import change_parts, damped, short_where
from isolator.report.sentences.listed import listed
from isolator.report.sentences.loudness import loudness
from isolator.report.sentences.speeds import avoid_words, merged
from isolator.vibration.results import Evaluation, Speed

FIRST_LAYERS = (0.015, 0.030)
"""At which first layers are usually printed [m/s]; common practice, no source."""
NINE_OF_TEN = "nine of ten"
"""Printers like the user's, in whose span a change lies."""
Row = tuple[str, str]


def heard_head(found: Evaluation) -> Row:
    """Return the heads of the two columns."""
    return "speed", f"heard {short_where(found)}"


def heard_rows(found: Evaluation, most: int = 0) -> list[Row]:
    """Return a row a speed; speeds that follow one another and sound alike share one.

    More than `most` rows (0: any number) are cut down to the loudest of them.
    """
    groups: list[tuple[str, list[Speed]]] = []
    for speed in found.speeds:
        told = heard_words_of(speed)
        if groups and groups[-1][0] == told:
            groups[-1][1].append(speed)
        else:
            groups.append((told, [speed]))
    rows = [(_names(alike), told, max(_loud(each) for each in alike)) for told, alike in groups]
    if most and len(rows) > most:
        kept = sorted(range(len(rows)), key=lambda at: -rows[at][2])[: most - 1]
        rest = sum(len(alike) for at, (_, alike) in enumerate(groups) if at not in kept)
        told_rows = [rows[at][:2] for at in sorted(kept)]
        return [*told_rows, (f"{rest} more", "quieter than these (--details)")]
    return [row[:2] for row in rows]


def _loud(speed: Speed) -> float:
    return float("-inf") if speed.heard is None else speed.heard.desk.nominal


def _names(alike: Sequence[Speed]) -> str:
    numbers = [f"{speed.speed * 1e3:.3g}" for speed in alike]
    if len(numbers) > 3:
        return f"{numbers[0]} to {numbers[-1]} mm/s"
    return f"{', '.join(numbers)} mm/s"


def heard_words_of(speed: Speed) -> str:
    """Return how a speed is heard: "9 dB(A) quieter, about half as loud (nine of ten: 3 to 14)"."""
    if speed.heard is None:
        return "no motor drives a belt"
    told, ends = change_parts(speed.heard.desk)
    words = loudness(speed.heard.desk.nominal)
    if words and speed_word(speed) in ("little change", "may be louder"):
        told = f"{told}: {speed_word(speed)}"
    elif words:
        told = f"{told}, {words}"
    return f"{told} ({NINE_OF_TEN}: {ends})" if ends else told


def avoid_row(found: Evaluation) -> Row:
    """Return which speeds to avoid, and why."""
    spans = avoid_words(found.avoid)
    if not spans:
        return "avoid", "no speed: none is louder than before"
    low, high = FIRST_LAYERS
    near = any(first <= high and last >= low for first, last, _ in merged(found.avoid))
    layers = "; first layers often fall in here" if near else ""
    told = listed([each.removesuffix(" mm/s") for each in spans])
    return "avoid", f"{told} mm/s: may be louder than before{layers}"


def rest_row(found: Evaluation) -> Row:
    """Return what neither feet nor, where there are some, dampers change."""
    same = "what motors and fans send into frame and air stays as it is"
    return (
        "the rest",
        "fans, and what motors send into the air, stay as they are" if damped(found) else same,
    )
