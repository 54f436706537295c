"""Stepper, belt and kinematics figures.

Acarnley, Stepping Motors (rotor teeth, orders of the ripple; from memory); belt pitches of ISO 5296
and ISO 13050; crossed belts: A = x + y, B = x − y.
"""

import math

import numpy as np
import pytest
from drive_train import plain_drive, still
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq

from isolator.physics.drive.belts import tension_of_span
from isolator.physics.drive.stepper import (
    belt_speeds,
    lines,
    magnetic_stiffness,
    microstep_torque,
)
from isolator.physics.drive.torque import torque_at_current, torque_at_speed

GRAM_CM2 = 1e-7


@pytest.mark.parametrize(
    ("microsteps", "share"),
    [
        (2, 0.7071068),
        (4, 0.3826834),
        (8, 0.1950903),
        (16, 0.0980171),
        (32, 0.0490677),
        (64, 0.0245412),
        (128, 0.0122715),
        (256, 0.0061359),
    ],
)
def test_microstep_torque(microsteps: int, share: float) -> None:
    assert microstep_torque(0.42, microsteps) == pytest.approx(0.42 * share, abs=3e-8)  # 7 decimals


@pytest.mark.parametrize(
    ("speed", "teeth", "steps", "turn", "tooth", "electrical", "full"),
    [
        (0.100, 20, 200, 2.5, 50.0, 125.0, 500.0),
        (0.050, 20, 200, 1.25, 25.0, 62.5, 250.0),
        (0.150, 20, 200, 3.75, 75.0, 187.5, 750.0),
        (0.100, 16, 200, 3.125, 50.0, 156.25, 625.0),
        (0.100, 20, 400, 2.5, 50.0, 250.0, 1000.0),
    ],
)
def test_lines(
    speed: float, teeth: int, steps: int, turn: float, tooth: float, electrical: float, full: float
) -> None:
    # 2 mm belt, 16 microsteps
    found = lines(speed, 0.002 * teeth, teeth, steps, 16)
    expected = {
        "turn": turn,
        "belt tooth": tooth,
        "electrical": electrical,
        "twice electrical": 2 * electrical,
        "full step": full,
        "microstep": 16 * full,
    }
    assert list(found) == list(expected)
    assert found == pytest.approx(expected, rel=1e-12)  # exact but for rounding
    assert found["belt tooth"] == pytest.approx(speed / 0.002, rel=1e-12)  # any number of teeth


def pitch_diameter(pitch: float, teeth: int) -> float:
    """Across what circle [m] a pulley runs: the belt's speed over π turns a second."""
    return 1.0 / (np.pi * lines(1.0, pitch * teeth, teeth, 200, 16)["turn"])


@pytest.mark.parametrize(
    ("pitch", "teeth", "millimetres"),
    [
        (2.0, 12, 7.639437),
        (2.0, 16, 10.185916),
        (2.0, 20, 12.732395),
        (2.0, 36, 22.918312),
        (2.0, 60, 38.197186),
        (2.0, 80, 50.929582),
        (2.032, 20, 12.936114),
        (2.5, 20, 15.915494),
        (5.0, 12, 19.098593),
    ],
)
def test_pitch_diameter(pitch: float, teeth: int, millimetres: float) -> None:
    assert 1e3 * pitch_diameter(pitch / 1e3, teeth) == pytest.approx(millimetres, abs=6e-7)


def rotor_resonance(torque: float, inertia: float, carriage: float, belt: float) -> float:
    """Where [Hz] the tool's drive of one axis swings without bound, on a pulley of 20 teeth."""
    held = complex(magnetic_stiffness(torque, 200, 1.0)) * (1 + 1e-9j)
    drive = plain_drive(inertia, pitch_diameter(0.002, 20) / 2, belt, (1.0, 0.0), held)

    def away(hertz: float) -> float:
        return float(np.real(1 / still([drive], (carriage, 1.0), hertz, 1.0)[0, 0]))

    return float(brentq(away, 10.0, 1000.0, xtol=1e-9))


@pytest.mark.parametrize(
    ("torque", "inertia", "hertz"),
    [(0.40, 54, 257.5614), (0.45, 68, 243.4442), (0.26, 38, 247.5384), (0.59, 102, 227.6007)],
)
def test_rotor_resonance(torque: float, inertia: float, hertz: float) -> None:
    # torque [N·m] and inertia [g·cm²] typical of size 17 (from memory); derived: √(50·T/√2/J)/2π,
    # sine currents at the rated peak
    found = rotor_resonance(torque, inertia * GRAM_CM2, 0.30, 0.0)  # no belt on it
    assert found == pytest.approx(hertz, rel=2e-6)


def test_rotor_resonance_with_a_carriage_on_a_rigid_belt() -> None:
    load = 0.30 * (pitch_diameter(0.002, 20) / 2) ** 2
    assert load == pytest.approx(1.215855e-5, rel=1e-6)
    found = rotor_resonance(0.40, 54 * GRAM_CM2, 0.30, 1e12)
    assert found == pytest.approx(142.8346, rel=3e-6)  # derived, as above with m·r² in J


def test_held_rotor() -> None:
    # 50 rotor teeth of a 1.8° motor, 100 of a 0.9° one; N_r·T_h/√2·I/I_rated, derived
    assert magnetic_stiffness(0.40, 200, 1.0) == pytest.approx(14.142136, rel=1e-7)
    assert magnetic_stiffness(0.40, 400, 1.0) == pytest.approx(28.284271, rel=1e-7)
    assert magnetic_stiffness(0.40, 200, 0.7) == pytest.approx(9.899495, rel=1e-7)


