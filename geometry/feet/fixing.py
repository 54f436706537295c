"""A foot's cap with whatever holds it: flange, recess, slot key, and the parts that go with it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from geometry.feet.captive import hidden, hidden_note
from geometry.feet.flange import Flange, flange
from geometry.feet.rod_socket import rod_socket
from geometry.feet.slot_key import groove, slot_key
from geometry.feet.tube_plug import tube_plug
from geometry.solids import booleans
from geometry.solids.outline import Outline
from geometry.solids.part import CannotDraw, Part, mm
from isolator.design import PLATE, Foot, PrintSettings


@dataclass(frozen=True, slots=True, kw_only=True)
class Cap:
    """What holding a foot does to its cap [mm].

    `ceiling` is the height over the print bed at which the pad or its cover lies, `volume` what is
    added to the body below it (less than nothing where it is cut), `cutters` what is to be cut.
    """

    ceiling: float
    volume: float
    cutters: tuple[Any, ...]
    notes: tuple[str, ...]
    holes: tuple[tuple[float, float, float], ...] = ()  # in the body's face: x, y, radius
    grooves: tuple[Outline, ...] = ()  # in that face, about its middle
    flange: Flange | None = None
    added: Any = None  # the flange's solid

    def joined(self, solid: Any) -> Any:
        """Return a body with the flange beside it."""
        return solid if self.added is None else booleans.fused(solid, self.added).clean()

    def widths(self, body: Outline) -> tuple[float, float]:
        """Return the outside widths in x and y of body and flange."""
        if self.flange is None:
            return body.size
        own = self.flange.outline.size
        return max(body.size[0], own[0]), max(body.size[1], own[1])


def cap_of(
    part: str,
    foot: Foot,
    settings: PrintSettings,
    body: Outline,
    plate: Outline,
    height: float,
    room: float,
) -> Cap:
    """Return the cap of a body `height` high; `plate` is the face that the pad bears on, `room`
    the free height under a flange [mm]."""
    if foot.fastening.flanged:
        return _flanged(part, foot, settings, body, height, room)
    if not foot.fastening.hides:
        if height < mm(PLATE) - 1e-9:
            raise CannotDraw(part, "cap", f"{height:g} mm is thinner than {mm(PLATE):g} mm")
        return Cap(ceiling=height, volume=0.0, cutters=(), notes=())
    held = hidden(part, foot, plate, settings.hole_compensation, settings.layer)
    ceiling = height if held.depth == 0 else held.ceiling
    return Cap(
        ceiling=ceiling,
        volume=-held.removed(),
        cutters=tuple(held.cutters()),
        notes=(hidden_note(foot, held, "the cover"),),
        holes=((0.0, 0.0, held.mouth),),
    )


def _flanged(
    part: str, foot: Foot, settings: PrintSettings, body: Outline, height: float, room: float
) -> Cap:
    chamfer = mm(settings.first_layer_chamfer)
    held = flange(part, foot, body, settings.hole_compensation, room)
    volume, cutters = held.added_volume(body, chamfer, height), held.cutters(height)
    grooves: tuple[Outline, ...] = ()
    notes = [f"{_count(held)} {held.screw} screws from below {_into(foot)}"]
    if foot.key > 0:
        cut = groove(part, foot, held, settings)
        volume, grooves = volume - cut.removed, (cut.mouth,)
        cutters += cut.cutters()
        notes.append("the slot key lies in the groove")
    return Cap(
        ceiling=height,
        volume=volume,
        cutters=tuple(cutters),
        notes=tuple(notes),
        grooves=grooves,
        flange=held,
        added=held.solid(chamfer, height),
    )


def beside_parts(foot: Foot, settings: PrintSettings, body: Outline, part: str) -> list[Part]:
    """Return the parts that go with an attachment: plug, socket, slot key."""
    beside = _BESIDE.get(foot.fastening.way)
    if beside is not None:
        return [beside(foot, settings)]
    if foot.key > 0 and foot.fastening.flanged:
        held = flange(part, foot, body, settings.hole_compensation, float("inf"))
        return [slot_key(foot, groove(part, foot, held, settings), settings)]
    return []


_BESIDE: dict[str, Callable[[Foot, PrintSettings], Part]] = {
    "plug": tube_plug,
    "socket": rod_socket,
}
"""The part that goes with a foot, by the way to hold it."""


def _count(held: Flange) -> str:
    return {1: "one", 2: "two", 3: "three", 4: "four"}.get(len(held.places), str(len(held.places)))


def _into(foot: Foot) -> str:
    if foot.fastening.tapping:
        return "into the plastic"
    return "through the frame" if foot.holes else "into slot nuts"
