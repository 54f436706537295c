"""result.json holds what was found under the keys promised to scripts, SI, and is strict JSON."""

from __future__ import annotations

import dataclasses
import json
import math

import pytest
from report_sample import MODES, SCATTER, checks, evaluation, findings

from isolator.report.findings import Findings
from isolator.report.json.result import to_json
from isolator.report.json.values import check
from isolator.vibration.band import Check

BAND = {"low", "nominal", "high"}
KEYS = {  # as promised to scripts, extras apart
    "modes": {"name", "frequency_hz", "damping_ratio"},
    "feet": {"position_m", "load_n", "strain", "sag_m", "stiffness_n_per_m"},
    "speeds": {"speed_m_per_s", "verdict", "lines"},
    "loads": {"name", "frequencies"},
    "sway": {"worst_m", "stroke_m", "speed_m_per_s", "limit_m"},
    "stability": {"tip_margin", "slip_margin", "gravity_factor"},
    "motors": {
        "name",
        "stack_height_m",
        "pulley_spacer_height_m",
        "shaft_left_m",
        "tilt_rad",
        "pulley_shift_m",
        "twist_frequency_hz",
        "screws",
        "checks",
    },
    "checks": {"name", "value", "limit", "unit", "relation", "passed", "advice", "would_pass"},
    "candidates": {"tried", "rejected", "passed"},
}


def strict(told: Findings) -> dict[str, object]:
    """Through text and back, refusing what JSON does not know."""
    return json.loads(json.dumps(to_json(told), allow_nan=False))


def test_what_a_brief_answers_of_noise_is_told_with_what_it_comes_to() -> None:
    told = dataclasses.replace(findings(), noise={"fans_only": True, "on_towel": False})
    found = strict(told)["triage"]
    assert (found["verdict"], found["told"]) == ("no", "Is it the feet? No: feet will not help.")
    assert [each["name"] for each in found["causes"]] == ["fans"]
    assert found["answers"]["on_towel"] is False
    assert found["answers"]["hiss"] is None
    assert "triage" not in strict(findings())


def test_json_has_every_promised_key() -> None:
    got = strict(findings())
    for key, inner in KEYS.items():
        first = got[key][0] if isinstance(got[key], list) else got[key]
        assert inner <= set(first), key
    assert isinstance(got["assumed"], list)
    assert isinstance(got["sources"], list)
    assert set(got["modes"][0]["frequency_hz"]) == BAND
    assert set(got["feet"][0]["load_n"]) == BAND
    tone = got["speeds"][0]["lines"][0]
    promised = {"source", "frequency_hz", "direction_deg", "transmissibility", "insertion_loss_db"}
    assert promised <= set(tone)
    assert set(tone["insertion_loss_db"]) == set(tone["against_now_db"]) == {*BAND, "promised"}
    point = got["loads"][0]["frequencies"][0]
    assert {"frequency_hz", "transmitted_n", "transmissibility"} <= set(point)


@pytest.mark.parametrize(
    ("told", "relation", "would_pass"),
    [
        (
            Check(
                name="sway",
                value=0.7,
                limit=0.5,
                unit="mm",
                passed=False,
                figures=(("acceleration_mm_s2", 1700.0), ("sway_mm", 0.7)),
            ),
            "<=",
            [
                ("at 1700 mm/s^2 (motion.acceleration)", "motion.acceleration", "1700 mm/s^2"),
                ("with limits.sway at 0.7 mm", "limits.sway", "0.7 mm"),
            ],
        ),
        (
            Check(
                name="level",
                value=7.0,
                limit=5.0,
                unit="mm/m",
                passed=False,
                figures=(("inward_mm", 12.0),),
            ),
            "<=",
            [
                (
                    "with the centre of mass 12 mm nearer to the middle of the feet",
                    None,
                    None,
                )
            ],
        ),
        # on its limit a check tells its own side
        (Check(name="tipping", value=1.5, limit=1.5, unit="×", passed=True), ">=", []),
        (Check(name="sliding", value=1.4, limit=1.5, unit="×", passed=False), ">=", []),
        (Check(name="level", value=2.0, limit=5.0, unit="mm/m", passed=True), "<=", []),
    ],
)
def test_json_tells_which_side_holds_and_what_would_pass(
    told: Check, relation: str, would_pass: list[tuple[str, str | None, str | None]]
) -> None:
    got = check(told)
    assert got["relation"] == relation
    rows = [(each["words"], each["key"], each["value"]) for each in got["would_pass"]]
    assert rows == would_pass


def test_json_puts_every_number_under_its_own_key() -> None:
    got = strict(findings())
    assert [mode["name"] for mode in got["modes"]] == list(MODES)  # ascending, given reversed
    assert got["modes"][3]["frequency_hz"] == {
        "low": 9.7 / SCATTER,
        "nominal": 9.7,
        "high": 9.7 * SCATTER,
    }
    assert got["feet"][1]["position_m"] == [0.18, -0.19, -0.0065]
    assert got["feet"][1]["stiffness_n_per_m"] == [3101.0, 3201.0, 11051.0]
    assert got["feet"][2]["sag_m"] == 0.0033
    assert got["feet"][3]["strain"] is None
    assert got["sway"] == {
        "worst_m": 0.00031,
        "usual_m": {"low": 0.00021, "nominal": 0.00026, "high": 0.00029},
        "at_feet_m": 0.00012,
        "axis": "y",
        "stroke_m": 0.012,
        "speed_m_per_s": 0.085,
        "limit_m": 0.0005,
        "step_m": 0.00017,
    }
    assert got["stability"] == {
        "tip_margin": 4.3,
        "slip_margin": 2.7,
        "gravity_factor": 0.88,
        "force_factor": 2.2,
    }
    assert got["candidates"] == {
        "tried": 60_000,
        "rejected": {"sway": 31_210, "strain": 9_875},
        "passed": 17_411,
        "shut_out": {"strain": ["foam"]},
        "quieter_without": {"strain": 3.5},
    }
    assert got["speeds"][1]["heard_change_db"] == {
        "desk": {"low": -6.1, "nominal": -2.7, "high": 0.6},
        "frame": {"low": 0.0, "nominal": 0.0, "high": 0.0},
    }
    told = got["alternatives"]
    assert isinstance(told, list)
    chosen, keep = told
    assert (chosen["kind"], chosen["size_m"], chosen["chosen"]) == (
        "foam",
        [0.04, 0.03, 0.01],
        True,
    )
    assert (keep["kind"], keep["sway_m"], keep["chosen"]) == ("keep", 9e-05, False)
    assert got["loads"][0]["frequencies"][0]["transmitted_n"] == [0.01, 0.02, 0.17]
    assert got["assumed"][0]["key"] == "motion.stroke"


def test_json_tells_nothing_where_there_is_nothing() -> None:
    bare = dataclasses.replace(findings(searched=False), now=None, chosen=evaluation(now=False))
    got = strict(bare)
    assert "now" not in got
    assert all("against_now_db" not in tone for one in got["speeds"] for tone in one["lines"])
    assert got["candidates"] == {
        "tried": 0,
        "rejected": {},
        "passed": 0,
        "shut_out": {},
        "quieter_without": {},
    }
    fan = next(tone for tone in got["speeds"][0]["lines"] if tone["source"] == "fan")
    assert fan["direction_deg"] is None
    endless = dataclasses.replace(checks()[0], value=math.inf, limit=math.nan)
    check = strict(dataclasses.replace(bare, checks=(endless,)))["checks"][0]
    assert (check["value"], check["limit"]) == (None, None)
