"""The tables of kinds name the same things in every room that has something to say of them."""

from __future__ import annotations

import math

import numpy as np
import pytest

from geometry.feet import bought, fixing
from geometry.solids.outline import PAD_OUTLINES
from isolator.design import ATTACHMENTS, OUTLINES, SHAPES, screw_lengths
from isolator.feet import screw_strength
from isolator.physics.rubber import section
from isolator.workshop import attaching, foot_hardware, foot_steps


def test_every_room_knows_the_outlines_of_the_sheet() -> None:
    assert set(section.OUTLINES) == set(PAD_OUTLINES) == set(SHAPES)


@pytest.mark.parametrize("shape", SHAPES)
def test_an_outline_is_the_same_in_words_in_formulas_and_as_it_is_drawn(shape: str) -> None:
    row, first, second = OUTLINES[shape], 0.040, 0.025
    sides = section.OUTLINES[shape].sides
    wide, deep, hole = (float(each) for each in sides(np.array(first), np.array(second)))
    assert (wide, deep) == (first, row.along_y(first, second))
    assert (hole > 0) == row.holed
    assert section.OUTLINES[shape].round == row.round
    outer, inner = PAD_OUTLINES[shape](first * 1e3, second * 1e3)
    assert outer.size == pytest.approx((wide * 1e3, deep * 1e3), rel=1e-15)
    assert (inner is not None) == row.holed
    drawn = outer.area - (0.0 if inner is None else inner.area)
    assert drawn * 1e-6 == pytest.approx(float(section.section(shape, first, second).area))
    whole = math.pi / 4.0 * wide**2 if row.round else wide * deep
    assert outer.area * 1e-6 == pytest.approx(whole)
    assert len(row.sizes) == 1 + (row.holed or row.oblong)


def test_every_way_to_hold_a_foot_is_known_in_every_room() -> None:
    ways = {row.way for row in ATTACHMENTS.values()}
    screwed = ways - {"glue"}
    assert set(attaching._WORDS) == ways
    assert set(screw_lengths._REACHES) == screwed
    for table in (
        foot_steps._SCREWED,
        attaching._CARES,
        foot_hardware._REMARKS,
        foot_hardware._GOODS,
    ):
        assert set(table) < ways
    for table in (
        screw_strength._MORE,
        screw_strength._BORES,
        fixing._BESIDE,
        bought._ABOVE,
    ):
        assert set(table) < screwed
