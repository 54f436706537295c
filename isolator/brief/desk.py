"""What the printer stands on: [desk], with what is usual of common table tops."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, Literal, NamedTuple, cast

from isolator.reading.keys import Key, by
from isolator.reading.number_keys import number, quantity
from isolator.reading.table import Table
from isolator.reading.word_keys import choice, text

KINDS: tuple[Literal["rigid", "plate"], ...] = ("rigid", "plate")
PLATE = ("material", "thickness", "youngs_modulus", "density", "poisson", "loss_factor")
"""Keys of a plate alone: any of them makes the desk one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Desk:
    """What the printer stands on; every number is 0 for a rigid one."""

    kind: Literal["rigid", "plate"]
    material: str
    thickness: float  # [m]
    youngs_modulus: float  # [Pa]
    density: float  # [kg/m³]
    poisson: float
    loss_factor: float


class Top(NamedTuple):
    """A table top as usually found."""

    youngs_modulus: float  # [Pa]
    density: float  # [kg/m³]
    poisson: float
    loss_factor: float
    thickness: float  # [m]
    source: str


TOPS = {
    "mdf": Top(3.5e9, 730.0, 0.25, 0.02, 0.018, "middle of 2.5–4 GPa and 600–830 kg/m³"),
    "chipboard": Top(2.5e9, 650.0, 0.25, 0.02, 0.022, "from memory"),
    "plywood": Top(6.0e9, 600.0, 0.25, 0.02, 0.018, "mean of both directions, from memory"),
    "solid-wood": Top(3.0e9, 550.0, 0.3, 0.015, 0.03, "√(along × across the grain), from memory"),
    "glass": Top(62e9, 2500.0, 0.24, 0.003, 0.008, "Vigran, Building Acoustics, p. 97"),
    "steel": Top(210e9, 7850.0, 0.3, 0.005, 0.003, "handbook value, from memory"),
    "stone": Top(50e9, 2700.0, 0.25, 0.005, 0.03, "granite, from memory"),
    "concrete": Top(30e9, 2400.0, 0.2, 0.01, 0.1, "handbook value, from memory"),
}
"""Table tops by name. Loss factors of wood panels lie between 0.01 and 0.03 (from memory)."""

MEANINGS = {
    **dict.fromkeys(("hollow", "honeycomb", "cardboard", "foam", "fibreglass"), ""),
    **dict.fromkeys(("fibreboard", "fiberboard", "hdf"), "mdf"),
    **dict.fromkeys(("particle board", "particleboard", "laminate", "melamine"), "chipboard"),
    **dict.fromkeys(("multiplex", "ply"), "plywood"),
    **dict.fromkeys(("wood", "wooden", "timber", "oak", "beech", "pine", "bamboo"), "solid-wood"),
    **dict.fromkeys(("granite", "marble", "slate", "tile", "ceramic"), "stone"),
    **dict.fromkeys(("cement", "paver"), "concrete"),
    "iron": "steel",
}
"""Table tops by other words; a light board with hollows is none of those known."""
OTHERWISE = "or tell the youngs_modulus and density of another top"


def _usual(value: Callable[[Top], float]) -> tuple[Callable[[Any], Any], ...]:
    """Return the default of a key that goes with the desk's material."""
    return (
        lambda t: value(t.top),
        lambda t: f"usual of {t.material} ({t.top.source})" if t.material in TOPS else "estimated",
    )


class DeskTable(Table):
    """[desk]."""

    kind = choice(
        KINDS,
        lambda t: "plate" if t.has(*PLATE) else "rigid",
        lambda t: "its material or thickness is given" if t.has(*PLATE) else "none was given",
        comment='or "plate"',
    )
    material = by(
        lambda t: not t.has("youngs_modulus") or not t.has("density"),
        cast(
            "Key[str]",
            choice(
                tuple(TOPS),
                "mdf",
                "the usual table top",
                meanings=MEANINGS,
                otherwise=f"write one of these words, in quotes, {OTHERWISE}",
                comment="chipboard, plywood, solid-wood, glass, steel ...",
            ),
        ),
        text("own", "its modulus and density are given"),
    )
    thickness = quantity("m", *_usual(lambda top: top.thickness), usual=(0.003, 0.2))
    youngs_modulus = quantity(
        "Pa", *_usual(lambda top: top.youngs_modulus), show="GPa", usual=(5e8, 3e11)
    )
    density = quantity("kg/m^3", *_usual(lambda top: top.density), usual=(200.0, 8000.0))
    poisson = number((0.0, 0.49), *_usual(lambda top: top.poisson))
    loss_factor = number(
        (0.0, 1.0),
        lambda t: t.top.loss_factor,
        "estimated, from memory",
        comment="not used yet: the desk is taken as endless",
    )

    @property
    def top(self) -> Top:
        """Return what is usual of its material, or of the usual one."""
        return TOPS.get(self.material, TOPS["mdf"])


def read_desk(table: DeskTable) -> Desk:
    """Return the desk of a brief: rigid where the brief has none."""
    kind = table.kind
    if kind == "plate":
        if table.has("loss_factor"):
            table.warn("loss_factor", "is not used yet: the desk is taken as an endless plate")
        desk = table.record(Desk)
    else:
        for key in PLATE:
            if table.has(key):
                table.warn(key, "is ignored: the desk is rigid")
        nothing: dict[str, Any] = dict.fromkeys(PLATE, 0.0)
        desk = Desk(**{**nothing, "kind": kind, "material": "rigid"})
    table.done()
    return desk
