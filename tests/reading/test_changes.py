"""`--set KEY=VALUE`: what is put where, and how a wrong one is told."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from briefs import BARE, ROOM
from command import isolator
from hypothesis import given
from hypothesis import strategies as st

from isolator.brief import read_brief_text
from isolator.brief.read import brief_source
from isolator.reading.changes import Change, changed, read_changes
from isolator.reading.faults import InputError


def read(*texts: str, brief: str = ROOM):  # type: ignore[no-untyped-def]
    return read_brief_text(brief, "brief.toml", read_changes(texts))


def test_values_are_set_and_told() -> None:
    brief = read(
        "printer.mass=12 kg",
        'motor[2].mass = "0.3 kg"',
        'motion.speeds=["55 mm/s", "2 in/s"]',
        "motion.pulley_teeth=16",
        "desk.size=['1400 mm', '700 mm']",
        "printer.mass=13 kg",  # the later one wins
    )
    assert brief.printer.mass == pytest.approx(13.0)
    assert [motor.mass for motor in brief.motors] == pytest.approx([0.28, 0.3])
    assert brief.motion.speeds == pytest.approx((0.055, 0.0508))
    assert brief.motion.pulley_teeth == 16
    assert brief.desk.size == pytest.approx((1.4, 0.7))
    assert brief.warnings[0] == 'printer.mass: set to "12 kg" on the command line'
    assert not any("desk.size" in each.key for each in brief.assumed)


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        (
            "printer.mass",
            '--set: found "printer.mass"; wanted a key, an equals sign and a value; write it like '
            '--set printer.mass="12 kg"',
        ),
        (
            "printer.mass= ",
            "--set printer.mass: found nothing; wanted a value; write it like "
            '--set printer.mass="12 kg"',
        ),
        (
            "printer.mass=12",
            '--set printer.mass: found 12; wanted a mass with its unit; write it like "12 kg"',
        ),
        (
            "printer.mas=12 kg",
            "--set printer.mas: found an unknown key; wanted a key of [printer]; did you mean "
            "mass?",
        ),
        (
            "prnter.mass=12 kg",
            "--set prnter.mass: found an unknown key; wanted a key of the brief; did you mean "
            "printer?",
        ),
        (
            "motor[3].mass=1 kg",
            "--set motor[3].mass: found 2 entries in motor; wanted an entry that is there; count "
            "from motor[1]",
        ),
        (
            "motor.mass=1 kg",
            "--set motor.mass: found a list in motor; wanted one of its entries; name it: "
            "motor[1].mass",
        ),
        (
            "printer[1]=1 kg",
            "--set printer[1]: found no list in printer; wanted a list to count in; leave out the "
            "number in brackets",
        ),
        (
            "name.first=x",
            '--set name.first: found "Reading-room printer" in name; wanted a table of keys; set '
            "name itself",
        ),
    ],
)
def test_a_wrong_one_is_told_by_its_key(typed: str, told: str) -> None:
    with pytest.raises(InputError) as refusal:
        read(typed)
    assert [fault.line() for fault in refusal.value.faults] == [f"command line: {told}"]


def test_faults_of_the_file_stay_with_the_file() -> None:
    with pytest.raises(InputError) as refusal:
        read("motor[1].axis=up", brief=ROOM.replace('"11.8 kg"', '"11.8"'))
    files = {fault.key: fault.file for fault in refusal.value.faults}
    assert files == {"printer.mass": "brief.toml", "--set motor[1].axis": "command line"}


def test_what_was_designed_can_be_read_again(tmp_path: Path) -> None:
    file = tmp_path / "brief.toml"
    file.write_text(BARE, encoding="utf-8")
    changes = read_changes(["printer.mass=12 kg", "room.temperature_low=12 degC", "desk.size=x"])
    changes = changes[:2]
    again = read_brief_text(brief_source(file, changes).decode("utf-8"), "brief.toml")
    once = read_brief_text(BARE, "brief.toml", changes)
    assert replace(once, warnings=again.warnings) == again
    assert brief_source(file, ()) == BARE.encode()


values = st.one_of(st.integers(-9, 9), st.booleans(), st.lists(st.integers(), max_size=3))
keys = st.lists(st.sampled_from("abc"), min_size=1, max_size=3).map(".".join)


@given(keys, values)
def test_what_is_set_is_there_and_nothing_else(key: str, value: object) -> None:
    before: dict[str, object] = {"a": {"b": {"d": 1}}, "e": 2}
    after = changed(before, [Change(key=key, value=value)])
    found: object = after
    for step in key.split("."):
        assert isinstance(found, dict)
        found = found[step]
    assert found == value
    assert before == {"a": {"b": {"d": 1}}, "e": 2}
    assert after["e"] == 2


def test_a_check_takes_it(tmp_path: Path) -> None:
    brief = tmp_path / "brief.toml"
    brief.write_text(ROOM, encoding="utf-8")
    words = ("check", brief, "--now", "--json", "--out", tmp_path / "out")
    heavy = isolator(*words, "--set", "printer.mass=23.6 kg").json()
    light = isolator(*words).json()
    loads = [sum(foot["load_n"]["nominal"] for foot in each["feet"]) for each in (heavy, light)]
    # 11.8 kg more at 9.80665 N/kg; equilibrium is solved to 1e-9 of the weight
    assert loads[0] - loads[1] == pytest.approx(11.8 * 9.80665, rel=1e-7)
    assert 'printer.mass: set to "23.6 kg" on the command line' in heavy["warnings"]
    wrong = isolator(*words[:2], "--set", "printer.mass=heavy")
    assert (wrong.code, wrong.out) == (2, "")
    assert wrong.err.startswith('command line: --set printer.mass: found "heavy"')
