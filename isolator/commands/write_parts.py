"""Drawing: every part of a sheet drawn, verified and written."""

from __future__ import annotations

import signal
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from isolator.commands.manifest import SHEET, digest, write_manifest
from isolator.commands.progress import Progress
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


@contextmanager
def undisturbed() -> Iterator[None]:
    """Let Ctrl-C and a polite kill wait: the drawing kernel survives neither while it loads."""
    if threading.current_thread() is not threading.main_thread():
        yield
        return
    waiting: list[int] = []
    before = {
        each: signal.signal(each, lambda number, frame: waiting.append(number))
        for each in (signal.SIGINT, signal.SIGTERM)
    }
    try:
        yield
    finally:
        for each, handler in before.items():
            signal.signal(each, handler or signal.SIG_DFL)
    if waiting:
        raise KeyboardInterrupt
