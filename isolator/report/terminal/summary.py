"""Tables for the command line; every meaning is written out, none is a colour alone."""

from __future__ import annotations

from collections.abc import Sequence

from rich.console import Group, RenderableType
from rich.text import Text

from isolator.report.findings import Alternative, Findings, Tally
from isolator.report.sentences import folds, heard_words, numbers, speeds
from isolator.report.sentences.answer import heading
from isolator.report.sentences.checks import other_checks
from isolator.report.sentences.headline import verdict_words
from isolator.report.sentences.judged import judged_words
from isolator.report.sentences.notes import level_rests_on
from isolator.report.terminal.motors import motor_blocks
from isolator.report.terminal.tables import checks_table, table
from isolator.report.terminal.tones import tones_table
from isolator.vibration.results import Evaluation

Cell = tuple[str, str, str]  # name, value, remark


def summary(findings: Findings) -> Group:
    """Return what a run found, as one printable: answer, modes, speeds, checks, motors, search.

    It stands below the first screen, and does not say again what that has in a table.
    """
    found = findings.chosen
    ceiling = findings.ceiling_db
    tables = [_speeds(found)] if found.speeds else []
    tables += [_alternatives(findings.alternatives)] if findings.alternatives else []
    tables += [_helps(found)] if found.helps else []
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
        *motor_blocks(findings.motors),
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


def _speeds(found: Evaluation) -> Group:
    rows = []
    for speed in found.speeds:
        mark, word = verdict_words(speed)
        told = speeds.reason(speed)  # its first part stands on the first screen
        rows.append((numbers.readable(speed.speed, "m/s"), f"{mark} {word}", _last(told)))
    return table("Speeds", ("speed", "verdict", "the tone heard most"), "rll", rows)


def _last(told: str) -> str:
    return told.rpartition("; ")[2]


def _alternatives(told: Sequence[Alternative]) -> Group:
    rows = [
        (
            f"{each.kind}{' ●' if each.chosen else ''}",
            _what(each),
            "; ".join(dict.fromkeys(heard_words.change(band) for band in each.heard)),
            f"{numbers.readable(each.sway, 'm')} of {numbers.readable(each.sway_limit, 'm')}",
        )
        for each in told
    ]
    heads = ("kind", "feet", "heard without dampers, at your speeds", "sway")
    return table("Other feet that would do (--pick KIND)", heads, "llll", rows)


def _helps(found: Evaluation) -> Group:
    rows = [
        (each.name, heard_words.change(each.heard.desk), heard_words.change(each.heard.frame))
        for each in found.helps
    ]
    heads = ("change", "through the feet", "straight into the frame")
    return table("What else would help, mean over your speeds", heads, "lll", rows)


def _what(each: Alternative) -> str:
    if not each.material:
        return "today's feet"
    on = f"{folds.paver_words(each.paver)} on " if each.paver else ""
    along, across, height = (numbers.number(1e3 * side) for side in each.size)
    layers = f" in {each.layers} layers" if each.layers > 1 else ""
    return (
        f"{on}{each.feet} × {each.material}, {each.shape} {along} × {across} mm, {height} mm high"
        f"{layers}; {each.where}"
    )


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
    sway = found.sway
    told = (
        f"sway: {numbers.readable(sway.worst, 'm')} at the tool's height along {sway.axis}, "
        f"limit {numbers.readable(sway.limit, 'm')}"
    )
    if not found.baseline:
        return f"\n{told}"
    spans = ", ".join(speeds.avoid_words(found.avoid)) or "none within the speeds looked at"
    return f"\navoid: {spans}\n{told}"


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
