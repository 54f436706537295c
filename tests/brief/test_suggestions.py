"""What a message suggests is what was meant: typed literally, it never becomes another quantity."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from typing import Any

import pytest
from briefs import BARE, ROOM, faults, swapped, with_motor
from hypothesis import given, settings
from hypothesis import strategies as st

from isolator.brief import read_brief_text
from isolator.brief.brief import BriefTable
from isolator.reading.faults import InputError
from isolator.reading.keys import Key
from isolator.reading.notes import Notes
from isolator.reading.table import Table, Within

G = 9.80665

GIVEN = "\n".join(
    f'[[feet.given]]\nposition = ["{x} mm", "{y} mm", "0 mm"]\nstiffness = {{}}'
    for x, y in ((180, 190), (-180, 190), (0, -190))
)
SIX = '["8 N/mm", "8 N/mm", "20 N/mm"]'
SLAB = '[slab]\nsize = ["460 mm", "480 mm", "40 mm"]\nmass = "20 kg"\n'
LOAD = '[[load]]\nforce = ["0 N", "0 N", "{}"]'

ONE_FAULT = [
    (
        swapped(('["380 mm", "410 mm", "450 mm"]', '["3/4", "410 mm", "450 mm"]'), text=BARE),
        'printer.size[1]: found "3/4"; wanted a length with its unit; '
        'if it is of an inch, write it like "0.75 in"',
    ),
    (
        swapped(('["50 mm/s"]', "60"), text=BARE),
        "motion.speeds: found 60; wanted a list of 1 to 50, each a speed with its unit; "
        'write it like ["60 mm/s"]',
    ),
    (
        swapped(('mass = "9 kg"', 'mass = "70 N"'), text=BARE),
        'printer.mass: found "70 N"; wanted a mass, in one of its units; '
        '70 N is 7.138 kg on a scale: write it like "7.138 kg"',
    ),
    (
        BARE + LOAD.format("3kg"),
        'load[1].force[3]: found "3kg"; wanted a force, in one of its units; '
        '3 kg weighs 29.42 N: write it like "29.42 N"',
    ),
    (
        swapped(('["380 mm", "410 mm", "450 mm"]', """['18.5"', "410 mm", "450 mm"]"""), text=BARE),
        'printer.size[1]: found "18.5\\""; wanted a length with its unit; write it like "18.5 in"',
    ),
    (
        swapped(('["380 mm", "410 mm", "450 mm"]', '"380 x 410 x 450 mm"'), text=BARE),
        'printer.size: found "380 x 410 x 450 mm"; wanted a list of 3 (width, depth and height), '
        'each a length with its unit; write it like ["380 mm", "410 mm", "450 mm"]',
    ),
    (
        swapped(('["50 mm/s"]', '["20..100 mm/s"]'), text=BARE),
        'motion.speeds[1]: found "20..100 mm/s"; wanted a speed with its unit; '
        'write each on its own: "20 mm/s", "100 mm/s"',
    ),
    (
        swapped(('["50 mm/s"]', '"20..100 mm/s"'), text=BARE),
        'motion.speeds: found "20..100 mm/s"; wanted a list of 1 to 50, each a speed with its '
        'unit; write it like ["20 mm/s", "100 mm/s"]',
    ),
    (
        swapped(('["50 mm/s"]', '"50 mm/s"'), text=BARE),
        'motion.speeds: found "50 mm/s"; wanted a list of 1 to 50, each a speed with its unit; '
        'write it like ["50 mm/s"]',
    ),
    (
        BARE + 'acceleration = "1,500 mm/s^2"\n',
        'motion.acceleration: found "1,500 mm/s^2"; wanted an acceleration with its unit; '
        'its comma may mean two things: write "1500 mm/s^2" or "1.500 mm/s^2"',
    ),
    (
        BARE + 'belt_pitch = "0,08 in"\n',
        'motion.belt_pitch: found "0,08 in"; wanted a length with its unit; '
        'write it like "0.08 in"',
    ),
    (
        BARE + "belt_stiffness = 60\n",
        "motion.belt_stiffness: found 60; wanted a stiffness with its unit; "
        'write it like "60 N/mm"',
    ),
    (
        BARE + "[[fan]]\nspeed = 5000\n",
        'fan[1].speed: found 5000; wanted a frequency with its unit; write it like "5000 rpm"',
    ),
    (
        with_motor('holding_torque = "4 kg*cm"'),
        'motor[1].holding_torque: found "4 kg*cm"; wanted a torque, in one of its units; '
        '4 kg*cm is 0.3923 N*m by weight: write it like "0.3923 N*m"',
    ),
    (
        with_motor('holding_torque = "45 Ncm"'),
        'motor[1].holding_torque: found "45 Ncm"; wanted a torque, in one of its units; '
        'write it like "45 N*cm"',
    ),
    (
        with_motor('frame_size = "NEMA17"'),
        'motor[1].frame_size: found "NEMA17"; wanted 14, 17 or 23; write it bare, as 17',
    ),
    (
        with_motor("frame_size = 42"),
        "motor[1].frame_size: found 42; wanted 14, 17 or 23; measure its face: 14 is 35 mm, 17 is "
        "42 mm, 23 is 56 mm wide",
    ),
    (
        BARE + 'microsteps = "1/16"\n',
        'motion.microsteps: found "1/16"; wanted a whole number from 1 to 256; '
        "write it bare, as 16",
    ),
    (
        BARE + '[desk]\nmaterial = "hollow-core door"\n',
        'desk.material: found "hollow-core door"; wanted one of hollow-board, mdf, '
        "chipboard, plywood, solid-wood, glass, steel, stone, concrete; hollow-board comes "
        "nearest; write one of these words, in quotes, or tell the youngs_modulus and density of "
        "another top",
    ),
    (
        BARE + '[desk]\nmaterial = "Granite"\n',
        'desk.material: found "Granite"; wanted one of stone, mdf, chipboard, plywood, '
        "solid-wood, hollow-board, glass, steel, concrete; stone comes nearest; write one of "
        "these words, in quotes, or tell the youngs_modulus and density of another top",
    ),
    (
        BARE + '[feet.now]\nmaterial = "nr-70"\nshape = "washer"\nsize = ["42 mm", "24 mm"]\n'
        'thickness = "3 mm"\n',
        'feet.now.shape: found "washer"; wanted one of ring, disc, rectangle, square-with-hole; '
        "ring comes nearest; write one of these words, in quotes",
    ),
    (
        BARE + '[print]\nmaterial = "pvc"\n',
        'print.material: found "pvc"; wanted one of petg, abs, asa, pla, pc, pa; '
        "write one of these words, in quotes",
    ),
    (
        BARE + '[driver]\nsense_resistor = "0.11 ohm"\n',
        "driver.sense_resistor: found an old name; wanted its new name, current_shunt; "
        'write current_shunt = "0.11 ohm"',
    ),
    (
        BARE + '[driver]\nsense_resistors = "0.11 ohm"\n',
        "driver.sense_resistors: found an unknown key; wanted a key of [driver]; "
        "it knows current_shunt, gain, voltage",
    ),
    (
        BARE + '[feet]\nengrave = "off"\n',
        'feet.engrave: found "off"; wanted true or false; write it bare, as false',
    ),
    (
        BARE + '[limits]\nslip_margin = "1,5"\n',
        'limits.slip_margin: found "1,5"; wanted a plain number from 1 to 10; '
        "write it bare, as 1.5",
    ),
    (
        BARE + '[stock]\nshapes = "disc"\n',
        'stock.shapes: found "disc"; wanted a list of 1 to 100, each one of disc, ring, '
        'rectangle, square-with-hole, buffer, half-ball; write it like ["disc"]',
    ),
    (
        BARE + '[stock]\nwidths = ["60 mm", "14 mm", "nan mm"]\n',
        'stock.widths[3]: found "nan mm"; wanted a length with its unit; write it like "… mm"',
    ),
]


@pytest.mark.parametrize(("text", "message"), ONE_FAULT)
def test_one_fault_is_one_line_that_changes_no_meaning(text: str, message: str) -> None:
    assert faults(text) == [f"brief.toml: {message}"]


def test_bare_stiffnesses_are_suggested_in_the_unit_of_the_starter() -> None:
    text = BARE + "\n".join((GIVEN.format("[8, 8, 20]", SIX, SIX), ""))
    assert faults(text) == [
        f"brief.toml: feet.given[1].stiffness[{n}]: found {k}; wanted a stiffness with its unit; "
        f'write it like "{k} N/mm"'
        for n, k in ((1, 8), (2, 8), (3, 20))
    ]


def keys_of(kind: type[Table], path: str = "") -> Iterator[tuple[str, Key[Any]]]:
    """Yield every key of the brief with its dotted name, for one quantity or a list of them."""
    for name, it in kind.declared().items():
        if isinstance(it, Within):
            yield from keys_of(it.kind, f"{path}{name}.")
        elif "with its unit" in it.wanted:
            yield f"{path}{name}", it


KEYS = dict(keys_of(BriefTable))
SINGLE = {name: key for name, key in KEYS.items() if not key.wanted.startswith("a list")}


def shown_unit(key: Key[Any]) -> str:
    """Return the unit that the starter writes for a key of one quantity."""
    return str(key.write(1.0, 6)).split(" ", 1)[1]


def test_the_starters_examples_are_in_the_unit_that_messages_suggest() -> None:
    for name, key in KEYS.items():
        example = key.said if isinstance(key.said, (str, list)) else key.example
        if example is None:
            continue
        unit = re.search(r"… ([^\"]+)\"", key.like)
        first = example[0] if isinstance(example, list) else example
        assert unit is not None
        assert first.split(" ", 1)[1] == unit.group(1), name


@settings(deadline=None)  # the first conversion loads the unit library
@given(
    name=st.sampled_from(sorted(SINGLE)),
    number=st.one_of(
        st.integers(-10, 5000).map(str),
        st.floats(1e-3, 1e5).map(lambda value: f"{value:.4g}"),
        st.integers(1, 999).map(lambda value: f"{value},{value % 10}"),
        st.integers(1, 9).map(lambda value: f"{value},500"),
        st.integers(1, 9).map(lambda value: f"1/{value}"),
    ),
    unit=st.sampled_from(
        ["", " mm", " MM", '"', " kg", "KG", " N", " n/mm", " lb", " s", " nan", " furlongs", "°"]
    ),
)
def test_a_suggestion_is_taken_and_is_what_was_meant(name: str, number: str, unit: str) -> None:
    """Typed literally it is read, and is the number typed or a conversion that the message tells.

    The number stands with the unit that was typed, where that has a meaning for the key, else
    with the one of the starter; a decimal comma or a fraction may be written as a decimal number.
    """
    key, notes, typed = SINGLE[name], Notes("brief.toml"), f"{number}{unit}"
    key.read(notes, name, typed)
    for fault in notes.faults:
        told = re.findall(r'"([^"]*)"', fault.suggestion)
        assert "nan" not in fault.suggestion
        for text in told:
            if "…" in text:
                continue
            again = Notes("brief.toml")
            value = key.read(again, name, text)
            assert again.faults == [], (typed, text)
            assert not math.isnan(value)
            figure, written = text.split(" ", 1)
            if "on a scale" in fault.suggestion or "weigh" in fault.suggestion:
                said = fault.suggestion.split()
                assert float(said[0]) in meanings(number)
                assert said[1] == unit.strip()
                assert f" {text}" in fault.suggestion.split(":")[0]
                assert weight_of(number, unit, value)
            else:
                assert float(figure) in meanings(number), (typed, text)
                of_an_inch = fault.suggestion.startswith("if it is of an inch, ") and "/" in typed
                assert written == shown_unit(key) or same_unit(
                    '"' if of_an_inch and not unit.strip() else unit, written
                ), (typed, text)


def meanings(number: str) -> list[float]:
    """Return what a number may mean, as it was typed."""
    if "/" in number:
        return [float(f"{1 / int(number.split('/')[1]):.6g}")]
    if "," in number:
        return [float(number.replace(",", ".")), float(number.replace(",", ""))]
    return [float(number)]


def same_unit(typed: str, written: str) -> bool:
    """Return whether a unit is the one typed, but for capitals and the sign of an inch."""
    typed = typed.strip()
    return typed.casefold() == written.casefold() or (typed, written) in (('"', "in"), ("°", "deg"))


def weight_of(number: str, unit: str, value: float) -> bool:
    """Return whether `value` is what a typed mass weighs, or what a scale shows of a force."""
    typed = meanings(number)[0]
    masses = {"kg": 1.0, "KG": 1.0, "lb": 0.45359237}
    expected = typed / G if unit.strip() == "N" else typed * masses[unit.strip()] * G
    return value == pytest.approx(expected, rel=1e-3)  # told to four digits


def test_a_slab_of_two_sizes_is_one_fault() -> None:
    text = BARE + SLAB.replace(', "40 mm"', "")
    assert faults(text) == [
        "brief.toml: slab.size: found a list of 2; wanted a list of 3 (width, depth and "
        'thickness), each a length with its unit; write it like ["… mm", "… mm", "… mm"]'
    ]


@pytest.mark.parametrize("value", ["nan", '"nan mm"', '"x"', "[]", "7"])
def test_a_value_at_fault_never_shows_up_in_a_later_message(value: str) -> None:
    """One value of a whole brief is wrong: no message tells what stands in for it."""
    text = f'{ROOM}\n[stock]\nwidths = ["60 mm", "14 mm", "2 mm"]\n{SLAB}'
    wrong = 0
    for found in re.finditer(r'(?<= = )[^"\[#\n]+|"[^"\n]*"', text):
        told = faults_or_none(f"{text[: found.start()]}{value}{text[found.end() :]}")
        wrong += bool(told)
        for line in told:
            assert "nan" not in line.replace(f"found {value}", ""), line
    assert wrong > 20


def faults_or_none(text: str) -> list[str]:
    try:
        read_brief_text(text, "brief.toml")
    except InputError as refusal:
        return [fault.line() for fault in refusal.faults]
    return []
