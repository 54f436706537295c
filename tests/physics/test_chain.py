"""Drive, motors on dampers, frame and feet as one chain: by hand, in limits, by momentum."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
import pytest

from isolator.physics.bodies.rigid import GROUND, Support, assemble, mass_matrices
from isolator.physics.drive import chain
from isolator.physics.drive.drivetrain import axis_response, crossed_response

TAU = 2.0 * np.pi
FREQUENCIES = np.array([2.3, 7.1, 19.0, 41.0, 67.0, 131.0, 240.0])


def inertia_of(masses: np.ndarray, points: np.ndarray) -> tuple[float, np.ndarray, np.ndarray]:
    """Mass, centre and inertia tensor of point masses."""
    total = masses.sum()
    com = masses @ points / total
    arms = points - com
    square = np.eye(3) * (masses @ (arms**2).sum(axis=1))
    return float(total), com, square - (arms.T * masses) @ arms


class Cloud(NamedTuple):
    """Point masses at `points` (p, 3) and how each moves with the coordinates (p, 3, N)."""

    masses: np.ndarray
    points: np.ndarray
    rows: np.ndarray


class Case(NamedTuple):
    """A chain with two motors, and the point masses that it is made of."""

    stiffness: np.ndarray
    mass: np.ndarray
    com: np.ndarray
    motors: list[np.ndarray]
    bodies: np.ndarray  # mass matrix without drives
    elastic: np.ndarray  # stiffness without drives
    drives: list[chain.Drive]
    carriage: chain.Carriage
    arms: np.ndarray
    springs: np.ndarray
    tilts: np.ndarray
    cloud: Cloud


AXES = [np.array([0.0, 0.0, 1.0]), np.array([2.0, -1.0, 2.0]) / 3.0]
FEET = np.array([[0.19, 0.17, -0.02], [-0.2, 0.15, -0.015], [-0.16, -0.21, -0.03]])


def rolled(axis: np.ndarray, radius: float) -> np.ndarray:
    """Four points on a circle about `axis`."""
    one = np.cross(axis, [0.3, 0.5, -0.7])
    one /= np.linalg.norm(one)
    two = np.cross(axis, one)
    return radius * np.array([one, two, -one, -two])


def moved_by(points: np.ndarray, com: np.ndarray, at: int, size: int) -> np.ndarray:
    """Rows of points that move with a body whose coordinates start at `at`: u + θ × r."""
    rows = np.zeros((len(points), 3, size))
    for row, arm in zip(rows, points - com, strict=True):
        row[:, at : at + 3] = np.eye(3)
        row[:, at + 3 : at + 6] = np.cross(np.eye(3), arm).T
    return rows


def two_motors(*, feet: float = 1.0, damper: float = 1.0, belt: float = 1.0) -> Case:
    """All numbers unequal; `feet`, `damper`, `belt` scale their stiffnesses."""
    random = np.random.default_rng(17)
    size = 22
    box = random.uniform([-0.2, -0.2, 0.0], [0.2, 0.2, 0.4], (9, 3))
    frame_masses = random.uniform(0.6, 1.7, 9)
    moving, places = np.array([0.37, 0.81]), np.array([[0.03, 0.07, 0.41], [-0.05, 0.02, 0.13]])
    masses, points = np.append(frame_masses, moving), np.vstack([box, places])
    total, com, tensor = inertia_of(masses, points)
    rows = moved_by(points, com, 0, size)
    for along in range(2):
        rows[9 + along, along, 20 + along] = 1.0  # the mass's own travel
    cloud, whole = [(masses, points, rows)], [(total, com, tensor)]
    drives = []
    for index, (axis, centre) in enumerate(
        zip(AXES, ([-0.17, 0.2, 0.4], [0.18, 0.19, 0.37]), strict=True)
    ):
        shell = centre + random.uniform(-0.03, 0.03, (5, 3))
        heavy = random.uniform(0.03, 0.06, 5)
        middle = heavy @ shell / heavy.sum()
        turning = middle + rolled(axis, 0.011 + 0.002 * index)
        rotor = np.full(4, 0.013 + 0.004 * index)
        masses, points = np.append(heavy, rotor), np.vstack([shell, turning])
        found = inertia_of(masses, points)
        rows = moved_by(points, found[1], 6 + 6 * index, size)
        rows[5:, :, 18 + index] = np.cross(axis, turning - middle)
        cloud.append((masses, points, rows))
        whole.append(found)
        drives.append(
            chain.Drive(
                axis=axis,
                rotor_inertia=float(rotor.sum() * (0.011 + 0.002 * index) ** 2),
                magnetic_stiffness=(17.0 + 9.0 * index) * (1 + 0.11j),
                pulley_radius=0.0064 + 0.001 * index,
                belt_stiffness=belt * (61e3 + 23e3 * index) * (1 + 0.04j),
                pulls=np.array([1.0, 1.0 - 2 * index]),
            )
        )
    springs = feet * random.uniform([2e3, 3e3, 7e3], [3e3, 5e3, 9e3], (3, 3)) * (1 + 0.13j)
    tilts = feet * random.uniform(0.5, 1.5, (3, 3)) * (1 + 0.13j)
    supports = [
        Support(GROUND, 0, place, np.diag([*linear, *angular]))
        for place, linear, angular in zip(FEET, springs, tilts, strict=True)
    ]
    for index, (_, centre, _) in enumerate(whole[1:]):
        block = np.diag([4.1e4, 5.3e4, 2.9e5, 31.0, 47.0, 13.0 + 4.0 * index]) * (1 + 0.21j)
        point = centre + 0.02 * AXES[index] + np.array([0.001, -0.002, 0.0015])
        supports.append(Support(0, index + 1, point, damper * block))
    coms = [each[1] for each in whole]
    elastic = assemble(coms, supports, [np.zeros(3)] * len(supports))
    bodies = mass_matrices([each[0] for each in whole], [each[2] for each in whole])
    carriage = chain.Carriage(masses=moving, points=places)
    k, m = chain.augment(elastic, bodies, com, drives, carriage)
    return Case(
        k,
        m,
        com,
        coms[1:],
        bodies,
        elastic,
        drives,
        carriage,
        FEET - com,
        springs,
        tilts,
        Cloud(*(np.concatenate(part) for part in zip(*cloud, strict=True))),
    )


def ripples(case: Case, omega: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Motion (f, N, 2) under 1 N·m at either motor."""
    push = np.broadcast_to(np.eye(2), (len(omega), 2, 2))
    return chain.response(case.stiffness, case.mass, omega, push)


