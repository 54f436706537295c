"""Feet side by side: one table, a column for each brief or design."""

from __future__ import annotations

from collections.abc import Sequence

from rich.console import Group

from isolator.report.findings import Findings
from isolator.report.sentences import heard_words, numbers
from isolator.report.sentences.headline import verdict_words
from isolator.report.sentences.judged import made_words
from isolator.report.terminal.tables import table
from isolator.vibration.band import failed
from isolator.vibration.results import Speed


def beside_table(found: Sequence[Findings]) -> Group:
    """Return several checks in one table; all were asked about the same speeds."""
    rows = [
        ("brief", *(each.name for each in found)),
        ("feet", *("" if each.judged is None else each.judged.feet for each in found)),
        ("from", *("" if each.judged is None else each.judged.file for each in found)),
        ("against", *(each.chosen.baseline or "nothing" for each in found)),
        ("made", *("" if each.judged is None else made_words(each.judged) for each in found)),
        *(
            (
                numbers.readable(column[0].speed, "m/s"),
                *(_speed(speed) for speed in column),
            )
            for column in zip(*(each.chosen.speeds for each in found), strict=True)
        ),
        ("modes", *(_modes(each) for each in found)),
        ("sway", *(numbers.readable(each.chosen.sway.worst, "m", 2) for each in found)),
        ("checks", *(_checks(each) for each in found)),
    ]
    heads = ("", *(str(number) for number in range(1, len(found) + 1)))
    return table("Side by side", heads, "l" * len(heads), rows)


def _speed(speed: Speed) -> str:
    mark, word = verdict_words(speed)
    return f"{mark} {word}; {heard_words.cell(speed)}"


def _modes(found: Findings) -> str:
    nominal = [mode.frequency.nominal for mode in found.chosen.modes]
    return f"{numbers.number(min(nominal), 2)} to {numbers.number(max(nominal), 2)} Hz"


def _checks(found: Findings) -> str:
    names = [each.name for each in failed(found.checks)]
    return f"FAILS: {', '.join(names)}" if names else "all hold"
