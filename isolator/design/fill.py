"""How a print is filled: walls, infill and pattern, and solid layers below and above it."""

from __future__ import annotations

from dataclasses import dataclass

from isolator.design import COVER, Foot, PrintSettings, quantise_up
from isolator.design.phrases import millimetres

LINE = 1.1
"""Width of a line of a print over the nozzle's; common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fill:
    """What is typed into a slicer for one part, beside layer height and filament."""

    infill: float = 1.0  # share of what lies inside walls and solid layers, 0..1
    pattern: str = ""
    wall: float = 0.0  # solid, all round [m]
    walls: int = 0  # lines side by side in it
    bottom: int = 0  # solid layers at the bed
    top: int = 0

    @property
    def solid(self) -> bool:
        """Return whether nothing is left hollow."""
        return self.infill >= 1.0

    @property
    def words(self) -> str:
        """Return it as one plain line.

        >>> Fill().words
        'solid (100 % infill)'
        >>> Fill(infill=0.25, pattern="gyroid", wall=9e-4, walls=2, bottom=8, top=9).words
        '2 walls (0.9 mm), 25 % gyroid infill, 8 solid layers at the bed and 9 at the top'
        """
        if self.solid:
            return "solid (100 % infill)"
        walls = "1 wall" if self.walls == 1 else f"{self.walls} walls"
        infill = " ".join((f"{100.0 * self.infill:g} %", *self.pattern.split(), "infill"))
        layers = f"{self.bottom} solid layers at the bed and {self.top} at the top"
        return f"{walls} ({millimetres(self.wall, 2)}), {infill}, {layers}"

    def settings(self) -> tuple[tuple[str, str], ...]:
        """Return its settings by name, for a program to read.

        >>> Fill().settings()
        (('infill_percent', '100'),)
        """
        if self.solid:
            return (("infill_percent", "100"),)
        return (
            ("infill_percent", f"{100.0 * self.infill:g}"),
            ("infill_pattern", self.pattern),
            ("wall_mm", f"{self.wall * 1e3:g}"),
            ("walls", str(self.walls)),
            ("solid_layers_at_the_bed", str(self.bottom)),
            ("solid_layers_at_the_top", str(self.top)),
        )


SOLID = Fill()


def foot_fill(foot: Foot, settings: PrintSettings) -> Fill:
    """Return how a flexible body is printed: its pad as the card says, solid skins beside it.

    A pad that does not say how it is filled is solid.
    """
    pad, layer = foot.pad, settings.layer
    if not 0.0 < pad.infill < 1.0:
        return SOLID
    return Fill(
        infill=pad.infill,
        pattern=pad.pattern,
        wall=pad.wall,
        walls=max(1, round(pad.wall / (LINE * settings.nozzle))),
        bottom=round((quantise_up(COVER, layer) if foot.mounted else foot.cap) / layer),
        top=round(foot.sole / layer),
    )