def test_the_mass_matrix_is_that_of_its_point_masses() -> None:
    case = two_motors()
    m, _, rows = case.cloud
    kinetic = np.einsum("p,pki,pkj->ij", m, rows, rows)  # Σ m v·v over unit speeds
    np.testing.assert_allclose(case.mass, kinetic, rtol=1e-12, atol=1e-14)  # rounding


def test_matrices_are_symmetric_and_positive() -> None:
    case = two_motors()
    np.testing.assert_allclose(case.mass, case.mass.T, atol=1e-15)  # rounding
    np.testing.assert_allclose(case.stiffness, case.stiffness.T, atol=1e-9)  # rounding near 1e5
    assert np.linalg.eigvalsh(case.mass)[0] > 0
    # one travel of rotors and carriage stretches no belt, but the magnetic field holds the rotors
    assert np.linalg.eigvalsh(case.stiffness.real)[0] > 0
    assert np.linalg.eigvalsh(case.stiffness.imag)[0] > -1e-9  # no part of it feeds energy in


def test_ripple_at_one_motor_turns_the_other_as_the_other_turns_the_one() -> None:
    motion, _ = ripples(two_motors(), TAU * FREQUENCIES)
    np.testing.assert_allclose(motion[:, 18, 1], motion[:, 19, 0], rtol=1e-9)  # rounding
    assert np.abs(motion[:, 18, 1] / motion[:, 18, 0]).max() > 0.1  # and it does


@pytest.mark.parametrize("frequency", [0.7, 13.0, 67.0, 240.0])
def test_a_chain_that_floats_keeps_its_momentum(frequency: float) -> None:
    case = two_motors(feet=0.0)
    motion, _ = ripples(case, TAU * np.array([frequency]))
    m, points, rows = case.cloud
    moved = rows @ motion[0]  # (p, 3, 2), of every point mass
    scale = np.abs(m[:, None, None] * moved).sum()
    linear = np.einsum("p,pks->ks", m, moved)
    angular = np.einsum("p,pks->ks", m, np.cross(points[:, :, None], moved, axis=1))
    # rounding of near singular equations: frame on nothing against stiff belts
    np.testing.assert_allclose(linear, 0.0, atol=1e-9 * scale)
    np.testing.assert_allclose(angular, 0.0, atol=1e-9 * scale)


