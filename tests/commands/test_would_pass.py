"""What a failed check says would make it pass is true: the check passes there, and not above."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from briefs import ROOM
from command import isolator
from report_sample import evaluation

from isolator.brief import Limits, read_brief_text
from isolator.cards.library import load_cards
from isolator.commands.would_pass import with_settings, with_speed
from isolator.feet.checks import QUIETER, Bounds, told
from isolator.feet.task import build_feet_task
from isolator.report.sentences.checks import advice
from isolator.vibration.band import Check

RUBBER = load_cards()["nr-40"]


@pytest.fixture(autouse=True)
def without_a_paver(monkeypatch: pytest.MonkeyPatch) -> None:
    """None is tried: a search of its own, which these tests do not look at."""
    monkeypatch.setattr("isolator.commands.check.with_paver", lambda *given: None)


def strained(limit: float) -> Bounds:
    """Return the bounds of a brief whose pads may be strained so far."""
    brief = read_brief_text(ROOM, "brief.toml")
    limits = replace(brief.limits, static_strain=limit)
    return Bounds(task=build_feet_task(brief), limits=limits, modes=40.0)


def relaxed_limits(bounds: Bounds, key: str, limit: float) -> Limits:
    changed: dict[str, Any] = {key: limit}
    return replace(bounds.limits, **changed)


def found(brief: Path, *words: str) -> dict[str, dict]:
    ran = isolator("check", brief, "--now", "--json", "--out", brief.parent / "out", *words)
    assert (ran.code, ran.err) == (0, "")
    return {check["name"]: check for check in ran.json()["checks"]}


@pytest.mark.parametrize(
    ("name", "key", "value"),
    [("sway", "limits.sway", "0.035 mm"), ("tipping", "limits.tip_margin", "6")],
)
def test_a_lower_acceleration_that_is_told_passes(
    tmp_path: Path, name: str, key: str, value: str
) -> None:
    brief = tmp_path / "brief.toml"
    brief.write_text(ROOM, encoding="utf-8")
    limit = f"--set={key}={value}"
    failed = found(brief, limit)[name]
    assert not failed["passed"]
    told = failed["would_pass"][0]
    assert told["key"] == "motion.acceleration"
    words = re.match(
        r"it would pass at (\d+) mm/s\^2 \(motion\.acceleration\)(;|, or with)", failed["advice"]
    )
    assert words is not None
    assert told["value"] == f"{words[1]} mm/s^2"
    gentler = f"--set=motion.acceleration={words[1]} mm/s^2"
    assert found(brief, limit, gentler)[name]["passed"]
    # the next tenth of 2500 mm/s² that was tried above it
    higher = f"--set=motion.acceleration={int(words[1]) + 250} mm/s^2"
    assert not found(brief, limit, higher)[name]["passed"]


def test_what_no_acceleration_mends_tells_the_limit_alone(tmp_path: Path) -> None:
    brief = tmp_path / "brief.toml"
    brief.write_text(ROOM, encoding="utf-8")
    advised = found(brief, "--set=limits.sway=0.0001 mm")["sway"]["advice"]
    words = re.fullmatch(
        r"it would pass with limits\.sway at ([\d.]+) mm; or take stiffer or wider pads", advised
    )
    assert words is not None
    assert found(brief, f"--set=limits.sway={words[1]} mm")["sway"]["passed"]
    below = f"{float(words[1]) - 0.01:g} mm"
    assert not found(brief, f"--set=limits.sway={below}")["sway"]["passed"]


@pytest.mark.parametrize(
    ("name", "key", "value", "passes", "beyond", "words"),
    [
        (
            "foot width",
            "foot_width",
            0.07443,
            0.0745,
            0.0744,
            "it would pass with limits.foot_width at 74.5 mm; or choose a narrower pad",
        ),
        (
            "foot height",
            "foot_height",
            0.0612,
            0.0612,
            0.0611,
            "it would pass with limits.foot_height at 61.2 mm; or use a thinner or "
            "single-layer pad",
        ),
        (
            "standing upright",
            "gravity_share",
            0.709,
            0.3,
            0.29,
            "it would pass with limits.gravity_share at 0.3; or take stiffer pads",
        ),
        # the feet are as strained whatever the limit: 1.31 of 0.1
        (
            "pad strain",
            "static_strain",
            1.31,
            0.14,
            0.13,
            "it would pass with limits.static_strain at 0.14; or take more feet, or a stiffer "
            "grade",
        ),
    ],
)
def test_a_limit_that_is_told_passes_and_a_step_below_does_not(
    name: str, key: str, value: float, passes: float, beyond: float, words: str
) -> None:
    bounds = strained(0.1)
    (check,) = with_settings((told(name, value, bounds),), bounds, 0.4, RUBBER)
    assert advice(check) == words
    for limit, holds in ((passes, True), (beyond, False)):
        relaxed = replace(bounds, limits=relaxed_limits(bounds, key, limit))
        share = value * 0.1 / limit if key == "static_strain" else value
        assert told(name, share, relaxed).passed is holds


def test_nothing_is_advised_beyond_what_a_card_or_a_desk_bears() -> None:
    bounds = strained(0.1)
    far = (
        told("pad strain", 1.6, bounds),  # 0.16, over the card's own 0.15
        told("sliding", 0.5, bounds),  # a third of 1.5: friction of 1.2
        told("foot width", 0.2, bounds),
        told("standing upright", 0.49, bounds),  # gravity takes more than half
    )
    assert with_settings(far, bounds, 0.4, RUBBER) == far
    unset = replace(bounds, limits=replace(bounds.limits, static_strain=None))
    over = (told("pad strain", 1.1, unset),)
    assert with_settings(over, unset, 0.4, RUBBER) == over


def test_friction_that_is_told_is_as_much_more_as_the_margin_lacks() -> None:
    bounds = strained(0.1)
    (check,) = with_settings((told("sliding", 1.2, bounds),), bounds, 0.4)
    # 0.4 x 1.5 / 1.2
    assert advice(check) == (
        "it would pass with friction of 0.5 on the desk (limits.desk_friction, measured); or put "
        "a flexible tread under the soles with feet.tread"
    )


def test_a_speed_from_which_it_is_quieter_is_told() -> None:
    loud = Check(name=QUIETER, value=-2.4, limit=0.0, unit="dB(A)", passed=False)
    found = replace(evaluation(), works_from=0.0721)
    (check,) = with_speed((loud,), found)
    assert advice(check).startswith("print at 73 mm/s or faster, put a slab under the printer")
    assert with_speed((loud,), replace(found, works_from=None)) == (loud,)
    quiet = replace(loud, value=2.4, passed=True)
    assert with_speed((quiet,), found) == (quiet,)
