"""What the cap holds over the pad: a hexagon head, a nut, an insert, a thread, a driven head [mm].

Every recess opens towards the pad, upwards while it prints, so nothing has to be bridged; a
printed cover closes it, so that the pad bears on its whole area. A nut and an insert are put in
from there too: a screw from above pulls them against the plastic over them, never out.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from geometry.solids import features
from geometry.solids.fasteners import thread
from geometry.solids.outline import Outline, disc
from geometry.solids.part import CannotDraw, mm
from isolator.design import COVER, FLOOR, Foot, PrintSettings, least_width, quantise_up
from isolator.design.attachment import HEAD_PLAY, HEX_FIT, SPARE
from isolator.design.attachment_room import clearance, fixing_depth, head
from isolator.design.screws import DIRECT_DEPTH, DIRECT_HOLE, INSERTS


@dataclass(frozen=True, slots=True, kw_only=True)
class Hidden:
    """One hole in the middle of the cap and the recess at its end [mm].

    The hole reaches from the face towards the printer `through` deep; from there the recess, a
    hexagon of `flats` or round of `across`, `depth` high; then the cover. A thread of the cap's
    own has no recess, and as much solid over it as a cover is thick.
    """

    name: str  # of the thread, such as "M5"
    hole: float
    through: float
    flats: float  # 0 for none
    across: float  # 0 for none
    depth: float
    cover: float

    @property
    def ceiling(self) -> float:
        """Return the height at which the pad or its cover lies against the cap [mm]."""
        return self.through + self.depth

    @property
    def mouth(self) -> float:
        """Return the radius of the hole's opening at the face towards the printer [mm]."""
        return self.hole / 2 + features.RELIEF

    def cutters(self) -> list[Any]:
        """Return what to cut from the cap, its face towards the printer at z = 0."""
        mouth = features.relief(disc(self.hole))
        if self.depth == 0:  # blind, or to the plate's end
            return [features.hole(self.hole, -1.0, self.through), mouth]
        found = [features.hole(self.hole, -1.0, self.through + 0.5 * self.depth), mouth]
        if self.flats > 0:
            found.append(features.hexagon(self.flats, self.through, self.ceiling + 1.0))
        else:
            found.append(features.hole(self.across, self.through, self.ceiling + 1.0))
        return found

    def removed(self) -> float:
        """Return the volume that the cutters take up to the ceiling [mm³]."""
        recess = (
            features.hexagon_area(self.flats) if self.flats > 0 else features.hole_area(self.across)
        )
        mouth = features.relief_volume(disc(self.hole))
        return features.hole_area(self.hole) * self.through + mouth + recess * self.depth


def hidden(part: str, foot: Foot, plate: Outline, hole_compensation: float, layer: float) -> Hidden:
    """Return what is hidden in a foot's cap; `plate` is the face over it.

    `hole_compensation`, `layer` [m]. Raises CannotDraw where it would break through the plate's
    side or the cap is too thin for it.
    """
    if foot.fixing not in foot.fastening.fixings:
        held = {"nut": "a nut", "insert": "an insert"}.get(foot.fixing, "a thread")
        raise CannotDraw(
            part, "fixing", f"{foot.attachment} is held by a screw in the cap, not by {held}"
        )
    nominal = foot.thread
    row = thread(part, mm(nominal))
    if foot.fixing == "insert" and round(nominal, 6) not in INSERTS:
        offered = ", ".join(f"M{mm(each):g}" for each in INSERTS)
        raise CannotDraw(part, "bolt", f"no insert {row.name} is drawn ({offered})")
    what = _what(foot, row.name)
    least = mm(
        least_width(foot.attachment, foot.bolt, foot.tube, hole_compensation, fixing=foot.fixing)
    )
    if least > min(plate.size) + 1e-9:
        raise CannotDraw(
            part,
            "bolt",
            f"{what} needs {least:.2f} mm of plate; the foot has {min(plate.size):g} mm",
        )
    more, cap, cover = mm(hole_compensation), mm(foot.cap), mm(quantise_up(COVER, layer))
    if foot.fixing == "direct":
        depth = mm(quantise_up(DIRECT_DEPTH * nominal + SPARE, layer))
        _require_cap(part, what, cap, depth + cover)
        return Hidden(
            name=row.name,
            hole=DIRECT_HOLE * mm(nominal) + more,
            through=depth,
            flats=0.0,
            across=0.0,
            depth=0.0,
            cover=cover,
        )
    depth = mm(quantise_up(fixing_depth(foot.attachment, nominal, foot.fixing), layer))
    _require_cap(part, what, cap, depth + cover + mm(quantise_up(FLOOR, layer)))
    across, hole = 0.0, mm(clearance(foot.attachment, nominal, foot.fixing)) + more
    if foot.fastening.driven:
        across = mm(head(foot.attachment, nominal)[0] + HEAD_PLAY) + more
    elif foot.fixing == "insert":
        across = mm(INSERTS[round(nominal, 6)].hole) + more
    return Hidden(
        name=row.name,
        hole=hole,
        through=cap - cover - depth,
        flats=0.0 if across > 0 else row.across_flats + mm(HEX_FIT) + more,
        across=across,
        depth=depth,
        cover=cover,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class KeyPath:
    """The hole that lets the key of a driven screw through one part under the pad or over it."""

    cutters: tuple[Any, ...] = ()
    removed: float = 0.0  # [mm³]
    mouths: tuple[tuple[float, float, float], ...] = ()  # in the face on the bed: x, y, radius
    notes: tuple[str, ...] = ()


def key_path(foot: Foot, settings: PrintSettings, height: float) -> KeyPath:
    """Return the key's hole through a part `height` [mm] tall; an empty one where there is none."""
    if foot.key_hole == 0:
        return KeyPath()
    across = mm(foot.key_hole) + mm(settings.hole_compensation)
    mouth, wide = min(features.RELIEF, height / 2), disc(across)
    return KeyPath(
        cutters=(features.hole(across, -1.0, height + 1.0), features.relief(wide, mouth)),
        removed=wide.area * height + features.relief_volume(wide, mouth),
        mouths=((0.0, 0.0, across / 2 + mouth),),
        notes=("a hexagon key goes through its hole to the screw: keep glue out of it",),
    )


def _require_cap(part: str, what: str, cap: float, wanted: float) -> None:
    if cap < wanted - 1e-9:
        raise CannotDraw(part, "cap", f"{cap:g} mm cannot hide {what}; {wanted:g} mm can")


def _what(foot: Foot, name: str) -> str:
    """Return what is hidden, as a refusal names it."""
    if foot.fixing == "insert":
        return f"the {name} insert"
    if foot.fixing == "nut":
        return f"the {name} nut"
    return f"the {name} thread" if foot.fixing == "direct" else f"the {name} head"


def hidden_note(foot: Foot, held: Hidden, over: str) -> str:
    """Return how the foot's screw goes in, one line; `over` is what closes the recess."""
    if foot.fastening.driven:
        return f"one ISO 7380-1 {held.name} screw from the recess up into the bore, then {over}"
    return {
        "screw": f"one ISO 4017 {held.name} screw, put in from the recess, then {over}",
        "nut": f"one ISO 4032 {held.name} nut in the recess, held until the thread bites, then "
        f"{over}; the screw comes from above",
        "insert": f"one {held.name} insert, set with heat down to the recess's ground, then "
        f"{over}; the screw comes from above",
        "direct": f"an {held.name} screw from above cuts its own thread; turn it in once",
    }[foot.fixing]