def test_what_leaves_through_the_feet_is_the_momentum_that_is_made() -> None:
    case = two_motors()
    omega = TAU * FREQUENCIES
    motion, _ = ripples(case, omega)
    m, _, rows = case.cloud
    made = -(omega**2)[:, None, None] * np.einsum("p,pki,fis->fks", m, rows, motion)
    at_feet = moved_by(FEET, case.com, 0, 22)
    feet = np.einsum("sk,ski,fij->fskj", case.springs, at_feet, motion)
    np.testing.assert_allclose(made, -feet.sum(axis=1), rtol=1e-7)  # rounding of cancelling masses
    # both sources' energies of all three feet
    norm = np.sqrt((np.abs(feet) ** 2).sum(axis=(1, 2, 3)))
    found = chain.floor_force(motion, case.arms, case.springs)
    np.testing.assert_allclose(found, norm, rtol=1e-12)  # rounding


def test_a_belt_is_two_strands_and_an_idler() -> None:
    # pulley and idler in a line along x; the lower strand ends at the carriage, the upper one runs
    # round the idler to the carriage's other side; strands are springs along their own length
    com, motor, radius, spring = (
        np.array([0.02, -0.03, 0.2]),
        np.array([-0.2, 0.1, 0.4]),
        0.0071,
        7e4,
    )
    drive = chain.Drive(
        axis=np.array([0.0, 0, 1]),
        rotor_inertia=5e-6,
        magnetic_stiffness=0.0,
        pulley_radius=radius,
        belt_stiffness=spring,
        pulls=np.array([1.0, 0.0]),
    )
    carriage = chain.Carriage(masses=np.array([0.4, 0.7]), points=np.zeros((2, 3)))
    found, _ = chain.augment(np.zeros((12, 12)), np.eye(12), com, [drive], carriage)
    side, far = np.array([0.0, radius, 0.03]), np.array([0.4, 0, 0])
    upper, lower = motor + side, motor + side * [0, -1, 1]
    on_pulley = moved_by(np.array([upper, lower]), motor, 6, 15)
    on_pulley[:, :, 12] = np.cross(drive.axis, np.array([upper, lower]) - motor)
    places = np.array([upper + far, lower + far, lower + 0.3 * far])  # idler, idler, carriage
    on_frame = moved_by(places, com, 0, 15)
    on_frame[2, 0, 13] = 1.0  # the carriage's own travel
    strands = [
        on_frame[2, 0] - on_pulley[1, 0],
        on_frame[0, 0] - on_pulley[0, 0] + on_frame[1, 0] - on_frame[2, 0],
    ]
    expected = sum(spring / 2 * np.outer(strand, strand) for strand in strands)
    # the motor bolted on but for its turn about its shaft: a shift is not in the chain's belt
    joint = chain.bolted(com, [motor], [True])
    turn = np.zeros((15, 1))
    turn[11] = 1.0
    joint = np.hstack([joint, turn])
    np.testing.assert_allclose(
        joint.T @ found @ joint, joint.T @ expected @ joint, rtol=1e-12, atol=1e-9
    )  # rounding
    assert np.abs(joint.T @ found @ joint).max() > 1e4


# --- three turns by hand ------------------------------------------------------------------------


