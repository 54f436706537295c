"""Writes the drawn parts: files of each, plates to print, assembly, templates."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

from geometry.assembly import assembled
from geometry.finish.paper import Ink
from geometry.finish.printed import FOLDERS, Printed, finished
from geometry.formats.glb import glb_bytes
from geometry.formats.plates import GAP, Plate, plate_bytes, plates
from geometry.formats.step_files import write_assembly_step
from geometry.motors.clearance import damper_clearances
from geometry.part_files import write_parts
from geometry.sheets.cut_plan import cut_plan
from geometry.sheets.damper_rubber import piece_area, rubber_template
from geometry.sheets.flat_drawing import Flat, flat_dxf, flat_svg
from geometry.sheets.ink import ink_of
from geometry.sheets.pad_template import (
    Template,
    template_area,
    template_dxf,
    template_ink,
    template_of,
    template_svg,
)
from geometry.sheets.slab_plan import slab_plan
from geometry.solids.mesh import TOLERANCE, tessellate
from geometry.solids.part import Part
from geometry.solids.strands import laid
from geometry.solids.verify import verify
from isolator.design import Design, Foot, PrintSettings
from isolator.design.cut_list import damper_rubber, foot_pads, groups_of_rubber
from isolator.design.damper import MotorDamper, stack_height
from isolator.design.filaments import filament
from isolator.design.naming import slug
from isolator.design.print_time import print_time

Sheets = Callable[[str, bytes, str, Ink], list[str]]
"""Writes a drawing's name, DXF and SVG, leaves its PDF to be printed, returns all three paths."""


def write_all(design: Design, folder: Path, parts: list[Part]) -> dict[str, Any]:
    """Write every file of a drawn design under `folder` and return the manifest.

    What `write_files` writes, and the PDFs that it leaves.
    """
    return finished(folder, *write_files(design, folder, parts))


def write_files(
    design: Design, folder: Path, parts: list[Part]
) -> tuple[dict[str, Any], list[Printed]]:
    """Write all files but PDFs under `folder`; return the manifest, without hashes, and the PDFs.

    Writes parts/<part>.step, .stl and .3mf, drawings/<part>.svg, beds/<filament>.3mf,
    assembly.step and .glb, templates/<pad or rubber>.dxf and .svg. PDFs belong beside each SVG,
    templates' on the user's paper.
    Lengths are mm in the files, m in the GLB, SI in the manifest. `parts` come from `draw`. The
    same design and version give the same bytes.
    """
    for name in FOLDERS:
        (folder / name).mkdir(parents=True, exist_ok=True)
    written = write_parts(parts, design, folder)
    printed = [each.drawing for each in written]
    laid, paper = plates(parts, design.print, design.feet), design.print.paper

    def sheets(name: str, dxf: bytes, svg: str, ink: Ink) -> list[str]:
        stem = folder / "templates" / name
        stem.with_name(f"{name}.dxf").write_bytes(dxf)
        stem.with_name(f"{name}.svg").write_text(svg, encoding="utf-8")
        printed.append(Printed(f"templates/{name}.pdf", name, ink, paper))
        return [f"templates/{name}.{kind}" for kind in ("dxf", "svg", "pdf")]

    manifest = {
        "name": design.name,
        "version": design.version,
        "mesh_tolerance_m": TOLERANCE / 1000.0,
        "parts": [
            _part(part, design.print, files.paths)
            for part, files in zip(parts, written, strict=True)
        ],
        "plates": [_write_plate(plate, parts, design, folder) for plate in laid],
        "plate_gap_m": GAP / 1000.0,
        "pads": [
            *(_pad(foot, sheets) for foot in design.feet if foot.build.cut_pad),
            *(
                _rubber(same, sheets)
                for same in groups_of_rubber(design.motor_dampers)
                if not same[0].cast
            ),
        ],
        "dampers": [_damper(damper, design.print) for damper in design.motor_dampers],
        "slab": [] if design.slab is None else _flat(slab_plan(design), "slab", sheets),
        **_write_assembly(design, parts, folder),
    }
    return manifest, printed


