"""The report in a browser, as people see it: on a desk, in a hand, light, dark and on paper.

Needs playwright and Debian's `chromium`; without them these tests are skipped.
"""

from __future__ import annotations

import re
import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
import report_drawn
from report_sample import findings

from isolator.report.page.plots import plots_of
from isolator.report.page.render import render

sync_api = pytest.importorskip("playwright.sync_api", reason="playwright is not installed")
CHROMIUM = shutil.which("chromium")
pytestmark = pytest.mark.skipif(CHROMIUM is None, reason="no chromium on this machine")

DESK, HAND = 1400, 400  # widths of a screen [px]
OPEN = "document.querySelectorAll('details').forEach(fold => fold.open = true)"
SHORT = """text => [...text.childNodes].some(n => n.nodeType === 3 && n.textContent.trim())"""
TEXTS = f"""[...document.querySelectorAll('main *')].filter(e =>
    e.checkVisibility() && e.getClientRects().length && ({SHORT})(e))"""
SIZES = f"""() => {TEXTS}.map(e => {{
    const svg = e.closest('svg');
    const scale = svg ? svg.getBoundingClientRect().width / svg.viewBox.baseVal.width : 1;
    return [scale * parseFloat(getComputedStyle(e).fontSize), e.textContent.trim(), !!svg];
}})"""
WIDE_ITEMS = """() => [...document.querySelectorAll('main *')]
    .filter(e => !e.closest('svg') && e.checkVisibility())
    .filter(e => e.getBoundingClientRect().right > innerWidth + 0.5)
    .map(e => e.tagName + ' ' + e.textContent.trim().slice(0, 40))"""
LABELS = """() => [...document.querySelectorAll('.chart svg')].filter(s => s.checkVisibility())
    .map(s => [s.getAttribute('aria-label'), [s, ...s.querySelectorAll('text')].map(e => {
        const b = e.getBoundingClientRect();
        return [e === s ? '' : e.textContent, b.left, b.top, b.right, b.bottom];
    })])"""
CONTRAST = f"""() => {{
    const canvas = document.createElement('canvas').getContext('2d', {{willReadFrequently: true}});
    const rgba = colour => {{
        canvas.clearRect(0, 0, 1, 1);
        canvas.fillStyle = colour;
        canvas.fillRect(0, 0, 1, 1);
        return canvas.getImageData(0, 0, 1, 1).data;
    }};
    const bright = colour => {{
        const [r, g, b] = [...rgba(colour)].slice(0, 3).map(c => c / 255)
            .map(c => c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4);
        return 0.2126 * r + 0.7152 * g + 0.0722 * b;
    }};
    const ground = e => {{
        for (; e; e = e.parentElement) {{
            const colour = getComputedStyle(e).backgroundColor;
            if (rgba(colour)[3] === 255) return colour;
        }}
        return 'white';
    }};
    return {TEXTS}.map(e => {{
        const style = getComputedStyle(e);
        const ink = bright(e.closest('svg') ? style.fill : style.color), under = bright(ground(e));
        const ratio = (Math.max(ink, under) + 0.05) / (Math.min(ink, under) + 0.05);
        return [ratio, e.textContent.trim()];
    }});
}}"""


@pytest.fixture(scope="session")
def browser() -> Iterator[Any]:
    with sync_api.sync_playwright() as started:
        quiet = ("--no-sandbox", "--disable-gpu", "--disable-background-networking")
        opened = started.chromium.launch(executable_path=CHROMIUM, args=list(quiet))
        yield opened
        opened.close()


@pytest.fixture(scope="session", params=["shipped", "made up"])
def report(request: pytest.FixtureRequest, shipped: Any, tmp_path_factory: Any) -> Path:
    """The report of the shipped example, and one in which checks fail and speeds are louder."""
    if request.param == "shipped":
        return Path(shipped.folder / "report.html")
    file = Path(tmp_path_factory.mktemp("page") / "report.html")
    told = findings(passing=False)
    text = render(
        told, report_drawn.PICTURES, report_drawn.KIT, plots_of(told, report_drawn.COM_RANGE)
    )
    file.write_text(text, encoding="utf-8")
    return file


def shown(browser: Any, file: Path, wide: int, scheme: str = "light", tall: int = 900) -> Any:
    page = browser.new_page(viewport={"width": wide, "height": tall}, color_scheme=scheme)
    page.set_default_timeout(60_000)  # a page of pictures on a busy machine
    page.goto(file.as_uri())
    return page


