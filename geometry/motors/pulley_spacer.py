"""Ring on the motor shaft that stands the pulley off by a given height."""

from __future__ import annotations

import math

from geometry.solids import features
from geometry.solids.outline import chamfered_volume, disc
from geometry.solids.part import CannotDraw, Part, layer_notes, mm
from isolator.design import MotorSpacer, PrintSettings
from isolator.design.naming import slug

LEAD_IN = 0.4  # greatest countersink at either end of the bore [mm]


def pulley_spacer(spacer: MotorSpacer, settings: PrintSettings) -> Part:
    """Return the ring; its bore is the shaft's diameter and the hole compensation."""
    name = slug(spacer.name, "pulley-spacer")
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
    lead = min(LEAD_IN, (wall - chamfer - nozzle) / 2, height / 4)
    if height <= chamfer + lead:
        raise CannotDraw(name, "pulley_spacer", f"{height:g} mm is no more than its chamfers")
    outline = disc(outer)
    over = 1.0  # cutters stand this far past the faces so that no skin is left
    cutters = (
        features.hole(bore, -over, height + over),
        features.cone(bore + 2 * (lead + over), bore, -over, lead),
        features.cone(bore, bore + 2 * (lead + over), height - lead, height + over),
    )
    lead_ring = math.pi * ((bore / 2) * lead**2 + lead**3 / 3)
    volume = chamfered_volume(lambda inset: outline.grown(-inset).area, chamfer, height)
    volume -= features.hole_area(bore) * height + 2 * lead_ring
    return Part(
        name=name,
        owner=spacer.name,
        role="pulley-spacer",
        quantity=1,
        solid=features.cut_all(features.prism(outline, 0.0, height, chamfer), *cutters),
        material=spacer.filament,
        orientation="as drawn: standing on its end",
        notes=(
            "on the motor shaft, between motor face and pulley",
            *layer_notes(settings.layer, spacer=height),
        ),
        box=(outer, outer, height),
        volume=volume,
        loaded=(),
        places=(),
    )
