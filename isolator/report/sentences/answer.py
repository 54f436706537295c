"""The answer in plain words, and everything gathered into the findings."""

from __future__ import annotations

from collections.abc import Sequence

from isolator.cards import Material
from isolator.design import Design, Foot
from isolator.design.naming import letter
from isolator.design.phrases import drawn_pad, in_a_sentence, millimetres, outline_text, speed_text
from isolator.design.version import version
from isolator.motors.results import MotorResult
from isolator.reading.notes import Assumed
from isolator.report.findings import Cloud, Findings, Tally, TooSlow
from isolator.report.sentences.assumptions import MODEL
from isolator.report.sentences.cautions import of_design
from isolator.report.sentences.checks import advice
from isolator.report.sentences.notes import outside
from isolator.report.sentences.numbers import loss
from isolator.report.sentences.sources import sources
from isolator.report.sentences.speeds import desk_words, spans
from isolator.vibration.band import Check
from isolator.vibration.results import Evaluation
from isolator.vibration.verdict import DRONE, least_cut
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
    slow: TooSlow | None,
    tally: Tally | None,
    cloud: Cloud | None,
) -> Findings:
    """Gather one run's findings; `slow` says why the slowest speed is not isolated, if so."""
    feet = design.feet if design is not None else ()
    every = (*checks, *(check for motor in motors for check in motor.checks))
    words = [
        *_make_words(feet, material),
        *_gain_words(ceiling_db, chosen, now),
        *_speed_words(chosen, slow),
        _sway_words(chosen),
        *_motor_words(motors),
        *[
            f"Not met: {check.name}. {advice(check)[:1].upper()}{advice(check)[1:]}."
            for check in every
            if not check.passed
        ],
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
    if findings.tally is None:
        if findings.passed:
            return "These feet meet every limit"
        return "These feet do not meet every limit"
    own = {each for motor in findings.motors for each in motor.checks}
    if all(check.passed or check in own for check in findings.checks) and not findings.passed:
        return "These feet meet every limit of the brief, but a motor does not hold all its checks"
    if findings.passed:
        met = [each.speed for each in findings.chosen.speeds if each.verdict == "amplified"]
        if met:
            at = " and ".join(f"{speed * 1e3:.0f}" for speed in met)
            return f"These feet meet every limit of the brief, but at {at} mm/s a tone meets a mode"
        return "These feet meet every limit of the brief"
    return "No design meets the limits; this is the nearest"


def _make_words(feet: Sequence[Foot], material: Material | None) -> list[str]:
    """Return what to make in one sentence; pads that differ in width alone are told by letter."""
    if not feet or material is None:
        return []
    count = sum(len(foot.positions) for foot in feet)
    build, pad = feet[0].build, feet[0].pad
    what = (
        f"{count} {build.one if count == 1 else build.many}, each {'with ' if build.hung else ''}"
    )
    if len(feet) == 1:
        return [f"Make {what}{drawn_pad(pad, material.name)}."]
    letters = "; ".join(
        f"{letter(foot.name) or foot.name} {outline_text(foot.pad)}" for foot in feet
    )
    return [
        f"Make {what}a pad of its own, {millimetres(pad.thickness, 1)} high, of "
        f"{in_a_sentence(material.name)}, so that the printer stays level: {letters}."
    ]


def _gain_words(ceiling: float, chosen: Evaluation, now: Evaluation | None) -> list[str]:
    """Tell the gain where it is least, the desk's share of it, and against what is there now."""
    found = [(speed.speed, least_cut(speed.lines)) for speed in chosen.speeds]
    lines = [(speed, line) for speed, line in found if line is not None]
    if not lines:
        return []
    speed, line = min(lines, key=lambda each: each[1].insertion_loss.low)
    cut = line.insertion_loss
    others = "; elsewhere they do more" if len(lines) > 1 and cut.nominal <= ceiling else ""
    what = "is raised: a loss of" if cut.nominal < 0 else "is cut by"
    told = [
        f"Against rigid feet the motors' drone {what} {loss(cut, ceiling)} at "
        f"{speed_text(speed)}, where the feet do least{others}."
    ]
    if chosen.desk:
        desk, own = line.on_desk, desk_words(chosen.desk)
        takes = (
            " gives way itself and takes part of that back" if desk.nominal < cut.nominal else ""
        )
        told.append(
            f"{own[:1].upper()}{own[1:]}{takes}: {loss(desk, ceiling)} on it."
            if takes
            else f"On {own} it is {loss(desk, ceiling)}."
        )
    if now is not None and line.against_now is not None:
        told.append(
            f"Against the feet there now it is {loss(line.against_now, ceiling)} at "
            f"{speed_text(speed)}, on a rigid floor."
        )
    return told


def _slow_words(slow: TooSlow) -> str:
    where = f"at {speed_text(slow.speed)}"
    if slow.sways:
        return f"{where} that would take feet so soft that they sway past the limit"
    return f"{where} nothing in the stock offers that within the limits"


def _speed_words(chosen: Evaluation, slow: TooSlow | None) -> list[str]:
    told = []
    if chosen.isolates_from is not None:
        reason = "" if slow is None else f"; {_slow_words(slow)}"
        told.append(
            f"From {speed_text(chosen.isolates_from)} upwards the motors' drone lies above every "
            f"mode on moves along the axes and diagonals, over the whole band{reason}."
        )
    if chosen.avoid:
        drone = [each for each in chosen.avoid if each.source in DRONE]
        teeth = [each for each in chosen.avoid if each.source not in DRONE]
        parts = [
            f"{words} at {spans(found)}"
            for words, found in (("the motors' drone", drone), ("the belt's teeth", teeth))
            if found
        ]
        told.append(f"Speeds to avoid, where a tone meets a mode: {', '.join(parts)}.")
    return told


def _sway_words(chosen: Evaluation) -> str:
    sway = chosen.sway
    usual = ""
    if sway.usual is not None:
        low, high = millimetres(sway.usual.low, 3), millimetres(sway.usual.high, 3)
        usual = f"; in nine of ten cases {low} to {high}"
    return (
        f"The price is sway: {millimetres(sway.worst, 3)} at the tool's height at the soft end of "
        f"the feet, first strokes included, on {millimetres(sway.stroke, 1)} strokes along "
        f"{sway.axis} at {speed_text(sway.speed)} "
        f"(limit {millimetres(sway.limit, 3)}{usual}). It is the frame that moves on its feet, and "
        "the print along with it: no error in the print. What the frame itself bends is not in it."
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
        told.append(f"No damper under motor {', '.join(bare)}: the reasons stand with the motors.")
    return told


def names(cards: dict[str, Material]) -> dict[str, str]:
    """Return each card's name in words by its id."""
    return {key: card.name for key, card in cards.items()}
