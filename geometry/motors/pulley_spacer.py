"""Ring on the motor shaft that stands the pulley off by a given height."""

from __future__ import annotations

import math

from geometry.solids import booleans, features
from geometry.solids.outline import chamfered_volume, disc
from geometry.solids.part import CannotDraw, Part, layer_notes, mm
from isolator.design import MotorSpacer, PrintSettings
from isolator.design.faceplates import FACEPLATES
from isolator.design.naming import slug

RUNNING = 0.5  # least gap between the ring, which turns, and the boss, which does not [mm]
LEAST_BODY = 1.0  # of ring over its nose [mm]
LEAD_IN = 0.4  # greatest countersink at either end of the bore [mm]


def pulley_spacer(spacer: MotorSpacer, settings: PrintSettings) -> Part:
    """Return the ring; its bore is the shaft's diameter and the hole compensation.

    Its nose stands on the bearing's inner ring and carries the body over the motor's boss. It is
    printed nose up, so that nothing hangs over.
    """
    name = slug(spacer.name, "pulley-spacer")
    settings = settings.for_filament(spacer.filament)
    height, chamfer = mm(spacer.pulley_spacer), mm(settings.first_layer_chamfer)
    bore, outer = mm(spacer.bore) + mm(settings.hole_compensation), mm(spacer.outer)
    wall, nozzle = (outer - bore) / 2, mm(settings.nozzle)
    if wall < 2 * nozzle + chamfer:
        raise CannotDraw(
            name,
            "outer",
            f"{outer:g} mm leaves {wall:.2f} mm of wall round the bore of {bore:g} mm; "
            f"{2 * nozzle + chamfer:g} mm is the least (two lines and the chamfer)",
        )
    nose, tall = _nose(spacer, name, bore, settings)
    lead = min(LEAD_IN, (wall - chamfer - nozzle) / 2, height / 4)
    upper = lead if tall == 0 else min(lead, max(0.0, (nose - bore) / 2 - 2 * nozzle))
    if height <= chamfer + lead:
        raise CannotDraw(name, "pulley_spacer", f"{height:g} mm is no more than its chamfers")
    outline, over = disc(outer), 1.0  # cutters stand so far past the faces that no skin is left
    cutters = [
        features.hole(bore, -over, height + over),
        features.cone(bore + 2 * (lead + over), bore, -over, lead),
    ]
    if upper > 0:
        cutters.append(
            features.cone(bore, bore + 2 * (upper + over), height - upper, height + over)
        )
    volume = chamfered_volume(lambda inset: outline.grown(-inset).area, chamfer, height)
    volume -= features.hole_area(bore) * height + _lead_ring(bore, lead) + _lead_ring(bore, upper)
    if tall > 0:
        round_it = features.prism(outline, height - tall, height + over)
        kept = features.prism(disc(nose), height - tall - over, height + 2 * over)
        cutters.append(booleans.cut(round_it, kept))
        volume -= (outline.area - disc(nose).area) * tall
    return Part(
        name=name,
        owner=spacer.name,
        role="pulley-spacer",
        quantity=1,
        solid=features.cut_all(features.prism(outline, 0.0, height, chamfer), *cutters),
        material=spacer.filament,
        orientation="as drawn: standing on its end" + (", nose up" if tall > 0 else ""),
        notes=(
            "on the motor shaft, between motor face and pulley"
            + (", nose to the motor: on the bearing's inner ring alone" if tall > 0 else ""),
            *layer_notes(settings.layer, spacer=height),
        ),
        box=(outer, outer, height),
        volume=volume,
        loaded=(),
        places=(),
    )


def _nose(
    spacer: MotorSpacer, name: str, bore: float, settings: PrintSettings
) -> tuple[float, float]:
    """Return diameter and height of the nose; the outer diameter and 0 where there is none."""
    nose, tall, outer = mm(spacer.nose), mm(spacer.nose_height), mm(spacer.outer)
    if tall <= 0 or nose <= 0 or nose >= outer:
        return outer, 0.0
    face = FACEPLATES.get(spacer.frame_size)
    boss = mm(spacer.boss_height or (face.pilot_height if face else 0.0))
    if tall < boss + RUNNING - 1e-6:
        raise CannotDraw(
            name,
            "nose_height",
            f"{tall:g} mm leaves {tall - boss:.2f} mm between the boss of {boss:g} mm, which "
            f"stands still, and the ring, which turns; {RUNNING:g} mm is the least",
        )
    wall, least = (nose - bore) / 2, 2 * mm(settings.nozzle)
    if wall < least - 1e-6:
        raise CannotDraw(
            name,
            "nose",
            f"{nose:g} mm leaves {wall:.2f} mm of wall round the bore of {bore:g} mm; {least:g} mm "
            "is the least (two lines)",
        )
    high = mm(spacer.pulley_spacer)
    if high < tall + LEAST_BODY:
        raise CannotDraw(
            name,
            "pulley_spacer",
            f"{high:g} mm leave no {LEAST_BODY:g} mm of ring over its nose of {tall:g} mm",
        )
    return nose, tall


def _lead_ring(bore: float, lead: float) -> float:
    """Return what a countersink of 45° and this depth takes beside the bore [mm³]."""
    return math.pi * ((bore / 2) * lead**2 + lead**3 / 3)
