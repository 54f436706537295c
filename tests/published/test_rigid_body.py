"""Rigid bodies on supports against closed forms and worked examples.

Himelblau & Rubin, "Vibration of a resiliently supported rigid body", Harris' Shock and Vibration
Handbook ch. 3, eqs 3.31 to 3.38 (the coupled-mode form from memory).
"""

import numpy as np
import pytest

from isolator.physics.bodies.rigid import (
    GROUND,
    Support,
    assemble,
    mass_matrix,
    mode_names,
    modes,
    support_matrix,
)

CORNERS = np.array([[0.15, 0.12], [-0.15, 0.12], [0.15, -0.12], [-0.15, -0.12]])
GYRATION = np.array([0.11, 0.13, 0.14])
MASS = 12.0
EACH = np.array([2000.0, 2000.0, 5000.0])


def box(depth: float) -> tuple[np.ndarray, np.ndarray]:
    arms = np.column_stack([CORNERS, np.full(4, -depth)])
    stiffness = support_matrix(arms, np.tile(EACH, (4, 1)), np.zeros((4, 3)))
    return stiffness, mass_matrix(MASS, np.diag(MASS * GYRATION**2))


def coupled(kx_kz: float, depth: float, arm: float) -> np.ndarray:
    """Harris ch. 3: both coupled modes over the vertical one, lengths over the gyration radius."""
    total = kx_kz * (1 + depth**2) + arm**2
    root = np.sqrt(total**2 - 4 * kx_kz * arm**2)
    return np.sqrt(0.5 * np.array([total - root, total + root]))


def test_symmetric_box() -> None:
    stiffness, mass = box(0.10)
    expected = np.diag([8000.0, 8000, 20000, 368, 530, 295.2])
    expected[0, 4] = expected[4, 0] = -800.0
    expected[1, 3] = expected[3, 1] = 800.0
    np.testing.assert_allclose(stiffness, expected, atol=1e-10)  # rounding of sums near 2e4
    frequencies, shapes = modes(stiffness, mass)
    printed = [3.513128, 3.697878, 5.638449, 6.497473, 8.291127, 8.331331]
    np.testing.assert_allclose(frequencies, printed, rtol=1e-6 / 5)  # six decimals
    assert mode_names(shapes, mass) == [
        "sway y",
        "sway x",
        "twist",
        "bounce",
        "rocking x",
        "rocking y",
    ]


def test_symmetric_box_by_the_handbook() -> None:
    bounce = np.sqrt(4 * EACH[2] / MASS) / (2 * np.pi)
    frequencies = modes(*box(0.10))[0]
    for gyration, arm in ((GYRATION[1], 0.15), (GYRATION[0], 0.12)):
        for wanted in bounce * coupled(0.4, 0.10 / gyration, arm / gyration):
            assert np.abs(frequencies - wanted).min() < 1e-9  # rounding alone
    twist = np.sqrt(4 * (2000 * 0.12**2 + 2000 * 0.15**2) / (MASS * 0.14**2)) / (2 * np.pi)
    assert np.abs(frequencies - twist).min() < 1e-9  # rounding alone


def test_box_with_its_centre_in_the_plane_of_the_feet() -> None:
    frequencies, shapes = modes(*box(0.0))
    printed = [4.109363, 4.109363, 5.638449, 6.497473, 7.088153, 7.497085]
    np.testing.assert_allclose(frequencies, printed, rtol=2e-7)  # seven digits
    # uncoupled: bounce, both sways, twist and both rockings by their own closed forms
    k, place = EACH, CORNERS[0]
    inertia = MASS * GYRATION**2
    closed = [
        4 * k[0] / MASS,
        4 * k[1] / MASS,
        4 * k[2] / MASS,
        4 * k[2] * place[1] ** 2 / inertia[0],
        4 * k[2] * place[0] ** 2 / inertia[1],
        4 * (k[0] * place[1] ** 2 + k[1] * place[0] ** 2) / inertia[2],
    ]
    np.testing.assert_allclose(frequencies, np.sort(np.sqrt(closed)) / 2 / np.pi, rtol=1e-12)
    assert set(mode_names(shapes, box(0.0)[1])[4:]) == {"rocking x", "rocking y"}


