"""The folder of a design: its parts first, then what tells of them, whole or not at all."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING

from isolator.brief import Brief
from isolator.cards import Material
from isolator.commands.beside import Begin, here
from isolator.commands.manifest import Origin
from isolator.commands.output import publish
from isolator.commands.progress import Progress
from isolator.commands.to_design import to_design
from isolator.commands.write_parts import write_parts
from isolator.commands.write_report import draw_plots, write_report
from isolator.design.write import write_design
from isolator.report.findings import Findings
from isolator.report.sentences.notes import cannot_draw, no_font

if TYPE_CHECKING:
    from isolator.report.page.plots import Plots


@dataclass(frozen=True, slots=True, kw_only=True)
class Made:
    """What a command made, and where; `copies` of what somebody had edited there.

    `told` is what only drawing has found.
    """

    findings: Findings
    folder: Path
    copies: tuple[str, ...]
    told: tuple[str, ...] = ()


def publish_design(
    out: Path,
    brief: Brief,
    cards: Mapping[str, Material],
    origin: Origin,
    findings: Findings,
    progress: Progress,
    begin: Begin = here,
) -> Made:
    """Draw and write everything into `out`/<slug>/; return what was told, and where it lies.

    Charts are drawn by what `begin` returns, while parts are drawn here.
    """
    told = [findings]

    def write(fresh: Path) -> None:
        told.append(_write(brief, cards, findings, fresh, progress, begin))

    done = publish(out, brief.slug, write, origin)
    new = tuple(each for each in told[-1].warnings if each not in findings.warnings)
    return Made(findings=told[-1], folder=done.folder, copies=done.copies, told=new)


def _write(
    brief: Brief,
    cards: Mapping[str, Material],
    findings: Findings,
    folder: Path,
    progress: Progress,
    begin: Begin,
) -> Findings:
    """Write the whole folder, parts first, then what tells of them; return what was told."""
    plots = begin(draw_plots, findings, brief)
    return _write_beside(brief, cards, findings, folder, progress, plots)


def _write_beside(
    brief: Brief,
    cards: Mapping[str, Material],
    findings: Findings,
    folder: Path,
    progress: Progress,
    plots: Callable[[], Plots] | None,
) -> Findings:
    """Write the folder while the charts, `plots`, are drawn in another process."""
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
        plots = None  # they showed what cannot be drawn
        text = write_design(drawn)  # with the feet, to be mended by hand
        drawn = to_design(brief, (), drawn.motor_dampers)
        manifest, parts = write_parts(drawn, text, folder, progress)
    if "letters_lacking" in manifest:
        told = (*findings.warnings, no_font(manifest["letters_lacking"]))
        findings = replace(findings, warnings=told)
    write_report(folder, brief, cards, findings, drawn, manifest, parts, progress, plots)
    return findings


def _is_refusal(error: Exception) -> bool:
    from geometry.solids.part import CannotDraw

    return isinstance(error, CannotDraw)
