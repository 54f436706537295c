"""Values of the JSON: floats that are finite or null, bands, checks."""

from __future__ import annotations

import math
from collections.abc import Iterable

from isolator.report.sentences.checks import advice
from isolator.vibration.band import Band, Check

Json = dict[str, object]


def number(value: float | None) -> float | None:
    """Return a plain float, None where it is unknown or not finite.

    >>> number(3), number(math.inf), number(None)
    (3.0, None, None)
    """
    return float(value) if value is not None and math.isfinite(value) else None


def numbers(values: Iterable[float]) -> list[float | None]:
    """Return every value as `number` does."""
    return [number(value) for value in values]


def band(value: Band) -> Json:
    """Return a band as an object of three numbers."""
    return {
        "low": number(value.low),
        "nominal": number(value.nominal),
        "high": number(value.high),
    }


def check(told: Check) -> Json:
    """Return one check; `value` and `limit` are in `unit`."""
    return {
        "name": told.name,
        "value": number(told.value),
        "limit": number(told.limit),
        "unit": told.unit,
        "passed": bool(told.passed),
        "advice": advice(told),
    }
