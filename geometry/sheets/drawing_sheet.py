"""Drawing of one part: section and top view of the solid, its main measures, on paper [mm]."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from itertools import groupby

from geometry.finish.page import SMALL, TEXT, Page, Point, Stroke
from geometry.sheets.cut_view import CutView, cut_view
from geometry.sheets.drawing_features import Hole, recesses, round_holes, slot_ends
from geometry.sheets.projection import FRONT, TOP, Projection, projected
from geometry.solids.part import Part, mm
from geometry.solids.verify import bounds
from isolator.design import Design
from isolator.design.paper import PAPERS
from isolator.design.plate_kinds import PLATE_KINDS

PAPER = (210.0, 297.0)  # A4, ISO 216
LEFT, EDGE = 20.0, 10.0  # margins, ISO 5457's from memory
TITLE = 48.0  # height of the title block
SIDE, ABOVE, BETWEEN, BELOW = 34.0, 16.0, 22.0, 26.0  # room for measures round the views
SCALES = (1.0, 2.0, 5.0, 0.5, 0.2, 0.1)  # ISO 5455's
SMALL_PART = 25.0  # a part whose box is smaller is drawn enlarged
HATCH = 2.5  # between lines of hatching on paper [mm]
MOST = 4  # levels and recesses that get a measure

Place = Callable[[float, float], Point]


@dataclass(frozen=True, slots=True, kw_only=True)
class _View:
    """One view on the page: its box in the part's frame, and where that frame lies."""

    low: Point
    high: Point
    at: Place


def drawing(part: Part, design: Design) -> Page:
    """Return the drawing of a part as it lies on the print bed, first-angle projection.

    Measured are the box, round holes, how far they are apart, level faces as heights above the
    bed or depths below the top, and recesses in words; free curves and slopes are not.
    """
    low_x, low_y, _, high_x, high_y, top = bounds(part.solid)
    wide, deep = high_x - low_x, high_y - low_y
    size = _paper(design)
    scale = _scale(wide, deep, top, size)
    page = Page(size=size)
    middle = LEFT + (size[0] - LEFT - EDGE) / 2
    ceiling = size[1] - EDGE - ABOVE

    def front_at(x: float, z: float) -> Point:
        return middle + scale * (x - (low_x + high_x) / 2), ceiling + scale * (z - top)

    floor = ceiling - scale * top - BETWEEN

    def top_at(x: float, y: float) -> Point:
        return middle + scale * (x - (low_x + high_x) / 2), floor + scale * (y - high_y)

    front = _View(low=(low_x, 0.0), high=(high_x, top), at=front_at)
    plan = _View(low=(low_x, low_y), high=(high_x, high_y), at=top_at)
    cut = cut_view(part.solid, HATCH / scale)
    if cut is None:
        _put(page, projected(part.solid, FRONT), front)
    else:
        _cut(page, cut, front, plan)
    _put(page, projected(part.solid, TOP), plan)
    _measure_front(page, part, front)
    _measure_top(page, part, plan)
    _title(page, part, design, scale)
    page.set_apart()
    return page


def _paper(design: Design) -> tuple[float, float]:
    """Return the size of the user's paper [mm]."""
    wide, high = (mm(side) for side in PAPERS[design.print.paper])
    return wide, high


def _cut(page: Page, cut: CutView, view: _View, plan: _View) -> None:
    """Draw a section with its hatching and walls, and its line in the plan."""
    for lines, kind in ((cut.hatching, "thin"), (cut.seen, "visible")):
        page.strokes += [Stroke(tuple(view.at(*point) for point in line), kind) for line in lines]
    for number, (a, b, z) in enumerate(cut.walls):
        y = view.at(0, z)[1] + 6.0 + 5.0 * number
        page.across(view.at(a, z), view.at(b, z), y, _text(b - a))
    y = (plan.low[1] + plan.high[1]) / 2
    for x, way in ((plan.low[0], -1.0), (plan.high[0], 1.0)):
        at = plan.at(x, y)
        page.line((at[0] + way * 1.0, at[1]), (at[0] + way * 5.0, at[1]), "frame")
        page.write((at[0] + way * 3.0, at[1] + 1.5), "A", SMALL, anchor="middle")
    page.write((view.at(*view.high)[0] + 3.0, view.at(*view.high)[1] + 9.5), "A–A", SMALL)


def _scale(wide: float, deep: float, high: float, size: Point) -> float:
    room = size[0] - LEFT - EDGE - 2 * SIDE
    tall = size[1] - 2 * EDGE - TITLE - ABOVE - BETWEEN - BELOW
    fitting = [s for s in SCALES if wide * s <= room and (deep + high) * s <= tall]
    enlarged = [s for s in fitting if s > 1]
    if max(wide, deep, high) < SMALL_PART and enlarged:
        return max(enlarged)
    return fitting[0] if fitting else SCALES[-1]


def _put(page: Page, seen: Projection, view: _View) -> None:
    for lines, kind in ((seen.hidden, "hidden"), (seen.visible, "visible")):
        page.strokes += [Stroke(tuple(view.at(*point) for point in line), kind) for line in lines]


