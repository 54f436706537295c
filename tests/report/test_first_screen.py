"""The first screen of a design and of a check: lines, columns, what must never be lost."""

from __future__ import annotations

import dataclasses
import re

import pytest
import report_motors
from hypothesis import given
from hypothesis import strategies as st
from report_sample import HEARD, evaluation, findings, speed

from isolator.motors.results import MotorResult
from isolator.report.sentences.headline import headline, speed_word, verdict_words
from isolator.report.sentences.loudness import loudness, ratio
from isolator.report.sentences.short_checks import hold_words, missed_sentence
from isolator.report.sentences.short_motors import motor_items
from isolator.report.sentences.tiles import mount_sentences
from isolator.report.terminal.answer import FILES, LINES, answer_lines
from isolator.report.terminal.checked import checked_lines
from isolator.report.terminal.rows import Row, fitted
from isolator.vibration.band import Band, Check
from isolator.vibration.results import Heard
from isolator.vibration.verdict import verdict


@pytest.mark.parametrize("width", [80, 100, 132])
@pytest.mark.parametrize("passing", [True, False])
@pytest.mark.parametrize("speeds", [1, 3, 20])
def test_an_answer_has_its_lines_and_columns(width: int, passing: bool, speeds: int) -> None:
    verdicts = list(HEARD)
    many = tuple(
        speed(0.02 * n, verdicts[n % len(verdicts)], now=True) for n in range(1, speeds + 1)
    )
    found = findings(passing=passing)
    found = dataclasses.replace(found, chosen=dataclasses.replace(found.chosen, speeds=many))
    lines = answer_lines(found, width)
    assert len(lines) + FILES <= LINES
    assert max(map(len, lines)) <= width
    labels = {line[2:12].strip() for line in lines}
    assert {"MAKE", "speed", "avoid", "QUALITY", "CHECKS"} <= labels
    assert ("PROBLEMS" in labels) == (not passing)


def test_speeds_are_told_by_their_loudest_where_there_are_many() -> None:
    bands = [Band(low=-n - 2.0, nominal=-float(n), high=-n + 2.0) for n in range(1, 21)]
    many = tuple(
        dataclasses.replace(
            speed(0.01 * n, "neutral", now=True),
            heard=Heard(desk=band, frame=band),
        )
        for n, band in enumerate(bands, 1)
    )
    lines = answer_lines(
        dataclasses.replace(findings(), chosen=dataclasses.replace(evaluation(), speeds=many)), 80
    )
    text = "\n".join(lines)
    assert "1 dB(A) quieter" in text
    assert "20 dB(A) quieter" not in text
    assert re.search(r"1\d more +quieter than these \(--details\)", text)


def test_the_headline_tells_every_speed_once_the_best_first() -> None:
    assert headline(findings()) == (
        "quieter at 100 mm/s, may be louder at 60 mm/s, louder at 40 mm/s"
    )
    failing = findings(passing=False)
    assert headline(failing).startswith("no feet hold every limit. The nearest: quieter at 100")
    checked = findings(passing=False, searched=False)
    assert headline(checked).endswith("louder at 40 mm/s; 2 checks fail")
    assert headline(dataclasses.replace(findings(), kept=True)).startswith(
        "keep the feet that are there"
    )


@pytest.mark.parametrize(
    ("band", "word"),
    [
        ((-10.0, -7.0, -3.2), "quieter"),
        ((-10.0, -7.0, 0.4), "probably quieter"),
        ((-10.0, -2.4, 0.4), "little change"),
        ((-10.0, -2.6, 0.4), "probably quieter"),  # told as 3 dB(A), as 3.0 is
        ((-10.0, -7.0, 2.7), "may be louder"),  # told as "10 quieter to 3 louder"
        ((-1.0, 0.2, 3.1), "may be louder"),
        ((-1.0, 1.2, 2.0), "louder"),
    ],
)
def test_a_speed_is_never_called_quieter_where_its_band_is_told_as_louder(
    band: tuple[float, float, float], word: str
) -> None:
    low, nominal, high = band
    heard = Band(low=low, nominal=nominal, high=high)
    one = dataclasses.replace(
        speed(0.06, verdict(heard), now=True), heard=Heard(desk=heard, frame=heard)
    )
    assert speed_word(one) == verdict_words(one)[1] == word


def test_a_check_tells_what_it_does_not_promise() -> None:
    def told(ceiling: float) -> str:
        lines = checked_lines(dataclasses.replace(findings(searched=False), ceiling_db=ceiling), 80)
        return " ".join(" ".join(lines).split())

    assert ">6: quieter by 6 dB and more; how much more is promised of no single tone" in told(6.0)
    nothing = told(0.2)
    # a tone that is cut is never told as no change beside a headline that says quieter
    assert " <1 >0 " in nothing
    assert ">0: quieter; by how much is promised of no single tone, as the frame itself" in nothing
    assert "promised" not in told(90.0)


