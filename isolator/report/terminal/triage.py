"""What a terminal shows of a triage, on one screen."""

from __future__ import annotations

from isolator.measuring.triage import Triage
from isolator.report.sentences.triage import (
    cause_lines,
    meeting_lines,
    open_questions,
    still_lines,
    verdict_line,
)
from isolator.report.terminal.rows import wrapped

LINES = 25
"""Of a usual window."""


def triage_lines(told: Triage, width: int) -> list[str]:
    """Return the lines, the verdict first; questions that find no room are counted."""
    lines = [verdict_line(told.verdict, told.causes)]
    for cause in cause_lines(told):
        lines += _set_in(cause, width)
    if told.still is not None:
        lines.append("with motors off it has:")
        lines += [line for each in still_lines(told.still) for line in _set_in(each, width)]
    lines += _meetings(told, width)
    asked = open_questions(told)
    if not asked:
        return lines
    head = "still to answer (--yes or --no and its name, or under [noise] in the brief):"
    room = max(LINES - len(lines) - len(wrapped(head, width)), 2)
    lines += wrapped(head, width)
    shown = asked if len(asked) <= room else asked[: room - 1]
    lines += [f"  {each}" for each in shown]
    if len(shown) < len(asked):
        lines.append(f"  {len(asked) - len(shown)} more (--json)")
    return lines


def _meetings(told: Triage, width: int) -> list[str]:
    rows = meeting_lines(told)
    if not rows:
        return []
    head = f"speeds at which a tone meets a mode, on the {told.feet}:"
    return [head, *(line for row in rows for line in _set_in(row, width))]


def _set_in(text: str, width: int) -> list[str]:
    first, *more = wrapped(text, width - 4)
    return [f"  {first}", *(f"    {line}" for line in more)]
