"""How checks are told: limit, margin."""

from __future__ import annotations

import math

from isolator.report.findings import Findings
from isolator.report.sentences.numbers import number, readable
from isolator.vibration.band import Check


def margin(check: Check) -> str:
    """Return how far a check is from its limit, as a share of the limit or in its unit."""
    gap = abs(check.value - check.limit)
    word = "to spare" if check.passed else "short" if check.value < check.limit else "over"
    if not math.isfinite(gap):
        return "–"
    if check.limit == 0 or check.unit == "dB" or gap > 10 * abs(check.limit):
        return f"{readable(gap, check.unit)} {word}"
    return f"{number(100 * gap / abs(check.limit), 2)} % {word}"


def limit(check: Check) -> str:
    """Return the limit with its side, told from the value and whether it passed."""
    if check.value == check.limit:
        return readable(check.limit, check.unit)
    most = check.passed == (check.value < check.limit)
    return f"{'at most' if most else 'at least'} {readable(check.limit, check.unit)}"


def other_checks(findings: Findings) -> list[Check]:
    """Return the checks that are not told with a motor that shows them."""
    told = {each for motor in findings.motors for each in motor.checks}
    return [check for check in findings.checks if check not in told]
