"""Sway from rest on: against direct integration in time, and against a long Fourier series."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from isolator.physics.bodies.first_strokes import WorstSway, worst_sway
from isolator.physics.bodies.reversal import period
from isolator.physics.bodies.rigid import (
    gravity_stiffness,
    mass_matrix,
    modes,
    support_matrix,
)
from isolator.physics.bodies.zigzag import STROKES, quick_sway

A = 2.5
MASS = mass_matrix(11.8, np.array([[0.47, 0.01, -0.02], [0.01, 0.45, 0.015], [-0.02, 0.015, 0.4]]))
ARMS = np.array(
    [[0.18, 0.18, -0.22], [-0.17, 0.19, -0.22], [0.18, -0.2, -0.22], [-0.18, -0.19, -0.22]]
)
LINEAR = np.array(
    [[2100.0, 1700, 6200], [1900, 2300, 5100], [2500, 1500, 7100], [2200, 1800, 5600]]
)
PUSH = np.array([-0.75, 0.0, 0.0, 0.0, -0.75 * 0.2, 0.75 * 0.03])  # 0.75 kg, 0.2 m above
POINTS = np.array([[0.0, -0.03, 0.2], [0.18, 0.18, -0.22]])
SPEED = 0.08


class Printer(NamedTuple):
    """Modes of a printer on unequal feet."""

    frequency: np.ndarray  # (6,) [Hz]
    shapes: np.ndarray
    damping: np.ndarray  # (6,) ratios


def printer(loss: float, stiffer: float = 1.0) -> Printer:
    linear = stiffer * LINEAR * (1 + 1j * loss)
    stiffness = support_matrix(ARMS, linear, np.zeros((4, 3)))
    stiffness = stiffness + gravity_stiffness(np.full(4, 11.8 * 9.80665 / 4), ARMS)
    frequencies, shapes = modes(stiffness, MASS)
    energy = np.einsum("ij,ij->j", shapes, stiffness @ shapes)  # lost and kept, mode by mode
    return Printer(frequencies, shapes, energy.imag / energy.real / 2)


def worst(one: Printer, speeds=(SPEED,), strokes=STROKES, push=PUSH, points=POINTS) -> WorstSway:
    first, shapes, damping = (each[None] for each in one)
    return worst_sway(first, shapes, damping, push[None, None], points[None], speeds, A, strokes)


def quick(one: Printer, speeds=(SPEED,), strokes=STROKES) -> float:
    first, shapes, damping = (each[None] for each in one)
    pushed, points = PUSH[None, None], POINTS[None]
    return float(quick_sway(first, shapes, damping, pushed, points, speeds, A, strokes).max())


def series(stroke, speed: float, orders: np.ndarray) -> np.ndarray:
    """Fourier coefficients of the tool's acceleration, t = 0 in the middle of a reversal."""
    length = np.asarray(stroke, dtype=float)
    width = np.minimum(speed, np.sqrt(A * length)) / A
    angle = 2 * np.pi / period(length, speed, A) * width
    return 4 * A / (orders * np.pi) * np.sin(orders * angle[..., None])


def test_the_pulses_carry_the_tool_over_its_stroke() -> None:
    # sum of −A_n/(nω)² cos over all odd n is the place; twice its value at t = 0 is the stroke
    orders = np.arange(1.0, 401.0, 2.0)
    size = series(0.03, 0.1, orders)
    place = (size / (orders * 2 * np.pi / period(0.03, 0.1, A)) ** 2).sum()
    assert 2 * place == pytest.approx(0.03, rel=1e-6)