def _part(part: Part, settings: PrintSettings, paths: tuple[str, ...]) -> dict[str, Any]:
    figures = verify(part, settings)
    row, volume = filament(part.material), figures.volume * 1e-9
    used = 0.0 if part.cut else laid(part, settings.nozzle * 1e3) * 1e-9
    heavy = None if row is None else row.density
    wall = round(figures.thinnest_wall * 1e-3, 9)
    return {
        "name": part.name,
        "role": part.role,
        "owner": part.owner,
        "quantity": part.quantity,
        "material": part.material,
        "cut": part.cut,
        "files": [path for path in paths if path.startswith("parts/")],
        "drawing": [path for path in paths if path.startswith("drawings/")],
        "volume_m3": volume,
        "box_m": [round(side * 1e-3, 9) for side in part.box],
        "filament_m3": used,
        "print_mass_kg": None if heavy is None else heavy * used,
        "print": {} if part.cut else {"words": part.fill.words, **dict(part.fill.settings())},
        "thinnest_wall_m": wall,
        "wall_nozzles": round(wall / settings.nozzle, 3),
        "overhang_m2": round(figures.overhang * 1e-6, 12),
        "bridge_m": round(figures.bridge * 1e-3, 9),
        "sha256": tessellate(part.solid).sha256(),
        "orientation": part.orientation,
        "notes": list(part.notes),
    }


def _write_plate(plate: Plate, parts: list[Part], design: Design, folder: Path) -> dict[str, Any]:
    path = f"beds/{plate.name}.3mf"
    own = f", {plate.layer:g} mm layers" if plate.layer > 0 else ""
    whole = ", one whole foot" if plate.first else ""
    title = f"{design.name}, {plate.material}{own}{whole}, plate {plate.number}"
    (folder / path).write_bytes(plate_bytes(plate, parts, title))
    names = [copy.part for copy in plate.copies]
    layer = design.print.layer if plate.layer == 0 else round(plate.layer * 1e-3, 9)
    drawn = {part.name: part for part in parts}
    volume = sum(laid(drawn[name], design.print.nozzle * 1e3) for name in names) * 1e-9
    height = max(drawn[name].box[2] for name in names) * 1e-3
    return {
        "material": plate.material,
        "number": plate.number,
        "first": plate.first,
        "layer_m": layer,
        "print_time_s": list(
            print_time(volume, height, plate.material, design.print.nozzle, layer)
        ),
        "file": path,
        "counts": {name: names.count(name) for name in dict.fromkeys(names)},
    }


def _write_assembly(design: Design, parts: list[Part], folder: Path) -> dict[str, str]:
    bodies = assembled(design, parts)
    write_assembly_step(slug(design.slug or design.name), bodies, folder / "assembly.step")
    (folder / "assembly.glb").write_bytes(glb_bytes(bodies))
    return {"assembly": "assembly.step", "assembly_view": "assembly.glb"}


def _pad(foot: Foot, sheets: Sheets) -> dict[str, Any]:
    cut = foot_pads(foot)
    name = cut["name"]
    return {
        **cut,
        "files": _template(template_of(foot), name, sheets),
        "area_m2": template_area(foot.pad) * 1e-6,
        "cut_plan": _flat(cut_plan(foot), f"{name}-sheet", sheets),
    }


def _rubber(same: tuple[MotorDamper, ...], sheets: Sheets) -> dict[str, Any]:
    """Return what is told of the rubber that these dampers share; its template is written."""
    one, cut = same[0], damper_rubber(same)
    shown = rubber_template(one, tuple(damper.name for damper in same))
    files = _template(shown, cut["name"], sheets)
    return {**cut, "files": files, "area_m2": piece_area(one)}


def _template(shown: Template, name: str, sheets: Sheets) -> list[str]:
    return sheets(name, template_dxf(shown), template_svg(shown), template_ink(shown))


def _flat(drawing: Flat, name: str, sheets: Sheets) -> list[str]:
    return sheets(name, flat_dxf(drawing), flat_svg(drawing), ink_of(drawing))


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