@pytest.mark.parametrize(
    ("kx_kz", "depth", "rows"),
    [
        (0.5, 0.0, [(0.50000, 0.70711), (0.70711, 1.00000), (0.70711, 2.00000)]),
        (0.5, 0.5, [(0.42404, 0.83378), (0.64211, 1.10122), (0.69487, 2.03523)]),
        (0.5, 1.0, [(0.33108, 1.06789), (0.54120, 1.30656), (0.66215, 2.13578)]),
        (0.5, 2.0, [(0.21502, 1.64431), (0.38629, 1.83051), (0.56906, 2.48519)]),
        (1.0, 0.5, [(0.43702, 1.14412), (0.78078, 1.28078), (0.96167, 2.07971)]),
        (1.0, 1.0, [(0.34237, 1.46040), (0.61803, 1.61803), (0.87403, 2.28825)]),
        (1.0, 2.0, [(0.21922, 2.28078), (0.41421, 2.41421), (0.68474, 2.92081)]),
        (0.25, 1.0, [(0.30902, 0.80902), (0.43702, 1.14412), (0.48419, 2.06532)]),
    ],
)
def test_coupled_modes(kx_kz: float, depth: float, rows: list[tuple[float, float]]) -> None:
    # the handbook's chart form; the other plane is held off by stiff supports along y
    gyration, kz = 0.13, 5000.0
    for arm, printed in zip((0.5, 1.0, 2.0), rows, strict=True):
        arms = np.array(
            [[sx * arm * gyration, sy * 1.1, -depth * gyration] for sx in (1, -1) for sy in (1, -1)]
        )
        linear = np.tile([kx_kz * kz, 3e6, kz], (4, 1))
        mass = mass_matrix(MASS, MASS * np.diag([0.01, gyration**2, 0.05]))
        found = modes(support_matrix(arms, linear, np.zeros((4, 3))), mass)[0]
        ratio = found / (np.sqrt(4 * kz / MASS) / 2 / np.pi)
        for value in printed:
            assert np.abs(ratio - value).min() < 1e-5  # five decimals
        product = kx_kz**0.5 * arm  # does not depend on the height
        assert np.prod(coupled(kx_kz, depth, arm)) == pytest.approx(product, rel=1e-12)


def bounce_pitch(
    mass: float, inertia: float, front: tuple[float, float], rear: tuple[float, float]
) -> tuple[np.ndarray, np.ndarray]:
    """Vertical motion and pitch (about y) of a beam on two springs (arm along x, stiffness)."""
    arms = np.array([[front[0], 0.0, 0.0], [-rear[0], 0.0, 0.0]])
    linear = np.array([[0.0, 0.0, front[1]], [0.0, 0.0, rear[1]]])
    whole = support_matrix(arms, linear, np.zeros((2, 3)))
    keep = np.ix_([2, 4], [2, 4])
    return modes(whole[keep], mass_matrix(mass, np.eye(3) * inertia)[keep])


def test_bounce_and_pitch_metric() -> None:
    # Rao ch. 5 (from memory): 1000 kg, 0.9 m gyration, 1.0 and 1.5 m, 18 and 22 kN/m
    frequencies, shapes = bounce_pitch(1000.0, 810.0, (1.0, 18e3), (1.5, 22e3))
    np.testing.assert_allclose(2 * np.pi * frequencies, [5.859292, 9.434089], rtol=1e-6)
    # the book turns the pitch the other way round: front end down is positive here
    np.testing.assert_allclose(-shapes[0] / shapes[1], [2.64611, -0.30611], rtol=2e-5)


def test_bounce_and_pitch_imperial() -> None:
    # Thomson ch. 5 (from memory): 3220 lb, 4 ft gyration, 4.5 and 5.5 ft, 2400 and 2600 lb/ft;
    # the book prints 1.10 and 1.44 cycles a second, nodes −14.6 and 1.09 ft
    frequencies, shapes = bounce_pitch(100.0, 1600.0, (4.5, 2400.0), (5.5, 2600.0))
    np.testing.assert_allclose(frequencies, [1.098078, 1.440586], rtol=1e-6)
    np.testing.assert_allclose(np.abs(shapes[0] / shapes[1]), [14.596, 1.096], rtol=4e-4)


def test_two_axle_car() -> None:
    # Edwards & Penney, Differential Equations, §7.4 problem 24: springs of 2000 lb/ft at 6 and
    # 4 ft, 100 slug, 1000 slug·ft² about the centre of mass; ripples 40 ft apart
    frequencies = bounce_pitch(100.0, 1000.0, (6.0, 2000.0), (4.0, 2000.0))[0]
    np.testing.assert_allclose(2 * np.pi * frequencies, [6.13113, 10.31549], rtol=1e-6)
    np.testing.assert_allclose(40 * frequencies, [39.032, 65.670], rtol=2e-5)  # ft/s


def test_passenger_car() -> None:
    # a published exercise, answer derived: 1600 kg, gyration 0.95 m, wheelbase 2.9 m
    frequencies = bounce_pitch(1600.0, 1600 * 0.95**2, (1.3, 38e3), (1.6, 34e3))[0]
    np.testing.assert_allclose(frequencies, [1.06550, 1.63032], rtol=1e-5)


def test_inclined_support() -> None:
    # Harris ch. 3 and 30 (from memory): 30° off the vertical in the xz plane
    angle, along, across = np.pi / 6, 8000.0, 1000.0
    turn = np.array(
        [[np.cos(angle), 0, np.sin(angle)], [0, 1, 0], [-np.sin(angle), 0, np.cos(angle)]]
    )
    block = np.zeros((6, 6))
    block[:3, :3] = turn @ np.diag([across, across, along]) @ turn.T
    point = np.array([0.1, 0.2, 0.3])
    whole = assemble([point], [Support(GROUND, 0, point, block)], [np.zeros(3)])
    assert whole[0, 0] == pytest.approx(2750.0, rel=1e-12)
    assert whole[2, 2] == pytest.approx(6250.0, rel=1e-12)
    assert whole[0, 2] == pytest.approx(3031.0889, rel=1e-8)  # eight digits
