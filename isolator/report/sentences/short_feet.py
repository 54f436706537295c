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
from isolator.workshop.shopping import Item


def make_items(findings: Findings) -> tuple[str, ...]:
    """Return what to make: the feet, then what goes under motors; empty where nothing is drawn."""
    design = findings.design
    if design is None or not design.feet:
        return ()
    feet, build = design.feet, design.feet[0].build
    count = sum(len(foot.positions) for foot in feet)
    what = f"{count} {build.one if count == 1 else build.many}{_slab(design)}"
    if len(feet) == 1:
        pad = f"{_own(feet[0])}{size_text(feet[0].pad)} of {in_a_sentence(findings.material)}"
    else:
        sizes = "; ".join(
            f"{letter(foot.name) or foot.name} {size_text(foot.pad)[:-1]}" for foot in feet
        )
        pad = f"each its own pad, so that the printer stays level: {sizes}; all of "
        pad += in_a_sentence(findings.material)
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
        between = ", between printed cup and plate (the sole)"
        return between if build.sole > 0 else ", in a printed cup"
    return ""


def _slab(design: Design) -> str:
    if design.slab is None:
        return ""
    size = " × ".join(f"{side * 1e3:.0f}" for side in design.slab.size)
    return f" of {size} mm"


_WHOLE = ("sheet", "ball", "slab")
"""What is told with all its sizes; of anything else the words before the first comma will do."""


def buy_items(findings: Findings) -> tuple[str, ...]:
    """Return what to buy, in the order of the shopping list, filament last."""
    design = findings.design
    cut = _damper_sheets(findings)
    told = [_bought(item, cut) for item in findings.buy if item.to_buy > 0]
    if design is None:
        return tuple(told)
    hung = [design.print.material for foot in design.feet if foot.build.hung]
    soft = [foot.pad.material for foot in design.feet if foot.pad.printed]
    dampers = [each.filament for each in design.motor_dampers]
    plates = [each.filament for each in design.motor_spacers]
    printed = (*hung, *soft, *dampers, *plates)
    sold = dict.fromkeys(sold_as(each).upper() for each in printed)
    return (*told, f"{listed(list(sold))} filament") if sold else tuple(told)


def _damper_sheets(findings: Findings) -> tuple[str, ...]:
    """Return how sheets begin that motor dampers alone are cut from."""
    own = {motor.damper.rubber.material for motor in findings.motors if motor.damper is not None}
    return tuple(f"sheet of {in_a_sentence(each)}, " for each in own - {findings.material})


def _bought(item: Item, dampers: Sequence[str] = ()) -> str:
    first, _, rest = item.name.replace(" x ", " × ").partition(",")
    if first == "glue":
        return rest.strip()
    name = f"{first},{rest}" if rest and any(word in first for word in _WHOLE) else first
    name = re.sub(r"(\d+) IRHD", r"\1 IRHD (as Shore A)", name)
    count, unit = item.shown(item.to_buy), item.unit.replace("^2", "²").replace("^3", "³")
    told = f"{count} × {name}" if item.unit == "pieces" else f"{count} {unit} of {name}"
    return f"{told} (dampers)" if item.name.startswith(tuple(dampers)) else told
