"""`isolator draw`: a sheet drawn again, edited or not, and its report worked out again."""

from __future__ import annotations

import shutil
from dataclasses import dataclass, replace
from pathlib import Path

from isolator.brief import Brief
from isolator.brief.read import read_brief_text
from isolator.cards import Material
from isolator.commands.check import assess
from isolator.commands.known_cards import all_cards
from isolator.commands.manifest import (
    BRIEF,
    SHEET,
    TOLD,
    Origin,
    brief_told,
    digest,
    drawn_from,
    file_told,
    read_manifest,
    written,
)
from isolator.commands.output import make_ready, publish
from isolator.commands.pictures import pictures_of, scenes_of
from isolator.commands.progress import Progress
from isolator.commands.sheet_checks import refuse_sheet, stale
from isolator.commands.squash_plan import write_plan
from isolator.commands.write_parts import write_parts
from isolator.commands.write_report import draw_plots, metal_of, write_report
from isolator.design import Design
from isolator.design.read import read_design
from isolator.design.write import write_design
from isolator.reading.faults import InputError
from isolator.report.findings import Findings
from isolator.report.sentences.notes import (
    BRIEF_CHANGED,
    NO_BRIEF,
    OTHER_DAMPERS,
    REDRAWN,
    no_font,
    not_worked_out,
    outside,
)
from isolator.vibration.evaluation import Question
from isolator.workshop.shopping import shopping_csv, shopping_items


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """Where parts were drawn, what is to be said of them, dated copies of what was edited."""

    folder: Path
    told: tuple[str, ...]
    copies: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Home:
    """The brief that a sheet was made from, as far as it is known."""

    origin: Origin | None
    brief: Brief | None
    changed: bool  # the brief has been edited since


def draw(path: Path, out: Path, progress: Progress) -> Drawn:
    """Draw a design.toml again, edited or not, into `out`/<slug>/.

    Report and result stay with a sheet that has not changed. Those of another sheet are worked
    out again from the sheet and the brief as it was designed from; what cannot be is told.
    """
    drawing = read_design(path)
    text = path.read_text(encoding="utf-8-sig")
    target = out / drawing.slug
    home = _home(drawing, path.parent, target)
    origin = home.origin or Origin(name=drawing.name, file=None, held=b"")
    make_ready(out, drawing.slug, origin)
    cards = all_cards(home.brief)
    refuse_sheet(path, drawing, cards)
    kept = next((each for each in (target, path.parent) if _tells_of(each, text)), None)
    told: list[str] = []
    findings = None if kept is not None else _findings(home, drawing, cards, told)
    if kept is None:
        told += stale(drawing, findings, cards)
        told += outside(drawing) if findings is None else ()  # findings have it themselves
    if findings is not None:
        findings = replace(findings, warnings=(REDRAWN, *told, *findings.warnings))

    def write(fresh: Path) -> None:
        manifest, parts = write_parts(drawing, text, fresh, progress)
        if "letters_lacking" in manifest:
            told.append(no_font(manifest["letters_lacking"]))
        if findings is not None and home.brief is not None:
            brief, metal = home.brief, metal_of(home.brief)
            shown = scenes_of(drawing, parts, findings.steps, metal, progress)
            plots, pictures = draw_plots(findings, brief), pictures_of(shown)
            write_report(
                fresh, brief, cards, findings, drawing, manifest, pictures, plots, progress
            )
            return
        owned = () if home.brief is None else home.brief.stock.owned
        listed = shopping_csv(shopping_items(drawing, manifest, owned, cards))
        (fresh / "shopping.csv").write_text(listed, encoding="utf-8")
        write_plan(fresh, drawing, cards)
        if kept is not None:
            for name in TOLD:
                shutil.copyfile(kept / name, fresh / name)

    by_hand = _by_hand(target, path, text)
    done = publish(out, drawing.slug, write, origin, by_hand=by_hand)
    return Drawn(folder=done.folder, told=tuple(told), copies=done.copies)


def _home(drawing: Design, *folders: Path) -> _Home:
    """Return the brief that one of `folders` names for this design, as it was then."""
    for folder in folders:
        told = read_manifest(folder)
        name, file, held = brief_told(folder, told)
        if file is None or name != drawing.name:
            continue
        # a copy that was edited is not what the design was made from
        texts = [each.read_bytes() for each in (folder / BRIEF, file) if each.is_file()]
        raw = next((each for each in texts if digest(each) == held), None)
        if raw is None:
            continue
        origin = Origin(name=name, file=file, held=raw, typed=file_told(told))
        try:
            brief = read_brief_text(raw.decode("utf-8-sig"), str(file))
        except InputError:  # cards of the brief's own that are gone, or a brief of an older version
            return _Home(origin=origin, brief=None, changed=False)
        changed = file.is_file() and digest(file.read_bytes()) != origin.typed
        return _Home(origin=origin, brief=brief, changed=changed)
    return _Home(origin=None, brief=None, changed=False)


def _findings(
    home: _Home, drawing: Design, cards: dict[str, Material], told: list[str]
) -> Findings | None:
    """Return all that is told of the sheet's feet; None, and why, where it cannot be worked out."""
    brief = home.brief
    if brief is None:
        told.append(NO_BRIEF)
        return None
    try:
        question = Question(speeds=brief.motion.speeds, frequencies=())
        found = assess(brief, cards, question, drawing)
    except InputError as error:
        told.append(not_worked_out(error.faults[0].line()))
        return None
    if home.changed:
        told.append(BRIEF_CHANGED)
    if write_design(drawing) != write_design(replace(drawing, motor_dampers=found.dampers)):
        told.append(OTHER_DAMPERS)
    return found


def _tells_of(folder: Path, text: str) -> bool:
    """Return whether the report in a folder of ours tells of this very sheet, and is as written."""
    listed = written(read_manifest(folder))
    return drawn_from(folder) == digest(text.encode("utf-8")) and all(
        (folder / name).is_file()
        and listed.get(name) in (None, digest((folder / name).read_bytes()))
        for name in TOLD
    )


def _by_hand(target: Path, path: Path, text: str) -> bool:
    """Return whether somebody made this sheet what it is: no run of ours wrote it so."""
    own = digest(text.encode("utf-8"))
    for folder in (target, path.parent):
        told = read_manifest(folder)
        if written(told).get(SHEET) == own:
            return SHEET in told.get("by_hand", ())
    return True
