"""What the page is given beside the findings: pictures and the list of parts."""

from __future__ import annotations

from dataclasses import dataclass

SECTION_PICTURE = "section"  # key of the foot's cross-section among the pictures
FOOT_PICTURE = "foot-exploded"  # key of the foot pulled apart
STEP_PICTURE = "step-"  # begins the keys of the steps' pictures; their number follows
DAMPER_PICTURE = "damper-exploded"  # key of the damper pulled apart; so may others begin


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """One picture, drawn elsewhere; `mime` such as "image/svg+xml" or "image/png"."""

    title: str
    caption: str
    mime: str
    data: bytes


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """One line of the parts list; mass and box are those of one piece."""

    name: str
    quantity: int
    material: str
    mass_kg: float | None
    box_m: tuple[float, float, float] | None
    files: tuple[str, ...]  # relative to the report, such as "parts/cup.stl"
    prints: str = ""  # what its mesh says of printing it, in words


@dataclass(frozen=True, slots=True, kw_only=True)
class Plate:
    """One print bed full of parts of one filament."""

    file: str
    material: str
    counts: tuple[tuple[str, int], ...]  # part and how many of it


@dataclass(frozen=True, slots=True, kw_only=True)
class KitList:
    """Every part to print or to cut, in the order of making."""

    parts: tuple[Part, ...]
    plates: tuple[Plate, ...] = ()
    views: tuple[str, ...] = ()  # files of the whole, relative to the report
    buy: tuple[tuple[str, str, str, str, str], ...] = ()  # item, needed, to buy, unit, remark
    doubts: tuple[str, ...] = ()  # what is owned and on no line