def _measure_front(page: Page, part: Part, view: _View) -> None:
    """Give the height, and levels: those facing down from the bed, those facing up from the top."""
    (left, bed), (right, top) = view.low, view.high
    found = recesses(part.solid)
    down = sorted({each.z for each in found if each.facing < 0})[:MOST]
    up = sorted({each.z for each in found if each.facing > 0}, reverse=True)[:MOST]
    x = view.at(right, 0)[0]
    for number, z in enumerate([*down, top], 1):
        page.along(view.at(right, bed), view.at(right, z), x + 8.0 * number, _text(z))
    x = view.at(left, 0)[0]
    for number, z in enumerate(up, 1):
        page.along(view.at(left, z), view.at(left, top), x - 7.0 * number, _text(top - z))


def _measure_top(page: Page, part: Part, view: _View) -> None:
    (left, low), (right, high) = view.low, view.high
    at = view.at
    holes, ends = round_holes(part.solid), slot_ends(part.solid)
    below, beside = at(0, low)[1], at(left, 0)[0]
    rows = [(left, right)]
    columns = [(low, high)]
    apart = [hole for hole in holes if holes.count(hole) == 1]
    if len({hole.x for hole in apart}) > 1:
        rows.insert(0, (min(h.x for h in apart), max(h.x for h in apart)))
    if len({hole.y for hole in apart}) > 1:
        columns.insert(0, (min(h.y for h in apart), max(h.y for h in apart)))
    for number, (a, b) in enumerate(rows, 1):
        page.across(at(a, low), at(b, low), below - 8.0 * number, _text(b - a))
    for number, (a, b) in enumerate(columns, 1):
        page.along(at(left, a), at(left, b), beside - 8.0 * number, _text(b - a))
    _holes(page, holes, ends, view)


def _holes(page: Page, holes: list[Hole], ends: list[Hole], view: _View) -> None:
    """Mark every hole's middle; name each diameter once, with how many there are, on the right.

    Slots are named by their width, at their round ends.
    """
    for x, y in sorted({(hole.x, hole.y) for hole in holes}):
        reach = max(h.diameter for h in holes if (h.x, h.y) == (x, y)) / 2 * 1.15
        page.line(view.at(x - reach, y), view.at(x + reach, y), "centre")
        page.line(view.at(x, y - reach), view.at(x, y + reach), "centre")
    named = [(list(group)) for _, group in groupby(holes, key=lambda hole: hole.diameter)]
    tips = [(max(same, key=lambda hole: (hole.x, hole.y)), "Ø", len(same)) for same in named]
    wide = {hole.diameter: hole for hole in ends}
    tips += [(hole, "slot ", 1) for hole in wide.values()]
    right, shelf = view.at(*view.high)
    # from above downwards, so that no leader crosses another
    for one, what, count in sorted(tips, key=lambda tip: (-tip[0].y, -tip[0].diameter)):
        lean = one.diameter / 2 * 0.5**0.5
        words = f"{f'{count}× ' if count > 1 else ''}{what}{_text(one.diameter)}"
        page.leader(view.at(one.x + lean, one.y + lean), (right + 6.0, shelf), words)
        shelf -= 2.0 * TEXT


def _title(page: Page, part: Part, design: Design, scale: float) -> None:
    """Draw frame and title block, with recesses and orientation in words above it."""
    left, right, low, high = LEFT, page.size[0] - EDGE, EDGE, page.size[1] - EDGE
    corners = ((left, low), (right, low), (right, high), (left, high), (left, low))
    page.strokes.append(Stroke(corners, "frame"))
    page.line((left, low + TITLE), (right, low + TITLE), "frame")
    ratio = f"{scale:g}:1" if scale >= 1 else f"1:{1 / scale:g}"
    rows = (
        ("part", part.name, "scale", ratio),
        ("for", f"{design.name}, {part.owner}", "count", f"{part.quantity}"),
        ("material", _material(part), "version", design.version),
        ("lengths", "mm", "projection", "first angle (ISO 5456-2)"),
    )
    for number, (name, value, other, told) in enumerate(rows, 1):
        y = low + TITLE - 7.0 * number
        page.line((left, y), (right, y))
        page.write((left + 2, y + 2), name, SMALL)
        page.write((left + 20, y + 2), _fitting(value, 42), TEXT)
        page.write((left + 117, y + 2), other, SMALL)
        page.write((left + 134, y + 2), told, SMALL if len(told) > 16 else TEXT)
    page.line((left + 115, low + TITLE), (left + 115, low + TITLE - 28), "thin")
    top = part.box[2]
    words = [
        f"{_text(each.wide)} × {_text(each.deep)}, "
        + (f"{_text(top - each.z)} deep" if each.facing > 0 else f"{_text(each.z)} above the bed")
        for each in recesses(part.solid)[:MOST]
    ]
    if words:
        page.write((left + 2, low + 14), "level faces: " + "; ".join(words[:2]), SMALL)
    if words[2:]:
        page.write((left + 2, low + 9.5), "; ".join(words[2:]), SMALL)
    page.write(
        (left + 2, low + 4),
        f"{'' if part.cut else 'as printed: '}{_fitting(part.orientation, 110)}",
        SMALL,
    )


def _material(part: Part) -> str:
    return f"{PLATE_KINDS[part.material].told}, {part.box[2]:g} mm" if part.cut else part.material


def _fitting(text: str, most: int) -> str:
    return text if len(text) <= most else text[: most - 1] + "…"


def _text(length: float) -> str:
    return f"{round(length, 2) + 0.0:g}"
