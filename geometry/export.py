"""Writes the drawn parts: STEP, STL and 3MF, the assembly, pad templates and the manifest."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from geometry.assembly import COLOURS, assembly
from geometry.clearance import damper_clearances
from geometry.damper_parts import groups_of_rubber
from geometry.damper_rubber import piece_area, pieces_each, rubber_template
from geometry.mesh import TOLERANCE, tessellate
from geometry.mesh_files import stl_bytes, three_mf_bytes
from geometry.pad_template import (
    Template,
    template_area,
    template_dxf,
    template_of,
    template_svg,
)
from geometry.part import Part, slug
from geometry.step_files import write_assembly_step, write_part_step
from geometry.verify import verify
from isolator.design import Design, Foot, PrintSettings
from isolator.design.damper import MotorDamper, stack_height

DENSITIES = {"pla": 1240.0, "petg": 1270.0, "abs": 1040.0, "asa": 1070.0, "tpu": 1210.0}
"""Density of solid filament by family [kg/m³]; usual data-sheet values, from memory."""

PLATE_GAP = 5.0  # between copies in a 3MF [mm]


def write_all(design: Design, folder: Path, parts: list[Part]) -> dict[str, Any]:
    """Write every file of a drawn design under `folder` and return the manifest.

    Writes parts/<part>.step, .stl and .3mf, assembly.step, templates/<pad or rubber>.dxf and .svg,
    manifest.json. Lengths are mm in the files, SI in the manifest. `parts` come from `draw`.
    """
    (folder / "parts").mkdir(parents=True, exist_ok=True)
    (folder / "templates").mkdir(exist_ok=True)
    manifest = {
        "name": design.name,
        "version": design.version,
        "mesh_tolerance_m": TOLERANCE / 1000.0,
        "parts": [_write_part(part, design.print, folder) for part in parts],
        "pads": [
            *(_write_template(foot, folder) for foot in design.feet if foot.kind != "printed"),
            *(
                _write_rubber(same, folder)
                for same in groups_of_rubber(design.motor_dampers)
                if not same[0].cast
            ),
        ],
        "dampers": [_damper(damper, design.print) for damper in design.motor_dampers],
        "assembly": "assembly.step",
    }
    write_assembly_step(assembly(design, parts), folder / "assembly.step")
    (folder / "manifest.json").write_text(
        json.dumps(manifest, indent=2, ensure_ascii=False) + "\n", encoding="utf-8"
    )
    return manifest


def density(material: str) -> float | None:
    """Return the density of a filament [kg/m³] by its family's name, None where unknown."""
    return DENSITIES.get(material.casefold().split("-")[0])


def _write_part(part: Part, settings: PrintSettings, folder: Path) -> dict[str, Any]:
    figures, mesh = verify(part, settings), tessellate(part.solid)
    stem = folder / "parts" / part.name
    write_part_step(part.solid, part.name, COLOURS[part.role], stem.with_name(f"{part.name}.step"))
    stem.with_name(f"{part.name}.stl").write_bytes(stl_bytes(mesh, part.name))
    stem.with_name(f"{part.name}.3mf").write_bytes(
        three_mf_bytes(mesh, part.name, part.quantity, part.box[0] + PLATE_GAP)
    )
    heavy, volume = density(part.material), figures.volume * 1e-9
    return {
        "name": part.name,
        "role": part.role,
        "owner": part.owner,
        "quantity": part.quantity,
        "material": part.material,
        "files": [f"parts/{part.name}.{suffix}" for suffix in ("step", "stl", "3mf")],
        "volume_m3": volume,
        "box_m": [round(side * 1e-3, 9) for side in part.box],
        "solid_mass_kg": None if heavy is None else heavy * volume,
        "thinnest_wall_m": round(figures.thinnest_wall * 1e-3, 9),
        "overhang_m2": figures.overhang * 1e-6,
        "sha256": mesh.sha256(),
        "orientation": part.orientation,
        "notes": list(part.notes),
    }


def _write_template(foot: Foot, folder: Path) -> dict[str, Any]:
    name = slug(foot.name, "pad")
    return {
        "name": name,
        "owner": foot.name,
        "material": foot.pad.material,
        "quantity": foot.pad.layers * len(foot.positions),
        "files": _write_both(template_of(foot), name, folder),
        "area_m2": template_area(foot.pad) * 1e-6,
        "layer_thickness_m": foot.pad.thickness / foot.pad.layers,
    }


def _write_rubber(same: tuple[MotorDamper, ...], folder: Path) -> dict[str, Any]:
    """Write the template of the rubber that these dampers share."""
    one = same[0]
    name = slug(one.name, "rubber")
    template = rubber_template(one, tuple(damper.name for damper in same))
    return {
        "name": name,
        "owner": one.name,
        "material": one.material,
        "quantity": pieces_each(one) * len(same),
        "files": _write_both(template, name, folder),
        "area_m2": piece_area(one),
        "layer_thickness_m": one.rubber,
    }


def _write_both(template: Template, name: str, folder: Path) -> list[str]:
    stem = folder / "templates" / name
    stem.with_name(f"{name}.dxf").write_bytes(template_dxf(template))
    stem.with_name(f"{name}.svg").write_text(template_svg(template), encoding="utf-8")
    return [f"templates/{name}.dxf", f"templates/{name}.svg"]


def _damper(damper: MotorDamper, settings: PrintSettings) -> dict[str, Any]:
    """Return what was measured between the parts of a damper."""
    left = damper_clearances(damper, settings)
    return {
        "name": damper.name,
        "stack_height_m": round(stack_height(damper), 9),
        "travel_m": left.travel,
        "positions": left.positions,
        "interference_m3": left.interference,
        "motor_screws_clear_m": round(left.motor_screws, 9),
        "frame_screws_clear_m": round(left.frame_screws, 9),
        "spacer_clear_m": round(left.spacer, 9),
    }
