"""What is cut from sheet for a design: every kind of piece, how many, of what and how thick."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from isolator.design import Design, Foot
from isolator.design.damper import MotorDamper, pieces_each
from isolator.design.naming import slug


def cut_list(design: Design) -> list[dict[str, Any]]:
    """Return every kind of piece that is cut from sheet, lengths in metres."""
    return [
        *(foot_pads(foot) for foot in design.feet if foot.build.cut_pad),
        *(
            damper_rubber(same)
            for same in groups_of_rubber(design.motor_dampers)
            if not same[0].cast
        ),
    ]


def foot_pads(foot: Foot) -> dict[str, Any]:
    """Return the pads of one kind of foot; each layer is a piece."""
    return {
        "name": slug(foot.name, "pad"),
        "owner": foot.name,
        "material": foot.pad.material,
        "quantity": foot.pad.layers * len(foot.positions),
        "layer_thickness_m": foot.pad.thickness / foot.pad.layers,
    }


def damper_rubber(same: Sequence[MotorDamper]) -> dict[str, Any]:
    """Return the rubber that these dampers share."""
    one = same[0]
    return {
        "name": slug(*(damper.name for damper in same), "rubber"),
        "owner": one.name,
        "material": one.material,
        "quantity": pieces_each(one) * len(same),
        "layer_thickness_m": one.rubber,
    }


def groups_of_rubber(dampers: Iterable[MotorDamper]) -> list[tuple[MotorDamper, ...]]:
    """Return the dampers that take the same rubber together, bought ones left out."""
    found: dict[tuple[object, ...], list[MotorDamper]] = {}
    for damper in dampers:
        if damper.bought:
            continue
        sizes = (damper.first, damper.second, damper.rubber, damper.circle)
        key = (
            damper.shape,
            damper.material,
            damper.frame_size,
            damper.cast,
            *(round(each, 9) for each in sizes),
        )
        found.setdefault(key, []).append(damper)
    return [tuple(same) for same in found.values()]
