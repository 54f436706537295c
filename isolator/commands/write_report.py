"""What tells of a design, written beside its parts: report, result, shopping list."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from isolator.brief import Brief
from isolator.brief.feet import SHEET
from isolator.brief.metal import metal_under
from isolator.cards import Material
from isolator.commands.manifest import write_json
from isolator.commands.pictures import pictures_of
from isolator.commands.progress import Progress
from isolator.design import Design
from isolator.report.findings import Findings
from isolator.report.json.result import to_json
from isolator.report.page.parts import KitList
from isolator.vibration.printer import build_printer
from isolator.workshop.shopping import shopping_csv, shopping_items, unmatched


def write_report(
    folder: Path,
    brief: Brief,
    cards: Mapping[str, Material],
    findings: Findings,
    drawn: Design,
    manifest: dict[str, Any],
    parts: list[Any],
    progress: Progress,
) -> None:
    """Write report.html, result.json and shopping.csv of what was drawn into `folder`."""
    from isolator.report.page.render import render

    told = brief.feet.metal != SHEET and brief.slab is None
    metal = metal_under(brief.feet, brief.printer.size) if told else ()
    progress("taking pictures", 0, 1)
    pictures = pictures_of(drawn, parts, findings.steps, metal)
    progress("writing the report", 0, 1)
    owned = brief.stock.owned
    items = shopping_items(drawn, manifest, owned, cards)
    (folder / "shopping.csv").write_text(shopping_csv(items), encoding="utf-8")
    write_json(folder / "result.json", to_json(findings))
    places = [(float(case.com[0]), float(case.com[1])) for case in build_printer(brief).cases]
    kit = KitList(
        manifest=manifest,
        buy=items,
        nozzle=drawn.print.nozzle,
        doubts=unmatched(items, owned),
    )
    html = render(findings, pictures, kit, places, metal)
    (folder / "report.html").write_text(html, encoding="utf-8")
