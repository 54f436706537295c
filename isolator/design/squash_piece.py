"""The test piece of a squash test: a square block of what feet are made of."""

from __future__ import annotations

from dataclasses import dataclass

from isolator.design import Pad, PrintSettings
from isolator.design.fill import LINE, SOLID, Fill


@dataclass(frozen=True, slots=True, kw_only=True)
class SquashPiece:
    """A square block [m]; cut from sheet and stacked, or printed as the pads of feet are."""

    side: float
    thickness: float  # of one layer
    layers: int
    pad: Pad  # that it stands for

    @property
    def height(self) -> float:
        """Return the height of the stack [m]."""
        return round(self.thickness * self.layers, 9)


def piece_fill(piece: SquashPiece, settings: PrintSettings) -> Fill:
    """Return how a printed piece is filled: as its pad, without solid skins, which would not give.

    A pad that does not say how it is filled is solid.
    """
    pad = piece.pad
    if not 0.0 < pad.infill < 1.0:
        return SOLID
    walls = max(1, round(pad.wall / (LINE * settings.nozzle)))
    return Fill(infill=pad.infill, pattern=pad.pattern, wall=pad.wall, walls=walls)
