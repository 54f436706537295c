"""The first screen of a check: which feet, every tone, the verdict, what fails."""

from __future__ import annotations

from collections.abc import Sequence

from isolator.report.findings import Findings
from isolator.report.sentences import numbers, speeds
from isolator.report.sentences.headline import headline
from isolator.report.sentences.judged import judged_words
from isolator.report.sentences.remedies import remedy_items
from isolator.report.sentences.short_checks import check_items, problem_items
from isolator.report.sentences.short_choice import guessed_items
from isolator.report.terminal.answer import speed_lines
from isolator.report.terminal.rows import Row, Say, fitted, wrapped
from isolator.vibration.results import Evaluation, Line

HEADS = ("speed", "tone", "direction", "Hz", "T", "dB less")
SIDES = "llrrrl"
GAP = 2
ROOM = 12
"""Lines for what is told below the table."""
MEANING = (
    "T, transmissibility: the share of a push at this frequency that feet hand on; rigid feet: 1. "
    "The dB tell the same against rigid feet; a minus is more. In brackets: where nine of ten "
    "printers like yours lie."
)
BEYOND = (
    " >{0:.0f}: quieter by {0:.0f} dB and more; how much more is promised of no single tone, as "
    "the frame itself bends."
)
NOTHING = " >0: quieter; by how much is promised of no single tone, as the frame itself bends."


def checked_lines(findings: Findings, width: int, say: Say = str) -> list[str]:
    """Return a check in lines of `width` columns."""
    found = findings.chosen
    judged = [] if findings.judged is None else wrapped(judged_words(findings.judged), width)
    rows = [
        Row(label="PROBLEMS", items=problem_items(findings.checks), most=8),
        Row(label="TRIED", items=remedy_items(findings.remedy), most=3),
        Row(label="CHECKS", items=check_items(findings), most=2),
        Row(label="NOTES", items=findings.warnings, most=3, spare=1),
        Row(label="GUESSED", items=guessed_items(findings), most=2, spare=2),
    ]
    table = _rows(found, findings.ceiling_db)
    return [
        *(say(line) for line in judged),
        *wrapped(say(f"{findings.name}: {headline(findings)}."), width),
        "",
        *_table([HEADS, *table], width, say),
        *wrapped(say(MEANING + _beyond(table, findings.ceiling_db)), width),
        "",
        *([*speed_lines(found, width, say), ""] if found.speeds and found.baseline else ()),
        *fitted(rows, width, ROOM, say),
    ]


def _beyond(rows: Sequence[Sequence[str]], ceiling: float) -> str:
    """Return what a loss beyond the promise means, where one is told."""
    if not any(">" in row[-1] for row in rows):
        return ""
    return BEYOND.format(ceiling) if round(ceiling) > 0 else NOTHING


def _rows(found: Evaluation, ceiling: float) -> list[tuple[str, ...]]:
    """Return a row a tone, speed by speed; what a fan makes at any speed stands once below."""
    rows = []
    for speed in found.speeds:
        own = [line for line in speed.lines if not _steady(line)]
        lead = [numbers.readable(speed.speed, "m/s"), *[""] * len(own)]
        rows += [_row(name, line, ceiling) for name, line in zip(lead, own, strict=False)]
    steady = [line for speed in found.speeds[:1] for line in speed.lines if _steady(line)]
    lead = ["any speed", *[""] * len(steady)]
    rows += [_row(name, line, ceiling) for name, line in zip(lead, steady, strict=False)]
    for load in found.loads:
        lead = ["force", *[""] * len(load.points)]
        rows += [
            (
                name,
                load.name,
                "",
                numbers.number(point.frequency),
                numbers.ratio(point.transmissibility, ceiling),
                numbers.decibel_band(point.insertion_loss, ceiling),
            )
            for name, point in zip(lead, load.points, strict=False)
        ]
    return rows


def _steady(line: Line) -> bool:
    """Return whether a line stands still as the print speed changes: a fan's."""
    return line.direction_deg is None and line.worst is None


def _row(lead: str, line: Line, ceiling: float) -> tuple[str, ...]:
    return (
        lead,
        line.source,
        speeds.direction(line),
        numbers.number(line.frequency),
        numbers.ratio(line.transmissibility, ceiling),
        numbers.decibel_band(line.insertion_loss, ceiling),
    )


def _table(rows: Sequence[Sequence[str]], width: int, say: Say) -> list[str]:
    """Return rows in columns; the last one takes what is left, and wraps in it."""
    told = [[say(cell) for cell in row] for row in rows]
    wide = [max(len(row[at]) for row in told) for at in range(len(SIDES) - 1)]
    left = width - sum(wide) - GAP * len(wide)
    lines = []
    for row in told:
        first, *more = wrapped(row[-1], left)
        cells = [
            f"{cell:<{room}}" if side == "l" else f"{cell:>{room}}"
            for cell, side, room in zip(row, SIDES, wide, strict=False)
        ]
        lines.append((" " * GAP).join([*cells, first]).rstrip())
        lines += [f"{'':<{width - left}}{line}" for line in more]
    return lines
