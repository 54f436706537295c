"""Table tops as usually found, by name and by other words."""

from __future__ import annotations

from typing import NamedTuple


class Top(NamedTuple):
    """A table top as usually found; of a hollow board modulus and density are its skins'."""

    youngs_modulus: float  # [Pa]
    density: float  # [kg/m³]
    poisson: float
    loss_factor: float
    thickness: float  # [m]
    source: str
    skin: float = 0.0  # [m]; 0: solid
    core_density: float = 0.0  # [kg/m³]


TOPS = {
    "mdf": Top(3.5e9, 730.0, 0.25, 0.05, 0.018, "middle of 2.5–4 GPa and 600–830 kg/m³"),
    "chipboard": Top(2.5e9, 650.0, 0.25, 0.05, 0.022, "from memory"),
    "plywood": Top(6.0e9, 600.0, 0.25, 0.05, 0.018, "mean of both directions, from memory"),
    "solid-wood": Top(3.0e9, 550.0, 0.3, 0.04, 0.03, "√(along × across the grain), from memory"),
    "hollow-board": Top(
        3.5e9, 800.0, 0.25, 0.05, 0.04, "fibreboard on a paper core, from memory", 0.003, 40.0
    ),
    "glass": Top(62e9, 2500.0, 0.24, 0.02, 0.008, "Vigran, Building Acoustics, p. 97"),
    "steel": Top(210e9, 7850.0, 0.3, 0.02, 0.003, "handbook value, from memory"),
    "stone": Top(50e9, 2700.0, 0.25, 0.02, 0.03, "granite, from memory"),
    "concrete": Top(30e9, 2400.0, 0.2, 0.02, 0.1, "handbook value, from memory"),
}
"""Table tops by name. Loss factors are those of a table that stands: boards alone have 0.01 to 0.03
(wood), 0.003 (glass) or less (steel), joints, legs and what lies on the top bring more; estimated,
from memory."""

MEANINGS = {
    **dict.fromkeys(("foam", "fibreglass"), ""),
    **dict.fromkeys(("hollow", "honeycomb", "cardboard", "hollow-core"), "hollow-board"),
    **dict.fromkeys(("fibreboard", "fiberboard", "hdf"), "mdf"),
    **dict.fromkeys(("particle board", "particleboard", "laminate", "melamine"), "chipboard"),
    **dict.fromkeys(("multiplex", "ply"), "plywood"),
    **dict.fromkeys(("wood", "wooden", "timber", "oak", "beech", "pine", "bamboo"), "solid-wood"),
    **dict.fromkeys(("granite", "marble", "slate", "tile", "ceramic"), "stone"),
    **dict.fromkeys(("cement", "paver"), "concrete"),
    "iron": "steel",
}
"""Table tops by other words; foam and fibreglass are none of those known."""
OTHERWISE = "or tell the youngs_modulus and density of another top"
