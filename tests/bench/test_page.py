"""How long reading a brief and writing the report's page take, against the libraries alone."""

from __future__ import annotations

import io
from importlib import resources

import numpy as np
import pytest
import tomlkit
from matplotlib.figure import Figure
from paired import paired
from report_drawn import COM_RANGE, KIT, PICTURES
from report_sample import findings

from isolator.brief import read_brief_text
from isolator.report.page.plots import plots_of
from isolator.report.page.render import render

pytestmark = [pytest.mark.bench, pytest.mark.usefixtures("all_samples")]


@pytest.mark.parametrize("name", ["reading-room", "story-corner", "workshop"])
def test_a_brief_is_read_in_some_times_its_parsing(
    name: str, capsys: pytest.CaptureFixture[str]
) -> None:
    file = resources.files("isolator.examples") / f"{name}.toml"
    text = file.read_text(encoding="utf-8")

    def read() -> None:
        for _ in range(10):
            read_brief_text(text, "brief.toml")

    def parse() -> None:
        for _ in range(10):
            tomlkit.parse(text)

    took = paired(9, read, parse)
    # measured 0.67 to 0.83; 0.49 to 0.55 with fewer keys
    took.hold(1.1, f"ten times {name}", "their parsing", capsys)


def test_the_page_takes_some_times_bare_figures(capsys: pytest.CaptureFixture[str]) -> None:
    told = findings()
    x = np.linspace(0.0, 1.0, 400)

    def figures() -> None:
        for _ in range(4):
            figure = Figure(figsize=(7.0, 4.0))
            figure.subplots(1, 3)[0].plot(x, x)
            figure.savefig(io.StringIO(), format="svg")

    took = paired(5, lambda: render(told, PICTURES, KIT, plots_of(told, COM_RANGE)), figures)
    # measured 6.2 to 6.3: each chart is drawn for a desk and for a hand; 2.9 to 3.3 when once
    took.hold(8.0, "the report's page", "four bare figures", capsys)
