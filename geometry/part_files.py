"""The files of one part: STEP, STL and 3MF or DXF, drawing; many in processes of their own."""

from __future__ import annotations

import multiprocessing
import pickle
from collections.abc import Sequence
from concurrent.futures import ProcessPoolExecutor
from pathlib import Path
from typing import NamedTuple

from geometry.assembly import COLOURS
from geometry.finish.page_files import page_svg
from geometry.finish.printed import Printed
from geometry.finish.triangles import Mesh
from geometry.formats.mesh_files import MeshObject, stl_bytes, three_mf_bytes
from geometry.formats.plates import laid_out
from geometry.formats.step_files import write_part_step
from geometry.sheets.drawing_sheet import drawing
from geometry.sheets.sheet_cut import cut_dxf
from geometry.solids.mesh import tessellate
from geometry.solids.part import Part
from isolator.design import Design

MANY = 64  # parts from which a second process gains more than it costs to start; tests/bench


class _Job(NamedTuple):
    """A part and its mesh, as they are sent to another process."""

    sent: bytes

    def opened(self) -> tuple[Part, Mesh]:
        part, mesh = pickle.loads(self.sent)
        return part, mesh


class PartFiles(NamedTuple):
    """Paths of a part's files under the folder, and its drawing, which is yet to be printed."""

    paths: tuple[str, ...]
    drawing: Printed


def write_parts(
    parts: Sequence[Part], design: Design, folder: Path, many: int = MANY
) -> list[PartFiles]:
    """Write the files of all parts, but their PDFs, and return what was written, part by part.

    From `many` parts on, a process of its own takes them from the last to the first while this
    one goes the other way: it must import the drawing kernel first. The files are the same bytes
    either way, because every solid is written as it comes out of being sent.
    """
    jobs = [_Job(pickle.dumps((part, tessellate(part.solid)))) for part in parts]
    if len(jobs) < many:
        return [_write(job, design, folder) for job in jobs]
    # a fork would take the kernel's threads along in whatever state they are
    context = multiprocessing.get_context("spawn")
    with ProcessPoolExecutor(max_workers=1, mp_context=context) as pool:
        given = [pool.submit(_write, job, design, folder) for job in reversed(jobs)][::-1]
        try:
            return [
                _write(job, design, folder) if future.cancel() else future.result()
                for job, future in zip(jobs, given, strict=True)
            ]
        except BaseException:
            pool.shutdown(wait=True, cancel_futures=True)  # what nobody waits for is not begun
            raise


def _write(job: _Job, design: Design, folder: Path) -> PartFiles:
    """Write the files of one part: STEP and drawing, to print STL and 3MF, to cut DXF."""
    part, mesh = job.opened()
    page = drawing(part, design)
    drawn = {f"drawings/{part.name}.svg": page_svg(page).encode("utf-8")}
    printed = Printed(f"drawings/{part.name}.pdf", part.name, page)
    if part.cut:
        made = {f"parts/{part.name}.dxf": cut_dxf(part)}
    else:
        copies = laid_out(part, mesh, design.print)
        objects = [MeshObject(part.name, mesh, part.fill)]
        made = {
            f"parts/{part.name}.stl": stl_bytes(mesh, part.name),
            f"parts/{part.name}.3mf": three_mf_bytes(objects, copies, part.name),
        }
    step = f"parts/{part.name}.step"
    write_part_step(part.solid, part.name, COLOURS[part.role], folder / step)
    for path, content in (made | drawn).items():
        (folder / path).write_bytes(content)
    return PartFiles((step, *made, *drawn, printed.path), printed)