def test_targets_that_are_missed_are_counted_and_named() -> None:
    checks = [
        Check(name="sway", value=0.6, limit=0.5, unit="mm", passed=False, binding=True),
        Check(name="radial load", value=1.9, limit=1.0, unit="x", passed=False, binding=False),
        Check(name="level", value=0.0, limit=5.0, unit="mm/m", passed=True, binding=False),
    ]
    told = dataclasses.replace(findings(), checks=tuple(checks))
    assert hold_words(told) == "0 other checks hold (1 target missed)"
    assert missed_sentence(checks) == (
        "Targets missed, which stop nothing: radial load: 1.9 x, wanted at most 1 x."
    )
    assert missed_sentence(checks[2:]) == ""
    share = dataclasses.replace(checks[1], unit="× its limit")
    assert missed_sentence([share]).endswith(": radial load: 1.9 × its limit.")


# doubling of loudness a 10 dB: ISO 532-1, from memory
@given(st.floats(-40.0, 40.0))
def test_words_for_decibels_follow_the_loudness(change: float) -> None:
    words = loudness(change)
    fractions = {
        "a fifth as": 0.2,
        "a quarter as": 0.25,
        "a third as": 1 / 3,
        "half as loud again": 1.5,
        "about half as loud": 0.5,
        "two thirds": 2 / 3,
        "twice": 2.0,
        "three times": 3.0,
    }
    said = next((value for name, value in fractions.items() if name in words), None)
    if said is not None and not words.startswith(("less", "more")):
        assert said / 1.35 < ratio(change) < said * 1.35
    assert ("quieter" in words or words.endswith("as loud")) or change > -2.6
    assert (words == "") == (round(change) == 0)


items = st.lists(st.text("abc ", min_size=1, max_size=90).filter(str.strip), max_size=6)


@given(
    st.lists(st.tuples(items, st.integers(1, 4), st.integers(0, 9)), max_size=6),
    st.integers(40, 130),
)
def test_rows_share_their_lines(rows: list, width: int) -> None:
    made = [
        Row(label=f"ROW {n}", items=tuple(told), least=1, most=most, spare=spare)
        for n, (told, most, spare) in enumerate(rows)
    ]
    lines = fitted(made, width, 8)
    assert all(len(line) <= max(width, 102) for line in lines)
    # every row that has something to say says something
    assert [line[2:7] for line in lines if line[2:5] == "ROW"] == [
        row.label for row in made if row.items
    ]


def test_a_check_tells_every_tone_in_one_table() -> None:
    lines = checked_lines(findings(searched=False), 80)
    assert max(map(len, lines)) <= 80
    head = next(at for at, line in enumerate(lines) if line.endswith("dB less"))
    assert lines[head].split() == ["speed", "tone", "direction", "Hz", "T", "dB", "less"]
    body = lines[head + 1 : lines.index("", head)]
    assert sum("belt tooth" in line for line in body) == 3
    # a fan is the same at any speed
    assert [line.split()[:3] for line in body if "fan" in line] == [["any", "speed", "fan"]]
    assert any(line.startswith("force") and "shaken shelf" in line for line in body)
    assert "0.17" in next(line for line in body if "shaken shelf" in line)


def test_motors_that_get_something_stand_before_those_left_as_they_are() -> None:
    damped, plain, bare = report_motors.motors()
    told = motor_items((bare, damped, plain))
    assert [each.partition(":")[0] for each in told] == [damped.name, plain.name, bare.name]


def test_the_price_of_dampers_is_told_for_the_belts_of_all_that_have_one() -> None:
    damped, *_ = report_motors.motors()

    def ringing(name: str, before: float, after: float) -> MotorResult:
        belt = dataclasses.replace(damped.belt, resonance_before=before, resonance_after=after)
        return dataclasses.replace(damped, name=name, belt=belt)

    same = (ringing("left", 63.6, 48.7), ringing("right", 63.8, 49.4))
    other = (*same, ringing("z", 80.2, 40.4))
    for motors, names, price in (
        (same[:1], "left: a rubber damper", "belt rings at 49 Hz, not 64 Hz"),
        (same, "left and right: a rubber damper each", "belts ring at 49 Hz, not 64 Hz"),
        (
            other,
            "left, right and z: a rubber damper each",
            "belts ring at 40 to 49 Hz, not 64 to 80 Hz",
        ),
    ):
        (told,) = mount_sentences(dataclasses.replace(findings(), motors=motors))
        assert told == f"Between motor and frame, {names}. Price: {price}."
