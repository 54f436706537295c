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


LOSSES = ("loss_db", "on_desk_db", "against_now_db")
"""How keys of losses end: what they hold is promised up to a ceiling alone."""


def mark_promised(told: object, ceiling: float) -> None:
    """Set `promised` beside every loss in JSON: whether no more than `ceiling` [dB] is told.

    A band gets it among its numbers; beside plain numbers it is an object, one entry a key.
    """
    if isinstance(told, list):
        for each in told:
            mark_promised(each, ceiling)
    if not isinstance(told, dict):
        return
    for value in list(told.values()):
        mark_promised(value, ceiling)
    losses = {key: value for key, value in told.items() if key.endswith(LOSSES)}
    for value in losses.values():
        if isinstance(value, dict):
            value["promised"] = all(_within(each, ceiling) for each in value.values())
    plain = {k: _within(v, ceiling) for k, v in losses.items() if not isinstance(v, dict)}
    if plain:
        told["promised"] = plain


def _within(value: float | None, ceiling: float) -> bool:
    return value is not None and value <= ceiling


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
