"""Whole commands: a brief goes in, a folder of parts and a report comes out."""

from __future__ import annotations

import hashlib
import json
import shutil
import signal
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from isolator.brief import Brief
from isolator.brief.read import read_brief
from isolator.cards import Material, load_cards
from isolator.commands import check as assess
from isolator.commands import search
from isolator.commands.output import MARK, publish, refuse_foreign, write_json, write_manifest
from isolator.commands.packing_list import kit_of, pictures_of
from isolator.commands.to_design import to_design
from isolator.design import Design
from isolator.design.read import read_design, write_design
from isolator.report.findings import Findings
from isolator.report.json.result import to_json
from isolator.report.sentences.warnings import cannot_draw
from isolator.vibration.evaluation import Question
from isolator.vibration.printer import build_printer
from isolator.workshop.shopping import shopping_csv, shopping_items, unmatched

SHEET = "design.toml"
EDITED = "design.edited.toml"
TOLD = ("report.html", "result.json")

Progress = Callable[[str, int, int], None]


@dataclass(frozen=True, slots=True, kw_only=True)
class Made:
    """What a command made, and where."""

    findings: Findings
    folder: Path


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """Where parts were drawn, and whether a report of other parts went."""

    folder: Path
    report_gone: bool


def cards_of(brief: Brief) -> dict[str, Material]:
    """Return all cards a brief can name, its own among them; refuse names that nobody has."""
    cards = load_cards(brief.stock.cards)
    assess.require_cards(brief, cards)
    return cards


def design(path: Path, out: Path, progress: Progress) -> Made:
    """Design the feet of a brief and write everything into `out`/<slug>/."""
    brief = read_brief(path)
    cards = cards_of(brief)
    refuse_foreign(out / brief.slug)
    if brief.feet.given:
        question = Question(speeds=brief.motion.speeds, frequencies=())
        findings = assess.assess(brief, cards, question, None)
    else:
        findings = search.design(brief, cards, progress)
    edited = _edited(out / brief.slug)

    told = [findings]

    def write(fresh: Path) -> None:
        told.append(_write(brief, findings, fresh, progress))
        if edited is not None:
            (fresh / EDITED).write_text(edited, encoding="utf-8")

    folder = publish(out, brief.slug, write)
    return Made(findings=told[-1], folder=folder)


def check(
    path: Path, out: Path, speeds: tuple[float, ...], frequencies: tuple[float, ...]
) -> Findings:
    """Evaluate the feet of a brief at the speeds and frequencies asked for."""
    brief = read_brief(path)
    question = Question(speeds=speeds or brief.motion.speeds, frequencies=frequencies)
    return assess.assess(brief, cards_of(brief), question, assess.find_design(brief, out))


def draw(path: Path, out: Path, progress: Progress) -> Drawn:
    """Draw a design.toml again, edited or not, into `out`/<slug>/.

    Report and result stay with a sheet that has not changed; those of another sheet would tell
    of parts that are no longer there, and go.
    """
    drawing = read_design(path)
    text = path.read_text(encoding="utf-8")
    before = out / drawing.slug

    kept = _drawn_from(before) == _hash(text)

    def write(fresh: Path) -> None:
        manifest, _ = _draw(drawing, text, fresh, progress)
        listed = shopping_csv(shopping_items(drawing, manifest))
        (fresh / "shopping.csv").write_text(listed, encoding="utf-8")
        for name in TOLD:
            if kept and (before / name).is_file():
                shutil.copy2(before / name, fresh / name)

    gone = not kept and any((before / name).is_file() for name in TOLD)
    return Drawn(folder=publish(out, drawing.slug, write), report_gone=gone)


def _hash(text: str) -> str:
    return hashlib.sha256(text.encode("utf-8")).hexdigest()


def _edited(folder: Path) -> str | None:
    """Return the sheet in a folder if somebody has edited it since its parts were drawn.

    A new design takes its place, but what was typed by hand is kept beside it.
    """
    there = folder / SHEET
    if not there.is_file():
        return None
    text = there.read_text(encoding="utf-8", errors="replace")
    return None if _drawn_from(folder) == _hash(text) else text


def _drawn_from(folder: Path) -> str | None:
    """Return the hash of the sheet that the parts in a folder were drawn from.

    Not of the sheet that lies there: it may have been edited since.
    """
    if not (folder / MARK).is_file():
        return None
    found = json.loads((folder / MARK).read_text(encoding="utf-8")).get("sheet_sha256")
    return found if isinstance(found, str) else None


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


def _draw(
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
    return write_manifest(folder, drawn, sheet_sha256=_hash(text)), parts


def _is_refusal(error: Exception) -> bool:
    from geometry.solids.part import CannotDraw

    return isinstance(error, CannotDraw)


def _write(brief: Brief, findings: Findings, folder: Path, progress: Progress) -> Findings:
    """Write the whole folder, parts first, then what tells of them; return what was told."""
    from isolator.report.page.render import render

    # feet that were given are not drawn, but motors' parts may still be
    drawn = findings.design or to_design(brief, (), findings.dampers)
    try:
        manifest, parts = _draw(drawn, write_design(drawn), folder, progress)
    except Exception as error:
        if findings.passed or findings.design is None or not _is_refusal(error):
            raise
        # the nearest feet need not be such as can be drawn; what is said of them still helps
        findings = replace(
            findings,
            design=None,
            make=(),
            steps=(),
            warnings=(*findings.warnings, cannot_draw(error)),
        )
        text = write_design(drawn)  # with the feet, to be mended by hand
        drawn = to_design(brief, (), drawn.motor_dampers)
        manifest, parts = _draw(drawn, text, folder, progress)
    progress("taking pictures", 0, 1)
    pictures = pictures_of(drawn, parts, findings.steps)
    progress("writing the report", 0, 1)
    owned = brief.stock.owned
    items = shopping_items(drawn, manifest, owned)
    (folder / "shopping.csv").write_text(shopping_csv(items), encoding="utf-8")
    write_json(folder / "result.json", to_json(findings))
    places = [(float(case.com[0]), float(case.com[1])) for case in build_printer(brief).cases]
    html = render(findings, pictures, kit_of(manifest, items, unmatched(items, owned)), places)
    (folder / "report.html").write_text(html, encoding="utf-8")
    return findings
