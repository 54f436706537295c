"""What no printer, room or print can be is refused where it stands in the brief."""

from __future__ import annotations

import pytest
from briefs import BARE, faults

from isolator.brief import read_brief_text

HOT = (
    'brief.toml: room.temperature_high: found "{0}"; wanted a temperature of -60 degC to '
    "100 degC; check the value and its unit"
)
TIGHT = (
    'brief.toml: desk.density: found "{0}"; wanted a density of 0.1 kg/m^3 to 100000 kg/m^3; '
    "check the value and its unit"
)
STIFF = (
    'brief.toml: desk.youngs_modulus: found "{0}"; wanted a pressure or modulus of 1 Pa to '
    "10000 GPa; check the value and its unit"
)
COLD = HOT.replace("high", "low")
WIDE = (
    'brief.toml: print.hole_compensation: found "{0}"; wanted a length of 0 mm to 2 mm; '
    "check the value and its unit"
)


@pytest.mark.parametrize(
    ("table", "key", "value", "told"),
    [
        ("room", "temperature_high", "1e14 degC", HOT),
        ("room", "temperature_high", "101 degC", HOT),
        ("room", "temperature_low", "-1e14 degC", COLD),
        ("room", "temperature_low", "-61 degC", COLD),
        ("desk", "density", "6.4e9 kg/m^3", TIGHT),
        ("desk", "density", "1e-14 kg/m^3", TIGHT),
        ("desk", "youngs_modulus", "6.4e5 GPa", STIFF),
        ("print", "hole_compensation", "10 mm", WIDE),
        ("print", "hole_compensation", "2.1 mm", WIDE),
    ],
)
def test_beyond_all_bounds(table: str, key: str, value: str, told: str) -> None:
    found = faults(f'{BARE}\n[{table}]\n{key} = "{value}"\n')
    assert found == [told.format(value)]


def test_a_room_far_from_where_people_live_is_doubted() -> None:
    text = '\n[room]\ntemperature_low = "-11 degC"\ntemperature_high = "51 degC"\n'
    brief = read_brief_text(BARE + text, "brief.toml")
    assert brief.warnings[-2:] == (
        "room.temperature_low: -11 degC is outside the usual -10 degC to 50 degC; check it",
        "room.temperature_high: 51 degC is outside the usual -10 degC to 50 degC; check it",
    )


def test_a_cold_or_hot_room_is_not_doubted() -> None:
    text = '\n[room]\ntemperature_low = "-10 degC"\ntemperature_high = "50 degC"\n'
    assert not [each for each in read_brief_text(BARE + text, "b.toml").warnings if "room" in each]


def test_no_suggestion_is_beyond_the_bounds() -> None:
    (told,) = faults(f"{BARE}\n[print]\nhole_compensation = 3\n")
    assert told.endswith("; check the value and its unit")
    (told,) = faults(f"{BARE}\n[print]\nhole_compensation = 1\n")
    assert told.endswith('; write it like "1 mm"')
