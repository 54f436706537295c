"""The two smallest things that are told: a band, and one check."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

Figures = tuple[tuple[str, float], ...]
"""Numbers that a sentence speaks of, by name; each name ends with its unit."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Band:
    """Nominal value and the two ends between which nine of ten samples lie."""

    low: float
    nominal: float
    high: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Check:
    """One thing that had to hold; `value` and `limit` in `unit`."""

    name: str
    value: float
    limit: float
    unit: str
    passed: bool
    binding: bool = True  # false where it is told alone: nothing is refused for it
    remedy: str = ""  # which advice it gets where it fails; empty: that of its own name
    figures: Figures = ()  # what the advice speaks of, in the units it names


def failed(checks: Iterable[Check]) -> tuple[Check, ...]:
    """Return the checks that bind and do not hold."""
    return tuple(check for check in checks if check.binding and not check.passed)
