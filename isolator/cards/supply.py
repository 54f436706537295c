"""Where a material is got, and in which sheets."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from isolator.design.got import FOUND, ORDERED


@dataclass(frozen=True, slots=True, kw_only=True)
class Supply:
    """Where a material is got and what it is sold as.

    `sheets` are the usual thicknesses [m], rising, and `sizes` the usual sheets' sides [m], shorter
    one first, smallest sheet first; empty where unknown or where it comes in no sheets.
    """

    found: str = ORDERED  # of FOUND
    sheets: tuple[float, ...] = ()
    sizes: tuple[tuple[float, float], ...] = ()
    kind: str = "estimated"  # of isolator.cards.card.KINDS
    source: str = ""  # a key of the card's sources
    ready: bool = False  # it comes as ready-made buffers, in the sizes of `materials/buffers.toml`

    @property
    def rank(self) -> int:
        """Return how hard it is to get: 0 is easiest.

        >>> Supply(found="printed").rank < Supply(found="craft shop").rank < Supply().rank
        True
        """
        return FOUND.index(self.found)


UNKNOWN: Final = Supply()
"""Of a material whose card does not say: ordered, in sheets nobody knows."""
