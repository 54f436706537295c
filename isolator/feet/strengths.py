"""What prints, screws and tape are let carry [Pa], and how much is kept back."""

from __future__ import annotations

from typing import NamedTuple


class Allowance(NamedTuple):
    """By what a strength is divided."""

    plastic: float
    steel: float
    glue: float


DRAG = Allowance(plastic=3.0, steel=1.5, glue=1.0)
"""Rare and short: over usual strengths of prints, for scatter, heat and creep; convention, no
source."""
MOVES = Allowance(plastic=6.0, steel=6.0, glue=4.0)
"""A million times: prints, threads and tape tire; convention, no source."""
TAPE = 300e3
"""Short tension that double-sided acrylic tape takes at its edge [Pa]; common practice, no
source."""
TAPE_SHEAR = 200e3
"""The same in shear [Pa]; common practice, no source."""
YIELD = 240e6
"""Least yield strength of steel screws, class 4.6, ISO 898-1 (from memory) [Pa]."""
TAPPED = 90e6
"""Shear strength of a soft aluminium profile, 0.6 of its tensile strength of 150 MPa (EN AW-6060
T4 to T5, EN 755-2, from memory) [Pa]."""
SHEAR = 0.5
"""Shear over tensile strength of a print; least of the usual criteria (Tresca)."""
GIVES = 0.25
"""Of its thickness: what a flexible flange may give; convention, no source."""
