"""Drawing: every part of a sheet drawn, verified and written."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from isolator.commands.manifest import SHEET, digest, write_manifest
from isolator.commands.progress import Progress
from isolator.commands.undisturbed import undisturbed
from isolator.design import Design


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
    from geometry.export import write_all

    progress("writing parts", 0, 1)
    drawn = write_all(drawing, folder, parts)
    (folder / SHEET).write_text(text, encoding="utf-8")
    return write_manifest(folder, drawn, sheet_sha256=digest(text.encode("utf-8")))
