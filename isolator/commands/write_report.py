"""What tells of a design, written beside its parts: report, result, shopping list."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any

from isolator.brief import Brief
from isolator.brief.feet import SHEET
from isolator.brief.metal import Strip, metal_under
from isolator.cards import Material
from isolator.commands.manifest import write_json
from isolator.commands.progress import Progress
from isolator.commands.squash_plan import write_plan
from isolator.design import Design
from isolator.report.findings import Findings
from isolator.report.json.result import to_json
from isolator.report.page.parts import KitList, Picture
from isolator.vibration.printer import build_printer
from isolator.workshop.shopping import shopping_csv, shopping_items, unmatched

if TYPE_CHECKING:
    from isolator.report.page.plots import Plots


def metal_of(brief: Brief) -> tuple[Strip, ...]:
    """Return what of the frame feet are fixed to, where that is told."""
    told = brief.feet.metal != SHEET and brief.slab is None
    return metal_under(brief.feet, brief.printer.size) if told else ()


def draw_plots(findings: Findings, brief: Brief) -> Plots:
    """Draw all charts of a report."""
    from isolator.report.page.plots import plots_of

    # places of the centre of mass as extras come and go
    places = [(float(case.com[0]), float(case.com[1])) for case in build_printer(brief).cases]
    return plots_of(findings, places, metal_of(brief))


def write_report(
    folder: Path,
    brief: Brief,
    cards: Mapping[str, Material],
    findings: Findings,
    drawn: Design,
    manifest: dict[str, Any],
    pictures: Mapping[str, Picture],
    plots: Plots,
    progress: Progress,
) -> None:
    """Write report.html, result.json and shopping.csv of what was drawn into `folder`."""
    from isolator.report.page.render import render

    progress("writing the report", 0, 1)
    owned = brief.stock.owned
    items = shopping_items(drawn, manifest, owned, cards)
    (folder / "shopping.csv").write_text(shopping_csv(items), encoding="utf-8")
    write_json(folder / "result.json", to_json(findings))
    kit = KitList(
        manifest=manifest,
        buy=items,
        nozzle=drawn.print.nozzle,
        doubts=unmatched(items, owned),
    )
    own = write_plan(folder, drawn, cards)
    html = render(findings, pictures, kit, plots, own)
    (folder / "report.html").write_text(html, encoding="utf-8")
