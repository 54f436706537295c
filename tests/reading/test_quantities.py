"""Quantities against the definitions of their units, and the refusals as users read them."""

from __future__ import annotations

import math
import subprocess
import sys

import pytest
from hypothesis import given
from hypothesis import strategies as st

from isolator.reading import units
from isolator.reading.quantities import QuantityError, parse_quantity
from isolator.reading.units import KINDS, format_quantity

# NIST Special Publication 811 (2008), appendix B.8, conversion factors; exact where it prints
# them bold. Values from memory.
SP811 = [
    ("1 in", "m", 0.0254, 1e-15),
    ("1 thou", "m", 2.54e-5, 1e-15),
    ("1 ft", "m", 0.3048, 1e-15),
    ("1 lb", "kg", 0.45359237, 1e-15),
    ("1 oz", "kg", 0.028349523125, 1e-15),
    ("1 kgf", "N", 9.80665, 1e-15),
    ("1 lbf", "N", 4.448221615, 1e-9),  # SP 811 prints 7 to 10 digits below here
    ("1 lbf*in", "N*m", 0.1129848, 1e-6),
    ("1 ozf*in", "N*m", 7.061552e-3, 1e-6),
    ("1 lbf/in", "N/m", 175.1268, 1e-6),
    ("1 psi", "Pa", 6894.757, 1e-6),
    ("1 lb/ft^3", "kg/m^3", 16.01846, 1e-6),
    ("1 bar", "Pa", 1e5, 1e-15),
    ("1 deg", "rad", 1.745329e-2, 1e-6),
    ("1 in^2", "m^2", 6.4516e-4, 1e-15),
    ("1 lb/ft", "kg/m", 1.488164, 1e-6),
    ("32 degF", "degC", 0.0, 1e-9),
    ("296.15 K", "degC", 23.0, 1e-12),
]


@pytest.mark.parametrize(("text", "unit", "value", "tolerance"), SP811)
def test_units_of_every_kind_have_their_defined_size(
    text: str, unit: str, value: float, tolerance: float
) -> None:
    # tolerance: the digits printed, or double rounding; degF loses 13 digits' worth in 459.67
    assert parse_quantity(text, unit) == pytest.approx(
        value, rel=tolerance, abs=1e-9 * (value == 0)
    )


@pytest.mark.parametrize(
    ("text", "turns"),
    [
        ("5000 rpm", 5000 / 60),
        ("3 turn/s", 3.0),
        ("7 1/s", 7.0),
        ("25 Hz", 25.0),
        ("30 rad/s", 30 / math.tau),
        ("720 deg/s", 2.0),
    ],
)
def test_a_frequency_is_cycles_a_second_however_it_is_written(text: str, turns: float) -> None:
    assert parse_quantity(text, "Hz") == pytest.approx(turns, rel=1e-14)  # double rounding


@pytest.mark.parametrize(
    ("texts", "unit", "value"),
    [
        (("54 g*cm^2", "54 g·cm²", "54 g cm^2", "54 g * cm**2", "54g*cm^2"), "kg*m^2", 5.4e-6),
        (("11.8 kg", "+11.8kg", " 1.18e1 kg ", "11.8\N{NO-BREAK SPACE}kg"), "kg", 11.8),
        (("2500 mm/s^2", "2500 mm/s²", "2500 mm / s ** 2", "2.5 m/s/s"), "m/s^2", 2.5),
        (("23 degC", "23 °C"), "degC", 23.0),
        (("12 µm", "12 μm", "12 um"), "m", 12e-6),
    ],
)
def test_one_quantity_may_be_spelled_in_many_ways(
    texts: tuple[str, ...], unit: str, value: float
) -> None:
    for text in texts:
        assert parse_quantity(text, unit) == pytest.approx(value, rel=1e-15)  # double rounding


@pytest.mark.parametrize("name", sorted(units._EVERYDAY.keys() - {"degC", "°C"}))
def test_everyday_units_agree_with_the_unit_library(name: str) -> None:
    unit, up, down = units._EVERYDAY[name]
    library = units._library_factor(name, unit)
    assert library == pytest.approx(up / down, rel=1e-14)  # double rounding


def test_decimal_numbers_keep_their_last_digit() -> None:
    assert parse_quantity("11.8 g", "kg") == 0.0118
    assert parse_quantity("0.5 in", "m") == 0.0127
    assert parse_quantity("440 mm", "m") == 0.44


