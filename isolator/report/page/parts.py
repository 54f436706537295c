"""What the page is given beside the findings: pictures, and what was drawn."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from isolator.workshop.shopping import Item

SECTION_PICTURE = "section"  # key of the foot's cross-section among the pictures
FOOT_PICTURE = "foot-exploded"  # key of the foot pulled apart
CUT_PICTURE = "cut"  # key of the foot cut open
CORNER_PICTURE = "corner"  # key of one foot under a corner of the printer
STEP_PICTURE = "step-"  # begins the keys of the steps' pictures; their number follows
DAMPER_PICTURE = "damper-exploded"  # begins the keys of dampers pulled apart


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """One picture, drawn elsewhere; `mime` such as "image/svg+xml" or "image/png"."""

    title: str
    caption: str
    mime: str
    data: bytes


@dataclass(frozen=True, slots=True, kw_only=True)
class KitList:
    """What was drawn, as its manifest tells it, and what is bought for it."""

    manifest: Mapping[str, Any]
    buy: Sequence[Item] = ()
    nozzle: float = 0.0004  # of the printer that prints them [m]
    doubts: Sequence[str] = ()  # what is owned and on no line

    @property
    def parts(self) -> list[Mapping[str, Any]]:
        """Every part in the order of making: printed ones, then pads to cut."""
        return [*self.manifest["parts"], *self.manifest["pads"]]
