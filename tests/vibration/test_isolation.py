"""Transmissibility and insertion loss of one body on feet: textbook limits of the general form."""

import numpy as np
import pytest
from feet_response import foot_forces, frame_response, rigid_shares
from one_body import INERTIA, KILOGRAMS, LEVEL, on_feet, pushed, rigid_source

from isolator.physics.bodies.coupled import RIGID, contact
from isolator.physics.bodies.rigid import mass_matrix
from isolator.vibration.excitation import Push
from isolator.vibration.system import exact_modes

ARMS = np.array([[0.17, 0.19, -0.21], [-0.16, 0.14, -0.2], [0.15, -0.13, -0.22]])
LINEAR = np.array([[2100.0, 1700, 5200], [1900, 2300, 4100], [2500, 1500, 6100]])
ANGULAR = np.array([[1.1, 2.3, 0.7], [3.1, 1.9, 0.9], [0.4, 2.2, 1.7]])
PUSH = np.array([1.0, -0.4, 0.3, 0.05, -0.1, 0.2])
EQUAL = np.tile([1700.0, 2300.0, 4100.0], (3, 1))
UNEQUAL = on_feet(LINEAR[None], 0.2, arms=ARMS, angular=ANGULAR)
HERTZ = 1 / (2 * np.pi)  # of one radian a second


@pytest.mark.parametrize("axis", [0, 1, 2])
def test_pushed_through_its_centre_one_body_follows_the_textbook(axis: int) -> None:
    push = np.zeros(6)
    push[axis] = 1.0
    natural = np.sqrt(3 * EQUAL[0, axis] / KILOGRAMS)
    ratios = np.array([0.4, 0.9, 1.0, 1.7, 4.0])
    omega = natural * ratios
    found = pushed(on_feet(EQUAL[None], 0.3), omega * HERTZ, push).transmissibility[0]
    textbook = np.sqrt((1 + 0.3**2) / ((1 - ratios**2) ** 2 + 0.3**2))
    np.testing.assert_allclose(found, textbook, rtol=1e-10)

    # k + jωc, c = 2ζk/ω₀: a loss factor 2ζr, so that each frequency has feet of its own
    viscous = on_feet(np.tile(EQUAL, (5, 1, 1)), (2 * 0.1 * ratios)[:, None])
    found = np.diag(pushed(viscous, omega * HERTZ, push).transmissibility)
    lost = (2 * 0.1 * ratios) ** 2
    # damped feet stand still by their own dynamic stiffness: the reference is the force itself
    textbook = np.sqrt((1 + lost) / ((1 - ratios**2) ** 2 + lost))
    np.testing.assert_allclose(found, textbook, rtol=1e-10)


def test_slowly_pushed_nothing_is_gained() -> None:
    found = pushed(UNEQUAL, 1e-3 * HERTZ, PUSH).transmissibility
    assert found == pytest.approx(1.0, abs=1e-6)


def test_far_above_all_modes_it_falls_by_twelve_decibels_an_octave() -> None:
    turned = [0.0, 0.0, 0.0, 0.05, -0.1, 0.2]
    low, high = pushed(UNEQUAL, np.array([900.0, 1800.0]) * HERTZ, turned).transmissibility[0]
    assert 20 * np.log10(high / low) == pytest.approx(-12.04, abs=0.05)  # modes below 60 rad/s


def test_a_force_beside_the_centre_makes_its_moment() -> None:
    push = Push(
        force=np.array([2.0, -3.0, 5.0], dtype=complex),
        moment=np.array([0.1, 0.2, 0.3], dtype=complex),
        point=np.array([0.5, 0.1, -0.1]),
    )
    found = push.about(np.array([0.1, 0.0, 0.1]))
    np.testing.assert_allclose(found, [2, -3, 5, 0.0, -2.2, -1.1], atol=1e-15)


def test_insertion_loss_without_gravity_is_minus_transmissibility() -> None:
    found = pushed(UNEQUAL, 90.0 * HERTZ, PUSH)
    minus = -20 * np.log10(found.transmissibility)
    assert found.insertion_loss == pytest.approx(minus, abs=1e-9)


def levels(impedance: complex, hertz: np.ndarray) -> np.ndarray:
    """20·log10|(Y_S + Y_F + Y_D)/(Y_S + Y_D)| of upright feet (Vigran, Building Acoustics 2.43)."""
    omega = 2 * np.pi * hertz
    # three feet in parallel: foot and desk have a third of one's mobility
    source, desk = 1 / (1j * omega * KILOGRAMS), 1 / (3 * impedance)
    foot = 1j * omega / (3 * EQUAL[0, 2] * (1 + 0.2j))
    return 20 * np.log10(np.abs((source + foot + desk) / (source + desk)))


