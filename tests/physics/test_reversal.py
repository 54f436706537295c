"""Zigzag reversals: Fourier series, sway against direct integration in time, slip and tip."""

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from isolator.physics.bodies.reversal import (
    acceleration_harmonics,
    period,
    slip_margin,
    step_factor,
    stroke_of_period,
    tip_margin,
    worst_sway,
)
from isolator.physics.bodies.rigid import (
    gravity_stiffness,
    mass_matrix,
    modes,
    support_matrix,
)

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


def test_period_of_both_kinds_of_zigzag() -> None:
    assert period(0.03, 0.1, A) == pytest.approx(2 * (0.3 + 0.04))
    assert period(0.001, 0.1, A) == pytest.approx(4 * np.sqrt(0.001 / A))  # never reaches 0.1 m/s
    edge = 0.1**2 / A  # where both forms meet
    assert period(edge, 0.1, A) == pytest.approx(4 * np.sqrt(edge / A))
    for stroke in (0.001, 0.004, 0.03):
        back = stroke_of_period(period(stroke, 0.1, A), 0.1, A)
        assert back == pytest.approx(stroke, rel=1e-12)


def pulse(time: np.ndarray, stroke: float, speed: float) -> np.ndarray:
    """The tool's acceleration itself, t = 0 in the middle of a reversal."""
    whole = float(period(stroke, speed, A))
    width = min(speed, np.sqrt(A * stroke)) / A
    phase = (time + whole / 2) % whole - whole / 2
    near = np.abs(phase) < width
    far = np.abs(np.abs(phase) - whole / 2) < width
    return A * near.astype(float) - A * far.astype(float)


@pytest.mark.parametrize("stroke", [0.03, 0.001], ids=["trapezoid", "triangle"])
def test_harmonics_are_the_fourier_integral(stroke: float) -> None:
    whole = float(period(stroke, 0.1, A))
    time = (np.arange(200_000) + 0.5) * whole / 200_000
    orders = np.array([1.0, 3.0, 5.0, 7.0])
    wave = np.cos(2 * np.pi * orders[:, None] * time / whole)
    integral = 2 * (wave * pulse(time, stroke, 0.1)).mean(axis=1)
    found = acceleration_harmonics(stroke, 0.1, A, orders)
    np.testing.assert_allclose(found, integral, atol=A * 1e-4)  # edges of pulses between samples
    even = 2 * (np.cos(4 * np.pi * time / whole) * pulse(time, stroke, 0.1)).mean()
    assert abs(even) < A * 1e-4


def test_the_pulses_carry_the_tool_over_its_stroke() -> None:
    # sum of −A_n/(nω)² cos over all odd n is the place; twice its value at t = 0 is the stroke
    orders = np.arange(1.0, 401.0, 2.0)
    size = acceleration_harmonics(0.03, 0.1, A, orders)
    place = (size / (orders * 2 * np.pi / period(0.03, 0.1, A)) ** 2).sum()
    assert 2 * place == pytest.approx(0.03, rel=1e-6)


def printer(loss: float):
    linear = LINEAR * (1 + 1j * loss)
    stiffness = support_matrix(ARMS, linear, np.zeros((4, 3)))
    stiffness = stiffness + gravity_stiffness(np.full(4, 11.8 * 9.80665 / 4), ARMS)
    frequencies, shapes = modes(stiffness, MASS)
    energy = np.einsum("ij,ij->j", shapes, stiffness @ shapes)  # lost and kept, mode by mode
    return frequencies, shapes, energy.imag / energy.real


def integrated(frequencies, shapes, loss, stroke: float, speed: float) -> np.ndarray:
    """Peak motion of each point by stepping each mode, with ζ = η/2, from rest until steady."""
    own, pull = 2 * np.pi * frequencies, shapes.T @ PUSH
    whole = float(period(stroke, speed, A))
    width = min(speed, np.sqrt(A * stroke)) / A
    turns = int(np.ceil(5 / (np.min(own * loss / 2) * whole))) + 1
    edges = np.array([0.0, width, whole / 2 - width, whole / 2, whole / 2 + width, whole - width])
    state, peak = np.zeros(12), 0.0

    def rate(_: float, y: np.ndarray, force: float) -> np.ndarray:
        q, v = y[:6], y[6:]
        return np.concatenate([v, pull * force - own**2 * q - own * loss * v])

    for turn in range(turns):
        spans = zip(edges, [*edges[1:], whole], (A, 0, -A, -A, 0, A), strict=True)
        for start, end, force in spans:
            if end - start < 1e-12:
                continue
            last = turn == turns - 1
            at = np.linspace(start, end, 60) if last else [end]
            run = solve_ivp(
                rate,
                (start, end),
                state,
                t_eval=at,
                args=(force,),
                rtol=1e-7,
                atol=1e-10,
                method="DOP853",
            )
            state = run.y[:, -1]
            if last:
                q = shapes @ run.y[:6]
                moved = [q[:3] + np.cross(q[3:].T, point).T for point in POINTS]
                peak = np.maximum(peak, [np.linalg.norm(m, axis=0).max() for m in moved])
    return np.asarray(peak)


