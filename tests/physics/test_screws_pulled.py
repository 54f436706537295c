"""What an attachment feels: by hand, by a plate on springs, by integration, and its limits."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import brentq

from isolator.physics.bodies.statics import settle
from isolator.physics.joints import holding


def test_two_screws_of_a_flange_by_hand() -> None:
    """24 N at 25 mm under a face 48 × 28 mm that 30 N press on, screws 29 mm beside the middle.

    Tipping about y the weight holds 30 · 24 = 720 N·mm of 600: no tension. About x the edge is
    14 mm off: 600 − 420 = 180 N·mm, both screws 14 mm from it: 6.43 N each.
    """
    tipped = holding.screw_tension(
        [(-0.029, 0.0), (0.029, 0.0)], (0.024, 0.014), (0.036, 0.014), 24.0, 0.025, 30.0, 0.0
    )
    assert tipped.tension == pytest.approx([6.42857, 6.42857], rel=1e-5)  # digits of the hand sum
    assert tipped.heel == 0.0


def test_screws_on_one_side_are_held_by_the_flanges_end() -> None:
    """Both screws right of the middle: pushed to the right the foot tips about the flange's end.

    End 39 mm from the middle, screws 31 and 35 mm: levers 8 and 4 mm; 50 N at 40 mm less
    10 N · 39 mm: 1610 N·mm over 8² + 4² = 80 mm²: 161 and 80.5 N. The end bears 10 + 241.5 N, 21 mm
    beyond the body's side.
    """
    places = [(0.031, 0.0), (0.035, 0.0)]
    tipped = holding.screw_tension(places, (0.018, 0.018), (0.039, 0.018), 50.0, 0.04, 10.0, 0.0)
    assert tipped.tension[0] == pytest.approx(161.0)
    assert tipped.tension[1] >= 80.5  # a push aslant finds more
    assert tipped.heel == pytest.approx(251.5 * 0.021)


@settings(max_examples=30)
@given(
    sideways=st.floats(20, 80),
    load=st.floats(5, 30),
    height=st.floats(0.02, 0.06),
    x=st.floats(0.012, 0.03),
    edge=st.floats(0.015, 0.03),
)
def test_the_pull_of_unequal_screws_is_that_of_springs_under_a_rigid_plate(
    sideways: float, load: float, height: float, x: float, edge: float
) -> None:
    """Screws as springs that only pull and a hard edge; the tilt found by bisection."""
    places = np.array([-x, 0.7 * x])
    pulled = holding.screw_tension(
        [(at, 0.0) for at in places], (edge, 9.0), (edge, 9.0), sideways, height, load, 0.0
    )
    worst = np.zeros(2)
    for side in (1.0, -1.0):

        def springs(tilt: float, side: float = side) -> np.ndarray:
            return 1e5 * np.maximum(tilt * (edge - side * places), 0.0)

        def left(tilt: float, side: float = side) -> float:
            held = float(springs(tilt, side) @ (edge - side * places))
            return sideways * height - load * edge - held

        tilt = brentq(left, 0.0, 10.0, xtol=1e-15) if left(0.0) > 0 else 0.0
        worst = np.maximum(worst, springs(tilt))
    # other directions of the push find less: their edge is that of a long ellipse
    assert pulled.tension == pytest.approx(worst, rel=1e-6, abs=1e-6)  # of the bisection


def test_a_heavy_low_foot_pulls_at_nothing_and_a_pull_is_shared() -> None:
    places = [(-0.02, 0.0), (0.02, 0.0)]
    held = holding.screw_tension(places, (0.03, 0.03), (0.03, 0.03), 20.0, 0.02, 40.0, 9.0)
    assert held.tension == pytest.approx([4.5, 4.5])


def test_settling_and_holding_agree_where_nothing_tips() -> None:
    """Feet that settle level press on every screw: the weight alone pulls at none."""
    places = np.array([[-0.2, -0.2], [0.2, -0.2], [0.2, 0.2], [-0.2, 0.2]])
    rest = settle(places, [0.0, 0.0], np.array(118.0), lambda sag: (4e4 * sag, 4e4 + 0 * sag))
    load = float(rest.loads[0])
    assert load == pytest.approx(29.5)
    alone = holding.screw_tension([(0.0, 0.0)], (0.015,) * 2, (0.015,) * 2, 0.0, 0.03, load, 0.0)
    assert alone.tension == 0.0


def test_a_plate_bends_as_its_stress_integrates() -> None:
    """Section modulus b·t²/6 integrated over the thickness, not quoted."""
    width, thick, moment = 0.0135, 0.0042, 0.23
    z = np.linspace(-thick / 2, thick / 2, 20_001)
    inertia = float(np.trapezoid(width * z**2, z))
    found = holding.bending_stress(moment, width, thick)
    assert found == pytest.approx(moment * (thick / 2) / inertia, rel=1e-7)  # of the trapezia


def test_a_strip_held_flat_moves_as_its_curve_integrates() -> None:
    """Curvature M(x)/EI, M from +F·m/2 to −F·m/2, integrated twice; shear angle 1.2·F/(G·A)."""
    force, arm, width, thick, youngs, shear = 23.0, 0.0061, 0.0125, 0.0034, 26e6, 9.1e6
    x = np.linspace(0.0, arm, 20_001)
    inertia, step = width * thick**3 / 12.0, arm / 20_000
    curve = force * (arm / 2.0 - x) / (youngs * inertia)
    slope = np.concatenate([[0.0], np.cumsum((curve[1:] + curve[:-1]) / 2.0 * step)])
    assert abs(slope[-1]) < 1e-9 * abs(slope).max()  # the head keeps it flat
    moved = float(np.trapezoid(slope + 1.2 * force / (shear * width * thick), x))
    found = holding.guided_deflection(force, arm, width, thick, youngs, shear)
    assert found == pytest.approx(moved, rel=1e-6)  # of the trapezia


def test_the_middle_of_a_cap_is_bent_as_shear_integrates() -> None:
    pull, reach, wide = 17.0, 0.0232, 0.0363
    x = np.linspace(-reach, 0.0, 200_001)
    shear = np.where(x < -wide / 2, pull / 2, pull / 2 - pull / wide * (x + wide / 2))
    assert holding.middle_moment(pull, reach, wide) == pytest.approx(
        float(np.trapezoid(shear, x)),
        rel=1e-6,  # of the trapezia
    )


def test_a_plug_is_held_by_pressures_in_balance() -> None:
    """Linear pressure over the length: no net force, and the moment told."""
    moment, width, length = 0.61, 0.0127, 0.0143
    z = np.linspace(-length / 2, length / 2, 20_001)
    pressure = holding.socket_pressure(moment, width, length) * z / (length / 2)
    assert float(np.trapezoid(pressure * width, z)) == pytest.approx(0.0, abs=1e-9)
    # 1e-7: of the trapezia
    assert float(np.trapezoid(pressure * width * z, z)) == pytest.approx(moment, rel=1e-7)


@pytest.mark.parametrize("hollow", [0.0, 0.0087])
def test_a_tube_and_a_screw_are_bent_as_round_sections(hollow: float) -> None:
    """Second moment of a ring by slices y² times the chord."""
    outer, moment = 0.0131, 0.43
    y = np.linspace(-outer / 2, outer / 2, 400_001)

    def chord(across: float) -> np.ndarray:
        return 2.0 * np.sqrt(np.maximum((across / 2) ** 2 - y**2, 0.0))

    inertia = float(np.trapezoid((chord(outer) - chord(hollow)) * y**2, y))
    by_slices = moment * (outer / 2) / inertia
    # 1e-5: slices miss the ends of the chords
    assert holding.tube_bending(moment, outer, hollow) == pytest.approx(by_slices, rel=1e-5)
    if hollow == 0.0:
        screw = holding.screw_bending(moment, outer + 0.9382 * 1.5e-3, 1.5e-3)
        assert screw == pytest.approx(by_slices, rel=1e-5)


@pytest.mark.parametrize("disc", [True, False])
def test_peel_is_the_edge_stress_of_a_bent_face(disc: bool) -> None:
    wide, deep = (0.027, 0.027) if disc else (0.031, 0.022)
    y = np.linspace(-deep / 2, deep / 2, 200_001)
    chord = 2.0 * np.sqrt(np.maximum((wide / 2) ** 2 - y**2, 0.0)) if disc else wide
    inertia = float(np.trapezoid(chord * y**2, y))
    area = float(np.trapezoid(chord * np.ones_like(y), y))
    wanted = 0.31 * (deep / 2) / inertia + 4.0 / area
    # the trapezia of a round chord miss its ends
    assert holding.peel_stress(0.31, 4.0, wide, deep, disc=disc) == pytest.approx(wanted, rel=1e-5)


def test_prying_in_balance_and_its_limits() -> None:
    """Moments ±F·m/2 at body and screw: the end's push times its arm is F·m/2."""
    force, arm, end = 31.0, 0.0083, 0.0067
    pried = holding.prying(arm, end)
    assert force * (pried - 1.0) * end == pytest.approx(force * arm / 2.0)
    assert holding.prying(0.0, end) == 1.0
    assert holding.prying(1e-3, 1.0) == pytest.approx(1.4)  # no more end than 1.25 arms
    assert holding.spread_arm(0.001, 0.0095) == 0.0


def test_a_thread_pulled_out_shears_as_much_as_a_head_punched_through() -> None:
    """The same cylinder, half of it plastic: twice the stress."""
    for force, across, long in ((17.0, 0.0041, 0.0102), (93.0, 0.0083, 0.0027)):
        punched = holding.punching_stress(force, across, long)
        assert holding.thread_stress(force, across, long) == pytest.approx(2.0 * punched)
        assert punched * math.pi * across * long == pytest.approx(force)
