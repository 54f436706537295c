"""Drawing: every part of a sheet drawn, verified and written."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any, NamedTuple

from isolator.commands.manifest import SHEET, digest, write_manifest
from isolator.commands.progress import Progress
from isolator.commands.undisturbed import undisturbed
from isolator.design import Design

if TYPE_CHECKING:
    from geometry.finish.printed import Printed


def write_parts(
    drawing: Design, text: str, folder: Path, progress: Progress
) -> tuple[dict[str, Any], list[Any]]:
    """Draw, verify and write every part and the sheet `text`; return manifest and parts."""
    parts = draw_sheet(drawing, progress)
    return write_drawn(drawing, parts, text, folder, progress), parts


def load_kernel() -> None:
    """Load the drawing kernel."""
    with undisturbed():
        import geometry.export  # noqa: F401


def draw_sheet(drawing: Design, progress: Progress) -> list[Any]:
    """Draw and verify every part of a sheet."""
    load_kernel()
    from geometry.draw import draw as draw_parts

    done: list[str] = []

    def tell(name: str) -> None:
        done.append(name)
        progress(f"drawing {name}", len(done), len(done))

    return draw_parts(drawing, tell)


def write_drawn(
    drawing: Design, parts: list[Any], text: str, folder: Path, progress: Progress
) -> dict[str, Any]:
    """Write every part that was drawn and the sheet `text`; return the manifest."""
    return print_drawings(write_files(drawing, parts, folder, progress), text, folder)


class Files(NamedTuple):
    """What was written of a sheet: a manifest without hashes; and drawings yet to be printed."""

    manifest: dict[str, Any]
    printed: list[Printed]


def write_files(drawing: Design, parts: list[Any], folder: Path, progress: Progress) -> Files:
    """Write every file of parts that were drawn, but no PDF."""
    from geometry.export import write_files as write

    progress("writing parts", 0, 1)
    return Files(*write(drawing, folder, parts))


def print_drawings(files: Files, text: str, folder: Path) -> dict[str, Any]:
    """Write drawings as PDF, the sheet `text` and the manifest, which is returned.

    The drawing kernel is not needed.
    """
    from geometry.finish.printed import finished

    drawn = finished(folder, files.manifest, files.printed)
    (folder / SHEET).write_text(text, encoding="utf-8")
    return write_manifest(folder, drawn, sheet_sha256=digest(text.encode("utf-8")))
