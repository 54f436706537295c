"""Motors in JSON, on the page and on the command line: every number once, in its unit."""

from __future__ import annotations

import dataclasses
import html
import itertools
import json
import math
import re
from functools import cache

import pytest
import report_motors
from report_drawn import COM_RANGE, EXPLODED, KIT, PICTURES, design
from report_sample import HOSTILE, findings, plots
from rich.console import Console
from test_report import Outline

from isolator.motors.results import MotorResult
from isolator.report.figures.stack_figure import stack_figure
from isolator.report.figures.stack_pile import damper_pile
from isolator.report.findings import Findings
from isolator.report.json.motors import motor_json
from isolator.report.json.result import to_json
from isolator.report.page.plots import Plots, plots_of
from isolator.report.page.render import render
from isolator.report.sentences import cautions, notes
from isolator.report.sentences.answer import heading
from isolator.report.sentences.dampers import motor_sentences
from isolator.report.terminal.summary import summary
from isolator.workshop.assembly import assembly_steps

UNITS = (  # how a number's key may end, by SI unit
    "_m",
    "_m_per_s",
    "_rad",
    "_deg",
    "_deg_c",
    "_hz",
    "_db",
    "_n",
    "_n_per_m",
    "_nm_per_rad",
    "_nm",
    "_w",
    "_v",
    "_per_s",
)
PURE = {"count", "turns", "share_of_current", "torque_margin"}  # numbers without a unit
BAND = {"low", "nominal", "high"}


def page(told: Findings, drawn: Plots | None = None) -> str:
    charts = plots_of(told, COM_RANGE) if drawn is None else drawn
    return render(told, {**PICTURES, "damper-exploded": EXPLODED}, KIT, charts)


@cache
def plain() -> str:
    """The page of findings with all kinds of motors, written once."""
    return page(findings(), plots())


def section(text: str) -> str:
    """What a page says about motors, blanks evened out."""
    start = text.index('<div class="folds" id="motors">')
    words = Outline(text[start : text.index('<div class="folds" id="parts">')]).words
    return " ".join(" ".join(words).replace("\u00a0", " ").split())


def printed(told: Findings, width: int) -> list[str]:
    shown = Console(width=width, no_color=True)
    with shown.capture() as caught:
        shown.print(summary(told))
    return [line.rstrip() for line in caught.get().splitlines()]


def leaves(key: str, value: object) -> list[tuple[str, object]]:
    if isinstance(value, dict):
        if set(value) == BAND:
            return [(key, each) for each in value.values()]
        # both ways out under one key
        return [
            leaf
            for name, each in value.items()
            for leaf in leaves(key if name in ("desk", "frame") else name, each)
        ]
    if isinstance(value, list):
        return [leaf for each in value for leaf in leaves(key, each)]
    return [(key, value)]


@pytest.mark.parametrize("motor", report_motors.motors(), ids=lambda motor: motor.kind)
def test_every_number_of_the_json_is_finite_and_its_key_names_a_unit(motor: MotorResult) -> None:
    got = json.loads(json.dumps(motor_json(motor), allow_nan=False))
    assert got["kind"] == motor.kind
    checks = got.pop("checks")
    assert [each["name"] for each in checks] == [each.name for each in motor.checks]
    numbers = [
        (key, value)
        for key, value in leaves("", got)
        if isinstance(value, int | float) and not isinstance(value, bool)
    ]
    assert len(numbers) > 30
    for key, value in numbers:
        assert key.endswith(UNITS) or key in PURE, key
        assert math.isfinite(value), key


def test_json_of_a_damper_puts_every_value_under_its_own_key() -> None:
    motor = report_motors.on_damper()
    got = motor_json(motor)
    damper = motor.damper
    assert damper is not None
    assert (got["stack_height_m"], got["pulley_spacer_height_m"]) == (0.0116, 0.0156)
    assert (got["shaft_left_m"], got["pulley_shift_m"]) == (0.0131, 0.00047)
    assert got["tilt_rad"] == motor.tilt
    assert got["twist_frequency_hz"] == {"low": 44.0, "nominal": 53.0, "high": 66.0}
    assert got["screws"][1] == {
        "count": 2,
        "thread": "M3",
        "length_m": 0.012,
        "head": "hexagon head, ISO 4017",
        "where": "frame-side plate through the bracket",
        "engagement_m": 0.0024,
        "turns": 4.8,
        "beside": "2 nuts ISO 4032, 2 washers ISO 7089",
    }
    told = got["damper"]
    assert told["tilt_stiffness_nm_per_rad"] == [161.0, 163.0]
    assert told["shear_stiffness_n_per_m"] == [142e3, 143e3]
    assert len(told["lines"]) == len(damper.lines)
    line = told["lines"][-1]
    assert {key: line[f"{key}_loss_db"]["nominal"] for key in ("damper", "feet", "both")} == {
        "damper": 0.7,
        "feet": 14.9,
        "both": 15.8,
    }
    assert line["torque_loss_db"]["nominal"] == damper.lines[-1].torque.nominal
    plain, bolted = (motor_json(each) for each in report_motors.motors()[1:])
    assert plain["damper"] is plain["twist_frequency_hz"] is bolted["damper"] is None
    endless = dataclasses.replace(motor.stack, tallest=math.inf)
    assert motor_json(dataclasses.replace(motor, stack=endless))["stack"]["tallest_m"] is None


