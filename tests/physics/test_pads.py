"""Pads: limits, symmetries and properties that hold whatever the fit."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from isolator.physics.rubber import bonded, elastomer, foam, large_strain, printed
from isolator.physics.rubber.section import section, shape_factor

SHAPES = {
    "disc": (0.031, 0.0),
    "ring": (0.042, 0.017),
    "rectangle": (0.045, 0.028),
    "square-with-hole": (0.038, 0.013),
}
RUBBER = {"youngs_modulus": 2.1e6, "shear_modulus": 0.7e6}


@pytest.mark.parametrize(("shape", "sizes"), SHAPES.items())
def test_sections_against_counting_cells(shape: str, sizes: tuple[float, float]) -> None:
    first, second = sizes
    span, many = 1.037 * max(sizes), 2411
    line = (np.arange(many) + 0.5) / many * span - span / 2
    x, y = np.meshgrid(line, line)
    inside = {
        "disc": x**2 + y**2 < (first / 2) ** 2,
        "ring": (x**2 + y**2 < (first / 2) ** 2) & (x**2 + y**2 > (second / 2) ** 2),
        "rectangle": (abs(x) < first / 2) & (abs(y) < second / 2),
        "square-with-hole": (np.maximum(abs(x), abs(y)) < first / 2)
        & (x**2 + y**2 > (second / 2) ** 2),
    }[shape]
    cell, part = (span / many) ** 2, section(shape, first, second)
    # cells on the edge count whole or not at all
    assert part.area == pytest.approx(inside.sum() * cell, rel=2e-3)
    assert part.i_x == pytest.approx((inside * y**2).sum() * cell, rel=2e-3)
    assert part.i_y == pytest.approx((inside * x**2).sum() * cell, rel=2e-3)
    assert part.polar == pytest.approx(part.i_x + part.i_y, rel=1e-12)


def test_free_edges_and_shape_factors() -> None:
    assert section("ring", 0.05, 0.02).perimeter == pytest.approx(math.pi * 0.07)
    assert section("square-with-hole", 0.05, 0.02).perimeter == pytest.approx(0.2 + math.pi * 0.02)
    assert shape_factor("rectangle", 0.04, 0.03, 0.006) == pytest.approx(0.0012 / (0.14 * 0.006))
    with pytest.raises(ValueError, match="unknown") as refused:
        section("hexagon", 0.03, 0.0)
    assert str(refused.value) == (
        "shape 'hexagon' is unknown; wanted disc, ring, rectangle or square-with-hole"
    )


@pytest.mark.parametrize(("shape", "sizes"), SHAPES.items())
def test_tall_pads_are_plain_and_thin_ones_reach_the_confined_modulus(
    shape: str, sizes: tuple[float, float]
) -> None:
    tall = elastomer.apparent_modulus(shape, *sizes, 30.0, **RUBBER)
    assert tall == pytest.approx(2.1e6, rel=2e-3)  # ends are a thousandth of the length
    thin = elastomer.apparent_modulus(shape, *sizes, 1e-7, **RUBBER, bulk_modulus=1.1e9)
    assert thin == pytest.approx(1.1e9 + 4 / 3 * 0.7e6, rel=2e-3)
    shear = elastomer.shear_stiffness(
        shape, *sizes, 1e-7, shear_modulus=0.7e6, youngs_modulus=2.1e6
    )
    plain = 0.7e6 * section(shape, *sizes).area / 1e-7
    assert shear == pytest.approx([plain, plain], rel=1e-4)


def test_a_tall_pad_sways_as_a_guided_beam() -> None:
    # 12EI/t³, at sixty times its width; end effects are some per cent of the length
    for axis, moment in ((0, 0.028 * 0.045**3 / 12), (1, 0.045 * 0.028**3 / 12)):
        k = elastomer.shear_stiffness(
            "rectangle", 0.045, 0.028, 2.7, shear_modulus=0.7e6, youngs_modulus=2.1e6
        )[axis]
        assert k == pytest.approx(12 * 2.1e6 * moment / 2.7**3, rel=0.02)


def test_turning_a_rectangle_swaps_its_axes() -> None:
    one, other = (0.045, 0.028, 0.011), (0.028, 0.045, 0.011)
    for form in (bonded.shear_ratio, bonded.tilt_ratio):
        assert form("rectangle", *one) == pytest.approx(form("rectangle", *other)[::-1])
    for form in (bonded.compression_ratio, bonded.twist_ratio):
        assert form("rectangle", *one) == pytest.approx(form("rectangle", *other))


@pytest.mark.parametrize("shape", SHAPES)
def test_batches_are_the_single_pads(shape: str) -> None:
    # every argument an array, sizes unequal
    scale = np.array([[0.7], [1.3]])
    first, second = (size * scale for size in SHAPES[shape])
    t = np.array([0.004, 0.009, 0.017])
    batch = elastomer.tilt_stiffness(shape, first, second, t, **RUBBER, bulk_modulus=1e9)
    assert batch[0].shape == (2, 3)
    one = elastomer.tilt_stiffness(
        shape, first[1, 0], second[1, 0], t[2], **RUBBER, bulk_modulus=1e9
    )
    assert [k[1, 2] for k in batch] == pytest.approx(list(map(float, one)), rel=1e-12)


@given(
    st.sampled_from(sorted(SHAPES)),
    st.floats(0.15, 8.0),
    st.floats(1.02, 1.5),
    st.floats(0.1, 0.85),
)
def test_a_thinner_pad_is_stiffer(shape: str, s: float, step: float, hole: float) -> None:
    second = {"disc": 0.0, "rectangle": 0.04 * (0.2 + 0.8 * hole)}.get(shape, 0.04 * hole)
    t = float(shape_factor(shape, 0.04, second, 1.0)) / s
    thick, thin = ((shape, 0.04, second, h) for h in (t * step, t))
    assert bonded.compression_ratio(*thin) > bonded.compression_ratio(*thick) > 1
    for form in (bonded.tilt_ratio, bonded.shear_ratio):
        assert np.all(np.array(form(*thin)) > np.array(form(*thick)))
    assert 0 < bonded.twist_ratio(*thick) <= bonded.twist_ratio(*thin) <= 1 + 1e-12


@given(st.sampled_from(sorted(SHAPES)), st.floats(1e-3, 1e3), st.floats(0.0, 0.97))
def test_ratios_keep_their_bounds_at_any_size(shape: str, s: float, hole: float) -> None:
    second = {"disc": 0.0, "rectangle": 0.04 * (0.03 + hole)}.get(shape, 0.04 * hole)
    pad = (shape, 0.04, second, float(shape_factor(shape, 0.04, second, 1.0)) / s)
    assert bonded.compression_ratio(*pad) >= 1
    assert min(bonded.tilt_ratio(*pad)) >= 1
    assert 0 < min(bonded.shear_ratio(*pad)) <= max(bonded.shear_ratio(*pad)) <= 1
    assert 0 < bonded.twist_ratio(*pad) <= 1 + 1e-12


def test_bonding_hardness_and_bulk_act_on_the_bulging_part() -> None:
    pad = ("square-with-hole", 0.038, 0.013, 0.005)
    half = elastomer.apparent_modulus(*pad, **RUBBER, bonded=0.5)
    full = elastomer.apparent_modulus(*pad, **RUBBER)
    assert half == pytest.approx((full + 2.1e6) / 2, rel=1e-12)
    soft = elastomer.apparent_modulus(*pad, **RUBBER, hardness_factor=0.6)
    assert soft - 2.1e6 == pytest.approx(0.6 * (full - 2.1e6), rel=1e-5)  # no bulk: c is 1
    assert elastomer.apparent_modulus(*pad, **RUBBER, bulk_modulus=0.4e9) < full


@given(st.floats(-0.9, 1e4))
def test_strain_and_stress_are_inverse(pressure: float) -> None:
    strain = large_strain.strain_under(pressure)
    assert large_strain.stress_ratio(strain) == pytest.approx(pressure, rel=1e-9, abs=1e-12)


def test_tangent_is_the_slope_of_the_stress() -> None:
    strain, step = np.array([-0.2, 0.0, 0.07, 0.31, 0.6]), 1e-6
    rise = large_strain.stress_ratio(strain + step) - large_strain.stress_ratio(strain - step)
    assert large_strain.tangent_ratio(strain) == pytest.approx(rise / (2 * step), rel=1e-8)


def test_bulge_keeps_the_volume() -> None:
    out = large_strain.bulge(0.023, 0.17)
    assert (0.023 + 2 * out) ** 2 * (1 - 0.17) == pytest.approx(0.023**2, rel=1e-12)


def test_buckling_of_a_slender_pad_is_eulers_and_of_a_stubby_one_shears() -> None:
    # 10 × 10 × 400 mm: π²EI/t², ends guided
    moment = 0.01**4 / 12
    shear, tilt = 0.7e6 * 1e-4 / 0.4, 2.1e6 * moment / 0.4
    euler = math.pi**2 * 2.1e6 * moment / 0.4**2
    assert elastomer.buckling_load(shear, tilt, 0.4) == pytest.approx(euler, rel=3e-3)
    # very stiff in tilt: the root of both
    p_s, p_e = 900.0, 4e6
    both = elastomer.buckling_load(p_s / 0.012, p_e * 0.012 / math.pi**2, 0.012)
    assert both == pytest.approx(math.sqrt(p_s * p_e), rel=0.01)
    load = np.array([0.0, 0.5, 1.0, 1.7]) * both
    assert elastomer.shear_reduction(load, both) == pytest.approx([1, 0.75, 0, 0])


def test_measured_curve_is_read_through_its_points_and_back() -> None:
    strain, stress = [0, 0.08, 0.3, 0.45, 0.7], np.array([0, 21e3, 33e3, 48e3, 190e3])
    assert foam.strain_under(stress, strain, stress) == pytest.approx(strain, abs=1e-4)
    loads = np.linspace(0, 190e3, 200_001)
    found = foam.strain_under(loads, strain, stress)
    assert np.all(np.diff(found) >= 0)
    assert foam.stress_at(found, strain, stress) == pytest.approx(loads, abs=1.0)
    slope = foam.curve_slope(np.array([0.2, 0.55]), strain, stress)
    step = 1e-3
    rise = [
        foam.stress_at(e + step, strain, stress) - foam.stress_at(e - step, strain, stress)
        for e in (0.2, 0.55)
    ]
    assert slope == pytest.approx(np.array(rise) / (2 * step), rel=1e-3)  # central difference
    assert np.all(foam.curve_slope(np.linspace(0, 0.7, 3000), strain, stress) >= 0)
    with pytest.raises(ValueError, match="does not rise"):
        foam.strain_under(1e3, [0, 0.1, 0.2], [0, 5e3, 5e3])


def test_infill_between_bending_and_stretching_and_walls_in_parallel() -> None:
    bent, stretched = (printed.infill_modulus(26e6, 0.2, 1.0, n) for n in (2.0, 1.0))
    assert [bent / 26e6, stretched / 26e6] == pytest.approx([0.04, 0.20])  # ρ² and ρ
    assert printed.infill_modulus(26e6, 1.0, 1.0, 1.7) == pytest.approx(26e6)
    assert printed.walled_modulus(1e6, 26e6, 5e-4, 0.0) == 1e6
    assert printed.walled_modulus(1e6, 26e6, 5e-4, 9e-4) == 26e6  # nothing but wall
    parts = 1e6 * 3.9e-4 + 26e6 * 1.1e-4  # springs side by side
    assert printed.walled_modulus(1e6, 26e6, 5e-4, 1.1e-4) * 5e-4 == pytest.approx(parts)
