"""Writes the fit coupon: STEP, STL, 3MF, drawing; what it measures goes into the manifest."""

from __future__ import annotations

import hashlib
from pathlib import Path
from typing import Any

from geometry.assembly import COLOURS
from geometry.coupon.coupon import coupon_parts
from geometry.coupon.coupon_sheet import coupon_drawing
from geometry.finish.page_files import page_pdf, page_svg
from geometry.formats.mesh_files import MeshObject, stl_bytes, three_mf_bytes
from geometry.formats.plates import laid_out
from geometry.formats.step_files import write_part_step
from geometry.solids.mesh import tessellate
from geometry.solids.verify import verify
from isolator.design import PrintSettings


def write_coupon(folder: Path, settings: PrintSettings, title: str, version: str) -> dict[str, Any]:
    """Draw, verify and write the coupon under `folder`; return its manifest, SI.

    `title` is the printer's name. Writes parts/fit-coupon.step, .stl and .3mf and
    drawings/fit-coupon.svg and .pdf; the same settings give the same bytes. Raises CannotDraw
    where it does not fit the bed.
    """
    (part,) = coupon_parts(settings)
    figures = verify(part, settings)
    mesh = tessellate(part.solid)
    (folder / "parts").mkdir()
    (folder / "drawings").mkdir()
    stem = folder / "parts" / part.name
    write_part_step(part.solid, part.name, COLOURS[part.role], stem.with_suffix(".step"))
    stem.with_suffix(".stl").write_bytes(stl_bytes(mesh, part.name))
    packed = three_mf_bytes(
        [MeshObject(part.name, mesh)], laid_out(part, mesh, settings), part.name
    )
    stem.with_suffix(".3mf").write_bytes(packed)
    page = coupon_drawing(part, title, version)
    drawn = folder / "drawings" / part.name
    drawn.with_suffix(".svg").write_text(page_svg(page), encoding="utf-8")
    drawn.with_suffix(".pdf").write_bytes(page_pdf(page, part.name))
    files = sorted(path for path in folder.rglob("*") if path.is_file())
    return {
        "name": title,
        "version": version,
        "coupon": {
            "name": part.name,
            "material": part.material,
            "volume_m3": figures.volume * 1e-9,
            "box_m": [round(side * 1e-3, 9) for side in part.box],
            "thinnest_wall_m": round(figures.thinnest_wall * 1e-3, 9),
            "overhang_m2": round(figures.overhang * 1e-6, 12),
            "bridge_m": round(figures.bridge * 1e-3, 9),
            "orientation": part.orientation,
            "notes": list(part.notes),
        },
        "files_sha256": {
            path.relative_to(folder).as_posix(): hashlib.sha256(path.read_bytes()).hexdigest()
            for path in files
        },
    }
