"""The page: one self-contained HTML file, to read on a screen or to print."""

from __future__ import annotations

import base64
from collections.abc import Mapping, Sequence
from functools import partial
from pathlib import Path

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup

from isolator.brief.metal import Strip
from isolator.motors.drive import STEP_ACCURACY
from isolator.report.figures.cloud import quiet_against_sway
from isolator.report.figures.motor_figures import motor_figures
from isolator.report.figures.plan import feet_plan
from isolator.report.figures.speed_map import speed_map
from isolator.report.figures.transmissibility import transmissibility
from isolator.report.findings import Findings
from isolator.report.page.parts import (
    DAMPER_PICTURE,
    SECTION_PICTURE,
    STEP_PICTURE,
    KitList,
    Picture,
)
from isolator.report.sentences import dampers, heard_words, motors, notes, numbers, speeds
from isolator.report.sentences.answer import heading
from isolator.report.sentences.cautions import DAMPER, before_start, of_step
from isolator.report.sentences.checks import advice, limit, margin, other_checks
from isolator.report.sentences.parts import TIME_RESTS_ON, lasting, prints

_HERE = Path(__file__).parent
_NO_BREAK = "\u00a0"  # a number and its unit stay on one line


def render(
    findings: Findings,
    pictures: Mapping[str, Picture],
    kit: KitList,
    com_range: Sequence[tuple[float, float]] = (),
    metal: Sequence[Strip] = (),
) -> str:
    """Return the whole report as HTML that loads nothing from outside.

    `pictures` by part, in the order to show them; the one keyed "section" is the foot's
    cross-section, those whose keys begin with "damper-exploded" go to the motors. `com_range`
    holds the places [m] of the centre of mass as extras come and go; `metal` is what of the frame
    feet are fixed to.
    The same input gives the same text.
    """
    told = bool(findings.motors)  # without motors a picture of a damper stays among the parts
    exploded = {k: v for k, v in pictures.items() if told and k.startswith(DAMPER_PICTURE)}
    page = _environment(findings.ceiling_db).get_template("page.html")
    return page.render(
        f=findings,
        e=findings.chosen,
        kit=kit,
        style=Markup((_HERE / "style.css").read_text("utf-8")),
        heading=heading(findings),
        other_checks=other_checks(findings),
        plots=_plots(findings, com_range, metal),
        motor_plots=motor_figures(findings),
        exploded=exploded,
        steps=[
            (step, pictures.get(f"{STEP_PICTURE}{number}"))
            for number, step in enumerate(findings.steps, 1)
        ],
        parts={
            k: v
            for k, v in pictures.items()
            if k != SECTION_PICTURE and k not in exploded and not k.startswith(STEP_PICTURE)
        },
        section=pictures.get(SECTION_PICTURE),
        cautions=before_start(findings),
        damper_cautions=DAMPER.values(),
    )


def _plots(
    findings: Findings, com_range: Sequence[tuple[float, float]], metal: Sequence[Strip]
) -> dict[str, Markup]:
    """Draw what there are data for; every figure escapes its own text."""
    chosen = findings.chosen
    drawn: dict[str, str] = {}
    if chosen.curves:
        drawn["transmissibility"] = transmissibility(
            chosen.curves, chosen.speeds, findings.ceiling_db
        )
    if chosen.speed_map.sources and chosen.speed_map.speed.size > 1:
        drawn["speed_map"] = speed_map(chosen)
    if findings.cloud is not None and findings.cloud.sway.size:
        drawn["cloud"] = quiet_against_sway(findings.cloud, chosen.sway.limit)
    if chosen.feet:
        drawn["plan"] = feet_plan(chosen.feet, findings.design, com_range, metal)
    return {key: Markup(svg) for key, svg in drawn.items()}


def _environment(ceiling: float) -> Environment:
    """Return the templates with the words they use; no more than `ceiling` [dB] is promised."""
    made = Environment(
        loader=FileSystemLoader(_HERE),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    made.filters.update(
        number=lambda *told: numbers.number(*told).replace(" ", _NO_BREAK),
        readable=lambda *told: numbers.readable(*told).replace(" ", _NO_BREAK),
        band=numbers.band,
        desk=speeds.desk_words,
        change=heard_words.change,
        reason=speeds.reason,
        ratio=partial(numbers.ratio, ceiling=ceiling),
        gain=partial(numbers.gain, ceiling=ceiling),
        decibel=partial(numbers.decibel, ceiling=ceiling),
        decibel_band=partial(numbers.decibel_band, ceiling=ceiling),
        limit=limit,
        margin=margin,
        advice=advice,
        cautions=of_step,
        data_uri=_data_uri,
    )
    made.globals.update(
        heard=heard_words,
        accuracy=STEP_ACCURACY,
        dampers=dampers,
        motors=motors,
        notes=notes,
        prints=prints,
        lasting=lasting,
        TIME_RESTS_ON=TIME_RESTS_ON,
        speeds=speeds,
    )
    return made


def _data_uri(picture: Picture) -> str:
    return f"data:{picture.mime};base64,{base64.b64encode(picture.data).decode('ascii')}"
