"""The page: one self-contained HTML file, to read on a screen or to print."""

from __future__ import annotations

import base64
import re
from collections.abc import Mapping
from functools import partial
from pathlib import Path

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup

from isolator.motors.drive import STEP_ACCURACY
from isolator.report.findings import Findings
from isolator.report.page.bars import bars
from isolator.report.page.cards import labelled
from isolator.report.page.parts import (
    CORNER_PICTURE,
    CUT_PICTURE,
    DAMPER_PICTURE,
    FOOT_PICTURE,
    SECTION_PICTURE,
    STEP_PICTURE,
    KitList,
    Picture,
)
from isolator.report.page.plots import Plots
from isolator.report.sentences import (
    dampers,
    folds,
    heard_words,
    motors,
    notes,
    numbers,
    speeds,
    tiles,
    words,
)
from isolator.report.sentences.answer import heading, sway_words
from isolator.report.sentences.cautions import cautions, of_step
from isolator.report.sentences.checks import advice, limit, margin, modes_note, other_checks, value
from isolator.report.sentences.headline import headline, verdict_words
from isolator.report.sentences.imperial import with_imperial
from isolator.report.sentences.parts import TIME_RESTS_ON, lasting, prints
from isolator.report.sentences.print_words import print_words
from isolator.report.sentences.remedies import remedy_words
from isolator.report.sentences.short_checks import hold_words, missed_sentence, problem_items
from isolator.report.sentences.short_choice import guessed_items
from isolator.report.sentences.short_feet import buy_items, for_feet, make_items
from isolator.report.sentences.short_motors import motor_items
from isolator.report.sentences.triage import head_line
from isolator.workshop.shopping import as_shown

_HERE = Path(__file__).parent
STYLES = ("style", "narrow", "print")
_NO_BREAK = "\u00a0"


def render(
    findings: Findings,
    pictures: Mapping[str, Picture],
    kit: KitList,
    plots: Plots,
    squash: tuple[str, list[str]] | None = None,
) -> str:
    """Return the whole report as HTML that loads nothing from outside.

    `pictures` by part, in the order to show them; the one keyed "section" is the foot's
    cross-section, those whose keys begin with "damper-exploded" go to the motors; `squash` title
    and steps of a squash test of what feet are of.
    The same input gives the same text.
    """
    told = bool(findings.motors)  # without motors a picture of a damper stays among the parts
    exploded = {k: v for k, v in pictures.items() if told and k.startswith(DAMPER_PICTURE)}
    of_foot = [pictures[key] for key in (CUT_PICTURE, FOOT_PICTURE) if key in pictures]
    bought = buy_items(findings)
    shown = max(len(for_feet(findings)) + 1, MOST_BOUGHT)
    own = {SECTION_PICTURE, CORNER_PICTURE, CUT_PICTURE, FOOT_PICTURE, *exploded}
    page = _environment(findings.ceiling_db, findings.imperial).get_template("page.html")
    html = page.render(
        f=findings,
        e=findings.chosen,
        kit=kit,
        style=_style(),
        heading=heading(findings),
        headline=headline(findings),
        holds=hold_words(findings),
        told_only=missed_sentence(findings.checks),
        problems=[*problem_items(findings.checks), *_tried(findings)],
        make=make_items(findings),
        mounts=tiles.mount_sentences(findings),
        buy=bought[:shown],
        more_to_buy=len(bought) - len(bought[:shown]),
        guessed=guessed_items(findings),
        sway_lines=[sway_words(findings.chosen), *print_words(findings.chosen)],
        other_checks=other_checks(findings),
        modes_note=modes_note(findings.checks),
        bars=bars(findings),
        plots=plots.charts,
        motor_plots=plots.motors,
        motor_says=[" ".join(motor_items([each])).partition(": ")[2] for each in findings.motors],
        exploded=exploded,
        steps=[
            (step, pictures.get(f"{STEP_PICTURE}{number}"))
            for number, step in enumerate(findings.steps, 1)
        ],
        parts={
            k: v for k, v in pictures.items() if k not in own and not k.startswith(STEP_PICTURE)
        },
        foot_pictures=of_foot,
        in_place=pictures.get(CORNER_PICTURE, pictures.get("assembly")),
        section=pictures.get(SECTION_PICTURE),
        cautions=cautions(findings),
        is_it_the_feet=head_line(findings.noise),
        squash=squash,
    )
    return labelled(html)


def _tried(findings: Findings) -> list[str]:
    """Return what helps most, among the problems."""
    told = remedy_words(findings.remedy)
    return [told] if told else []


MOST_BOUGHT = 4
"""So much of the shopping list stands on the first screen at least, and one thing beyond all that
feet need."""


def _style() -> Markup:
    return Markup("".join((_HERE / f"{name}.css").read_text("utf-8") for name in STYLES))


def _environment(ceiling: float, imperial: bool) -> Environment:
    """Return the templates with the words they use; no more than `ceiling` [dB] is promised.

    `imperial`: other units stand beside metric ones where the templates ask for them.
    """
    made = Environment(
        loader=FileSystemLoader(_HERE),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    made.filters.update(
        number=lambda *told: _kept(numbers.number(*told)),
        readable=lambda *told: _kept(numbers.readable(*told)),
        band=lambda *told: _kept(numbers.band(*told)),
        desk=speeds.desk_words,
        change=heard_words.change,
        reason=speeds.reason,
        verdict_words=verdict_words,
        ratio=partial(numbers.ratio, ceiling=ceiling),
        gain=partial(numbers.gain, ceiling=ceiling),
        decibel=partial(numbers.decibel, ceiling=ceiling),
        decibel_band=partial(numbers.decibel_band, ceiling=ceiling),
        found=value,
        limit=limit,
        margin=margin,
        advice=advice,
        cautions=of_step,
        other_units=lambda html: Markup(with_imperial(html)) if imperial else html,
        data_uri=_data_uri,
        as_shown=as_shown,
        kept=_kept,
    )
    made.globals.update(
        heard=heard_words,
        accuracy=STEP_ACCURACY,
        dampers=dampers,
        folds=folds,
        numbers=numbers,
        tiles=tiles,
        words=words,
        motors=motors,
        notes=notes,
        prints=prints,
        lasting=lasting,
        TIME_RESTS_ON=TIME_RESTS_ON,
        speeds=speeds,
    )
    return made


def _kept(text: str) -> str:
    """Return a text whose numbers stay with their units on one line."""
    return re.sub(r"(?<=\d) (?=[^(\s])", _NO_BREAK, text)


def _data_uri(picture: Picture) -> str:
    return f"data:{picture.mime};base64,{base64.b64encode(picture.data).decode('ascii')}"
