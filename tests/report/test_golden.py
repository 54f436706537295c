"""The first screens of the shipped examples, letter by letter; DEVELOPERS.md says how to rewrite
them."""

from __future__ import annotations

import pytest
from goldens import EXAMPLES, SHAPES, golden, texts

from isolator.report.terminal.answer import LINES

WIDTHS = {shape: width for shape, (width, _) in SHAPES.items()}


@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("example", EXAMPLES)
def test_a_golden_text_fits_its_window(example: str, shape: str) -> None:
    lines = golden(example, shape).read_text(encoding="utf-8").splitlines()
    assert max(map(len, lines)) <= WIDTHS[shape]
    end = next(at for at, line in enumerate(lines) if line.startswith("$ isolator check")) - 1
    assert end - 1 <= LINES
    if shape == "ascii":
        assert all(line.isascii() and "?" not in line for line in lines)


@pytest.mark.usefixtures("all_samples")
@pytest.mark.parametrize(
    "example", [EXAMPLES[0], *(pytest.param(name, marks=pytest.mark.slow) for name in EXAMPLES[1:])]
)
def test_terminals_show_the_golden_texts(example: str) -> None:
    for shape, text in texts(example).items():
        assert text == golden(example, shape).read_text(encoding="utf-8"), shape