REFUSED = [
    ("0.3", "kg", 'wanted a mass with its unit; write it like "0.3 kg"'),
    ("18", "m", 'wanted a length with its unit; write it like "18 mm"'),
    ("0,3 kg", "kg", 'wanted a mass with its unit; write it like "0.3 kg"'),
    ("2*3 mm", "m", 'wanted a length with its unit; write it like "… mm"'),
    ("1/2 m", "m", 'wanted a length with its unit; write it like "0.5 m"'),
    ("nan kg", "kg", 'wanted a mass with its unit; write it like "… kg"'),
    ("inf kg", "kg", 'wanted a mass with its unit; write it like "… kg"'),
    ("0x10 mm", "m", 'wanted a length with its unit; write it like "… mm"'),
    ("1_000 mm", "m", 'wanted a length with its unit; write it like "1000 mm"'),
    ("1 000 mm", "m", 'wanted a length with its unit; write it like "1000 mm"'),
    ("٣ mm", "m", 'wanted a length with its unit; write it like "… mm"'),
    ("", "m/s", 'wanted a speed with its unit; write it like "… mm/s"'),
    ("kg", "kg", 'wanted a mass with its unit; write it like "… kg"'),
    ("1e99 m", "m", 'wanted a length of ordinary size; write it like "… mm"'),
    (
        "9e14 km",
        "m",
        'wanted a length of ordinary size; write it like "… mm"',
    ),
    (
        "11.8 mm",
        "kg",
        'wanted a mass, in one of its units; if it is in kg, write it like "11.8 kg"',
    ),
    ("11.8 KG", "kg", 'wanted a mass, in one of its units; write it like "11.8 kg"'),
    ("3 N", "N*m", 'wanted a torque, in one of its units; if it is in N*m, write it like "3 N*m"'),
    (
        "5 delta_degC",
        "degC",
        'wanted a temperature, in one of its units; if it is in degC, write it like "5 degC"',
    ),
    ("2 mm^9^9", "m", 'wanted a length with its unit; write it like "… mm"'),
    (
        "2 mm**99999",
        "m",
        'wanted a length with its unit; write it like "… mm"',
    ),
    (
        "7 __import__('os')",
        "m",
        'wanted a length with its unit; write it like "… mm"',
    ),
    (
        "7 m" + "*m" * 40,
        "m",
        'wanted a length with its unit; write it like "… mm"',
    ),
]


@pytest.mark.parametrize(("text", "unit", "message"), REFUSED)
def test_what_is_no_quantity_is_refused_with_a_way_to_write_it(
    text: str, unit: str, message: str
) -> None:
    with pytest.raises(QuantityError) as refusal:
        parse_quantity(text, unit)
    assert str(refusal.value) == message


def _read(text: str, unit: str) -> tuple[float, str | None]:
    try:
        return parse_quantity(text, unit), None
    except QuantityError as error:
        return math.nan, str(error)


@given(text=st.text(max_size=70), unit=st.sampled_from(sorted(KINDS)))
def test_any_text_gives_a_finite_number_or_a_refusal(text: str, unit: str) -> None:
    value, refusal = _read(text, unit)
    assert math.isfinite(value) == (refusal is None)
    assert refusal is None or KINDS[unit] in refusal


@given(
    number=st.sampled_from(["3", "-0.25", "1e3"]),
    words=st.lists(st.text("mMkKgGsSNrpdetcCPalbinµ_^*/ -29²", min_size=1, max_size=4), max_size=5),
    unit=st.sampled_from(sorted(KINDS)),
)
def test_any_unit_gives_a_finite_number_or_a_refusal(
    number: str, words: list[str], unit: str
) -> None:
    value, refusal = _read(f"{number} {'*'.join(words)}", unit)
    assert math.isfinite(value) == (refusal is None)
    assert refusal is None or KINDS[unit] in refusal


@given(
    value=st.floats(1e-5, 1e6),
    shown=st.sampled_from(["kg", "g", "mm", "rpm", "GPa", "g*mm", "lb", "N*m/rad", "degC"]),
)
def test_what_is_written_reads_back(value: float, shown: str) -> None:
    kind = {"kg": "kg", "g": "kg", "lb": "kg", "mm": "m", "rpm": "Hz", "GPa": "Pa"}
    unit = kind.get(shown, "kg*m" if shown == "g*mm" else shown)
    text = format_quantity(value, shown, 17)
    assert parse_quantity(text, unit) == pytest.approx(value, rel=1e-14)  # double rounding


def test_quantities_are_written_as_people_do() -> None:
    assert format_quantity(0.0127, "mm") == "12.7 mm"
    assert format_quantity(4800 / 60, "rpm") == "4800 rpm"
    assert format_quantity(11.8, "lb", 4) == "26.01 lb"
    with pytest.raises(ValueError, match="parsec_of_rubber is no unit used here"):
        format_quantity(1.0, "parsec_of_rubber")


def test_everyday_units_do_not_load_the_unit_library() -> None:
    code = (
        "import sys; from isolator.reading.quantities import parse_quantity as p\n"
        "for text in ('1 mm', '1 thou'): p(text, 'm'); print('pint' in sys.modules)"
    )
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert run.stdout.split() == ["False", "True"]
