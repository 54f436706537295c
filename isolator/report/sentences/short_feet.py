"""Feet in one breath: what to make and what to buy."""

from __future__ import annotations

import re
from collections.abc import Sequence

from isolator.design import Design, Foot, Pad
from isolator.design.filaments import sold_as
from isolator.design.naming import letter
from isolator.design.phrases import in_a_sentence, millimetres, outline_text
from isolator.report.findings import Findings
from isolator.report.sentences.listed import listed
from isolator.workshop.shopping import Item, as_shown


def make_items(findings: Findings) -> tuple[str, ...]:
    """Return what to make: the feet, then what goes under motors; empty where nothing is drawn."""
    design = findings.design
    if design is None or not design.feet:
        return ()
    feet, build = design.feet, design.feet[0].build
    count = sum(len(foot.positions) for foot in feet)
    what = f"{count} {build.one if count == 1 else build.many}{_slab(design)}"
    if len(feet) == 1:
        size, of = f"{_own(feet[0])}{size_text(feet[0].pad)}", hard(findings.material)
        pad = f"{size[:-1]} ({of})" if feet[0].pad.outline.ready else f"{size} of {of}"
    else:
        sizes = "; ".join(
            f"{letter(foot.name) or foot.name} {size_text(foot.pad)[:-1]}" for foot in feet
        )
        pad = f"each its own pad, so that the printer stays level: {sizes}; all of "
        pad += hard(findings.material)
    return (f"{what}: {pad}{_held(feet[0])}",)


def size_text(pad: Pad) -> str:
    """Return outline and height of a pad: "disc 26 mm across, 10 mm high,"."""
    layers = f"{pad.layers} layers" if pad.layers > 1 else ""
    outline = pad.outline
    if not (outline.round or outline.holed or outline.halved):
        sides = (*pad.widths, pad.thickness)
        told = " × ".join(millimetres(side, 1).removesuffix(" mm") for side in sides)
        return f"{told} mm (x, y, z{'; ' * bool(layers)}{layers}),"
    tall = f"{millimetres(pad.thickness, 1)} high"
    return f"{outline_text(pad)}, {tall}{f' ({layers})' if layers else ''},"


def _own(foot: Foot) -> str:
    """Return whose size follows, where a foot is more than its pad."""
    return f"{foot.build.pad} " if foot.build.rimmed else ""


def _held(foot: Foot) -> str:
    """Return what holds a pad."""
    build = foot.build
    if build.rimmed:
        between = ", between printed cup and sole"
        return between if build.sole > 0 else ", in a printed cup"
    return ""


def hard(material: str) -> str:
    """Return a material's name in a sentence; what its scale of hardness is, stands before it.

    >>> hard("Natural rubber, 50 Shore A"), hard("EVA foam, 150 kg/m³")
    ('natural rubber, hardness 50 Shore A', 'EVA foam, 150 kg/m³')
    """
    return re.sub(r", (?=Shore|\d+ (Shore|IRHD))", ", hardness ", in_a_sentence(material))


def _slab(design: Design) -> str:
    if design.slab is None:
        return ""
    size = " × ".join(f"{side * 1e3:.0f}" for side in design.slab.size)
    return f" ({size} mm)"


_WHOLE = ("sheet", "ball", "slab")
"""What is told with all its sizes; of anything else the words before the first comma will do."""


def buy_items(findings: Findings) -> tuple[str, ...]:
    """Return what to buy: for the feet first, then what motors alone need, filament last of each.

    Each list is in the order of the shopping list.
    """
    own, others = for_feet(findings), _for_motors(findings)
    if own and others:
        others = (f"for the motors: {others[0]}", *others[1:])
    return (*own, *others)


def for_feet(findings: Findings) -> tuple[str, ...]:
    """Return what to buy for the feet."""
    design = findings.design
    cut = f"sheet of {in_a_sentence(findings.material)}"
    told = [
        _bought(item).replace(cut, "sheet for the pads")
        for item in findings.buy
        if item.to_buy > 0 and not item.motors
    ]
    return (*told, *_filament(() if design is None else _of_feet(design)))


def _for_motors(findings: Findings) -> tuple[str, ...]:
    design = findings.design
    told = [_bought(item) for item in findings.buy if item.to_buy > 0 and item.motors]
    if design is None:
        return tuple(told)
    printed = [each.filament for each in design.motor_dampers]
    printed += [each.filament for each in design.motor_spacers]
    own = {sold_as(each) for each in _of_feet(design)}
    return (*told, *_filament([each for each in printed if sold_as(each) not in own]))


def _of_feet(design: Design) -> list[str]:
    """Return the filaments that feet are printed in."""
    hung = [design.print.material for foot in design.feet if foot.build.hung]
    return hung + [foot.pad.material for foot in design.feet if foot.pad.printed]


def _filament(printed: Sequence[str]) -> tuple[str, ...]:
    sold = dict.fromkeys(sold_as(each).upper() for each in printed)
    return (f"{listed(list(sold))} filament",) if sold else ()


def _bought(item: Item) -> str:
    first, _, rest = as_shown(item.name).partition(",")
    if first == "glue":
        return rest.strip()
    name = f"{first},{rest}" if rest and any(word in first for word in _WHOLE) else first
    count, unit = item.shown(item.to_buy), as_shown(item.unit)
    return f"{count} × {name}" if item.unit == "pieces" else f"{count} {unit} of {name}"
