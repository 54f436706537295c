"""The estimate of a plate's printing time."""

from __future__ import annotations

import pytest

from isolator.design.filaments import FILAMENTS
from isolator.design.print_time import LAYER_TIMES, RIGID_SPEEDS, START, print_time

LINE = (4e-4, 2e-4)


def test_a_large_plate_takes_the_length_of_its_lines_at_the_mean_speed():
    low, high = print_time(2e-4, 0.01, "petg", *LINE)
    length = 2e-4 / (LINE[0] * LINE[1])
    assert low - START[0] == pytest.approx(length / RIGID_SPEEDS[1], rel=1e-3)
    assert high - START[1] == pytest.approx(length / RIGID_SPEEDS[0], rel=1e-3)


def test_a_slender_part_takes_its_layers_cooling_time():
    low, high = print_time(1e-8, 0.03, "asa", *LINE)
    assert (low, high) == (START[0] + 150 * LAYER_TIMES[0], START[1] + 150 * LAYER_TIMES[1])


def test_finer_lines_and_soft_filament_take_longer():
    usual = print_time(5e-5, 0.01, "petg", *LINE)
    assert print_time(5e-5, 0.01, "petg", LINE[0], 1e-4) > usual
    assert FILAMENTS["tpu"].flexible
    assert print_time(5e-5, 0.01, "tpu-95", *LINE) > usual