def test_a_shaft_over_the_centre_of_mass_is_a_chain_of_three_turns() -> None:
    # springs across that hold their moments level, so that twist stands alone
    x, y = np.array([0.17, -0.08, -0.19]), np.array([0.21, -0.23, 0.06])
    kx, ky = np.array([2100.0, 0.0, 1300.0]), np.array([0.0, 2900.0, 1700.0])
    kx[1], ky[0] = -(kx @ y) / y[1], -(ky @ x) / x[0]
    assert min(kx[1], ky[0]) > 500
    turn = np.array([0.7, 1.1, 0.4])
    loss, rubber = 1 + 0.17j, 37.0 * (1 + 0.09j)
    springs = np.stack([kx, ky, np.array([6e3, 7e3, 5e3])], axis=-1) * loss
    tilts = np.stack([np.ones(3), np.ones(3), turn], axis=-1) * loss
    com, motor = np.array([0.01, 0.02, 0.2]), np.array([0.01, 0.02, 0.45])
    places = np.stack([x, y, np.full(3, -0.21)], axis=-1) + com
    frame, body, rotor, magnetic = 0.31, 1.3e-4, 5.9e-6, 19.0 * (1 + 0.13j)
    supports = [
        Support(GROUND, 0, place, np.diag([*linear, *angular]))
        for place, linear, angular in zip(places, springs, tilts, strict=True)
    ]
    block = np.diag([4e4, 5e4, 3e5, 30.0, 40.0, rubber])
    supports.append(Support(0, 1, motor + np.array([0, 0, 0.02]), block))
    stiffness = assemble([com, motor], supports, [np.zeros(3)] * 4)
    mass = mass_matrices([9.7, 0.29], [np.diag([0.4, 0.5, frame]), np.diag([2e-4, 2e-4, body])])
    drive = chain.Drive(
        axis=np.array([0.0, 0, 1]),
        rotor_inertia=rotor,
        magnetic_stiffness=magnetic,
        pulley_radius=0.0064,
        belt_stiffness=0.0,
        pulls=np.array([1.0, 0.0]),
    )
    carriage = chain.Carriage(
        masses=np.array([0.4, 0.7]), points=com + np.array([[0, 0, 0.1], [0, 0, 0.3]])
    )
    k, m = chain.augment(stiffness, mass, com, [drive], carriage)
    torque = 0.023
    # feet's twist near 6 Hz, the motor's near 85 Hz on its rubber
    frequency = np.array([1.7, 5.9, 6.4, 23.0, 84.0, 97.0, 290.0])
    motion, _ = chain.response(k, m, TAU * frequency, np.full((7, 1, 1), torque))
    found = chain.floor_force(motion, places - com, springs)

    # turns in space of frame, motor's shell and rotor; the ripple pushes the last two apart
    feet = (kx @ y**2 + ky @ x**2 + turn.sum()) * loss
    expected = []
    for w in TAU * frequency:
        matrix = np.array(
            [
                [feet + rubber - w**2 * frame, -rubber, 0],
                [-rubber, rubber + magnetic - w**2 * (body - rotor), -magnetic],
                [0, -magnetic, magnetic - w**2 * rotor],
            ]
        )
        turned = np.linalg.solve(matrix, [0, -torque, torque])[0]
        expected.append(abs(turned * loss) * np.sqrt((kx * y) @ (kx * y) + (ky * x) @ (ky * x)))
    np.testing.assert_allclose(found, expected, rtol=1e-8)  # rounding; 1 % is asked of the chain


# --- limits -------------------------------------------------------------------------------------


def reduced(case: Case, fixed: list[bool]) -> tuple[np.ndarray, np.ndarray]:
    joint = chain.bolted(case.com, case.motors, fixed)
    return joint.T @ case.stiffness @ joint, joint.T @ case.mass @ joint


def test_a_stiff_damper_is_bolted_on() -> None:
    omega, soft = TAU * FREQUENCIES, two_motors()
    push = np.broadcast_to(np.eye(2), (7, 2, 2))
    bolted, _ = chain.response(*reduced(soft, [True, True]), omega, push)
    held = chain.floor_force(bolted, soft.arms, soft.springs)
    off = []
    for scale in (1.0, 1e4, 1e6):
        motion, _ = ripples(two_motors(damper=scale), omega)
        off.append(np.abs(chain.floor_force(motion, soft.arms, soft.springs) / held - 1).max())
    assert off[0] > 0.3  # the damper does something
    assert off[2] < 1e-4  # (240 Hz)²/(50 Hz)² over a million
    assert off[1] / off[2] == pytest.approx(100, rel=0.1)  # first order in the flexibility


def test_one_of_two_is_bolted_on() -> None:
    case, omega = two_motors(), TAU * FREQUENCIES
    push = np.broadcast_to(np.eye(2), (7, 2, 2))
    one, _ = chain.response(*reduced(case, [False, True]), omega, push)
    assert one.shape == (7, 16, 2)
    # the second motor glued on by hand: its mass moved to the frame's coordinates
    glue = np.eye(22)
    arm = case.motors[1] - case.com
    glue[12:15, 0:3] = np.eye(3)
    glue[12:15, 3:6] = np.cross(np.eye(3), arm).T
    glue[15:18, 3:6] = np.eye(3)
    keep = [i for i in range(22) if not 12 <= i < 18]
    glue = glue[:, keep]
    dynamic = case.stiffness - (omega**2)[:, None, None] * case.mass
    right = np.zeros((16, 2))
    right[12:14] = np.eye(2)
    expected = np.linalg.solve(glue.T @ dynamic @ glue, right)
    np.testing.assert_allclose(one, expected, rtol=1e-9, atol=1e-15)  # rounding


