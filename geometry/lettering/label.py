"""A foot's label engraved into the face that lies on the print bed."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, NamedTuple

from geometry.lettering.lettering import DEPTH, engraved, lettering
from geometry.solids.outline import Outline
from geometry.solids.part import mm
from isolator.design import Foot, PrintSettings

LEFT = 2  # layers over the letters


class Marked(NamedTuple):
    """A solid with its label, what that takes off it [mm³], and what is to be noted."""

    solid: Any
    removed: float
    notes: tuple[str, ...]


def marked(
    solid: Any,
    foot: Foot,
    settings: PrintSettings,
    face: Outline,
    thick: float,
    holes: Sequence[tuple[float, float, float]] = (),
    cuts: Sequence[Outline] = (),
) -> Marked:
    """Return a solid with its foot's label in the face on the bed, as it is seen in use.

    `face` is the body's outside, `thick` the solid over it, `holes` (x, y, radius) and `cuts` about
    its middle are kept clear [mm]. A label that finds no room loses its last words, or is left off
    with a note.
    """
    if not foot.label:
        return Marked(solid, 0.0, ())
    if thick < DEPTH + LEFT * mm(settings.layer) - 1e-9:
        return Marked(solid, 0.0, (f"{thick:g} mm is too thin to engrave {foot.label}",))
    room = face.grown(-mm(settings.first_layer_chamfer))
    words = foot.label.split()
    # what tells one foot from the others comes first: rather that alone than nothing
    shorter = (" ".join(words[:count]) for count in range(len(words), 0, -1))
    laid = (lettering(each, room, settings, holes, cuts) for each in shorter)
    letters = next((each for each in laid if each is not None), None)
    if letters is None:
        return Marked(solid, 0.0, (f"no room to engrave {foot.label}",))
    cut, removed = engraved(solid, letters, 0.0, mirrored=True, into=1)
    return Marked(cut, removed, (f"engraved: {' / '.join(letters.lines)}",))
