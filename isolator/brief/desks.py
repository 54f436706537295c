"""Reading what the printer stands on: [desk], with what is usual of common table tops."""

from __future__ import annotations

from typing import NamedTuple

from isolator.brief.model import Desk
from isolator.reading.table import Section


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


def read_desk(section: Section) -> Desk:
    """Return the desk of a brief: rigid where the brief has none."""
    keys = ("material", "thickness", "youngs_modulus", "density", "poisson", "loss_factor")
    said = [key for key in keys if section.has(key)]
    kind = section.choice(
        "kind",
        ("rigid", "plate"),
        "plate" if said else "rigid",
        "its material or thickness is given" if said else "none was given",
    )
    if kind == "rigid":
        for key in said:
            section.notes.warn(section.path(key), "is ignored: the desk is rigid")
        section.done()
        return Desk(
            kind="rigid",
            material="rigid",
            thickness=0.0,
            youngs_modulus=0.0,
            density=0.0,
            poisson=0.0,
            loss_factor=0.0,
        )
    desk = _read_plate(section)
    section.done()
    return desk


def _read_plate(section: Section) -> Desk:
    own = section.has("youngs_modulus") and section.has("density")
    if own:
        material = section.text("material", "own", "its modulus and density are given")
    else:
        material = section.choice("material", tuple(TOPS), "mdf", "the usual table top")
    top = TOPS.get(material, TOPS["mdf"])
    why = f"usual of {material} ({top.source})" if material in TOPS else "estimated"
    return Desk(
        kind="plate",
        material=material,
        thickness=section.quantity("thickness", "m", top.thickness, why, usual=(0.003, 0.2)),
        youngs_modulus=section.quantity(
            "youngs_modulus", "Pa", top.youngs_modulus, why, show="GPa", usual=(5e8, 3e11)
        ),
        density=section.quantity("density", "kg/m^3", top.density, why, usual=(200.0, 8000.0)),
        poisson=section.number("poisson", top.poisson, why, within=(0.0, 0.49)),
        loss_factor=section.number(
            "loss_factor", top.loss_factor, "estimated, from memory", within=(0.0, 1.0)
        ),
    )
