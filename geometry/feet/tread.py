"""The tread: a thin flexible sheet with grooves, glued under a sole against slipping [mm].

Printed with its plain face on the bed, grooves up, without support. In use the plain face is glued
to the sole and the grooves look at the desk: they let the ribs between them bend and take up dust.
A rim runs round them, because ribs cut off by a round edge would end in points that tear.
"""

from __future__ import annotations

from typing import Any

import cadquery as cq

from geometry.feet.captive import key_path
from geometry.solids import booleans, features
from geometry.solids.outline import Outline, chamfered_volume, disc, foot_outline
from geometry.solids.part import CannotDraw, Part, Placement, layer_notes, mm
from isolator.design import Foot, PrintSettings
from isolator.design.naming import slug

GROOVE = 1.2  # least width of a groove; common practice, no source
RIB = 2.4  # least width between two grooves and of the rim; common practice, no source
CLEAR = 0.1  # from the outermost groove to the inner side of the rim [mm]
DEEPEST = 0.8  # of a groove; common practice, no source
FLOOR_LAYERS = 2  # left under the grooves


def tread_part(foot: Foot, settings: PrintSettings) -> Part | None:
    """Return the tread of a foot; None where it has none.

    Its outside is that of the sole or of the printed foot. Raises CannotDraw where the foot has no
    sole to glue it under, where too few layers are left under the grooves, or where no groove fits.
    """
    if foot.tread <= 0:
        return None
    name = slug(foot.name, "tread")
    if foot.sole == 0 or (foot.build.sole == 0 and foot.ends is None):
        raise CannotDraw(name, "tread", f"a {foot.kind} foot has no sole to glue one under")
    outline, thick = foot_outline(foot), mm(foot.tread)
    depth = groove_depth(name, foot, settings)
    chamfer = mm(settings.for_filament(settings.flexible).first_layer_chamfer)
    if chamfer > thick - depth:
        raise CannotDraw(
            name,
            "first_layer_chamfer",
            f"{chamfer:g} mm does not fit the {thick - depth:g} mm under the grooves",
        )
    width, inner, middles = grooves(name, outline, mm(settings.nozzle))
    within = features.prism(inner, thick - depth, thick + 1.0)
    key = key_path(foot, settings.for_filament(settings.flexible), thick)
    area = sum(groove_area(inner, width, middle) for middle in middles)
    for _, _, mouth in key.mouths:  # a rim runs round the key's hole as round the edge
        rim = disc(2 * (mouth + RIB))
        within = booleans.cut(within, features.prism(rim, thick - depth - 1.0, thick + 2.0))
        crossing = (each for each in middles if abs(each) - width / 2 < rim.offset)
        area -= sum(groove_area(rim, width, middle) for middle in crossing)
    cutters = [
        booleans.common(within, _bar(outline.size[0], middle, width, 0.0, thick + 2.0))
        for middle in middles
    ]
    volume = chamfered_volume(lambda inset: outline.grown(-inset).area, chamfer, thick)
    under = -(mm(foot.cap) + mm(foot.pad.thickness) + mm(foot.sole))
    return Part(
        name=name,
        owner=foot.name,
        role="tread",
        quantity=len(foot.positions),
        solid=features.cut_all(
            features.prism(outline, 0.0, thick, chamfer), *cutters, *key.cutters
        ),
        material=settings.flexible,
        orientation="as drawn: the plain face, which is glued, lies on the bed, grooves upwards",
        notes=(
            "glue the plain face under the sole, edges flush; the grooves look at the desk",
            *key.notes,
            *layer_notes(settings.layer, tread=thick),
        ),
        box=(*outline.size, thick),
        volume=volume - depth * area - key.removed,
        loaded=(),
        places=tuple(Placement(x=mm(x), y=mm(y), z=under, turned=True) for x, y in foot.positions),
    )


def groove_depth(name: str, foot: Foot, settings: PrintSettings) -> float:
    """Return the depth of the grooves [mm]: whole layers, half of the tread at the most."""
    thick, layer = mm(foot.tread), mm(settings.layer)
    layers = int(min(DEEPEST, thick / 2) / layer + 1e-9)
    depth = max(1, layers) * layer
    if thick - depth < FLOOR_LAYERS * layer - 1e-9:
        raise CannotDraw(
            name,
            "tread",
            f"{thick:g} mm leaves less than {FLOOR_LAYERS} layers of {layer:g} mm under grooves of "
            f"one layer; take {(FLOOR_LAYERS + 1) * layer:g} mm at least",
        )
    return round(depth, 9)


def grooves(name: str, outline: Outline, nozzle: float) -> tuple[float, Outline, tuple[float, ...]]:
    """Return the grooves' width, the outline that ends them and the y of their middles [mm].

    They lie alike on both sides of y = 0. Grooves are two, ribs and rim four of the nozzle's lines
    wide at the least.
    """
    width, rib = max(GROOVE, 2 * nozzle), max(RIB, 4 * nozzle)
    least = width + 2 * rib + 2 * CLEAR
    if min(outline.size) < least:
        raise CannotDraw(
            name,
            "pad.first",
            f"the tread is {min(outline.size):g} mm across; one groove in its rim needs "
            f"{least:g} mm",
        )
    inner = outline.grown(-rib)
    pairs = int((inner.size[1] / 2 - CLEAR - width / 2) / (width + rib) + 1e-9)
    return width, inner, tuple(step * (width + rib) for step in range(-pairs, pairs + 1))


def groove_area(outline: Outline, width: float, middle: float) -> float:
    """Return the area [mm²] of a groove from side to side of an outline."""
    if middle == 0:
        return outline.strip_area(width)
    far, near = 2 * abs(middle) + width, 2 * abs(middle) - width
    return (outline.strip_area(far) - outline.strip_area(near)) / 2


def _bar(long: float, middle: float, width: float, low: float, top: float) -> Any:
    """Return the cutter of one groove, longer than the outline."""
    return cq.Solid.makeBox(
        2 * long, width, top + 1.0 - low, cq.Vector(-long, middle - width / 2, low)
    )
