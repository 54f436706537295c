"""A value held against a limit, as every check of a motor is."""

from __future__ import annotations

from isolator.vibration.band import Check, Figures


def check_against(
    name: str,
    value: float,
    limit: float,
    unit: str,
    remedy: str,
    figures: Figures = (),
    *,
    at_least: bool = False,
) -> Check:
    """Return whether `value` is at most `limit`, or at least; `remedy` names what helps if not."""
    # a hair is binary dust, not a fault
    passed = value >= limit - 1e-9 if at_least else value <= limit + 1e-9
    return Check(
        name=name,
        value=float(value),
        limit=float(limit),
        unit=unit,
        passed=bool(passed),
        remedy=remedy,
        figures=figures,
    )
