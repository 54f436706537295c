"""The rubber of a motor damper as it is cut from sheet: its template [mm]."""

from __future__ import annotations

from geometry.motors.damper_plates import plate_outline
from geometry.sheets.pad_template import RULER, Template
from geometry.solids.outline import Outline, disc
from geometry.solids.part import mm
from isolator.design.damper import MotorDamper, pieces_each, rubber_area


def rubber_template(damper: MotorDamper, motors: tuple[str, ...]) -> Template:
    """Return the template: ring or four pads in their places, the plates' outline round them.

    `motors` are the names of all that take the same rubber.
    """
    first, second, circle = mm(damper.first), mm(damper.second), mm(damper.circle)
    if damper.shape == "ring":
        cut = tuple((disc(wide), 0.0, 0.0) for wide in (first, second))
    else:
        lying = Outline(core_x=second, core_y=first, offset=0.0)
        standing = Outline(core_x=first, core_y=second, offset=0.0)
        cut = (
            (lying, circle, 0.0),
            (standing, 0.0, circle),
            (lying, -circle, 0.0),
            (standing, 0.0, -circle),
        )
    count = pieces_each(damper) * len(motors)
    return Template(
        cut=cut,
        round=plate_outline(damper.frame_size),
        text=(
            f"{', '.join(motors)}: damper, {damper.shape}",
            f"{damper.material}, {mm(damper.rubber):g} mm, {pieces_each(damper)} per motor, "
            f"cut {count}",
            "outer square: the plate; glue in these places",
            f"line: {RULER:g} mm",
        ),
    )


def piece_area(damper: MotorDamper) -> float:
    """Return the area of one piece [m²]."""
    return rubber_area(damper) / pieces_each(damper)
