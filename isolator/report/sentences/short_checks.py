"""Checks and prints in one breath: what fails, what comes closest, what shows in a print."""

from __future__ import annotations

import math
from collections.abc import Sequence

from isolator.report.findings import Findings
from isolator.report.sentences.checks import advice, limit, margin, other_checks, value
from isolator.report.sentences.numbers import readable
from isolator.report.sentences.print_words import BOTH, print_verdict, shows_words
from isolator.vibration.band import Check, failed
from isolator.vibration.results import Evaluation


def problem_items(checks: Sequence[Check]) -> tuple[str, ...]:
    """Return what fails, with its value, its limit and what to do."""
    return tuple(
        f"{check.name}: {found_and_wanted(check)}; {advice(check)}" for check in failed(checks)
    )


def found_and_wanted(check: Check) -> str:
    """Return what a check found and what was wanted, where its value is no share of that."""
    told = value(check)
    return told if check.unit.endswith("its limit") else f"{told}, wanted {limit(check)}"


def closest(checks: Sequence[Check]) -> Check | None:
    """Return the check that holds by least, as a share of its limit; None where none has one."""
    told = [
        check
        for check in checks
        if check.binding
        and check.passed
        and check.limit != 0
        and not check.unit.startswith("dB")
        and math.isfinite(check.value)
    ]
    return min(told, key=lambda each: abs(each.value / each.limit - 1.0), default=None)


def check_items(findings: Findings, noun: str = "") -> tuple[str, ...]:
    """Return that all checks hold, targets apart, and which of the feet comes closest.

    `noun` stands behind their number.
    """
    bound = [check for check in findings.checks if check.binding]
    others = len(bound) - len(failed(bound))
    lead = (
        f"all {len(bound)}{noun} hold"
        if others == len(bound)
        else f"{others} other{noun or 's'} hold"
    )
    targets = len(missed(findings.checks))
    if targets:
        lead = f"{lead} ({targets} target{'' if targets == 1 else 's'} missed)"
    near = closest(other_checks(findings))
    return (lead,) if near is None else (lead, _near(near))


def _near(check: Check) -> str:
    return f"closest: {check.name}, {margin(check)}"


def hold_words(findings: Findings) -> str:
    """Return the same in one phrase."""
    return "; ".join(check_items(findings, " checks"))


def missed(checks: Sequence[Check]) -> list[Check]:
    """Return the checks that do not hold and bind nothing: they are told alone."""
    return [check for check in checks if not check.binding and not check.passed]


def missed_sentence(checks: Sequence[Check]) -> str:
    """Return which checks are missed that bind nothing, with their values; empty for none."""
    told = [f"{each.name}: {found_and_wanted(each)}" for each in missed(checks)]
    return f"Targets missed, which stop nothing: {'; '.join(told)}." if told else ""


def print_row(found: Evaluation) -> str:
    """Return how far the frame sways and what of that shows in a print."""
    sway = found.sway
    far = f"up to {readable(sway.worst, 'm', 2)} (limit {readable(sway.limit, 'm', 2)})"
    if found.prints is None:
        return f"the printer sways {far}"
    return (
        f"{print_verdict(found)}: nozzle and print sway together, {far}, and "
        f"{shows_words(found).removeprefix(BOTH)}"
    )
