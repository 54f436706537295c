"""Is it the feet: what answers and recordings with motors off come to."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from command import example, isolator
from hypothesis import given
from hypothesis import strategies as st
from scipy.io import wavfile

from isolator.brief import read_brief
from isolator.brief.noise import QUESTIONS
from isolator.measuring.triage import CAUSES, NO, PARTLY, UNKNOWN, YES, triage
from isolator.vibration.printer import build_printer

FAN = '\n[[fan]]\nname = "electronics"\nspeed = "4200 rpm"\nblades = 7\n'


@pytest.mark.parametrize(
    ("answers", "verdict", "names"),
    [
        ({}, UNKNOWN, []),
        ({"fans_only": True}, UNKNOWN, ["fans"]),
        ({"fans_only": True, "on_towel": False}, NO, ["fans"]),
        ({"fans_only": True, "at_turns": True}, NO, ["fans", "a loose pulley, coupler or belt"]),
        ({"motors_still": True, "hiss": True}, NO, ["hiss of the drivers"]),
        ({"pushed_by_hand": True, "slow_rattle": True}, NO, ["dry carriages or belts that rub"]),
        ({"slow_rattle": True}, NO, ["loose carriages"]),
        ({"on_towel": True}, YES, ["the desk sounds with it"]),
        ({"on_towel": True, "fans_only": True}, PARTLY, ["fans", "the desk sounds with it"]),
        ({"one_speed": True}, PARTLY, ["a tone meets a mode"]),
        ({"one_speed": True, "on_towel": False}, PARTLY, ["a tone meets a mode"]),
        ({"on_towel": False}, NO, []),
        ({"fans_only": False, "hiss": False}, UNKNOWN, []),
    ],
)
def test_answers_point_at_causes(answers: dict[str, bool], verdict: str, names: list[str]) -> None:
    found, causes = triage(answers)
    assert (found, [each.name for each in causes]) == (verdict, names)


@given(st.dictionaries(st.sampled_from(sorted(QUESTIONS)), st.booleans()))
def test_feet_are_never_blamed_alone_where_something_else_is_pointed_at(
    answers: dict[str, bool],
) -> None:
    verdict, causes = triage(answers)
    others = [each for each in causes if each.feet == NO]
    assert not (verdict == YES and others)
    if answers.get("fans_only") is True:
        assert verdict != YES
        assert any(each.name == "fans" for each in causes)


def test_every_cause_asks_what_is_asked() -> None:
    assert {key for each in CAUSES for key in (*each.points, *each.denies)} == {*QUESTIONS}


@pytest.fixture
def brief(tmp_path: Path) -> Path:
    path = tmp_path / "brief.toml"
    path.write_text(example("story-corner") + FAN, encoding="utf-8")
    return path


def test_speeds_meet_modes_where_a_tone_has_the_mode_s_frequency(brief: Path) -> None:
    found = isolator("triage", brief, "--json").json()["triage"]
    assert found["verdict"] == UNKNOWN
    assert set(found["answers"].values()) == {None}
    # a turn of a 16-tooth pulley is 32 mm of 2 mm pitch; 200 steps: 50 electrical cycles a turn
    # (Acarnley, Stepping Motors; from memory)
    for each in found["meetings"]["speeds"]:
        cycles = {"electrical": 1, "twice electrical": 2, "full step": 4}[each["source"]]
        assert each["frequency_hz"] == pytest.approx(
            cycles * 50.0 * each["speed_m_per_s"] / 0.032, rel=1e-9
        )
    assert {"bounce", "frame bends"} <= {e["mode"] for e in found["meetings"]["speeds"]}
    slowest, fastest = min(read_brief(brief).motion.speeds), max(read_brief(brief).motion.speeds)
    for each in found["meetings"]["speeds"]:
        assert 5e-3 <= each["speed_m_per_s"] <= 1.25 * fastest
        assert each["asked"] == (each["speed_m_per_s"] >= slowest / 1.25)
    told = isolator("triage", brief).out
    assert "  twist, 51 Hz, at 33 (electrical) mm/s\n" in told
    assert "  slower, as in first layers: at 8.1 to 20 mm/s (" in told


def test_feet_that_taps_told_are_those_whose_modes_are_met(brief: Path) -> None:
    def bounce() -> tuple[str, float]:
        found = isolator("triage", brief, "--json").json()["triage"]["meetings"]
        return found["feet"], next(
            each["frequency_hz"] for each in found["speeds"] if each["mode"] == "bounce"
        )

    text = brief.read_text(encoding="utf-8")
    brief.write_text("".join(s for s in text.splitlines(True) if "inset" not in s), "utf-8")
    before = bounce()
    given = "".join(
        f'\n[[feet.given]]\nposition = ["{x} mm", "{y} mm", "-5 mm"]\n'
        'stiffness = ["40 N/mm", "40 N/mm", "60 N/mm"]\n'
        for x in (-150, 150)
        for y in (-150, 150)
    )
    brief.write_text(brief.read_text(encoding="utf-8") + given, encoding="utf-8")
    mass = build_printer(read_brief(brief)).nominal.mass
    assert before[0] != "given feet"
    assert bounce() == ("given feet", pytest.approx(np.sqrt(4 * 60e3 / mass) / 2 / np.pi, rel=0.05))


def test_a_recording_with_motors_off_names_the_fan(brief: Path, tmp_path: Path) -> None:
    rng, rate = np.random.default_rng(3), 16_000
    time = np.arange(10 * rate) / rate
    fan, mains = np.sin(2 * np.pi * 480.2 * time), np.sin(2 * np.pi * 100 * time)
    # 4200 rpm, seven blades, 2 % slow: 480 Hz; and the mains
    file = tmp_path / "off.wav"
    sound = 0.1 * fan + 0.02 * mains + 0.005 * rng.standard_normal(len(time))
    wavfile.write(file, rate, (32_000 * sound).astype(np.int16))
    found = isolator("triage", brief, "--recording", file, "--json").json()["triage"]
    loudest, second = found["recording"]["tones"][:2]
    assert loudest["frequency_hz"] == pytest.approx(480.2, abs=1.0)
    assert loudest["likely"] == "electronics blades"
    assert second["likely"] == "2 × 50 Hz of the mains"
    assert (found["verdict"], found["answers"]["fans_only"]) == (UNKNOWN, True)
    assert found["told"] == (
        "Is it the feet? Open: fans are heard too; what else is heard with motors on?"
    )
    assert found["answers"]["hiss"] is None  # it tells of motors off, the question of a print
    told = isolator("triage", brief, "--recording", file, "--no", "fans-only", "--json")
    assert told.json()["triage"]["answers"]["fans_only"] is False  # what somebody says goes first


@pytest.mark.parametrize(
    ("tone", "rate", "stops", "heard", "why"),
    [
        (480.2, 16_000, False, True, None),
        (700.0, 16_000, False, None, "no tone is one of a fan that the brief tells"),
        (100.0, 16_000, False, False, None),  # the mains
        (100.0, 800, False, None, "and fans sound above"),
        (480.2, 16_000, True, None, "tones change within it: were the motors off?"),
    ],
)
def test_a_fan_is_answered_only_where_a_recording_tells(
    brief: Path,
    tmp_path: Path,
    tone: float,
    rate: int,
    stops: bool,
    heard: bool | None,
    why: str | None,
) -> None:
    time = np.arange(12 * rate) / rate
    sound = 0.1 * np.sin(2 * np.pi * tone * time) * ((time < 6.0) | (not stops))
    sound += 0.005 * np.random.default_rng(5).standard_normal(len(time))
    file = tmp_path / "off.wav"
    wavfile.write(file, rate, (32_000 * sound).astype(np.int16))
    found = isolator("triage", brief, "--recording", file, "--json").json()["triage"]
    assert found["answers"]["fans_only"] is heard
    assert found["recording"]["changes"] is stops
    told = " ".join(isolator("triage", brief, "--recording", file).out.split())
    assert (why or "with motors off it has:") in told
    assert ("fans-only stays open" in told) == (why is not None)


def test_answers_stand_in_the_brief_too_and_fit_a_screen(brief: Path) -> None:
    text = brief.read_text(encoding="utf-8")
    brief.write_text(text + "\n[noise]\nfans_only = true\nhiss = false\n", encoding="utf-8")
    ran = isolator("triage", brief, "--yes", "on-towel")
    lines = ran.out.splitlines()
    assert (ran.code, ran.err) == (0, "")
    assert lines[0] == "Is it the feet? In part: feet take some of it, the rest has other causes."
    assert len(lines) <= 25
    assert "  on-towel" not in ran.out
    assert "fans_only" not in ran.out


def test_wrong_answers_are_told(brief: Path) -> None:
    ran = isolator("triage", brief, "--yes", "fan-only")
    assert ran.code == 2
    assert ran.err.endswith('did you mean "fans-only"?\n')
    ran = isolator("triage", brief, "--yes", "hiss", "--no", "hiss")
    assert (ran.code, ran.err) == (
        2,
        "command line: --no: found hiss answered both yes and no; wanted one answer; "
        "leave one out\n",
    )
    brief.write_text(brief.read_text(encoding="utf-8") + '\n[noise]\nhiss = "a bit"\n')
    ran = isolator("triage", brief)
    assert (ran.code, ran.err) == (
        2,
        f'{brief}: noise.hiss: found "a bit"; wanted true or false; write it bare, as true or '
        "false\n",
    )
