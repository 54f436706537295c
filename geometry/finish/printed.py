"""The end of writing a drawn design: its drawings as PDF, and what the manifest tells of files."""

from __future__ import annotations

import hashlib
from collections.abc import Sequence
from pathlib import Path
from typing import Any, NamedTuple

from geometry.finish.fonts import lacking
from geometry.finish.page import Page
from geometry.finish.page_files import page_pdf
from geometry.finish.paper import Ink, paper_pdf

FOLDERS = ("parts", "drawings", "beds", "templates")
"""In which every file of a design lies, but for those of the whole."""
WHOLE = ("assembly.glb", "assembly.step")


class Printed(NamedTuple):
    """A drawing to be written as PDF: where, its title, what is on it.

    A `Page` has a size of its own; `paper` is what an `Ink` is printed on.
    """

    path: str
    title: str
    drawn: Page | Ink
    paper: str = ""

    def pdf(self) -> bytes:
        """Return the PDF at true scale; it carries no date."""
        if isinstance(self.drawn, Page):
            return page_pdf(self.drawn, self.title)
        return paper_pdf(self.drawn, self.paper, self.title)


def finished(folder: Path, manifest: dict[str, Any], printed: Sequence[Printed]) -> dict[str, Any]:
    """Write the PDFs into `folder`; return the manifest with hashes of all files of a design.

    Letters that no font of this machine has are told there, too. `folder` holds all other files.
    """
    for each in printed:
        (folder / each.path).write_bytes(each.pdf())
    drawn = sorted((folder / "drawings").glob("*.svg"))
    lost = lacking("".join(path.read_text(encoding="utf-8") for path in drawn))
    told = {"letters_lacking": lost} if lost else {}
    return {**manifest, **told, "files_sha256": _hashes(folder)}


def _hashes(folder: Path) -> dict[str, str]:
    """Return the SHA-256 of every file, by path."""
    files = [path for name in FOLDERS for path in (folder / name).iterdir()]
    return {
        path.relative_to(folder).as_posix(): hashlib.sha256(path.read_bytes()).hexdigest()
        for path in sorted([*(folder / name for name in WHOLE), *files])
    }
