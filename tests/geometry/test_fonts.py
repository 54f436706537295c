"""Letters that the usual drawing font lacks: from another font of the machine, or told once."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from command import isolator
from fontTools.fontBuilder import FontBuilder
from fontTools.pens.ttGlyphPen import TTGlyphPen
from matplotlib.font_manager import fontManager
from sheets import design, spacer

from geometry.finish import fonts
from geometry.finish.page import Page
from geometry.finish.page_files import page_pdf
from isolator.design.write import write_design

SIGN = "\U0001321f"  # of a script that few fonts have


@pytest.fixture
def font(tmp_path: Path) -> Iterator[None]:
    """A font of this machine that has one sign: a box."""
    pen = TTGlyphPen(None)
    pen.moveTo((0, 0))
    for place in ((0, 500), (500, 500), (500, 0)):
        pen.lineTo(place)
    pen.closePath()
    box = pen.glyph()
    made = FontBuilder(1000, isTTF=True)
    made.setupGlyphOrder([".notdef", "sign"])
    made.setupCharacterMap({ord(SIGN): "sign"})
    made.setupGlyf({".notdef": TTGlyphPen(None).glyph(), "sign": box})
    made.setupHorizontalMetrics({".notdef": (600, 0), "sign": (600, 0)})
    made.setupHorizontalHeader(ascent=800, descent=-200)
    made.setupNameTable({"familyName": "Signs", "styleName": "Regular", "psName": "Signs"})
    made.setupOS2(sTypoAscender=800, usWeightClass=400)
    made.setupPost()
    made.save(tmp_path / "signs.ttf")
    before = list(fontManager.ttflist)
    fontManager.addfont(tmp_path / "signs.ttf")
    fonts._needed.cache_clear()
    yield
    fontManager.ttflist[:] = before
    fonts._needed.cache_clear()


def page(text: str) -> Page:
    sheet = Page(size=(50.0, 20.0))
    sheet.write((5.0, 5.0), text)
    return sheet


def test_ordinary_names_need_no_other_font() -> None:
    assert fonts.families("Füße Ω ± 30°") == [fonts.USUAL]
    assert fonts.lacking("Füße Ω ± 30°") == ""


def test_a_letter_comes_from_a_font_that_has_it(font: None) -> None:
    assert fonts.families(f"a {SIGN}") == [fonts.USUAL, "Signs"]
    assert fonts.lacking(f"a {SIGN}") == ""
    assert b"Signs" in page_pdf(page(f"a {SIGN}"), "a")
    assert b"Signs" not in page_pdf(page("a"), "a")


def test_a_letter_that_no_font_has_is_told_once(tmp_path: Path) -> None:
    sheet = tmp_path / "design.toml"
    drawing = replace(design(spacers=(spacer(),)), name=f"Desk {SIGN} {SIGN}", slug="desk")
    sheet.write_text(write_design(drawing), encoding="utf-8")
    ran = isolator("draw", sheet, "--out", tmp_path / "out")
    assert ran.code == 0
    assert ran.err == ""
    assert [line for line in ran.out.splitlines() if line.startswith("check: no font")] == [
        f"check: no font of this machine has {SIGN}: boxes stand for them in drawings/*.pdf; "
        "install a font that has them and draw again, or open the SVG beside it"
    ]
    told = json.loads((tmp_path / "out" / "desk" / "manifest.json").read_text(encoding="utf-8"))
    assert told["letters_lacking"] == SIGN