def integrated(one: Printer, stroke: float, speed: float) -> tuple[np.ndarray, np.ndarray]:
    """Peak motion of each point from rest on, and once steady, by stepping each mode."""
    own, pull = 2 * np.pi * one.frequency, one.shapes.T @ PUSH
    whole = float(period(stroke, speed, A))
    width = min(speed, np.sqrt(A * stroke)) / A
    turns = int(np.ceil(5 / (np.min(own * one.damping) * whole))) + 1
    edges = np.array([0.0, width, whole / 2 - width, whole / 2, whole / 2 + width, whole - width])
    state, peaks = np.zeros(12), []

    def rate(_: float, y: np.ndarray, force: float) -> np.ndarray:
        q, v = y[:6], y[6:]
        return np.concatenate([v, pull * force - own**2 * q - 2 * own * one.damping * v])

    for _ in range(turns):
        peak = np.zeros(len(POINTS))
        spans = zip(edges, [*edges[1:], whole], (A, 0, -A, -A, 0, A), strict=True)
        for start, end, force in spans:
            if end - start < 1e-12:
                continue
            run = solve_ivp(
                rate,
                (start, end),
                state,
                t_eval=np.linspace(
                    start, end, 2 + int(200 * (end - start) * one.frequency[-1] / 6)
                ),
                args=(force,),
                rtol=1e-7,
                atol=1e-10,
                method="DOP853",
            )
            state = run.y[:, -1]
            q = one.shapes @ run.y[:6]
            moved = [q[:3] + np.cross(q[3:].T, point).T for point in POINTS]
            peak = np.maximum(peak, [np.linalg.norm(m, axis=0).max() for m in moved])
        peaks.append(peak)
    return np.max(peaks, axis=0), peaks[-1]


@pytest.mark.parametrize("loss", [0.06, 0.15, 0.4])
def test_sway_at_its_worst_stroke_is_that_of_direct_integration(loss: float) -> None:
    one = printer(loss)
    found = worst(one)
    expected, _ = integrated(one, float(found.stroke[0, 0]), SPEED)
    # moments looked at; the integration's own steps
    np.testing.assert_allclose(found.peak[0, 0], expected, rtol=0.01)


@pytest.mark.parametrize(("stroke", "overshoot"), [(0.00357, 2.0), (0.0142, 1.5), (0.021, 1.31)])
def test_first_strokes_overshoot_beside_a_mode(stroke: float, overshoot: float) -> None:
    # one stroke alone, its zigzag beside every mode: nothing but the start rings up
    one = printer(0.06)
    found = worst(one, strokes=(stroke, stroke * (1 + 1e-9)))
    rest, steady = integrated(one, stroke, SPEED)
    np.testing.assert_allclose(found.peak[0, 0], rest, rtol=0.01)
    assert rest[0] > overshoot * steady[0]


def steady(one: Printer, speed: float, strokes=STROKES, count: int = 600) -> float:
    """Worst steady sway of the tool over a fine row of strokes, with 51 harmonics."""
    own, pull = 2 * np.pi * one.frequency, one.shapes.T @ PUSH
    orders = np.arange(1.0, 102.0, 2.0)
    row = np.geomspace(strokes[0], strokes[1], count)
    drive = 2 * np.pi / period(row, speed, A)[:, None] * orders
    spring = (own**2)[:, None, None] + 2j * (own * one.damping)[:, None, None] * drive
    modal = pull[:, None, None] * series(row, speed, orders) / (spring - drive**2)
    wave = np.exp(1j * orders[:, None] * np.linspace(0, np.pi, 400))
    q = np.real(np.einsum("im,msn,nt->ist", one.shapes, modal, wave))
    moved = q[:3] + np.cross(q[3:], POINTS[0], axis=0)
    return float(np.linalg.norm(moved, axis=0).max())


@pytest.mark.parametrize("speed", [0.03, 0.1, 0.25])
@pytest.mark.parametrize("loss", [0.08, 0.2, 0.5])
def test_over_all_strokes_the_worst_is_a_steady_one(loss: float, speed: float) -> None:
    # where some stroke hits the mode that matters the train rings up and nothing overshoots it
    one = printer(loss)
    found = worst(one, (speed,), points=POINTS[:1])
    assert found.peak[0, 0, 0] == pytest.approx(steady(one, speed), rel=0.015)


@settings(max_examples=12)
@given(
    loss=st.floats(0.03, 0.6),
    stiffer=st.floats(0.5, 30.0),
    speed=st.floats(0.02, 0.3),
    shortest=st.floats(0.001, 0.03),
)
def test_from_rest_it_never_sways_less(loss, stiffer, speed, shortest) -> None:
    one, strokes = printer(loss, stiffer), (shortest, 0.1)
    found = float(worst(one, (speed,), strokes, points=POINTS[:1]).peak[0, 0, 0])
    later = steady(one, speed, strokes, 200)
    assert found >= 0.97 * later  # strokes and moments looked at
    # free swinging doubles at most; a damped start is gone before the next pulse
    assert found <= 2.0 * later
    if loss > 0.5:
        assert found <= 1.1 * later


