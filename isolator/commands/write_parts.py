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
    with undisturbed():
        from geometry.draw import draw as draw_parts
        from geometry.export import write_all

    done: list[str] = []

    def tell(name: str) -> None:
        done.append(name)
        progress(f"drawing {name}", len(done), len(done))

    parts = draw_parts(drawing, tell)
    drawn = write_all(drawing, folder, parts)
    (folder / SHEET).write_text(text, encoding="utf-8")
    return write_manifest(folder, drawn, sheet_sha256=digest(text.encode("utf-8"))), parts


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
