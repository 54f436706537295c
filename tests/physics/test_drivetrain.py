"""Belt drives on a frame that stands: limits beside the belt resonance, the balance of momentum.

The product's chain of bodies with its frame held, against closed forms and against the equations
of two and of four degrees of freedom.
"""

from typing import NamedTuple

import numpy as np
import pytest
from drive_train import axis_response, crossed_response, plain_drive, still

from isolator.physics.drive.belts import held_belt_resonance

J, R, K, M = 61e-7, 0.0064, 21e3 * (1 + 0.04j), 0.35
TORQUE = 0.013
# J/r² against m on the belt
FREE = np.sqrt(K.real * (R**2 / J + 1 / M)) / (2 * np.pi)


class Axis(NamedTuple):
    rotor: np.ndarray
    carriage: np.ndarray


class Plane(NamedTuple):
    rotor_a: complex
    rotor_b: complex
    carriage_x: complex
    carriage_y: complex


def axis(hertz, magnetic: float = 0.0, belt: complex = K, mass: float = M) -> Axis:
    drive = plain_drive(J, R, belt, (1.0, 0.0), magnetic)
    found = still([drive], (mass, 1.0), hertz, TORQUE)
    return Axis(*(each[0] if np.ndim(hertz) == 0 else each for each in found.T[:2]))


def crossed(hertz: float, mx: float, my: float, magnetic: float = 0.0) -> Plane:
    drives = [plain_drive(J, R, K, (1.0, side), magnetic) for side in (1.0, -1.0)]
    return Plane(*still(drives, (mx, my), hertz, TORQUE)[0].tolist())


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
    found = axis(hertz, belt=K.real * (1 + 1e-4j))
    peak = hertz[np.argmax(np.abs(found.carriage))]
    assert peak == pytest.approx(FREE, abs=0.006)  # one step of the sweep


def test_a_stiffly_held_rotor_leaves_the_carriage_on_its_belt() -> None:
    hertz = np.linspace(20, 200, 36001)
    found = axis(hertz, 1e6, K.real * (1 + 1e-4j))
    peak = hertz[np.argmax(np.abs(found.carriage))]
    assert peak == pytest.approx(held_belt_resonance(K, M), abs=0.006)
    assert held_belt_resonance(K, M) < FREE


def test_two_motors_on_one_axis_hold_it_with_two_belts() -> None:
    # rotors held: √(2·60 N/mm over 1.34 kg)/2π is 47.63 Hz, one belt alone would ring at 33.68 Hz
    hertz = np.arange(25.0, 60.0, 0.01)
    belt = 60e3 * (1 + 1e-4j)
    for count, told in ((1, 33.68), (2, 47.63)):
        drives = [plain_drive(J, R, belt, (0.0, 1.0), 1e6)] * count
        found = still(drives, (1.0, 1.34), hertz, TORQUE)
        assert hertz[np.argmax(np.abs(found[:, -1]))] == pytest.approx(told, abs=0.01)  # a step
        assert held_belt_resonance(count * 60e3, 1.34) == pytest.approx(told, abs=0.006)


def test_magnetic_spring_holds_the_rotor_at_low_frequency() -> None:
    omega = 2 * np.pi * 0.5
    found = axis(0.5, 20.0)
    assert found.rotor == pytest.approx(-(omega**2) * TORQUE / 20.0, rel=1e-3)  # φ = τ/k_m


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
    alone = axis(43.0, mass=0.25)
    assert found.rotor_a == pytest.approx(alone.rotor, rel=1e-9)
    assert found.carriage_x == pytest.approx(alone.carriage / 2, rel=1e-9)


@pytest.mark.parametrize("magnetic", [0.0, 17.0 * (1 + 0.11j)])
def test_one_motor_is_two_degrees_of_freedom(magnetic: complex) -> None:
    hertz = np.array([2.3, 7.1, 19.0, 41.0, 67.0, 131.0, 240.0])
    expected = axis_response(1.0, 2 * np.pi * hertz, J, R, K, 0.83, magnetic)
    drive = plain_drive(J, R, K, (0.0, 1.0), magnetic)
    found = still([drive], (0.4, 0.83), hertz, 1.0)
    np.testing.assert_allclose(found[:, 0], expected.rotor, rtol=1e-9)  # rounding
    np.testing.assert_allclose(found[:, 2], expected.carriage, rtol=1e-9)
    np.testing.assert_array_equal(found[:, 1], 0.0)  # the other axis


def test_two_crossed_motors_are_four_degrees_of_freedom() -> None:
    hertz = np.array([2.3, 7.1, 19.0, 41.0, 67.0, 131.0, 240.0])
    magnetic = 17.0 * (1 + 0.11j)
    expected = crossed_response(1.0, 2 * np.pi * hertz, J, R, K, 0.37, 0.83, magnetic)
    drives = [plain_drive(J, R, K, (1.0, side), magnetic) for side in (1.0, -1.0)]
    found = still(drives, (0.37, 0.83), hertz, 1.0)
    np.testing.assert_allclose(found, np.stack(expected, axis=-1), rtol=1e-9)  # rounding