def test_page_tells_of_each_kind_of_motor() -> None:
    text = section(plain())
    for motor in report_motors.motors():
        assert f"Motor {motor.name}" in text
        for sentence in motor_sentences(motor):
            assert sentence in text
    for told in (
        "Motor's face to the pulley; then the spacer 4.04 15.6",  # 15.6 − 11.6 + 0.04
        "Shaft left for the pulley; it needs 12.1, its margin with it 24.7 13.1",
        "The pulley ends 2.9 mm beyond the shaft's end.",
        "The pulley ends 1.9 mm short of the shaft's end.",
        "pull of both on the shaft 21.3 N; 39.7 N",
        "Tilt of the shaft under the pull, without a wedge 0.71°",
        "54.2 Hz; 61.7 Hz",
        "2 × M3 × 6 mm, button head, ISO 7380-1 motor-side plate into the motor "
        "holds by 4.4 mm, 8.8 turns",
        "51.3 °C as built now, 58.2 °C with the stack",
        "60 mm/s 1.5 75 21.3 175",  # turns a second, Hz, mN·m needed and at hand
        notes.TURNED,
        notes.ESTIMATES,
        EXPLODED.title,
        "torque loss [dB]",
        "frame-side plate 3.8 mm",
        "rubber 3 mm",
        "wedge 1.2 mm",
        "bracket 4.1 mm",
    ):
        assert told in text, told
    whole = " ".join(Outline(plain()).words)
    for caution in cautions.DAMPER.values():
        assert caution in whole
    assert whole.count("tilt left with the wedge") == 1  # a motor's check stands with it alone
    bolted = text[text.index("Motor lift") :]
    assert "Screws" not in bolted
    assert "Heights" not in bolted
    assert "safe" not in text


def test_cautions_of_a_damper_cover_what_can_hurt() -> None:
    text = " ".join((cautions.ALWAYS["earth"], *cautions.DAMPER.values())).lower()
    for word in (
        "unplug",
        "cool",
        "bonding wire",
        "metal of the frame",
        "no protective earth",
        "pla",
        "tension",
        "homing",
        "first layer",
    ):
        assert word in text, word
    assert "safe" not in text
    told = to_json(findings())["cautions"]
    assert set(cautions.DAMPER.values()) <= set(told)
    bare = dataclasses.replace(findings(), motors=report_motors.motors()[1:])
    assert not set(cautions.DAMPER.values()) & set(to_json(bare)["cautions"])
    # charts say nothing of cautions: those of all motors but the one left out
    charts = Plots(plots().charts, plots().motors[1:])
    without = page(bare, charts)
    assert not any(caution in without for caution in cautions.DAMPER.values())


def test_two_heights_of_belts_are_told_where_there_are_two() -> None:
    motor = report_motors.on_damper()
    assert motor.damper is not None
    two = dataclasses.replace(motor, damper=dataclasses.replace(motor.damper, two_heights=True))
    (told,) = set(motor_sentences(two)) - set(motor_sentences(motor))
    assert told.startswith("The two belts run at heights of their own")


def test_page_is_silent_without_motors() -> None:
    text = page(dataclasses.replace(findings(), motors=()))
    assert 'id="motors"' not in text
    assert 'href="#motors"' not in text
    assert EXPLODED.title in text  # a picture that was handed over is shown, among the parts
    assert 'href="#motors"' in plain()


def test_page_holds_together_whatever_motors_are_called() -> None:
    def named(motor: MotorResult) -> MotorResult:
        screws = tuple(dataclasses.replace(one, where=HOSTILE) for one in motor.screws)
        return dataclasses.replace(motor, name=HOSTILE, screws=screws)

    told = dataclasses.replace(
        findings(passing=False), motors=tuple(map(named, report_motors.motors()))
    )
    text = page(told)
    seen = Outline(text)
    assert seen.open == []
    assert len(seen.ids) == len(set(seen.ids))
    assert "script" not in seen.tags
    assert f"Motor {html.escape(HOSTILE)}".replace("&#x27;", "&#39;") in text
    assert f"Motor {HOSTILE}" in "\n".join(printed(told, 200))