@settings(max_examples=40)
@given(
    loss=st.floats(0.03, 0.6),
    stiffer=st.floats(0.5, 4.0),
    speeds=st.lists(st.floats(0.02, 0.3), min_size=1, max_size=3),
)
def test_the_quick_sway_is_hardly_ever_short(loss, stiffer, speeds) -> None:
    one = printer(loss, stiffer)
    followed = float(worst(one, speeds).peak.max())
    assert 0.93 * followed <= quick(one, speeds) <= 1.3 * followed


def test_a_batch_is_its_members_and_the_worst_speed_is_told() -> None:
    soft, hard = printer(0.2), printer(0.4)
    speeds = [0.02, 0.12, 0.07]
    first, shapes, damping = (np.stack([a, b]) for a, b in zip(soft, hard, strict=True))
    pushed, place = np.stack([[PUSH]] * 2), np.stack([POINTS] * 2)
    batch = worst_sway(first, shapes, damping, pushed, place, speeds, A)
    many = quick_sway(first, shapes, damping, pushed, place, speeds, A)
    for i, one in enumerate((soft, hard)):
        alone = worst(one, speeds)
        np.testing.assert_allclose(batch.peak[i], alone.peak[0], rtol=1e-12)
        assert many[i].max() == pytest.approx(quick(one, speeds), rel=1e-6)
        assert batch.speed[i] == alone.speed[0]
        each = [worst(one, [v]).peak.max() for v in speeds]
        assert alone.peak.max() == pytest.approx(max(each), rel=0.01)


def test_twice_the_moving_mass_sways_twice_as_far() -> None:
    one, two = (worst(printer(0.2), push=size * PUSH).peak for size in (1.0, 2.0))
    np.testing.assert_allclose(two, 2 * one, rtol=1e-12)


def two_modes(second: float) -> WorstSway:
    """A slow mode that moves tool and foot alike, and one that turns about the foot, `second` times
    as strong; the others hardly move."""
    frequency, damping = np.array([[4.0, 7.0, 40.0, 50.0, 60.0, 70.0]]), np.full((1, 6), 0.05)
    shapes = np.zeros((1, 6, 6))
    shapes[0, 0, :2], shapes[0, 4, 1] = [1.0, second], second / 0.2
    push, points = np.array([[[-1.0, 0, 0, 0, 0, 0]]]), np.array([[[0.0, 0, 0], [0.0, 0, -0.2]]])
    return worst_sway(frequency, shapes, damping, push, points, [0.1], A)


def test_of_two_zigzags_about_as_far_the_one_that_is_harder_on_the_feet_counts() -> None:
    slow, tied, fast = two_modes(1.5), two_modes(1.62), two_modes(1.9)
    far = slow.peak[0, 0, 1]
    # just past the tie the farthest zigzag hardly moves the foot, the other counts none the less
    assert tied.stroke[0, 0] == fast.stroke[0, 0] != slow.stroke[0, 0]
    assert tied.peak[0, 0, 1] < 0.15 * far
    assert tied.tied[..., 1].max() == pytest.approx(far, rel=0.01)
    # well past it is nothing that counts
    np.testing.assert_array_equal(fast.tied, fast.peak[None])
    row = [float(two_modes(second).tied[..., 1].max()) for second in np.arange(1.5, 1.9, 0.0015)]
    assert np.abs(np.diff(row)).max() < 0.06 * far


@settings(max_examples=25)
@given(loss=st.floats(0.03, 0.6), stiffer=st.floats(0.5, 30.0), speed=st.floats(0.02, 0.3))
def test_a_little_more_stiffness_changes_what_counts_of_a_foot_little(loss, stiffer, speed) -> None:
    one, other = (worst(printer(loss, s), (speed,)) for s in (stiffer, 1.0005 * stiffer))
    was, now = (each.tied[..., 1].max() for each in (one, other))
    assert now == pytest.approx(was, rel=0.06)
    assert was >= one.peak[..., 1].max()
