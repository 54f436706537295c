"""Which glues are needed, by the two materials that each joins."""

from __future__ import annotations

import math
from collections import defaultdict

from isolator.design import Design, Foot, Pad
from isolator.design.damper import rubber_area
from isolator.physics.rubber.section import section
from isolator.workshop.foot_hardware import Row, face_area

HARD_TO_HARD = "; two-part epoxy is the usual kind"
"""What is said of rigid prints glued to each other; common practice, no source."""


def glue_rows(design: Design) -> list[Row]:
    """Return (item, quantity, unit, remark): one line a pair of materials, with its joints' area.

    Which glue holds a pair is its maker's to say; a tube is more than any of these joints take.
    """
    joints = defaultdict[str, float](float)
    for foot in design.feet:
        for pair, area in _joints(foot, design):
            joints[pair] += len(foot.positions) * area
    for damper in design.motor_dampers:
        joints[_pair(damper.material, damper.filament)] += 2.0 * rubber_area(damper)
    remark = "a tube its maker names for both, for {} cm^2 of joints"
    print_to_print = _pair(design.print.material, design.print.material)
    rows = [
        (
            f"glue, {pair}",
            "1",
            "pieces",
            remark.format(math.ceil(area * 1e4 - 1e-6))
            + (HARD_TO_HARD if pair == print_to_print else ""),
        )
        for pair, area in joints.items()
    ]
    if design.slab is not None and design.slab.lip > 0:
        pair = _pair(design.print.material, "slab")
        rows.append((f"glue, {pair}", "1", "pieces", "for the four printed corners"))
    return rows


def pad_area(pad: Pad) -> float:
    """Return the area of a pad's glued face [m²], its hole left out.

    >>> pad = Pad(shape="rectangle", first=0.03, second=0.02, thickness=0.01, layers=1,
    ...           material="nr-50", printed=False)
    >>> round(pad_area(pad) * 1e4, 6)
    6.0
    """
    shape = "ring" if pad.outline.halved else pad.shape
    return float(section(shape, pad.first, pad.second).area)


def _joints(foot: Foot, design: Design) -> list[tuple[str, float]]:
    """Return each pair of materials and the area of its joints in one foot [m²]."""
    area, rigid = pad_area(foot.pad), design.print.material
    faces = 1 if foot.mounted else foot.build.glued_faces
    onto = rigid if foot.build.hung else "slab"
    found = [(_pair(foot.pad.material, onto), area * faces)] if faces > 0 else []
    if foot.covered:  # never larger than the foot
        found.append((_pair(rigid, rigid), face_area(foot)))
    if foot.pad.layers > 1:
        found.append((_pair(foot.pad.material, foot.pad.material), (foot.pad.layers - 1) * area))
    if foot.tread > 0:
        over = foot.pad.material if foot.build.soft_body else rigid
        found.append((_pair(design.print.flexible, over), face_area(foot)))
    return found


def _pair(one: str, other: str) -> str:
    return f"{one} to {other}"
