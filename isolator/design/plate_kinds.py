"""What the two plates of a motor damper are made of: printed, or cut of sheet metal."""

from __future__ import annotations

from typing import NamedTuple


class PlateKind(NamedTuple):
    """One material of plates; any handbook, yield and plastic from memory."""

    sheet: bool  # cut of sheet metal: its screws' heads lie on it, a print's in pockets
    conductivity: float  # [W/(m·K)]
    young: float  # [Pa]
    strength: float  # least yield of what shops cut [Pa]
    density: float  # [kg/m³]; 0: that of the filament
    told: str  # what is asked for in a shop


PRINTED = "printed"
PLATE_KINDS = {
    PRINTED: PlateKind(False, 0.2, 2.0e9, 40e6, 0.0, "printed"),
    # mild steel DC01, EN 10130, galvanised or painted after cutting
    "steel": PlateKind(True, 50.0, 210e9, 140e6, 7850.0, "mild steel"),
    # EN AW-5754 O/H111, EN 485-2
    "aluminium": PlateKind(True, 130.0, 70e9, 80e6, 2670.0, "aluminium EN AW-5754"),
}
"""Rows by the word of the brief."""

SHEETS = (1e-3, 2e-3)
"""Thinnest and thickest sheet that plates are cut of [m]; common practice, no source."""
USUAL_SHEET = 1.5e-3
"""Thickness of sheet where none is told [m]; common practice, no source."""
HEAD_PLAY = 0.8e-3
"""How far plates of sheet may move against each other [m]: their free corners clear heads by it."""
EAR_WALL = 2.0e-3
"""Metal round the hole of the bonding wire's ear [m]."""
EAR_OFF = 0.5e-3
"""What is left between the nut under that ear and the motor's case [m]."""
TOOTHED = 0.6e-3
"""Thickness of a toothed washer under a nut [m]; from memory, rather too thick."""
