"""Test piece of a squash test as it is printed: a plain block, no edge broken [mm]."""

from __future__ import annotations

from pathlib import Path

from geometry.assembly import COLOURS
from geometry.formats.mesh_files import MeshObject, stl_bytes, three_mf_bytes
from geometry.formats.plates import laid_out
from geometry.formats.step_files import write_part_step
from geometry.solids import features
from geometry.solids.mesh import tessellate
from geometry.solids.outline import Outline
from geometry.solids.part import Part, brim_notes, layer_notes, mm
from geometry.solids.verify import verify
from isolator.design import PrintSettings
from isolator.design.squash_piece import SquashPiece, piece_fill

NAME = "test-piece"


def squash_part(piece: SquashPiece, settings: PrintSettings) -> Part:
    """Return the block as it lies on the bed."""
    side, height = mm(piece.side), mm(piece.height)
    outline = Outline(core_x=side, core_y=side, offset=0.0)
    fill = piece_fill(piece, settings)
    inside = max(0.0, side - 2.0 * mm(fill.wall)) ** 2
    box = (side, side, height)
    return Part(
        name=NAME,
        owner="squash test",
        role="coupon",
        quantity=1,
        solid=features.prism(outline, 0.0, height),
        material=piece.pad.material,
        orientation="as drawn, as the pads of the feet are printed",
        notes=(
            f"print {fill.words}",
            *layer_notes(settings.layer, block=height),
            *brim_notes(box),
        ),
        box=box,
        volume=side * side * height,
        fill=fill,
        hollow=(1.0 - fill.infill) * inside * height,
        loaded=(),
        places=(),
    )


def write_squash_piece(
    piece: SquashPiece, settings: PrintSettings, folder: Path
) -> tuple[str, ...]:
    """Draw, verify and write the block into `folder` as STEP, STL and 3MF; return the files' names.

    Raises CannotDraw where it does not fit the bed.
    """
    part = squash_part(piece, settings)
    verify(part, settings)
    mesh = tessellate(part.solid)
    stem = folder / NAME
    write_part_step(part.solid, NAME, COLOURS[part.role], stem.with_suffix(".step"))
    stem.with_suffix(".stl").write_bytes(stl_bytes(mesh, NAME))
    packed = three_mf_bytes([MeshObject(NAME, mesh)], laid_out(part, mesh, settings), NAME)
    stem.with_suffix(".3mf").write_bytes(packed)
    return tuple(f"{NAME}.{end}" for end in ("step", "stl", "3mf"))
