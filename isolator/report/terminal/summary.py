"""Tables for the command line; every meaning is written out, none is a colour alone."""

from __future__ import annotations

from collections.abc import Sequence

from rich.console import Group, RenderableType
from rich.text import Text

from isolator.report.findings import Findings, Tally
from isolator.report.sentences import numbers, speeds
from isolator.report.sentences.answer import heading
from isolator.report.sentences.checks import other_checks
from isolator.report.sentences.judged import judged_words
from isolator.report.sentences.notes import level_rests_on
from isolator.report.terminal.motors import motor_block
from isolator.report.terminal.tables import checks_table, table
from isolator.report.terminal.tones import tones_table
from isolator.vibration.results import Evaluation

Cell = tuple[str, str, str]  # name, value, remark


def summary(findings: Findings) -> Group:
    """Return what a run found, as one printable: answer, modes, speeds, checks, motors, search."""
    found = findings.chosen
    ceiling = findings.ceiling_db
    tables = [_speeds(found, ceiling)] if found.speeds else []
    tables += [_loads(found, ceiling)] if found.loads else []
    if findings.judged is not None and found.speeds:
        tables.insert(1, tones_table(found.speeds, ceiling))
    level = level_rests_on(findings.assumed)
    judged = [] if findings.judged is None else [Text(judged_words(findings.judged))]
    told: list[RenderableType] = [
        *judged,
        Text(f"{findings.name}: {heading(findings)}.", style="bold"),
        *(Text(sentence) for sentence in findings.answer),
        *(Text(f"make: {sentence}") for sentence in findings.make),
        *(Text(f"warning: {sentence}") for sentence in findings.warnings),
        *tables,
        Text(_avoid(found)),
        _modes(found),
        checks_table("Checks", other_checks(findings)),
        *([Text(level)] if level else []),
        *(motor_block(motor) for motor in findings.motors),
    ]
    if findings.tally is not None:
        told.append(_search(findings.tally))
    return Group(*told)


def pad_table(title: str, rows: Sequence[Cell]) -> Group:
    """Return one pad's numbers: name, value with unit, remark."""
    return table(title, ("", "value", ""), "lrl", rows)


def materials_table(rows: Sequence[Cell]) -> Group:
    """Return the material cards: id, name, family."""
    return table("Materials", ("id", "name", "family"), "lll", rows)


def _speeds(found: Evaluation, ceiling: float) -> Group:
    rows = []
    for speed in found.speeds:
        mark, word = speeds.VERDICTS.get(speed.verdict, ("", speed.verdict))
        heard = speeds.weakest(speed)
        gain = "–" if heard is None else numbers.gain(heard.insertion_loss, ceiling)
        told = f"{gain}\n{speeds.reason(speed, ceiling)}"
        rows.append((numbers.readable(speed.speed, "m/s"), f"{mark} {word}", told))
    return table("Speeds", ("speed", "verdict", "least cut drone line, and why"), "rll", rows)


def _loads(found: Evaluation, ceiling: float) -> Group:
    rows = [
        (
            load.name,
            numbers.readable(point.frequency, "Hz"),
            numbers.number(point.transmissibility),
            ", ".join(numbers.number(part) for part in point.transmitted),
            numbers.gain(point.insertion_loss, ceiling),
            numbers.gain(point.on_desk, ceiling),
        )
        for load in found.loads
        for point in load.points
    ]
    heads = ("force", "frequency", "T", "feet x, y, z [N]", "than rigid feet", "on the desk")
    return table("Forces", heads, "lrrrll", rows)


def _avoid(found: Evaluation) -> str:
    spans = ", ".join(speeds.avoid_words(found.avoid)) or "none within the speeds looked at"
    sway = found.sway
    return (
        f"\navoid: {spans}\n"
        f"sway: {numbers.readable(sway.worst, 'm')} at the tool's height along {sway.axis}, "
        f"limit {numbers.readable(sway.limit, 'm')}"
    )


def _modes(found: Evaluation) -> Group:
    rows = [
        (mode.name, numbers.band(mode.frequency, "Hz"), numbers.number(mode.damping_ratio, 2))
        for mode in sorted(found.modes, key=lambda mode: mode.frequency.nominal)
    ]
    return table("Modes", ("mode", "frequency (band)", "damping ratio"), "lrr", rows)


def _search(tally: Tally) -> Group:
    rows = sorted(tally.rejected.items(), key=lambda item: -item[1])
    title = (
        f"{numbers.number(tally.tried, 9)} candidates in {numbers.number(tally.seconds, 2)} s, "
        f"{numbers.number(tally.passed, 9)} met every limit; stopped by"
    )
    told = [(name, numbers.number(count, 9)) for name, count in rows]
    return table(title, ("check", "how many"), "lr", told)


def card_table(title: str, rows: Sequence[Sequence[str]]) -> Group:
    """Return one material card: figure, value, spread, kind, source."""
    return table(title, ("", "value", "spread", "kind", "source"), "lrrll", rows)