def test_stiff_feet_are_a_frame_that_stands_still() -> None:
    case = two_motors()
    push = np.broadcast_to(np.eye(2), (7, 2, 2))
    _, wrench = chain.fixed_frame(case.stiffness, case.mass, TAU * FREQUENCIES, push)
    rigid = chain.rigid_floor_force(wrench, case.arms, case.springs, case.tilts)
    off = []
    for scale in (1.0, 1e6, 1e8):
        stiff = two_motors(feet=scale)
        motion, _ = ripples(stiff, TAU * FREQUENCIES)
        found = chain.floor_force(motion, stiff.arms, stiff.springs)
        off.append(np.abs(found / rigid - 1).max())
    assert off[0] > 0.5
    assert off[1] < 1e-2  # (240 Hz over the feet's lowest mode near 3 Hz)², over a million
    assert off[1] / off[2] == pytest.approx(100, rel=0.1)  # first order in the flexibility


# --- the torque through one damper ----------------------------------------------------------------


def symmetric(twist: complex) -> tuple[np.ndarray, np.ndarray, list[chain.Drive], np.ndarray]:
    """Motors of which shaft, centre and rubber lie in one line; the first on rubber."""
    case = two_motors()
    coms = [case.com, *case.motors]
    shells = [np.diag([2.1e-4, 2.1e-4, 1.3e-4]), np.diag([2e-4, 3e-4, 1e-4])]
    block = np.diag([4e4, 4e4, 3e5, 35.0, 35.0, twist])
    supports = [Support(0, 1, coms[1] + [0, 0, 0.021], block)]
    elastic = assemble(coms, supports, [np.zeros(3)])
    mass = mass_matrices([10.0, 0.27, 0.31], [np.eye(3), *shells])
    k, m = chain.augment(elastic, mass, case.com, case.drives, case.carriage)
    joint = chain.bolted(case.com, case.motors, [False, True])
    return joint.T @ k @ joint, joint.T @ m @ joint, case.drives, case.carriage.masses


@pytest.mark.parametrize("twist", [11.0 + 1.3j, 170.0 + 9.0j])
def test_passed_torque_is_that_of_the_whole_chain_on_a_frame_that_stands(twist: complex) -> None:
    omega = TAU * FREQUENCIES
    k, m, drives, masses = symmetric(twist)
    push = np.zeros((7, 2, 1))
    push[:, 0] = 1.0
    motion, _ = chain.fixed_frame(k, m, omega, push)
    through = twist * motion[:, 5, 0]  # the first motor's turn about its shaft, z
    springs = np.full((1, 7), twist)
    found = chain.passed_torque(drives, masses, 0, springs, 1.3e-4, omega)
    np.testing.assert_allclose(found[0], through, rtol=1e-9)  # rounding
    np.testing.assert_allclose(motion[:, [0, 1, 3, 4], 0], 0.0, atol=1e-12)  # twist stands alone


def test_passed_torque_of_infinite_rubber_is_the_limit() -> None:
    omega = TAU * FREQUENCIES
    case = two_motors()
    args = (case.drives, case.carriage.masses, 1)
    springs = np.array([1e9, 1e10, np.inf])[:, None] * np.ones(7)
    found = chain.passed_torque(*args, springs, 1.7e-4, omega)
    assert np.isfinite(found).all()
    off = np.abs(found[:2] / found[2] - 1).max(axis=1)
    assert off[0] < 1e-6  # inertia and belt over the rubber: 1e3/1e9
    assert off[1] == pytest.approx(off[0] / 10, rel=0.01)


