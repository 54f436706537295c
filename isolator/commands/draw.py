"""Drawing: every part of a sheet drawn, verified and written; `isolator draw`."""

from __future__ import annotations

import shutil
import signal
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from isolator.commands.output import SHEET, drawn_from, publish, sheet_hash, write_manifest
from isolator.commands.progress import Progress
from isolator.design import Design
from isolator.design.read import read_design
from isolator.workshop.shopping import shopping_csv, shopping_items

TOLD = ("report.html", "result.json")


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """Where parts were drawn, and whether a report of other parts went."""

    folder: Path
    report_gone: bool


def draw(path: Path, out: Path, progress: Progress) -> Drawn:
    """Draw a design.toml again, edited or not, into `out`/<slug>/.

    Report and result stay with a sheet that has not changed; those of another sheet would tell
    of parts that are no longer there, and go.
    """
    drawing = read_design(path)
    text = path.read_text(encoding="utf-8")
    before = out / drawing.slug

    kept = drawn_from(before) == sheet_hash(text)

    def write(fresh: Path) -> None:
        manifest, _ = write_parts(drawing, text, fresh, progress)
        listed = shopping_csv(shopping_items(drawing, manifest))
        (fresh / "shopping.csv").write_text(listed, encoding="utf-8")
        for name in TOLD:
            if kept and (before / name).is_file():
                shutil.copy2(before / name, fresh / name)

    gone = not kept and any((before / name).is_file() for name in TOLD)
    return Drawn(folder=publish(out, drawing.slug, write), report_gone=gone)


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
    return write_manifest(folder, drawn, sheet_sha256=sheet_hash(text)), parts


@contextmanager
def undisturbed() -> Iterator[None]:
    """Let Ctrl-C wait: the drawing kernel does not survive one while it loads."""
    if threading.current_thread() is not threading.main_thread():
        yield
        return
    waiting: list[int] = []
    before = signal.signal(signal.SIGINT, lambda number, frame: waiting.append(number))
    try:
        yield
    finally:
        signal.signal(signal.SIGINT, before or signal.SIG_DFL)
    if waiting:
        raise KeyboardInterrupt
