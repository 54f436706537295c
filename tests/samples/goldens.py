"""What terminals show of the shipped examples, as golden texts; run as a program it writes them.

    python tests/samples/goldens.py [EXAMPLE ...]

Each is the answer of `design`, then that of `check` for the same feet: at 80 and at 120 columns,
and at 80 in ASCII. Bands are of all samples, as a user gets them.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

from isolator.brief import Brief, read_brief
from isolator.cards import Material
from isolator.commands.check import assess
from isolator.commands.design import solve, to_buy
from isolator.commands.known_cards import known_cards
from isolator.report.findings import Findings
from isolator.report.terminal.answer import answer_lines, file_lines
from isolator.report.terminal.checked import checked_lines
from isolator.report.terminal.stream import plain
from isolator.vibration.evaluation import Question

ROOT = Path(__file__).parents[2]
FOLDER = ROOT / "tests/golden"
EXAMPLES = ("reading-room", "story-corner", "workshop")
SHAPES = {"80": (80, str), "120": (120, str), "ascii": (80, plain)}
"""Columns, and what is done to every text."""


def golden(example: str, shape: str) -> Path:
    """Return the file of a golden text."""
    return FOLDER / f"{example}-{shape}.txt"


def texts(example: str) -> dict[str, str]:
    """Return what is shown of an example, by shape."""
    brief = read_brief(ROOT / "isolator/examples" / f"{example}.toml")
    cards = known_cards(brief)
    designed = solve(brief, cards, lambda what, done, total: None)
    designed = replace(designed, buy=to_buy(designed, brief, cards))
    checked = _checked(brief, cards, designed)
    return {
        shape: "".join(f"{line}\n" for line in _lines(designed, checked, *made))
        for shape, made in SHAPES.items()
    }


def _checked(brief: Brief, cards: dict[str, Material], designed: Findings) -> Findings:
    question = Question(speeds=brief.motion.speeds, frequencies=(25.0,))
    return assess(brief, cards, question, designed.design)


def _lines(designed: Findings, checked: Findings, width: int, say) -> Iterator[str]:  # type: ignore[no-untyped-def]
    yield f"$ isolator design {designed.slug}.toml"
    yield from answer_lines(designed, width, say)
    yield from file_lines(f"out/{designed.slug}", (), width)
    yield ""
    yield f"$ isolator check {designed.slug}.toml"
    yield from checked_lines(checked, width, say)


if __name__ == "__main__":
    for name in sys.argv[1:] or EXAMPLES:
        for shape, text in texts(name).items():
            golden(name, shape).write_text(text, encoding="utf-8")
            print(golden(name, shape).relative_to(ROOT))
