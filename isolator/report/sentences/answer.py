"""The answer in plain words, and everything gathered into the findings."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from isolator.cards import Material
from isolator.design import Design, Foot
from isolator.design.naming import letter
from isolator.design.phrases import drawn_pad, in_a_sentence, millimetres, outline_text, speed_text
from isolator.design.version import version
from isolator.feet.checks import QUIETER
from isolator.motors.results import MotorResult
from isolator.reading.notes import Assumed
from isolator.report.findings import Alternative, Cloud, Findings, Remedy, Tally
from isolator.report.sentences.assumptions import MODEL
from isolator.report.sentences.cautions import of_design
from isolator.report.sentences.checks import advice
from isolator.report.sentences.heard_words import (
    gain_words,
    louder_at,
    works_sentence,
    works_words,
)
from isolator.report.sentences.listed import listed
from isolator.report.sentences.notes import outside
from isolator.report.sentences.numbers import banded, readable
from isolator.report.sentences.print_words import print_words
from isolator.report.sentences.remedies import remedy_words
from isolator.report.sentences.sources import sources
from isolator.report.sentences.speeds import spans
from isolator.report.sentences.stopped import stopped_words
from isolator.vibration.band import Check, failed
from isolator.vibration.results import Evaluation
from isolator.workshop.assembly import assembly_steps
from isolator.workshop.parts_list import make_lines


def findings(
    *,
    name: str,
    slug: str,
    ceiling_db: float,
    assumed: tuple[Assumed, ...],
    warnings: tuple[str, ...],
    chosen: Evaluation,
    checks: tuple[Check, ...],
    design: Design | None,
    cards: dict[str, Material],
    now: Evaluation | None,
    motors: tuple[MotorResult, ...],
    material: Material | None,
    tally: Tally | None = None,
    cloud: Cloud | None = None,
    alternatives: tuple[Alternative, ...] = (),
    remedy: Remedy | None = None,
    noise: Mapping[str, bool] | None = None,
) -> Findings:
    """Gather one run's findings."""
    feet = design.feet if design is not None else ()
    every = (*checks, *(check for motor in motors for check in motor.checks))
    words = [
        *_make_words(feet, material),
        *gain_words(chosen),
        *_speed_words(chosen, checks),
        sway_words(chosen),
        *print_words(chosen),
        *stopped_words(tally),
        *_motor_words(motors),
        *[
            f"Not met: {check.name}. {advice(check)[:1].upper()}{advice(check)[1:]}."
            for check in failed(every)
        ],
        *([f"{remedy_words(remedy)}."] if remedy else []),
    ]
    return Findings(
        name=name,
        slug=slug,
        version=version(),
        answer=tuple(words),
        chosen=chosen,
        now=now,
        checks=every,
        ceiling_db=ceiling_db,
        motors=motors,
        tally=tally,
        cloud=cloud,
        alternatives=alternatives,
        remedy=remedy,
        noise=noise or {},
        material="" if material is None else material.name,
        design=design,
        make=make_lines(design, cards),
        steps=() if design is None else assembly_steps(design, names(cards)),
        assumed=(*assumed, *MODEL),
        warnings=(*warnings, *outside(design)),
        sources=sources(material),
        cautions=of_design(motors, material),
    )


def heading(findings: Findings) -> str:
    """Return the report's first words: whether there is a design, and whether it is good enough."""
    missed = failed(findings.checks)
    names = {check.name for check in missed}
    designed = findings.tally is not None
    if not missed:
        if findings.kept:
            return "Keep the feet that are there"
        return f"These feet meet every limit{' of the brief' if designed else ''}"
    if names == {QUIETER}:
        at = listed(louder_at(findings.chosen, missed[0].limit))
        told = "may be louder than before" if missed[0].limit <= 0 else "are not quiet enough"
        works = works_words(findings.chosen)
        return f"These feet {told} at {at}{f'; they work {works}' if works else ''}"
    own = {each for motor in findings.motors for each in motor.checks}
    if designed and all(check in own for check in missed):
        return "These feet meet every limit of the brief, but a motor does not hold all its checks"
    if not designed:
        return "These feet do not meet every limit"
    return "No design meets the limits; this is the nearest"


def _make_words(feet: Sequence[Foot], material: Material | None) -> list[str]:
    """Return what to make in one sentence; pads that differ in width alone are told by letter."""
    if not feet or material is None:
        return []
    count = sum(len(foot.positions) for foot in feet)
    build, pad = feet[0].build, feet[0].pad
    made = f"{count} {build.one if count == 1 else build.many}"
    what = f"{made}, each {'with ' if build.hung else ''}"
    if len(feet) == 1:
        if build.rimmed and not pad.outline.halved:
            own = build.pad if count == 1 else f"{build.pad} of each"
            return [f"Make {made}. The {own} is {drawn_pad(pad, material.name)}."]
        return [f"Make {what}{drawn_pad(pad, material.name)}."]
    letters = "; ".join(
        f"{letter(foot.name) or foot.name} {outline_text(foot.pad)}" for foot in feet
    )
    return [
        f"Make {what}a pad of its own, {millimetres(pad.thickness, 1)} high, of "
        f"{in_a_sentence(material.name)}, so that the printer stays level: {letters}."
    ]


def _speed_words(chosen: Evaluation, checks: Sequence[Check]) -> list[str]:
    asked = next((check.limit for check in checks if check.name == QUIETER), 0.0)
    told = [works_sentence(chosen, asked)]
    if chosen.avoid:
        told.append(f"Speeds to avoid, where it may be louder than before: {spans(chosen.avoid)}.")
    return [each for each in told if each]


def sway_words(chosen: Evaluation) -> str:
    """Return what the feet cost in sway."""
    sway = chosen.sway
    usual = ""
    if sway.usual is not None:
        low, _, high = banded(sway.usual, 1e3)
        usual = f"; nine of ten printers: {low} to {high} mm"
    return (
        f"The price is sway: at worst the frame moves {readable(sway.worst, 'm', 2)} at the tool's "
        f"height (limit {readable(sway.limit, 'm', 2)}{usual}). That is with the softest such "
        f"feet, on a zigzag of {millimetres(sway.stroke, 1)} strokes along {sway.axis} at "
        f"{speed_text(sway.speed)}, its beginning counted in. Frame and print move together, so it "
        "is no error in the print. What the frame itself bends comes on top."
    )


def _motor_words(motors: tuple[MotorResult, ...]) -> list[str]:
    """Tell in one sentence each which motors get a damper and which are better off without."""
    told = []
    stacked = [
        f"motor {motor.name} (it moves back by {millimetres(motor.stack_height, 1)})"
        for motor in motors
        if motor.kind == "damper"
    ]
    bare = [motor.name for motor in motors if motor.kind == "none"]
    if stacked:
        told.append(f"Put a rubber damper under {' and '.join(stacked)}.")
    if bare:
        told.append(f"No damper under motor {', '.join(bare)}: see Motors.")
    return told


def names(cards: dict[str, Material]) -> dict[str, str]:
    """Return each card's name in words by its id."""
    return {key: card.name for key, card in cards.items()}
