"""What a terminal shows of a squash test, within one screen."""

from __future__ import annotations

from isolator.measuring.squashed import Squashed
from isolator.report.sentences.squash import doubt_words, feet_words, found_words
from isolator.report.terminal.rows import wrapped

MOST_DOUBTS = 4
"""Doubts that are shown; the JSON has all."""


def squash_lines(told: Squashed, width: int, stock: str) -> list[str]:
    """Return the lines; `stock` is the folder of cards as it is told."""
    title = f"{told.card.name} ({told.card.id}), {told.card.family}"
    lines = [title, *_wrapped(found_words(told), width)]
    shown = [f"check: {doubt_words(each)}" for each in told.doubts[:MOST_DOUBTS]]
    if len(told.doubts) > MOST_DOUBTS:
        shown.append(f"check: {len(told.doubts) - MOST_DOUBTS} more (--json)")
    lines += _wrapped(shown, width)
    if told.feet is not None:
        lines += _wrapped(feet_words(told.feet), width)
    use = f'in a brief: [stock] cards = "{stock}", materials = ["{told.card.id}"]'
    return [*lines, *_wrapped([use], width)]


def plan_lines(title: str, steps: list[str], width: int) -> list[str]:
    """Return the protocol of a squash test, its steps numbered."""
    numbered = [f"{number}. {step}." for number, step in enumerate(steps, 1)]
    return [*wrapped(title, width), *_wrapped(numbered, width)]


def _wrapped(told: list[str], width: int) -> list[str]:
    return [line for each in told for line in _hung(each, width)]


def _hung(text: str, width: int) -> list[str]:
    """Return one sentence in lines, further ones set in."""
    margin = " " * (len(text) - len(text.lstrip()) + 2)
    first, *more = wrapped(text, width - len(margin))
    return [first, *(margin + line for line in more)]