def test_every_tone_is_told_once_with_its_worst_direction() -> None:
    text = section(plain())
    for line in report_motors.lines():
        worst = line.worst
        assert (
            f"{worst.torque.nominal:.0f} dB; −2 dB at {worst.direction_deg:.0f}°, "
            f"{worst.frequency:.0f} Hz".replace("-", "−")
        ) in text
    told = motor_json(report_motors.on_damper())["damper"]["lines"]
    assert [(one["speed_m_per_s"], one["source"]) for one in told] == [
        (speed, tone) for speed in report_motors.SPEEDS for tone in report_motors.TONES
    ]
    for one, line in zip(told, report_motors.lines(), strict=True):
        assert one["worst"]["direction_deg"] == line.worst.direction_deg
        assert one["worst"]["torque_loss_db"]["nominal"] == line.worst.torque.nominal
        assert one["worst"]["beyond_feet_loss_db"]["low"] == -3.1


def test_stack_is_drawn_to_scale_with_the_belt_where_it_was() -> None:
    motor = report_motors.on_damper()
    svg = stack_figure(motor, damper_pile(report_motors.sheet(), 0.0002), 1)
    belts = []
    wide = svg[: svg.index("</svg>")]
    for run in re.findall(r'<path d="([^"]*)"[^>]*style="[^"]*stroke: var\(--orange\)', wide):
        points = [(float(x), float(y)) for x, y in re.findall(r"([\d.]+) ([\d.]+)", run)]
        if len(points) == 2 and points[0][1] == points[1][1]:
            belts.append(points)
    heights = sorted({round(points[0][1], 2) for points in belts})
    scale = 165.0 / 42.3  # pixels a millimetre: the motor's body is drawn 165 wide
    assert len(belts) >= 2
    # whole layers leave the belt 0.04 mm low; SVG's y points down, written to 1e-6
    assert heights[-1] - heights[0] == pytest.approx(0.04 * scale, abs=0.011)
    assert heights[-1] > heights[0]


def test_terminal_reads_well_at_80_columns() -> None:
    told = findings(passing=False)
    lines = printed(told, 80)
    assert max(map(len, lines)) <= 80
    alone = [bool(re.fullmatch(r"\s*\S+", line)) for line in lines]
    assert not any(one and after for one, after in itertools.pairwise(alone))
    assert "Motor left [bold]" in lines
    text = " ".join(" ".join(lines).split())
    for words in (
        "11.6 mm (the shaft allows 15.2 mm); pulley on a spacer of 15.6 mm",
        "0.71° under the belts' pull, 0.16° may be left with a wedge of 0.71°",
        "53 Hz (44 to 66); louder at no speed from 47 mm/s up",
        "2 × M3 × 12 mm, hexagon head, ISO 4017: frame-side plate through the bracket, holds by "
        "2.4 mm, 4.8 turns; with 2 nuts ISO 4032, 2 washers ISO 7089",
        "FAILS tilt left with the wedge 0.28° ≤ 0.25° 12 % over",
        "→ tilt left with the wedge: slacken the belt, allow a wedge, or take stiffer or wider "
        "rubber",
    ):
        assert words in text, words
    assert text.count("tilt left with the wedge 0.28°") == 1  # with its motor alone
    assert lines[-4].startswith("60 000 candidates")
    last = lines.index("Motor lift")
    assert lines[last + 1 : last + 3] == ["No damper under motor lift: the brief wants none.", ""]


def test_assembly_is_told_once_and_in_order_dampers_among_it() -> None:
    steps = assembly_steps(design(), {"sponge": "Sponge"})
    text = page(dataclasses.replace(findings(), steps=steps), plots())
    told = " ".join(Outline(text).words)
    at = [told.index(step.title, told.index("How it goes together")) for step in steps]
    assert at == sorted(at)
    assert told.count("Glue the dampers") == told.count("How it goes together") == 1
    assert text.count('href="#steps"') == 1  # from the motors
    assert 'href="#steps"' not in plain()  # no steps, no way to them
    listed = to_json(dataclasses.replace(findings(), steps=steps))["steps"]
    assert [each["number"] for each in listed] == list(range(1, len(steps) + 1))
    keys = {"number", "title", "uses", "words", "cautions", "picture"}
    assert all(set(each) == keys for each in listed)
    assert [each["title"] for each in listed if not each["picture"]] == [
        "Print and cut",
        "Turn the printer over",
        "Take motors left [bold] and right off",
        "Put the spacer plates in",
        "Tension the belts",
        "Set it down and try it",
    ]


def test_feet_that_hold_are_not_called_the_nearest_for_a_motors_sake() -> None:
    told = findings()
    held = tuple(dataclasses.replace(check, passed=True) for check in told.checks)
    motor = told.motors[0]
    broken = dataclasses.replace(motor.checks[0], passed=False)
    motors = (dataclasses.replace(motor, checks=(broken,)), *told.motors[1:])
    own = {each for one in motors for each in one.checks}
    checks = (*(check for check in held if check not in own), broken)
    assert heading(dataclasses.replace(told, motors=motors, checks=checks)) == (
        "These feet meet every limit of the brief, but a motor does not hold all its checks"
    )
    feet = dataclasses.replace(held[0], name="sway", passed=False)
    worse = dataclasses.replace(told, motors=motors, checks=(*checks, feet))
    assert heading(worse) == "No design meets the limits; this is the nearest"
