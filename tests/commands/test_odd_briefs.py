"""Odd briefs through whole solves: each is answered, with numbers that can be."""

from __future__ import annotations

import dataclasses
import json
import math
from collections.abc import Iterator
from typing import Any

import numpy as np
import pytest
from odd_briefs import odd_brief

from isolator.brief import read_brief_text
from isolator.commands.design import solve
from isolator.commands.known_cards import known_cards
from isolator.report.json.result import to_json
from isolator.report.terminal.summary import summary

PLAIN, ALL = 16, 160
NEVER_NEGATIVE = (
    "frequency_hz",
    "damping_ratio",
    "load_n",
    "strain",
    "sag_m",
    "stiffness_n_per_m",
    "speed_m_per_s",
    "transmissibility",
    "worst_m",
    "limit_m",
    "step_m",
    "stroke_m",
    "tip_margin",
    "slip_margin",
    "stack_height_m",
    "pulley_spacer_height_m",
    "length_m",
    "tension_n",
    "power_w",
    "torque_needed_nm",
    "torque_available_nm",
    "tried",
    "passed",
)
"""Keys of the JSON whose numbers are sizes, whatever was asked."""


def numbers(told: Any, key: str = "") -> Iterator[tuple[str, float]]:
    """Yield every number of some JSON with the last key that it stands under."""
    if isinstance(told, dict):
        for name, value in told.items():
            inner = key if name in ("low", "nominal", "high") else name
            yield from numbers(value, inner)
    elif isinstance(told, list):
        for each in told:
            yield from numbers(each, key)
    elif isinstance(told, (int, float)) and not isinstance(told, bool):
        yield key, float(told)


def not_numbers(told: Any, path: str = "") -> Iterator[str]:
    """Yield the path of every NaN in a record."""
    if dataclasses.is_dataclass(told):
        for each in dataclasses.fields(told):
            yield from not_numbers(getattr(told, each.name), f"{path}.{each.name}")
    elif isinstance(told, (list, tuple)):
        for index, each in enumerate(told):
            yield from not_numbers(each, f"{path}[{index}]")
    elif isinstance(told, dict):
        for name, each in told.items():
            yield from not_numbers(each, f"{path}[{name}]")
    elif isinstance(told, np.ndarray) and told.dtype.kind in "fc":
        if np.isnan(told).any():
            yield path
    elif isinstance(told, float) and math.isnan(told):
        yield path


def hold(seed: int) -> None:
    """Solve one odd brief and hold what is found to what can be."""
    brief = read_brief_text(odd_brief(seed), f"odd-{seed}.toml")
    found = solve(brief, known_cards(brief), lambda what, done, total: None)
    assert list(not_numbers(found)) == []
    told = to_json(found)
    json.dumps(told, allow_nan=False)
    wrong = [(key, value) for key, value in numbers(told) if key in NEVER_NEGATIVE and value < 0]
    assert wrong == []
    assert summary(found) is not None
    assert {motor.name for motor in found.motors} == {motor.name for motor in brief.motors}


@pytest.mark.parametrize("seed", range(PLAIN))
def test_an_odd_brief_is_answered(seed: int) -> None:
    hold(seed)


@pytest.mark.slow
@pytest.mark.parametrize("seed", range(PLAIN, ALL))
def test_more_odd_briefs_are_answered(seed: int) -> None:
    hold(seed)


def test_the_briefs_are_as_odd_as_is_said() -> None:
    seen = [read_brief_text(odd_brief(seed), "odd.toml") for seed in range(ALL)]
    assert {len(brief.feet.positions or ()) for brief in seen} == set(range(3, 13))
    assert {len(brief.motors) for brief in seen} >= set(range(2, 9))
    assert {brief.motion.layout for brief in seen} == {
        "crossed-belt",
        "motor-per-axis",
        "moving-bed",
    }
    masses = [brief.printer.mass for brief in seen]
    assert min(masses) < 0.5
    assert max(masses) > 200.0
