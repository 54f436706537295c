"""The colours of a STEP file in an order of their own."""

from __future__ import annotations

import re

_COLOURED = "MECHANICAL_DESIGN_GEOMETRIC_PRESENTATION_REPRESENTATION"
_OF_COLOUR = {
    _COLOURED,
    "STYLED_ITEM",
    "PRESENTATION_STYLE_ASSIGNMENT",
    "SURFACE_STYLE_USAGE",
    "SURFACE_SIDE_STYLE",
    "SURFACE_STYLE_FILL_AREA",
    "FILL_AREA_STYLE",
    "FILL_AREA_STYLE_COLOUR",
    "COLOUR_RGB",
}
_ENTITY = re.compile(r"#(\d+) = (\w+)\(([^;]*)\);")
_REFERENCE = re.compile(r"#(\d+)")
_CHAIN = (
    f"{{0}} = {_COLOURED}('',({{1}}),#{{10}});\n"
    "{1} = STYLED_ITEM('color',({2}),#{9});\n"
    "{2} = PRESENTATION_STYLE_ASSIGNMENT(({3}));\n"
    "{3} = SURFACE_STYLE_USAGE(.BOTH.,{4});\n"
    "{4} = SURFACE_SIDE_STYLE('',({5}));\n"
    "{5} = SURFACE_STYLE_FILL_AREA({6});\n"
    "{6} = FILL_AREA_STYLE('',({7}));\n"
    "{7} = FILL_AREA_STYLE_COLOUR('',{8});\n"
    "{8} = COLOUR_RGB('',{11});\n"
)


def in_order(text: str) -> str:
    """Return a STEP file with its colours sorted by what they colour.

    The kernel writes them last, in an order that follows addresses in memory. Each colour is
    written out anew with numbers that follow on; anything else that stands among them stays away
    from this: the text then comes back as it went.
    """
    start = text.find(_COLOURED)
    if start < 0:
        return text
    start = text.rindex("#", 0, start)
    end = text.index("ENDSEC;", start)
    found = {
        number: (kind, re.sub(r"\s+", "", body))
        for number, kind, body in _ENTITY.findall(text[start:end])
    }
    if {kind for kind, _ in found.values()} - _OF_COLOUR:
        return text
    first = int(text[start + 1 : text.index("=", start)])
    coloured = sorted(
        (int(item), context, _shade(found, styled))
        for kind, body in found.values()
        if kind == _COLOURED
        for styled, context in [_pair(body)]
        for item in [_REFERENCE.findall(found[styled][1])[-1]]
    )
    chains = "".join(
        _CHAIN.format(*(f"#{first + 9 * n + k}" for k in range(9)), item, context, shade)
        for n, (item, context, shade) in enumerate(coloured)
    )
    return text[:start] + chains + text[end:]


def _pair(body: str) -> tuple[str, str]:
    """Return the styled item and the context that a presentation names."""
    styled, context = _REFERENCE.findall(body)
    return styled, context


def _shade(found: dict[str, tuple[str, str]], styled: str) -> str:
    """Return the three numbers at the end of a style's chain."""
    number = _REFERENCE.findall(found[styled][1])[0]
    while found[number][0] != "COLOUR_RGB":
        number = _REFERENCE.findall(found[number][1])[-1]
    return found[number][1].split(",", 1)[1]
