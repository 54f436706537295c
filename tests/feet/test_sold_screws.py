"""Screws that shops keep: told where none fits a foot, with the ear that makes one fit."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from sheets import foot

from isolator.design import ATTACHMENTS
from isolator.design.screw_lengths import ear_that_fits, missing, screw_length
from isolator.feet.sold_screws import sold_screw_check
from isolator.report.sentences.checks import advice


def slotted(profile: str, cap: float, bolt: float = 0.0):
    return replace(foot("cup", "disc", profile, "usual"), cap=cap, bolt=bolt)


@pytest.mark.parametrize(
    ("profile", "cap", "bolt", "off", "ear", "length"),
    [
        # M5: 3.4 + 1.8 + 3.0 = 8.2 to 3.4 + 6.2 = 9.6 mm, between 8 and 10; 0.4 mm more takes 10
        ("slot-20", 0.0034, 0.005, 0.2, 3.8, 10),
        # M8 in lips of 4.5 mm: 3 + 4.5 + 4.8 = 12.3 to 15, and shops keep no 14 of M8
        ("slot-40", 0.003, 0.008, 0.3, 4.0, 16),
        # M6 in lips of 2.2 mm: 6.2 + 2.2 + 3.6 = 12 fits; from 7 to 16 mm nothing does
        ("slot-30", 0.0064, 0.006, 0.2, 7.0, 16),
    ],
)
def test_an_ear_without_a_screw_is_told_with_one_that_has(
    profile: str, cap: float, bolt: float, off: float, ear: float, length: float
) -> None:
    one = slotted(profile, cap, bolt)
    assert screw_length(one) is None
    (check,) = sold_screw_check([slotted("slot-20", 0.004), one], 2e-4)
    assert (check.name, check.limit, check.unit, check.passed) == (
        "screws that are sold",
        0.0,
        "mm",
        False,
    )
    assert check.value == pytest.approx(off)
    assert advice(check) == (
        f'no screw that shops keep fits: set cap = "{ear:g} mm" for this foot in design.toml and '
        f"draw it again, for {length:g} mm screws, or take another bolt"
    )
    assert screw_length(replace(one, cap=ear / 1e3)) == pytest.approx(length / 1e3)


def test_where_no_ear_helps_another_screw_does() -> None:
    """ST3.5 holds by twice its diameter: 7 mm, and plastic of 3.7 mm has 3.2 mm for it."""
    thin = replace(foot("cup", "disc", "self-tapping", "usual"), grip=0.0037)
    (check,) = sold_screw_check([thin], 2e-4)
    assert check.value == pytest.approx(3.8)
    assert advice(check) == (
        "no screw that shops keep fits, however thick the ear: take another bolt, or hold the foot "
        "otherwise"
    )


def test_nothing_is_told_where_a_screw_fits_or_nothing_is_known() -> None:
    glued = foot("cup", "disc", "adhesive", "usual")
    unknown = replace(foot("cup", "disc", "two-bolts", "usual"), grip=0.0)
    assert sold_screw_check([glued, unknown, slotted("slot-20", 0.004)], 2e-4) == ()
    assert sold_screw_check([], 2e-4) == ()


NUTS = [
    (name, thread)
    for name, row in ATTACHMENTS.items()
    if row.slot is not None
    for thread in row.slot.threads
]
"""Every profile with the threads that its slot nuts are sold with."""


@given(nut=st.sampled_from(NUTS), layers=st.integers(15, 40))
def test_an_ear_that_is_named_is_the_thinnest_that_a_screw_fits(nut, layers) -> None:
    profile, bolt = nut
    one = slotted(profile, round(layers * 2e-4, 9), bolt)
    assert (missing(one) > 0) == (screw_length(one) is None)
    found = ear_that_fits(one, 2e-4)
    assert found is not None
    ear, length = found
    assert screw_length(replace(one, cap=ear)) == length
    between = range(layers + 1, round(ear / 2e-4))
    assert all(screw_length(replace(one, cap=round(n * 2e-4, 9))) is None for n in between)