@pytest.mark.parametrize("impedance", [1240.0, 1e9])
def test_one_body_on_a_soft_desk(impedance: float) -> None:
    hertz = np.array([31.0, 83.0, 190.0])
    found = pushed(on_feet(EQUAL[None], 0.2), hertz, [0, 0, 1, 0, 0, 0], 1 / impedance)
    # [dB]; stiff feet stand for rigid ones, at 63 dB
    np.testing.assert_allclose(found.on_desk[0], levels(impedance, hertz), atol=2e-4)


@pytest.mark.parametrize("impedance", [1240.0, 900 + 300j, 600j, 1e9])
def test_feet_in_series_with_a_desk_of_any_impedance(impedance: complex) -> None:
    # a desk without losses takes no power, yet its forces follow the same formula
    hertz = np.array([31.0, 83.0, 190.0])
    source = rigid_source(on_feet(EQUAL[None], 0.2), hertz, np.eye(6)[2])
    feet = np.concatenate([EQUAL, np.zeros((3, 3))], axis=-1) * (1 + 0.2j)
    give = 1 / (2j * np.pi * hertz * impedance)
    desk = give[:, None, None] * np.diag(np.tile([1.0, 0.0, 0.0], 3))
    force = []
    for scale in (RIGID, 1.0):
        stiffness = np.broadcast_to(scale * feet, (1, len(hertz), 3, 6))
        level = np.zeros((1, 3))
        dynamic, blocked = source.dynamic, source.blocked
        found = contact(dynamic, blocked, LEVEL[None], stiffness, level, desk, hertz).force
        force.append(np.linalg.norm(found[0, :, :, 0], axis=-1))
    found = 20 * np.log10(force[0] / force[1])
    np.testing.assert_allclose(found, levels(impedance, hertz), atol=2e-4)


def test_a_desk_of_next_to_no_mobility_takes_the_power_of_the_upright_forces() -> None:
    loads = np.array([41.0, 33.0, 36.0])
    body = on_feet(LINEAR[None], 0.2, arms=ARMS, angular=ANGULAR, load=loads)
    found = pushed(body, 90.0, PUSH, 1e-16)
    springs = LINEAR * (1 + 0.2j)
    held = body.stiffness(np.array([90.0]))[0, 0]
    moved = frame_response(held, mass_matrix(KILOGRAMS, INERTIA), 2 * np.pi * 90.0, PUSH)
    upright = np.linalg.norm(foot_forces(moved, ARMS, springs)[:, 2])
    rigid = rigid_shares(PUSH, ARMS, springs, ANGULAR * (1 + 0.2j))[:, 2]
    expected = 20 * np.log10(np.linalg.norm(rigid) / upright)
    assert found.on_desk[0, 0] == pytest.approx(
        expected, abs=3e-4
    )  # [dB], as feet 1e8 times stiffer stand for rigid ones


def test_a_batch_is_its_members() -> None:
    linear = np.stack([LINEAR, 1.7 * LINEAR])
    hertz = np.array([40.0, 70.0]) * HERTZ
    batch = pushed(on_feet(linear, 0.2, arms=ARMS, angular=ANGULAR), hertz, PUSH)
    for i, each in enumerate(linear):
        alone = pushed(on_feet(each[None], 0.2, arms=ARMS, angular=ANGULAR), hertz, PUSH)
        assert batch.transmissibility[i] == pytest.approx(alone.transmissibility[0], rel=1e-12)


def test_modal_damping_of_one_material_is_half_its_loss_factor() -> None:
    found = exact_modes(on_feet(LINEAR[None], 0.17, arms=ARMS, angular=ANGULAR)).damping
    np.testing.assert_allclose(2 * found, 0.17, rtol=1e-10)


def test_gravity_raises_the_modal_damping_of_rocking() -> None:
    # gravity takes stiffness away but no damping
    loads = np.linalg.solve(np.vstack([np.ones(3), ARMS[:, :2].T]), [111.0, 0.0, 0.0])
    body = on_feet(LINEAR[None], 0.17, arms=ARMS, angular=ANGULAR, load=loads)
    found = 2 * exact_modes(body).damping
    assert found.min() > 0.17 * (1 - 1e-9)  # rounding
    assert found.max() > 0.172
