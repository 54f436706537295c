"""Ranges of speeds on the command line."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from isolator.reading.faults import InputError
from isolator.reading.ranges import MOST, speeds_of


def asked(*texts: str) -> list[float]:
    return [round(1e3 * speed, 3) for speed in speeds_of(texts)]


@pytest.mark.parametrize(
    ("typed", "speeds"),
    [
        (["20:120:20"], [20, 40, 60, 80, 100, 120]),
        (["20:50"], [20, 25, 30, 35, 40, 45, 50]),
        (["20 to 60 mm/s by 15 mm/s"], [20, 35, 50, 60]),  # both ends, whatever the step
        (["17 to 52 mm/s"], [17, 20, 25, 30, 35, 40, 45, 50, 52]),
        (["0.02 m/s to 0.04 m/s by 10 mm/s", "1 in/s", "30 mm/s"], [20, 30, 40, 25.4]),
        (["60 mm/s"], [60]),
    ],
)
def test_ranges_are_read(typed: list[str], speeds: list[float]) -> None:
    assert asked(*typed) == speeds


LIKE = 'write it like "20 to 120 mm/s", "20 to 120 mm/s by 10 mm/s", or 20:120:20 in mm/s'


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        ("50:20:5", f'"50:20:5"; wanted a range from a slower to a faster speed; {LIKE}'),
        ("1:900:1", '"1:900:1"; wanted at most 50 speeds; take a wider step'),
        ("10 to 61 mm/s by 1 mm/s", "52 speeds; wanted at most 50; take a wider step"),
    ],
)
def test_what_is_no_range_is_refused(typed: str, told: str) -> None:
    with pytest.raises(InputError) as refusal:
        speeds_of([typed])
    assert str(refusal.value).startswith(f"command line: --speeds: found {told}")


def test_what_is_no_speed_is_refused() -> None:
    with pytest.raises(InputError) as refusal:
        speeds_of(["4 tons"])
    assert str(refusal.value).startswith('command line: --speed: found "4 tons"; wanted a speed')


@given(st.integers(1, 400), st.integers(1, 400))
def test_a_range_without_a_step_has_about_ten_speeds_in_order(low: int, more: int) -> None:
    speeds = asked(f"{low} to {low + more} mm/s")
    assert speeds == sorted(set(speeds))
    assert (speeds[0], speeds[-1]) == (low, low + more)
    assert 5 <= len(speeds) <= 17 <= MOST
