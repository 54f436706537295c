"""Stepper, belt and kinematics figures.

Acarnley, Stepping Motors (rotor teeth, orders of the ripple; from memory); belt pitches of ISO 5296
and ISO 13050; crossed belts: A = x + y, B = x − y.
"""

import numpy as np
import pytest

from isolator.physics.stepper import (
    belt_speeds,
    lines,
    magnetic_stiffness,
    microstep_torque,
    pitch_diameter,
    rotor_resonance,
    tooth_mesh_frequency,
)

GRAM_CM2 = 1e-7


@pytest.mark.parametrize(
    ("microsteps", "share"),
    [(2, 0.7071068), (4, 0.3826834), (8, 0.1950903), (16, 0.0980171), (32, 0.0490677),
     (64, 0.0245412), (128, 0.0122715), (256, 0.0061359)],
)  # fmt: skip
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
        "turn": turn, "belt tooth": tooth, "electrical": electrical,
        "twice electrical": 2 * electrical, "full step": full, "microstep": 16 * full,
    }  # fmt: skip
    assert list(found) == list(expected)
    assert found == pytest.approx(expected, rel=1e-12)  # exact but for rounding
    assert tooth_mesh_frequency(speed, 0.002) == pytest.approx(tooth, rel=1e-12)


@pytest.mark.parametrize(
    ("pitch", "teeth", "millimetres"),
    [(2.0, 12, 7.639437), (2.0, 16, 10.185916), (2.0, 20, 12.732395), (2.0, 36, 22.918312),
     (2.0, 60, 38.197186), (2.0, 80, 50.929582), (2.032, 20, 12.936114), (2.5, 20, 15.915494),
     (5.0, 12, 19.098593)],
)  # fmt: skip
def test_pitch_diameter(pitch: float, teeth: int, millimetres: float) -> None:
    assert 1e3 * pitch_diameter(pitch / 1e3, teeth) == pytest.approx(millimetres, abs=6e-7)


@pytest.mark.parametrize(
    ("torque", "inertia", "hertz"),
    [(0.40, 54, 306.294), (0.45, 68, 289.506), (0.26, 38, 294.374), (0.59, 102, 270.664)],
)
def test_rotor_resonance(torque: float, inertia: float, hertz: float) -> None:
    # torque [N·m] and inertia [g·cm²] typical of size 17 (from memory)
    assert rotor_resonance(torque, 200, inertia * GRAM_CM2) == pytest.approx(hertz, rel=2e-6)


def test_rotor_resonance_with_a_carriage_on_a_rigid_belt() -> None:
    load = 0.30 * (pitch_diameter(0.002, 20) / 2) ** 2
    assert load == pytest.approx(1.215855e-5, rel=1e-6)
    assert rotor_resonance(0.40, 200, 54 * GRAM_CM2 + load) == pytest.approx(169.860, rel=3e-6)


def test_held_rotor() -> None:
    # 50 rotor teeth of a 1.8° motor, 100 of a 0.9° one
    assert magnetic_stiffness(0.40, 200) == pytest.approx(20.0)
    assert magnetic_stiffness(0.40, 400) == pytest.approx(40.0)


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
