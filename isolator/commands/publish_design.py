"""The folder of a design: its parts first, then what tells of them, whole or not at all."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import NamedTuple

from isolator.brief import Brief
from isolator.cards import Material
from isolator.commands.beside import Begin, here
from isolator.commands.kit import kit_scenes, write_kit
from isolator.commands.manifest import Origin
from isolator.commands.now import with_now
from isolator.commands.output import publish
from isolator.commands.pictures import Shown, pictures_of
from isolator.commands.progress import Progress
from isolator.commands.to_design import to_design
from isolator.commands.write_parts import Files, print_drawings
from isolator.commands.write_report import draw_plots, metal_of, write_report
from isolator.design import Design
from isolator.design.write import write_design
from isolator.report.findings import Findings
from isolator.report.sentences.notes import cannot_draw, no_font


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

    Parts are drawn and their pictures taken by what `begin` returns, charts are drawn here.
    """
    told = [findings]

    def write(fresh: Path) -> None:
        try:
            told.append(_write(brief, cards, findings, fresh, progress, begin))
        except BaseException:
            begin.stop()  # or it would go on to write where nothing is wanted any more
            raise

    done = publish(out, brief.slug, write, origin)
    new = tuple(each for each in told[-1].warnings if each not in findings.warnings)
    return Made(findings=told[-1], folder=done.folder, copies=done.copies, told=new)


class _Kit(NamedTuple):
    """What waits for the files of drawn parts, and for the scenes of their pictures."""

    files: Callable[[], Files]
    scenes: Callable[[], Mapping[str, Shown]]


def _write(
    brief: Brief,
    cards: Mapping[str, Material],
    findings: Findings,
    folder: Path,
    progress: Progress,
    begin: Begin,
) -> Findings:
    """Write the whole folder; return what was told."""

    def kit_of(drawn: Design) -> _Kit:
        files = begin(write_kit, drawn, folder)
        return _Kit(files, begin(kit_scenes, drawn, findings.steps, metal_of(brief)))

    # feet that were given are not drawn, but motors' parts may still be
    drawn = findings.design or to_design(brief, (), findings.dampers)
    kit = kit_of(drawn)
    text = write_design(drawn)
    findings = with_now(findings, brief, cards, progress)
    progress("drawing charts", 0, 1)
    plots = draw_plots(findings, brief)
    try:
        files = kit.files()
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
        # the sheet keeps the feet, to be mended by hand
        drawn = to_design(brief, (), drawn.motor_dampers)
        kit, plots = kit_of(drawn), draw_plots(findings, brief)
        files = kit.files()
    progress("printing drawings", 0, 1)
    manifest = print_drawings(files, text, folder)
    if "letters_lacking" in manifest:
        told = (*findings.warnings, no_font(manifest["letters_lacking"]))
        findings = replace(findings, warnings=told)
    scenes = kit.scenes()
    progress("taking pictures", 0, 1)
    pictures = pictures_of(scenes, begin)
    begin.stop()  # nothing more is drawn: it ends while the report is written
    write_report(folder, brief, cards, findings, drawn, manifest, pictures, plots, progress)
    return findings


def _is_refusal(error: Exception) -> bool:
    from geometry.solids.part import CannotDraw

    return isinstance(error, CannotDraw)