def test_a_field_holds_as_the_slope_of_its_torque() -> None:
    """Two windings' sinusoidal curves a quarter period apart, sine currents: −dT/dφ at rest."""
    rated, holding, peak, teeth = 1.7, 0.44, 1.1, 50
    winding = holding / math.sqrt(2.0) / rated  # both full on add as vectors
    for field in (0.2, 0.9, 2.3):
        currents = peak * np.cos(field), peak * np.sin(field)

        def torque(turn: float, currents: tuple[float, float] = currents) -> float:
            along, across = currents
            return winding * (across * math.cos(teeth * turn) - along * math.sin(teeth * turn))

        rest, step = field / teeth, 1e-6
        assert torque(rest) == pytest.approx(0.0, abs=1e-12)
        slope = -(torque(rest + step) - torque(rest - step)) / (2 * step)
        # differences: (50·1e-6)²/6
        assert magnetic_stiffness(holding, 200, peak / rated) == pytest.approx(slope, rel=1e-8)


def test_detent_at_the_belt() -> None:
    # 0.02 N·m of detent is 3.14159 N at the belt
    assert 0.02 / (pitch_diameter(0.002, 20) / 2) == pytest.approx(3.14159, rel=1e-6)


def test_crossed_belts() -> None:
    assert belt_speeds("crossed-belt", 0.1, 0.0) == pytest.approx((0.1, 0.1))
    assert belt_speeds("crossed-belt", 0.1, np.pi / 2) == pytest.approx((0.1, 0.1))
    first, second = belt_speeds("crossed-belt", 0.1, np.pi / 4)
    assert first == pytest.approx(0.14142136, rel=1e-7)
    assert second == pytest.approx(0.0, abs=1e-15)


@pytest.mark.parametrize(
    ("line", "speed"),
    [("electrical", 0.012), ("full step", 0.003), ("belt tooth", 0.030), ("turn", 0.600)],
)
def test_speed_at_which_a_line_meets_a_frame_mode(line: str, speed: float) -> None:
    assert lines(speed, 0.04, 20, 200, 16)[line] == pytest.approx(15.0)


@pytest.mark.parametrize(
    ("length", "frequency", "line_mass", "newtons", "tolerance"),
    [
        # OpenStax University Physics 1, chapter 16: 56.40 N on 3.09e-4 kg/m run at 427.23 m/s (the
        # speed from memory, five digits); two lengths make a wave, here 0.65 m
        (0.65, 427.23 / 1.3, 3.09e-4, 56.40, 5e-5),
        # a textbook string of 90 cm, 3.6 g and 520 N; its pitch told as 200 Hz, three digits
        (0.90, 200.0, 4.0e-3, 520.0, 5e-3),
    ],
)
def test_plucked_strings(
    length: float, frequency: float, line_mass: float, newtons: float, tolerance: float
) -> None:
    assert tension_of_span(length, frequency, line_mass) == pytest.approx(newtons, rel=tolerance)


def test_a_string_retuned() -> None:
    """Young and Freedman, University Physics 15.74: 25.5 in, 78.0 N; E2 82.4 Hz tuned to 196.0 Hz.

    The answer, 441 N, is derived: tension goes with the square of pitch.
    """
    length, mass = 25.5 * 25.4e-3, 78.0 / (2 * 25.5 * 25.4e-3 * 82.4) ** 2
    assert tension_of_span(length, 196.0, mass) == pytest.approx(441.3, abs=0.1)  # the digit told


def test_two_windings_hold_more_than_one() -> None:
    """Jones, Control of Stepping Motors: sinusoidal curves a quarter period apart simply add.

    Both windings at rated current then hold √2 of what one holds; sine and cosine currents hold
    what one winding holds, wherever they stand.
    """
    curve = np.linspace(0.0, math.tau, 7201)
    rated, holding, peak = 1.7, 0.44, 1.1
    both = np.max(rated * np.cos(curve) + rated * np.sin(curve))
    for field in (0.2, 0.9, 2.3):
        one = np.max(peak * (np.cos(field) * np.cos(curve) + np.sin(field) * np.sin(curve)))
        assert torque_at_current(holding, peak, rated) == pytest.approx(
            holding * one / both,
            rel=1e-6,  # steps of the curve, (π/7200)²/2
        )


@given(turns=st.floats(0.05, 40.0), inductance=st.floats(1e-5, 8e-3), voltage=st.floats(5, 48))
def test_no_more_than_the_pull_out_torque(turns: float, inductance: float, voltage: float) -> None:
    """Acarnley, Stepping Motors (from memory): K·V/Z − K²·Ω·R/Z², whatever the load angle."""
    holding, rated, resistance = 0.44, 1.7, 1.6
    k, omega = holding / math.sqrt(2.0) / rated, math.tau * turns
    impedance = math.hypot(resistance, 50 * omega * inductance)
    pull_out = k * voltage / impedance - k**2 * omega * resistance / impedance**2
    found = float(
        torque_at_speed(holding, rated, 1e3, resistance, inductance, voltage, turns, 200)
    )  # a set current that never binds
    assert found <= max(pull_out, 0.0) * (1 + 1e-9)
    if turns < 0.5 and voltage > 20.0:
        # in phase is best while the coil's share of the back-emf is small against the supply:
        # what is lost goes with (ωL·KΩ/(Z·V))²/2, here under 0.4 %
        assert found == pytest.approx(pull_out, rel=5e-3)
