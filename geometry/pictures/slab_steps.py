"""Pictures of the steps in which pads and printed corners go onto a slab."""

from __future__ import annotations

from geometry.assembly import COLOURS, pad_solid
from geometry.feet.slab import slab_solid
from geometry.feet.slab_lips import lip_bodies
from geometry.finish.raster import Colour, View
from geometry.finish.scene import Scene
from geometry.pictures.step_pictures import APART, meshed, pale
from geometry.solids.part import mm
from isolator.design import Design

SIZE = (420, 300)  # [pixels]
ADDS = {"pads": "pads", "lips": "corners"}
"""What is new in each view."""


def slab_step_scene(design: Design, view: str, size: tuple[int, int] = SIZE) -> Scene:
    """Return a view: "pads" from below, "lips" from above; KeyError for another.

    What is new is in colour, apart from the slab and numbered. Raises ValueError without a slab.
    """
    slab = design.slab
    if slab is None:
        raise ValueError(f"{design.name!r} stands on no slab")
    name, apart = ADDS[view], APART * mm(min(slab.size[:2]))
    items = [(meshed(slab_solid(slab), (0.0, 0.0, 0.0)), pale(COLOURS["slab"]))]
    fresh = name == "pads"
    down = -apart if fresh else 0.0
    for foot in design.feet:
        if not foot.build.hung:
            pad = pad_solid(foot)
            colour = COLOURS["pad"] if fresh else pale(COLOURS["pad"])
            items += [(meshed(pad, (mm(x), mm(y), down)), colour) for x, y in foot.positions]
    if not fresh:
        items += [
            (meshed(body.solid, (0.0, 0.0, apart / 2)), COLOURS["lip"])
            for body in lip_bodies(design)
        ]
    eye = View(azimuth=-60, elevation=-28 if fresh else 28)
    new = [index for index, (_, colour) in enumerate(items) if colour in _NEW]
    numbers = [(range(new[0], new[-1] + 1), 1)] if new else []
    return Scene(items, eye, size, numbers, (name,))


_NEW: tuple[Colour, ...] = (COLOURS["pad"], COLOURS["lip"])
