"""Where a report says whether it is the feet."""

from __future__ import annotations

import dataclasses

from report_drawn import COM_RANGE, KIT, PICTURES
from report_sample import findings

from isolator.report.page.plots import plots_of
from isolator.report.page.render import render


def test_whether_it_is_the_feet_stands_at_the_head_of_what_follows_the_first_screen() -> None:
    told = dataclasses.replace(findings(), noise={"fans_only": True, "on_towel": False})
    text = render(told, PICTURES, KIT, plots_of(told, COM_RANGE))
    line = text.index("Is it the feet? No: feet will not help. First: stop one fan after the other")
    assert text.index("Change heard, over print speed") < line < text.index("<h2>Problems</h2>")
    assert text.count("Is it the feet?") == 1
