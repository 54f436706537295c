"""Belt drives: limits below and above the belt resonance, and the balance of momentum."""

import numpy as np
import pytest

from isolator.physics.drive.drivetrain import (
    axis_response,
    crossed_response,
    held_belt_resonance,
)

J, R, K, M = 61e-7, 0.0064, 21e3 * (1 + 0.04j), 0.35
TORQUE = 0.013
# J/r² against m on the belt
FREE = np.sqrt(K.real * (R**2 / J + 1 / M)) / (2 * np.pi)


def axis(hertz: float, magnetic: float = 0.0):
    return axis_response(TORQUE, 2 * np.pi * hertz, J, R, K, M, magnetic)


def test_far_below_resonance_all_moves_as_one_and_the_force_rules() -> None:
    found = axis(0.5)
    together = TORQUE / (J + M * R**2)  # rigid belt
    assert found.rotor == pytest.approx(together, rel=2e-4)  # (f/f_belt)²
    assert found.carriage == pytest.approx(R * together, rel=2e-4)
    # most of the torque leaves as force on the carriage, as m·r² is over J
    assert abs(M * found.carriage * R) > 0.6 * TORQUE


def test_far_above_resonance_the_rotor_is_alone_and_the_torque_rules() -> None:
    found = axis(5000.0)
    assert J * found.rotor == pytest.approx(TORQUE, rel=1e-2)  # (f_belt/f)² and loss
    assert abs(M * found.carriage * R) < 1e-2 * TORQUE


@pytest.mark.parametrize("hertz", [7.0, 43.0, 91.0, 260.0])
def test_momentum_balance(hertz: float) -> None:
    # what the free rotor is pushed with is the change of momentum of rotor and carriage
    found = axis(hertz)
    assert J * found.rotor + R * M * found.carriage == pytest.approx(TORQUE, rel=1e-9)


def test_resonance_lies_where_the_closed_form_says() -> None:
    hertz = np.linspace(20, 200, 36001)
    found = axis_response(TORQUE, 2 * np.pi * hertz, J, R, K.real * (1 + 1e-4j), M, 0.0)
    peak = hertz[np.argmax(np.abs(found.carriage))]
    assert peak == pytest.approx(FREE, abs=0.006)  # one step of the sweep


def test_a_stiffly_held_rotor_leaves_the_carriage_on_its_belt() -> None:
    hertz = np.linspace(20, 200, 36001)
    found = axis_response(TORQUE, 2 * np.pi * hertz, J, R, K.real * (1 + 1e-4j), M, 1e6)
    peak = hertz[np.argmax(np.abs(found.carriage))]
    assert peak == pytest.approx(held_belt_resonance(K, M), abs=0.006)
    assert held_belt_resonance(K, M) < FREE


def test_magnetic_spring_holds_the_rotor_at_low_frequency() -> None:
    omega = 2 * np.pi * 0.5
    found = axis(0.5, 20.0)
    assert found.rotor == pytest.approx(-(omega**2) * TORQUE / 20.0, rel=1e-3)  # φ = τ/k_m


def crossed(hertz: float, mx: float, my: float, magnetic: float = 0.0):
    return crossed_response(TORQUE, 2 * np.pi * hertz, J, R, K, mx, my, magnetic)


@pytest.mark.parametrize("hertz", [7.0, 58.0, 91.0, 260.0])
def test_crossed_belts_balance_momentum(hertz: float) -> None:
    found = crossed(hertz, 0.35, 0.75)
    push_x, push_y = 0.35 * found.carriage_x, 0.75 * found.carriage_y
    # belt pulls: T_A + T_B = m_x a_x, T_A − T_B = m_y a_y
    assert J * found.rotor_a + R * (push_x + push_y) / 2 == pytest.approx(TORQUE, rel=1e-9)
    assert J * found.rotor_b + R * (push_x - push_y) / 2 == pytest.approx(0.0, abs=1e-9 * TORQUE)


def test_crossed_belts_move_as_their_kinematics_say_far_below_resonance() -> None:
    found = crossed(0.5, 0.35, 0.75)
    assert found.carriage_x == pytest.approx(R * (found.rotor_a + found.rotor_b) / 2, rel=1e-3)
    assert found.carriage_y == pytest.approx(R * (found.rotor_a - found.rotor_b) / 2, rel=1e-3)


def test_equal_masses_leave_the_other_rotor_of_crossed_belts_alone() -> None:
    # with m_x = m_y the diagonals do not couple: A sees half the mass, B nothing
    found = crossed(43.0, 0.5, 0.5)
    assert abs(found.rotor_b) < 1e-9 * abs(found.rotor_a)
    alone = axis_response(TORQUE, 2 * np.pi * 43.0, J, R, K, 0.25, 0.0)
    assert found.rotor_a == pytest.approx(alone.rotor, rel=1e-9)
    assert found.carriage_x == pytest.approx(alone.carriage / 2, rel=1e-9)


def test_a_batch_is_its_members() -> None:
    hertz = np.array([12.0, 77.0])
    batch = crossed_response(TORQUE, 2 * np.pi * hertz, J, R, K, 0.35, np.array([0.75, 0.6]), 9.0)
    for i, my in enumerate((0.75, 0.6)):
        alone = crossed(float(hertz[i]), 0.35, my, 9.0)
        for whole, one in zip(batch, alone, strict=True):
            assert whole[i] == pytest.approx(one, rel=1e-12)
