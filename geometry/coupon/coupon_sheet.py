"""Drawing of the fit coupon: every feature with its letter and nominal size, how to measure it."""

from __future__ import annotations

from geometry.coupon.coupon import AT, letter_place
from geometry.finish.page import SMALL, TEXT, Page, Point, Stroke
from geometry.sheets.drawing_sheet import PAPER
from geometry.sheets.projection import FRONT, TOP, projected
from geometry.solids.part import Part, mm
from isolator.design.coupon import FEATURES, HEXAGON, HOLE, PEG, Feature

LEFT, EDGE = 20.0, 10.0  # margins, ISO 5457's from memory
SCALE = 2.0
MIDDLE = LEFT + (PAPER[0] - LEFT - EDGE) / 2
FRONT_BED, PLAN_MIDDLE, TABLE = 246.0, 187.0, 122.0  # heights on the page [mm]
ROW = 6.0
COLUMNS = (2.0, 20.0, 70.0, 96.0)  # of the table, from the frame's left


def coupon_drawing(part: Part, title: str, version: str) -> Page:
    """Return the drawing of the coupon, twice its size, first-angle projection."""
    page = Page(size=PAPER)
    _view(page, part, FRONT, FRONT_BED)
    _view(page, part, TOP, PLAN_MIDDLE)
    for feature in FEATURES:
        _name(page, feature)
    wide, deep, high = part.box
    low, right, left = _at(0, -deep / 2)[1], _at(wide / 2, 0)[0], _at(-wide / 2, 0)[0]
    page.across((left, low), (right, low), low - 18.0, f"{wide:g}")
    page.along(_at(-wide / 2, -deep / 2), _at(-wide / 2, deep / 2), left - 8.0, f"{deep:g}")
    page.along((right, FRONT_BED), (right, FRONT_BED + SCALE * high), right + 8.0, f"{high:g}")
    _table(page)
    _title(page, part, title, version)
    return page


def size_text(feature: Feature) -> str:
    """Return a nominal size as a drawing writes it [mm]: Ø for round."""
    if feature.kind == HEXAGON:
        return f"{mm(feature.nominal):g} across flats"
    return f"{'Ø' if feature.kind in (HOLE, PEG) else ''}{mm(feature.nominal):g}"


def _at(x: float, y: float) -> Point:
    return MIDDLE + SCALE * x, PLAN_MIDDLE + SCALE * y


def _view(page: Page, part: Part, eye: tuple[float, float, float], level: float) -> None:
    seen = projected(part.solid, eye)
    # a coupon's recesses all show in the plan; hidden edges would only blacken the front view
    kinds = (("hidden", seen.hidden), ("visible", seen.visible))
    for kind, lines in kinds[1:] if eye == TOP else kinds:
        page.strokes += [
            Stroke(tuple((MIDDLE + SCALE * x, level + SCALE * y) for x, y in line), kind)
            for line in lines
        ]


def _name(page: Page, feature: Feature) -> None:
    """Write letter and size outside the plan, beside the letter on the part."""
    x, y = letter_place(feature.letter)
    text = f"{feature.letter} {size_text(feature)}"
    if feature.letter in "KL":
        tip = _at(x + 4.0, y)
        page.leader(tip, (tip[0] + 2.0, tip[1]), text)
        return
    middle, edge = _at(x, y), _at(0, 17.5 if y > 0 else -17.5)[1]
    page.write((middle[0], edge + (2.5 if y > 0 else -5.0)), text, SMALL, anchor="middle")
    column, row = AT[feature.letter]
    for a, b in (((-1.0, 0.0), (1.0, 0.0)), ((0.0, -1.0), (0.0, 1.0))):
        reach = mm(feature.nominal) / 2 * 1.15
        page.line(
            _at(column + reach * a[0], row + reach * a[1]),
            _at(column + reach * b[0], row + reach * b[1]),
            "centre",
        )


def _table(page: Page) -> None:
    rows = [("letter", "what", "nominal", "how to measure")]
    rows += [(each.letter, each.what, size_text(each), each.how) for each in FEATURES]
    for number, cells in enumerate(rows):
        y = TABLE - ROW * number
        for column, text in zip(COLUMNS, cells, strict=True):
            page.write((LEFT + column, y), text, SMALL)
        page.line((LEFT, y - 1.8), (PAPER[0] - EDGE, y - 1.8))


def _title(page: Page, part: Part, title: str, version: str) -> None:
    left, right, low, high = LEFT, PAPER[0] - EDGE, EDGE, PAPER[1] - EDGE
    corners = ((left, low), (right, low), (right, high), (left, high), (left, low))
    page.strokes.append(Stroke(corners, "frame"))
    rows = (
        (f"{part.name} for {title}"[:70], TEXT),
        (
            f"{part.material}, one; isolator {version}; scale {SCALE:g}:1, lengths in mm, "
            "first angle (ISO 5456-2)",
            SMALL,
        ),
        (
            "as printed, letters up; callipers to 0.01 or 0.02 mm, "
            "part cold and cleaned of strings",
            SMALL,
        ),
    )
    page.line((left, low + 24.0), (right, low + 24.0), "frame")
    for number, (text, height) in enumerate(rows):
        page.write((left + 2, low + 17.0 - 7.0 * number), text, height)
