"""The first screen of a design: what to make, what it gains, what to avoid, at a glance."""

from __future__ import annotations

from collections.abc import Sequence

from isolator.report.findings import Findings
from isolator.report.sentences.headline import headline
from isolator.report.sentences.remedies import remedy_items
from isolator.report.sentences.short_checks import (
    check_items,
    print_row,
    problem_items,
)
from isolator.report.sentences.short_choice import (
    guessed_items,
    help_items,
    other_words,
    sway_words,
)
from isolator.report.sentences.short_feet import buy_items, for_feet, make_items
from isolator.report.sentences.short_heard import avoid_row, heard_head, heard_rows, rest_row
from isolator.report.sentences.short_motors import motor_items
from isolator.report.terminal.rows import LABEL, MARGIN, Row, Say, fitted, wrapped
from isolator.vibration.results import Evaluation

LINES = 25
"""Of a usual window."""
USUAL = 80
"""Columns of one."""
FILES = 2
"""Lines that tell where the files are."""
ROOMS = ((6, True), (4, True), (3, True), (3, False), (2, False))
"""Most rows of speeds, and whether there are blank lines: tried in this order until all fits."""
QUALITY = "QUALITY"


def answer_lines(findings: Findings, width: int, say: Say = str) -> list[str]:
    """Return the answer in lines of `width` columns, `LINES` with those of the files.

    The headline comes first. A narrower window than usual gets as many more lines.
    """
    room = round(LINES * max(USUAL / width, 1.0)) - FILES
    told: list[str] = []
    for speeds, gaps in ROOMS:
        told = _lines(findings, width, say, room, speeds, gaps)
        if len(told) <= room:
            break
    return told


def _lines(
    findings: Findings, width: int, say: Say, room: int, speeds: int, gaps: bool
) -> list[str]:
    """Return the answer with at most so many rows of `speeds`, with or without `gaps`."""
    head = wrapped(say(f"{findings.name}: {headline(findings)}."), width)
    found = findings.chosen
    table = speed_lines(found, width, say, speeds) if found.speeds else []
    gap = [""] if gaps else []
    upper = [
        Row(label="MAKE", items=make_items(findings), most=3, spare=1),
        Row(
            label="BUY",
            items=buy_items(findings),
            most=4,
            spare=2,
            sure=len(for_feet(findings)),
            more="for the motors: shopping.csv",
        ),
    ]
    left = room - len(head) - len(table) - 3 * len(gap)
    told = fitted([*upper, *_rest(findings)], width, left, say)
    cut = next((at for at, line in enumerate(told) if line[MARGIN:].startswith(QUALITY)), 0)
    return [*head, *gap, *told[:cut], *(gap if cut else ()), *table, *gap, *told[cut:]]


def _rest(findings: Findings) -> list[Row]:
    checks, found = findings.checks, findings.chosen
    bad = problem_items(checks)
    return [
        Row(label=QUALITY, items=(print_row(found),), most=2, spare=1),
        Row(label="MOTORS", items=motor_items(findings.motors), most=3, spare=5),
        Row(label="OTHERS", items=other_words(findings), most=2, spare=6),
        Row(label="SWAY", items=sway_words(findings), least=0, most=2, spare=7),
        Row(label="ALSO", items=help_items(found), least=0, most=1, spare=9),
        Row(label="PROBLEMS", items=bad, most=4, spare=3),
        Row(label="TRIED", items=remedy_items(findings.remedy), most=3, spare=2),
        Row(label="CHECKS", items=check_items(findings), most=2),
        Row(label="NOTES", items=findings.warnings, most=2, spare=4),
        Row(label="GUESSED", items=guessed_items(findings), most=2, spare=8),
    ]


def file_lines(folder: str, told: Sequence[str], width: int) -> list[str]:
    """Return where everything lies, and what drawing has found besides."""
    lead = " " * MARGIN
    files = f"{lead}{'files':<{LABEL}}{folder}/"
    holds = ": parts, beds, templates, shopping.csv"
    return [
        *(f"{lead}{'NOTE':<{LABEL}}{each}" for each in told),
        f"{lead}{'report':<{LABEL}}{folder}/report.html",
        files + holds if len(files + holds) <= width else files,
    ]


def speed_lines(found: Evaluation, width: int, say: Say, most: int = 0) -> list[str]:
    """Return the table of speeds: head, a row each, what to avoid, what stays."""
    rows = [heard_head(found), *heard_rows(found, most), avoid_row(found), rest_row(found)]
    wide = max(len(say(name)) for name, _ in rows) + 2
    told = []
    for name, words in rows:
        first, *more = wrapped(say(words), width - wide - 2)
        told.append(f"  {say(name):<{wide}}{first}")
        told += [f"  {'':<{wide}}{line}" for line in more]
    return told
