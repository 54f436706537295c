"""Which glues are needed, by kind, for every joint of two materials."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Sequence
from typing import NamedTuple

from isolator.design import Design, Foot, Pad
from isolator.design.damper import rubber_area
from isolator.design.filaments import sold_as
from isolator.physics.rubber.section import section
from isolator.workshop.foot_hardware import Row, face_area
from isolator.workshop.glue_kinds import METAL, SLAB, GlueKind, glue_kind

WARM = "at a motor its maker must name 80 °C or more"
"""Said of glue in dampers: a case may be that warm."""


class Joint(NamedTuple):
    """Faces of two materials that are glued together: their area in all [m²], or `what` they are
    where that is a drop."""

    one: str
    other: str
    area: float = 0.0
    what: str = ""
    warm: bool = False


def glue_rows(design: Design) -> list[Row]:
    """Return (item, quantity, unit, remark): one line a kind of glue, with all joints that take it.

    A tube or tin is more than any of these joints take; what its maker says of both rules.
    """
    joints = [joint for foot in design.feet for joint in _joints(foot, design)]
    joints += [
        Joint(
            damper.material,
            damper.plates if damper.kind.sheet else damper.filament,
            2.0 * rubber_area(damper),
            warm=True,
        )
        for damper in design.motor_dampers
        if not damper.bought
    ]
    if design.slab is not None and design.slab.lip > 0:
        joints.append(Joint(design.print.material, SLAB, what="the printed corners"))
    kinds: dict[GlueKind, list[Joint]] = {}
    for joint in joints:
        kinds.setdefault(glue_kind(joint.one, joint.other), []).append(joint)
    return [
        (f"glue, {kind.name}", "1", "pieces", f"{_told(of_it)}; {kind.ready}")
        for kind, of_it in kinds.items()
    ]


def _told(joints: Sequence[Joint]) -> str:
    """Return what is glued to what, each pair once with its area."""
    pairs = defaultdict[tuple[str, str, str], float](float)
    for joint in joints:
        pairs[sold_as(joint.one), sold_as(joint.other), joint.what] += joint.area
    said = [
        f"{one} to {other}, {what or f'{math.ceil(area * 1e4 - 1e-6)} cm^2'}"
        for (one, other, what), area in pairs.items()
    ]
    return "; ".join([*said, *([WARM] if any(joint.warm for joint in joints) else [])])


def pad_area(pad: Pad) -> float:
    """Return the area of a pad's glued face [m²], its hole left out.

    >>> pad = Pad(shape="rectangle", first=0.03, second=0.02, thickness=0.01, layers=1,
    ...           material="nr-50", printed=False)
    >>> round(pad_area(pad) * 1e4, 6)
    6.0
    """
    shape = "ring" if pad.outline.halved else pad.outline.plan or pad.shape
    return float(section(shape, pad.first, pad.second).area)


def _joints(foot: Foot, design: Design) -> list[Joint]:
    """Return the joints of one kind of foot, all its copies counted."""
    area, rigid, count = pad_area(foot.pad), design.print.material, len(foot.positions)
    faces = 1 if foot.mounted else foot.build.glued_faces
    onto = rigid if foot.build.hung else SLAB
    pad, found = foot.pad.material, []
    if faces > 0:
        found.append(Joint(pad, onto, count * area * faces))
    if foot.covered:  # never larger than the foot
        found.append(Joint(rigid, rigid, count * face_area(foot)))
    if foot.pad.layers > 1:
        found.append(Joint(pad, pad, count * (foot.pad.layers - 1) * area))
    if foot.key > 0:
        under = pad if foot.build.soft_body and not foot.mounted else rigid
        found.append(Joint(rigid, under, what="a drop on each slot key"))
    if foot.fastening.pressed:
        found.append(Joint(rigid, METAL, what=f"each {foot.fastening.way}"))
    if foot.tread > 0:
        over = pad if foot.build.soft_body else rigid
        found.append(Joint(design.print.flexible, over, count * face_area(foot)))
    return found
