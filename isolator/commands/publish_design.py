"""The folder of a design: its parts first, then what tells of them, whole or not at all."""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path

from isolator.brief import Brief
from isolator.commands.draw import write_parts
from isolator.commands.output import EDITED, edited_sheet, publish, write_json
from isolator.commands.pictures import pictures_of
from isolator.commands.progress import Progress
from isolator.commands.to_design import to_design
from isolator.design.write import write_design
from isolator.report.findings import Findings
from isolator.report.json.result import to_json
from isolator.report.page.parts import KitList
from isolator.report.sentences.notes import cannot_draw
from isolator.vibration.printer import build_printer
from isolator.workshop.shopping import shopping_csv, shopping_items, unmatched


@dataclass(frozen=True, slots=True, kw_only=True)
class Made:
    """What a command made, and where."""

    findings: Findings
    folder: Path


def publish_design(out: Path, brief: Brief, findings: Findings, progress: Progress) -> Made:
    """Draw and write everything into `out`/<slug>/; return what was told, and where it lies."""
    edited = edited_sheet(out / brief.slug)
    told = [findings]

    def write(fresh: Path) -> None:
        told.append(_write(brief, findings, fresh, progress))
        if edited is not None:
            (fresh / EDITED).write_text(edited, encoding="utf-8")

    folder = publish(out, brief.slug, write)
    return Made(findings=told[-1], folder=folder)


def _write(brief: Brief, findings: Findings, folder: Path, progress: Progress) -> Findings:
    """Write the whole folder, parts first, then what tells of them; return what was told."""
    from isolator.report.page.render import render

    # feet that were given are not drawn, but motors' parts may still be
    drawn = findings.design or to_design(brief, (), findings.dampers)
    try:
        manifest, parts = write_parts(drawn, write_design(drawn), folder, progress)
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
        manifest, parts = write_parts(drawn, text, folder, progress)
    progress("taking pictures", 0, 1)
    pictures = pictures_of(drawn, parts, findings.steps)
    progress("writing the report", 0, 1)
    owned = brief.stock.owned
    items = shopping_items(drawn, manifest, owned)
    (folder / "shopping.csv").write_text(shopping_csv(items), encoding="utf-8")
    write_json(folder / "result.json", to_json(findings))
    places = [(float(case.com[0]), float(case.com[1])) for case in build_printer(brief).cases]
    kit = KitList(manifest=manifest, buy=items, doubts=unmatched(items, owned))
    html = render(findings, pictures, kit, places)
    (folder / "report.html").write_text(html, encoding="utf-8")
    return findings


def _is_refusal(error: Exception) -> bool:
    from geometry.solids.part import CannotDraw

    return isinstance(error, CannotDraw)
