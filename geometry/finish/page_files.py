"""A drawn page as SVG and as PDF, both at true scale, the same bytes for the same page."""

from __future__ import annotations

import io
from typing import Any
from xml.sax.saxutils import escape

from geometry.finish.fonts import families
from geometry.finish.page import DASHES, WIDTHS, Page, Point

POINT = 25.4 / 72.0  # [mm]
INK = "#111111"
_SIDES = {"start": "left", "middle": "center", "end": "right"}


def page_svg(page: Page) -> str:
    """Return the SVG, its size in mm and one user unit to the millimetre."""
    wide, high = page.size
    groups = []
    for kind, width in WIDTHS.items():
        dashes = " ".join(f"{each:g}" for each in DASHES.get(kind, ()))
        path = "".join(
            "M" + "L".join(f"{x:.3f} {high - y:.3f}" for x, y in stroke.line)
            for stroke in page.strokes
            if stroke.kind == kind
        )
        if path:
            more = f' stroke-dasharray="{dashes}"' if dashes else ""
            groups.append(f'<path class="{kind}" stroke-width="{width:g}"{more} d="{path}"/>')
    heads = "".join(
        "M" + "L".join(f"{x:.3f} {high - y:.3f}" for x, y in head) + "Z" for head in page.heads
    )
    words = "".join(
        f'<text transform="translate({x:.3f} {high - y:.3f}){" rotate(-90)" if upright else ""}" '
        f'font-size="{height:g}" text-anchor="{anchor}">{escape(text)}</text>'
        for (x, y), text, height, anchor, upright in page.words
    )
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{wide:g}mm" height="{high:g}mm" '
        f'viewBox="0 0 {wide:g} {high:g}"><rect width="{wide:g}" height="{high:g}" fill="#fff"/>'
        f'<g fill="none" stroke="{INK}" stroke-linecap="round" stroke-linejoin="round">'
        f'{"".join(groups)}</g><path fill="{INK}" d="{heads}"/>'
        f'<g font-family="sans-serif" fill="{INK}">{words}</g></svg>\n'
    )


def page_pdf(page: Page, title: str) -> bytes:
    """Return the PDF; it carries no date. Letters that no font here has are boxes in it."""
    from matplotlib import rc_context

    words = "".join(text for _, text, *_ in page.words)
    fonts = families(words)
    # set only where it matters: ordinary text keeps the library's own order
    more: dict[Any, Any] = {"font.family": fonts} if len(fonts) > 1 else {}
    more["pdf.fonttype"] = 3
    with rc_context(more):
        return _page_pdf(page, title)


def put_words(axes: Any, at: Point, text: str, height: float, anchor: str, **more: Any) -> None:
    """Write one line of text of a `height` [mm] where its baseline starts, has its middle or ends;
    `more` as the plotting library takes it."""
    axes.text(
        *at,
        text,
        fontsize=height / POINT,
        color=INK,
        va="baseline",
        ha=_SIDES[anchor],
        parse_math=False,
        **more,
    )


def _page_pdf(page: Page, title: str) -> bytes:
    from matplotlib.collections import LineCollection, PolyCollection
    from matplotlib.figure import Figure

    wide, high = page.size
    figure = Figure(figsize=(wide / 25.4, high / 25.4))
    axes = figure.add_axes((0.0, 0.0, 1.0, 1.0), xlim=(0, wide), ylim=(0, high))
    axes.set_axis_off()
    for kind, width in WIDTHS.items():
        lines = [stroke.line for stroke in page.strokes if stroke.kind == kind]
        # matplotlib counts dashes in widths of the line
        dashes = tuple(each / width for each in DASHES.get(kind, ()))
        axes.add_collection(
            LineCollection(
                lines,
                colors=INK,
                linewidths=width / POINT,
                capstyle="round",
                linestyles=(0, dashes) if dashes else "solid",
            ),
            autolim=False,
        )
    axes.add_collection(PolyCollection(page.heads, facecolors=INK, linewidths=0), autolim=False)
    for at, text, height, anchor, upright in page.words:
        turned = 90 if upright else 0
        put_words(axes, at, text, height, anchor, rotation=turned, rotation_mode="anchor")
    out = io.BytesIO()
    metadata = {"Title": title, "Creator": "isolator", "CreationDate": None}
    figure.savefig(out, format="pdf", metadata=metadata)
    return out.getvalue()