@pytest.mark.parametrize("wide", [HAND, DESK])
def test_nothing_is_cut_too_small_or_written_over_another(
    browser: Any, report: Path, wide: int
) -> None:
    page = shown(browser, report, wide)
    page.evaluate(OPEN)
    assert page.evaluate("document.documentElement.scrollWidth") <= wide
    assert page.evaluate(WIDE_ITEMS) == []
    sizes = page.evaluate(SIZES)
    assert len(sizes) > 300
    assert [each for each in sizes if each[0] < (12.0 if each[2] else 11.0)] == []
    charts = page.evaluate(LABELS)
    assert len(charts) >= 8
    for name, (frame, *labels) in charts:
        assert len(labels) > 5, name
        for label in labels:
            assert _inside(label, frame), (name, label)
        pairs = [(a, b) for i, a in enumerate(labels) for b in labels[:i] if _overlap(a, b)]
        assert pairs == [], name
    page.close()


def _inside(label: list[Any], frame: list[Any]) -> bool:
    _, left, top, right, bottom = label
    slack = 3.0  # of a font's own box, which is higher than its letters
    return bool(
        left > frame[1] - slack
        and top > frame[2] - slack
        and right < frame[3] + slack
        and bottom < frame[4] + slack
    )


def _overlap(one: list[Any], other: list[Any]) -> bool:
    across = min(one[3], other[3]) - max(one[1], other[1])
    along = min(one[4], other[4]) - max(one[2], other[2])
    return bool(across > 1.0 and along > 3.0)  # boxes of letters are higher than letters


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_every_word_stands_out_from_its_ground(browser: Any, report: Path, scheme: str) -> None:
    page = shown(browser, report, DESK, scheme)
    page.evaluate(OPEN)
    ground = page.evaluate("getComputedStyle(document.body).backgroundColor")
    assert ground == ("rgb(255, 255, 255)" if scheme == "light" else "rgb(20, 24, 28)")
    found = page.evaluate(CONTRAST)
    assert len(found) > 300
    assert [each for each in found if each[0] < 4.5] == []  # WCAG 2.2, 1.4.3, level AA
    page.close()


def test_every_fold_opens_and_nothing_is_asked_of_a_network(browser: Any, report: Path) -> None:
    page = browser.new_page(viewport={"width": DESK, "height": 900})
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    page.goto(report.as_uri())
    folds = page.locator("details")
    assert folds.count() > 15
    assert page.locator("details[open]").count() == 0
    for at in range(folds.count()):  # a fold in another comes after it
        folds.nth(at).locator("> summary").click()
        inside = folds.nth(at).locator("> .inside")
        assert inside.is_visible()
        assert inside.inner_text().strip()
    assert {url for url in asked if not url.startswith("data:")} == {report.as_uri()}
    page.close()


def test_a_link_opens_the_fold_that_it_leads_to(browser: Any, report: Path) -> None:
    page = shown(browser, report, DESK)
    page.locator('a[href="#assumed"], a[href="#motors"]').first.evaluate("link => link.click()")
    target = page.url.partition("#")[2]
    assert page.locator(f"#{target}").is_visible()
    page.close()


def test_the_first_screen_holds_the_answer_and_the_page_is_short(
    browser: Any, shipped: Any
) -> None:
    file = shipped.folder / "report.html"
    page = shown(browser, file, 1200, tall=800)
    ends = page.evaluate(
        """() => [...document.querySelectorAll('#first > h1, #first .tile, #first .chart')]
        .map(each => each.getBoundingClientRect()).map(box => [box.top, box.bottom])"""
    )
    assert len(ends) == 1 + 3 + 1
    assert all(0 < top < bottom <= 800 for top, bottom in ends)
    assert page.locator("#first h1").inner_text().count(".") == 1  # one sentence
    picture = page.locator(".tile img").evaluate("image => image.naturalWidth")
    assert picture > 300
    page.close()
    page = shown(browser, file, DESK)
    assert page.evaluate("document.documentElement.scrollHeight") <= 6000
    page.close()


def test_on_paper_it_is_short_and_a_record_comes_first(browser: Any, report: Path) -> None:
    page = shown(browser, report, DESK)
    paper = page.pdf(prefer_css_page_size=True, print_background=True)
    assert 3 <= len(re.findall(rb"/Type\s*/Page\b", paper)) <= 8
    page.emulate_media(media="print")
    page.set_viewport_size({"width": 695, "height": 1024})  # A4 less its margins of 13 mm
    record = page.locator("#record")
    assert record.is_visible()
    assert record.bounding_box()["height"] <= 1024
    for words in ("Date", "Signature", "Measured", "Change heard at", "Checks", "Cautions"):
        assert words in record.inner_text()
    page.close()