@pytest.mark.parametrize("loss", [0.1, 0.35])
def test_sway_at_its_worst_stroke_agrees_with_direct_integration(loss: float) -> None:
    modal = printer(loss)
    found = worst_sway(*modal, PUSH, POINTS, [0.08], A)
    expected = integrated(*modal, float(found.stroke), 0.08)
    # constant loss factor against its viscous equal, five harmonics, 32 moments
    np.testing.assert_allclose(found.peak, expected, rtol=0.05)


def steady(loss: float, speed: float) -> float:
    """Worst tool sway over a fine row of strokes, with 51 harmonics and 400 moments."""
    frequencies, shapes, losses = printer(loss)
    own, pull = 2 * np.pi * frequencies, shapes.T @ PUSH
    orders = np.arange(1.0, 102.0, 2.0)
    strokes = np.geomspace(0.001, 0.1, 600)
    size = acceleration_harmonics(strokes, speed, A, orders)
    drive = 2 * np.pi / period(strokes, speed, A)[:, None] * orders
    spring = (own**2 * (1 + 1j * losses))[:, None, None]
    modal = pull[:, None, None] * size / (spring - drive**2)
    wave = np.exp(1j * orders[:, None] * np.linspace(0, np.pi, 400))
    q = np.real(np.einsum("im,msn,nt->ist", shapes, modal, wave))
    moved = q[:3] + np.cross(q[3:], POINTS[0], axis=0)
    peaks = np.linalg.norm(moved, axis=0).max(axis=-1)
    return float(peaks.max())


@pytest.mark.parametrize("speed", [0.03, 0.1, 0.25])
@pytest.mark.parametrize(("loss", "tolerance"), [(0.08, 0.01), (0.2, 0.01), (0.5, 0.04)])
def test_no_other_stroke_sways_more(loss: float, tolerance: float, speed: float) -> None:
    found = worst_sway(*printer(loss), PUSH, POINTS[:1], [speed], A)
    # twelve strokes and five harmonics stand for all; damped modes have broader, flatter peaks
    assert found.peak[0] == pytest.approx(steady(loss, speed), rel=tolerance)


def test_a_batch_is_its_members_and_the_worst_speed_is_told() -> None:
    soft, hard = printer(0.2), printer(0.4)
    together = [np.stack([a, b]) for a, b in zip(soft, hard, strict=True)]
    speeds = [0.02, 0.12, 0.07]
    batch = worst_sway(*together, PUSH, POINTS, speeds, A)
    for i, one in enumerate((soft, hard)):
        alone = worst_sway(*one, PUSH, POINTS, speeds, A)
        np.testing.assert_allclose(batch.peak[i], alone.peak, rtol=1e-12)
        assert batch.speed[i] == alone.speed
        each = [worst_sway(*one, PUSH, POINTS, [v], A).peak.max() for v in speeds]
        assert alone.peak.max() == pytest.approx(max(each), rel=0.02)  # picked by amplitudes' sum


def test_twice_the_moving_mass_sways_twice_as_far() -> None:
    one = worst_sway(*printer(0.2), PUSH, POINTS, [0.1], A).peak
    two = worst_sway(*printer(0.2), 2 * PUSH, POINTS, [0.1], A).peak
    np.testing.assert_allclose(two, 2 * one, rtol=1e-12)


def test_step_factor() -> None:
    assert step_factor(0.0) == 2.0
    # Rao, Mechanical Vibrations: overshoot of a step, 52.7 % at ζ = 0.2 (from memory)
    assert step_factor(0.2) == pytest.approx(1.527, abs=5e-4)


def test_slip_margin_is_friction_over_push() -> None:
    assert slip_margin(0.75, 2.5, 115.0, 0.6) == pytest.approx(0.6 * 115 / 1.875)


SQUARE = np.array([[0.2, 0.15], [-0.2, 0.15], [0.2, -0.15], [-0.2, -0.15]])


def test_tip_margin_of_a_rectangle_by_levers() -> None:
    com = np.array([0.04, -0.03])
    # moment to tip about the right edge: W·(0.2 − 0.04) against F·h
    right = tip_margin(SQUARE, com, 115.0, [3.0, 0.0], 0.42)
    assert right == pytest.approx(115 * 0.16 / (3.0 * 0.42))
    back = tip_margin(SQUARE, com, 115.0, [0.0, 3.0], 0.42)
    assert back == pytest.approx(115 * 0.18 / (3.0 * 0.42))


def test_tip_margin_leaves_out_a_foot_inside_the_outline() -> None:
    inside = np.vstack([SQUARE, [[0.05, 0.02]]])
    force = np.array([[3.0, 1.0], [-2.0, 2.5], [0.5, -3.0]])
    com = np.array([[0.04, -0.03], [0.0, 0.02], [-0.1, 0.0]])
    with_it = tip_margin(inside, com, 115.0, force, 0.42)
    np.testing.assert_allclose(with_it, tip_margin(SQUARE, com, 115.0, force, 0.42), rtol=1e-12)


def test_tip_margin_is_negative_outside_the_feet() -> None:
    assert tip_margin(SQUARE, [0.25, 0.0], 115.0, [3.0, 0.0], 0.42) < 0