def test_a_slow_ripple_stays_in_the_motor_and_a_fast_one_turns_its_shell() -> None:
    # far below every resonance the field takes the ripple up and nothing turns in space; far above
    # them ripple and shell's inertia alone rule: θ = τ/(ω²·(I − J)), pushed against the rotor
    case = two_motors(belt=0.0)
    twist, inertia, slow, fast = 13.0, 1.7e-4, TAU * 0.1, TAU * 20e3
    rotor = case.drives[0].rotor_inertia
    found = chain.passed_torque(
        case.drives,
        case.carriage.masses,
        0,
        np.full((1, 2), twist),
        inertia,
        np.array([slow, fast]),
    )[0]
    # turned slowly, the rotor's inertia on its field is all that is felt
    assert found[0] == pytest.approx(slow**2 * rotor / case.drives[0].magnetic_stiffness, rel=1e-4)
    # (rotor's resonance near 300 Hz over 20 kHz)² is left out
    assert found[1] == pytest.approx(twist / (fast**2 * (inertia - rotor)), rel=1e-3)


# --- against the drive on a frame that stands -----------------------------------------------------


def bolted_drive(drives: list[chain.Drive], masses: np.ndarray, omega: np.ndarray) -> np.ndarray:
    """Motion (f, n + 2) of rotors and masses on a frame that stands, 1 N·m at the first motor."""
    case = two_motors()
    count = len(drives)
    size = 6 + 6 * count
    carriage = chain.Carriage(masses=masses, points=case.carriage.points)
    args = (case.elastic[:size, :size], case.bodies[:size, :size], case.com, drives, carriage)
    k, m = chain.augment(*args)
    joint = chain.bolted(case.com, case.motors[:count], [True] * count)
    push = np.zeros((len(omega), count, 1))
    push[:, 0] = 1.0
    return chain.fixed_frame(joint.T @ k @ joint, joint.T @ m @ joint, omega, push)[0][..., 0]


def test_one_bolted_motor_is_the_axis_of_the_drive_train() -> None:
    drive = two_motors().drives[0]._replace(pulls=np.array([0.0, 1.0]))
    omega = TAU * FREQUENCIES
    expected = axis_response(
        1.0,
        omega,
        drive.rotor_inertia,
        drive.pulley_radius,
        drive.belt_stiffness,
        0.83,
        drive.magnetic_stiffness,
    )
    found = -(omega**2)[:, None] * bolted_drive([drive], np.array([0.4, 0.83]), omega)
    np.testing.assert_allclose(found[:, 0], expected.rotor, rtol=1e-9)  # rounding
    np.testing.assert_allclose(found[:, 2], expected.carriage, rtol=1e-9)
    np.testing.assert_array_equal(found[:, 1], 0.0)  # the other axis


def test_two_bolted_motors_are_the_crossed_belts_of_the_drive_train() -> None:
    first = two_motors().drives[0]._replace(pulls=np.array([1.0, 1.0]))
    second = first._replace(axis=AXES[1], pulls=np.array([1.0, -1.0]))
    omega = TAU * FREQUENCIES
    expected = crossed_response(
        1.0,
        omega,
        first.rotor_inertia,
        first.pulley_radius,
        first.belt_stiffness,
        0.37,
        0.83,
        first.magnetic_stiffness,
    )
    found = -(omega**2)[:, None] * bolted_drive([first, second], np.array([0.37, 0.83]), omega)
    np.testing.assert_allclose(found, np.stack(expected, axis=-1), rtol=1e-9)  # rounding


def test_a_bolted_drive_pushes_the_frame_by_the_momentum_of_what_moves() -> None:
    case, omega = two_motors(), TAU * FREQUENCIES
    push = np.broadcast_to(np.eye(2), (7, 2, 2))
    motion, wrench = chain.fixed_frame(*reduced(case, [True, True]), omega, push)
    w2 = (omega**2)[:, None, None]
    rotors, masses = motion[:, :2], case.carriage.masses[:, None] * motion[:, 2:]
    np.testing.assert_allclose(wrench[:, :2], w2 * masses, rtol=1e-9)  # rounding
    lever = case.carriage.points - case.com
    turned = sum(np.cross(lever[i], np.eye(3)[i])[:, None] * masses[:, i : i + 1] for i in (0, 1))
    spun = sum(
        drive.rotor_inertia * drive.axis[:, None] * rotors[:, i : i + 1]
        for i, drive in enumerate(case.drives)
    )
    np.testing.assert_allclose(wrench[:, 3:], w2 * (turned + spun), rtol=1e-9)
    np.testing.assert_allclose(wrench[:, 2], 0.0, atol=1e-9)  # [N], rounding of some 10 N
