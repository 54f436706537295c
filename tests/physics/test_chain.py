"""Drive, motors on dampers and frame as one source: by hand, in limits, by momentum."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
import pytest

from isolator.physics.bodies.condense import condense
from isolator.physics.bodies.rigid import mass_matrix, support_matrix
from isolator.physics.drive import chain

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
    """A printer with two motors on dampers, and the point masses that it is made of."""

    stiffness: np.ndarray  # on its feet
    free: np.ndarray  # on nothing
    mass: np.ndarray
    held: np.ndarray  # mass matrix (6, 6) of the whole, all held
    com: np.ndarray
    mounted: list[chain.Mounted]
    drives: list[chain.Drive]
    carriage: chain.Carriage
    arms: np.ndarray
    springs: np.ndarray
    feet: np.ndarray  # (6, 6)
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
    moving, places = np.array([0.37, 0.81]), np.array([[0.03, 0.07, 0.41], [-0.05, 0.02, 0.13]])
    cloud = [(np.append(random.uniform(0.6, 1.7, 9), moving), np.vstack([box, places]))]
    motors, drives = [], []
    for index, (axis, centre) in enumerate(
        zip(AXES, np.array([[-0.17, 0.2, 0.4], [0.18, 0.19, 0.37]]), strict=True)
    ):
        shell = centre + random.uniform(-0.03, 0.03, (5, 3))
        heavy = random.uniform(0.03, 0.06, 5)
        middle = heavy @ shell / heavy.sum()
        turning = middle + rolled(axis, 0.011 + 0.002 * index)
        rotor = np.full(4, 0.013 + 0.004 * index)
        cloud.append((np.append(heavy, rotor), np.vstack([shell, turning])))
        motors.append(inertia_of(*cloud[-1]))
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
    masses, points = (np.concatenate(part) for part in zip(*cloud, strict=True))
    total, com, tensor = inertia_of(masses, points)
    # all ride on the frame; masses, motors and rotors move against it besides
    rows = moved_by(points, com, 0, size)
    for along in range(2):
        rows[9 + along, along, 20 + along] = 1.0
    for index, (_, centre, _) in enumerate(motors):
        own = slice(11 + 9 * index, 20 + 9 * index)
        rows[own] += moved_by(points[own], centre, 6 + 6 * index, size)
        turning = slice(16 + 9 * index, 20 + 9 * index)
        rows[turning, :, 18 + index] = np.cross(AXES[index], points[turning] - centre)
    springs = feet * random.uniform([2e3, 3e3, 7e3], [3e3, 5e3, 9e3], (3, 3)) * (1 + 0.13j)
    tilts = feet * random.uniform(0.5, 1.5, (3, 3)) * (1 + 0.13j)
    mounted = []
    for index, (mass, centre, inertia) in enumerate(motors):
        linear = damper * np.array([[4.1e4, 5.3e4, 2.9e5]]) * (1 + 0.21j)
        angular = damper * np.array([[31.0, 47.0, 13.0 + 4.0 * index]]) * (1 + 0.21j)
        point = 0.02 * AXES[index] + np.array([0.001, -0.002, 0.0015])
        pull = np.cross(AXES[index], [0.3, 0.8, -0.1 - index])
        mounted.append(
            chain.Mounted(
                drive=index,
                com=centre,
                mass=mass_matrix(mass, inertia),
                stiffness=support_matrix(point[None], linear, angular),
                belt=0.034 * AXES[index],
                pull=pull / np.linalg.norm(pull),
                wrap=2.7 - 0.4 * index,
            )
        )
    carriage, held = chain.Carriage(masses=moving, points=places), mass_matrix(total, tensor)
    free, m = chain.augment(held, com, drives, carriage, mounted)
    stands = support_matrix(FEET - com, springs, tilts)
    k = free.copy()
    k[:6, :6] += stands
    return Case(
        k,
        free,
        m,
        held,
        com,
        mounted,
        drives,
        carriage,
        FEET - com,
        springs,
        stands,
        Cloud(masses, points, rows),
    )


def solved(stiffness: np.ndarray, mass: np.ndarray, omega: np.ndarray) -> np.ndarray:
    """Motion (f, N, n) under 1 N·m at each of two rotors, all coordinates at once."""
    right = np.zeros((len(mass), 2))
    right[-4:-2] = np.eye(2)
    return np.linalg.solve(stiffness - (omega**2)[:, None, None] * mass, right)


def floor(case: Case, motion: np.ndarray) -> np.ndarray:
    """Norm (f,) of all feet's forces, both sources' energies added."""
    at_feet = moved_by(FEET, case.com, 0, 6)
    forces = np.einsum("sk,ski,fij->fskj", case.springs, at_feet, motion[:, :6])
    return np.sqrt((np.abs(forces) ** 2).sum(axis=(1, 2, 3)))


def ripples(case: Case, omega: np.ndarray) -> np.ndarray:
    return solved(case.stiffness, case.mass, omega)


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
    motion = ripples(two_motors(), TAU * FREQUENCIES)
    np.testing.assert_allclose(motion[:, 18, 1], motion[:, 19, 0], rtol=1e-9)  # rounding
    assert np.abs(motion[:, 18, 1] / motion[:, 18, 0]).max() > 0.1  # and it does


@pytest.mark.parametrize("frequency", [0.7, 13.0, 67.0, 240.0])
def test_a_printer_that_floats_keeps_its_momentum(frequency: float) -> None:
    case = two_motors()
    motion = solved(case.free, case.mass, TAU * np.array([frequency]))
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
    motion = ripples(case, omega)
    m, _, rows = case.cloud
    made = -(omega**2)[:, None, None] * np.einsum("p,pki,fis->fks", m, rows, motion)
    at_feet = moved_by(FEET, case.com, 0, 22)
    feet = np.einsum("sk,ski,fij->fskj", case.springs, at_feet, motion)
    np.testing.assert_allclose(made, -feet.sum(axis=1), rtol=1e-7)  # rounding of cancelling masses


def test_condensed_to_its_six_the_printer_moves_as_the_whole() -> None:
    case, omega = two_motors(), TAU * FREQUENCIES
    right = np.zeros((22, 2))
    right[18:20] = np.eye(2)
    source = condense(case.free, case.mass, omega, right)
    found = np.linalg.solve(case.feet + source.dynamic, source.blocked)
    np.testing.assert_allclose(found, ripples(case, omega)[:, :6], rtol=1e-9)  # rounding


# --- belts ----------------------------------------------------------------------------------------


def leaves(motor: chain.Mounted, axis: np.ndarray) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Where two strands leave a pulley, seen from its middle, over its radius; and which way.

    The belt lies round the pulley on the side away from the pull, half the wrap each way.
    """
    half = motor.wrap / 2
    out = [
        -np.cos(turn) * motor.pull + np.sin(turn) * np.cross(axis, motor.pull)
        for turn in (half, -half)
    ]
    # square to the radius, and with the pull
    ways = [np.cross(side, axis) for side in out]
    ways = [way * np.sign(way @ motor.pull) for way in ways]
    return np.array(out), np.array(ways), np.cross(axis, out)


@pytest.mark.parametrize("wrap", [np.pi, 2.4, 1.3])
def test_a_belt_is_two_strands_that_leave_its_pulley(wrap: float) -> None:
    """Each strand a spring of half the stiffness along its own way, from pulley to a far end.

    The far ends sit on the frame; the carriage slackens one as it tightens the other.
    """
    case = two_motors()
    drive = case.drives[0]._replace(magnetic_stiffness=0.0)
    motor = case.mounted[0]._replace(wrap=wrap, stiffness=np.zeros((6, 6)))
    found, _ = chain.augment(case.held, case.com, [drive], case.carriage, [motor])
    middle = motor.com + motor.belt
    out, ways, spun = leaves(motor, drive.axis)
    expected = np.zeros((15, 15), dtype=complex)
    for side, way, turns in zip(out, ways, spun, strict=True):
        point = middle + drive.pulley_radius * side
        moved = moved_by(point[None], motor.com, 6, 15)[0]
        moved[:, 12] = drive.pulley_radius * turns  # the rotor turns on in its motor
        strand = -way @ moved  # as the frame carries pulley and far end alike
        tightens = np.sign(strand[12])
        strand[13:] = -tightens * drive.pulls
        expected += drive.belt_stiffness / 2 * np.outer(strand, strand)
    np.testing.assert_allclose(found, expected, rtol=1e-9, atol=1e-9 * 6e4)  # rounding
    # the loop alone, with rotor and masses as they are: k·sin²(w/2) along the pull
    along = np.concatenate([motor.pull, np.zeros(3)])
    side = np.cos(wrap / 2) * np.cross(drive.axis, motor.pull)
    assert along @ found[6:12, 6:12] @ along == pytest.approx(
        drive.belt_stiffness * np.sin(wrap / 2) ** 2
    )
    assert side @ found[6:9, 6:9] @ side == pytest.approx(
        drive.belt_stiffness * np.cos(wrap / 2) ** 2 * (side @ side)
    )


def test_a_loop_of_belt_pulls_back_a_motor_that_gives_way() -> None:
    """EA along every bit of a loop round pulley and idler, half a turn of each.

    With its rotor free the loop's own tension rises by EA·2d/(2·L) for a shift d along the pull:
    two strands pull back with EA·d/L each, so 2·EA/L, L from pulley to idler. With the tool as far
    along the belt either way, L each, its stiffness is k = 2·EA/L: the same.
    """
    case = two_motors()
    stretch, length = 4.2e4, 0.37  # EA [N], L [m]
    drive = case.drives[0]._replace(belt_stiffness=2 * stretch / length, magnetic_stiffness=0.0)
    motor = case.mounted[0]._replace(wrap=np.pi, stiffness=np.zeros((6, 6)))
    k, _ = chain.augment(case.held, case.com, [drive], case.carriage, [motor])
    shifted = np.zeros(15)
    shifted[6:9] = 1e-4 * motor.pull
    # the rotor turns as it likes, the tool is held: least energy over the rotor
    rest = (k @ shifted).real
    rest -= (k[:, 12] * (k[12] @ shifted) / k[12, 12]).real
    tension = stretch * 2e-4 / (2 * length)
    assert rest[6:9] @ motor.pull == pytest.approx(2 * tension, rel=1e-9)
    # and at its place on the shaft: a moment about the motor's centre
    np.testing.assert_allclose(rest[9:12], np.cross(motor.belt, rest[6:9]), atol=1e-9)


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
    # the whole: frame and motor, which add up about the shaft over the centre of mass
    mass, rides = 9.99, np.array([0.01, 0.02, 0.2])
    held = mass_matrix(mass, np.diag([0.4, 0.5, frame + body]))
    motor_at = chain.Mounted(
        drive=0,
        com=motor,
        mass=mass_matrix(0.29, np.diag([2e-4, 2e-4, body])),
        stiffness=support_matrix(
            np.array([[0, 0, 0.02]]), np.array([[4e4, 5e4, 3e5]]), np.array([[30.0, 40.0, rubber]])
        ),
        belt=np.array([0, 0, 0.03]),
        pull=np.array([1.0, 0, 0]),
        wrap=np.pi,
    )
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
    k, m = chain.augment(held, rides, [drive], carriage, [motor_at])
    k[:6, :6] += support_matrix(places - com, springs, tilts)
    torque = 0.023
    # feet's twist near 6 Hz, the motor's near 85 Hz on its rubber
    frequency = np.array([1.7, 5.9, 6.4, 23.0, 84.0, 97.0, 290.0])
    push = np.zeros(15)
    push[12] = torque
    dynamic = k - (TAU * frequency)[:, None, None] ** 2 * m
    motion = np.linalg.solve(dynamic, np.broadcast_to(push[:, None], (7, 15, 1)))
    at_feet = moved_by(places, com, 0, 6)
    forces = np.einsum("sk,ski,fi->fsk", springs, at_feet, motion[:, :6, 0])
    found = np.linalg.norm(forces.reshape(7, -1), axis=1)

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


def test_a_stiff_damper_is_bolted_on() -> None:
    omega, soft = TAU * FREQUENCIES, two_motors()
    k, m = chain.augment(soft.held, soft.com, soft.drives, soft.carriage)
    k[:6, :6] += soft.feet
    held = floor(soft, solved(k, m, omega))
    off = []
    for scale in (1.0, 1e4, 1e6):
        case = two_motors(damper=scale)
        off.append(np.abs(floor(case, ripples(case, omega)) / held - 1).max())
    assert off[0] > 0.3  # the damper does something
    assert off[2] < 1e-4  # (240 Hz)²/(50 Hz)² over a million
    assert off[1] / off[2] == pytest.approx(100, rel=0.1)  # first order in the flexibility


def test_one_of_two_is_bolted_on() -> None:
    case, omega = two_motors(), TAU * FREQUENCIES
    k, m = chain.augment(case.held, case.com, case.drives, case.carriage, case.mounted[:1])
    k[:6, :6] += case.feet
    keep = [i for i in range(22) if not 12 <= i < 18]
    # the second motor held against the frame: its own six struck out
    expected = solved(case.stiffness[np.ix_(keep, keep)], case.mass[np.ix_(keep, keep)], omega)
    np.testing.assert_allclose(solved(k, m, omega), expected, rtol=1e-9, atol=1e-15)  # rounding


def test_stiff_feet_are_a_frame_that_stands_still() -> None:
    case, omega = two_motors(), TAU * FREQUENCIES
    right = np.zeros((22, 2))
    right[18:20] = np.eye(2)
    wrench = condense(case.free, case.mass, omega, right).blocked
    rigid = floor(case, np.linalg.solve(case.feet, wrench))
    off = []
    for scale in (1.0, 1e6, 1e8):
        stiff = two_motors(feet=scale)
        off.append(np.abs(floor(stiff, ripples(stiff, omega)) / rigid - 1).max())
    assert off[0] > 0.5
    assert off[1] < 1e-2  # (240 Hz over the feet's lowest mode near 3 Hz)², over a million
    assert off[1] / off[2] == pytest.approx(100, rel=0.1)  # first order in the flexibility


@pytest.mark.parametrize("damped", [False, True])
def test_a_drive_pushes_a_held_frame_by_the_momentum_of_what_moves(damped: bool) -> None:
    case, omega = two_motors(), TAU * FREQUENCIES
    k, m = chain.augment(
        case.held, case.com, case.drives, case.carriage, case.mounted if damped else ()
    )
    right = np.zeros((len(m), 2))
    right[-4:-2] = np.eye(2)
    blocked = condense(k, m, omega, right).blocked
    inner = solved(k[6:, 6:], m[6:, 6:], omega)  # (f, ·, 2), the frame held
    masses, points, rows = case.cloud
    columns = [*range(6, 22)] if damped else [*range(18, 22)]
    moved = np.einsum("pki,fis->fpks", rows[:, :, columns], inner)
    made = (omega**2)[:, None, None, None] * masses[:, None, None] * moved
    lever = np.broadcast_to((points - case.com)[:, :, None], made.shape)
    turned = np.cross(lever, made, axis=2)
    expected = np.concatenate([made.sum(axis=1), turned.sum(axis=1)], axis=1)
    scale = np.abs(expected).max()
    np.testing.assert_allclose(blocked, expected, rtol=1e-8, atol=1e-9 * scale)  # rounding


# --- a frame that recoils -------------------------------------------------------------------------


def test_a_light_frame_raises_the_belts_resonance() -> None:
    """Frame M and carriage m on a belt k, rotor held, on nothing: ω² = k·(1/m + 1/M).

    Textbook's two masses on a spring; the belt runs through the centre of mass.
    """
    belt, moves, rest = 47e3, 0.61, 1.9
    drive = chain.Drive(
        axis=np.array([0.0, 0, 1]),
        rotor_inertia=5e-6,
        magnetic_stiffness=1e9,
        pulley_radius=0.0064,
        belt_stiffness=belt * (1 + 1e-5j),
        pulls=np.array([1.0, 0.0]),
    )
    carriage = chain.Carriage(masses=np.array([moves, 0.4]), points=np.zeros((2, 3)))
    held = mass_matrix(rest + moves, 0.05 * np.eye(3))
    k, m = chain.augment(held, np.zeros(3), [drive], carriage)
    k[-1, -1] = 1e9  # nothing moves along y
    hertz = np.arange(40.0, 70.0, 0.005)
    push = np.zeros((9, 1))
    push[6] = 1.0
    source = condense(k, m, TAU * hertz, push)
    moved = np.abs(np.linalg.solve(source.dynamic, source.blocked)[:, 0, 0])
    expected = np.sqrt(belt * (1 / moves + 1 / rest)) / TAU
    assert expected / (np.sqrt(belt / moves) / TAU) > 1.1  # the frame matters
    assert hertz[np.argmax(moved)] == pytest.approx(expected, abs=0.006)  # one step of the sweep
    # a frame a thousand times as heavy stands still
    source = condense(k, m + np.diag([*1e3 * held.diagonal(), 0, 0, 0]), TAU * hertz, push)
    moved = np.abs(np.linalg.solve(source.dynamic, source.blocked)[:, 0, 0])
    assert hertz[np.argmax(moved)] == pytest.approx(np.sqrt(belt / moves) / TAU, abs=0.02)


# --- the torque through one damper ----------------------------------------------------------------


@pytest.mark.parametrize("twist", [11.0 + 1.3j, 170.0 + 9.0j])
def test_a_motor_turns_as_in_the_whole_on_a_frame_that_stands(twist: complex) -> None:
    case, omega = two_motors(), TAU * FREQUENCIES
    shaft = case.drives[0].axis  # z; shaft, centre and rubber in one line, half a turn of belt
    motor = case.mounted[0]._replace(
        mass=mass_matrix(0.27, np.diag([2.1e-4, 2.1e-4, 1.3e-4])),
        stiffness=support_matrix(
            0.021 * shaft[None], np.array([[4e4, 4e4, 3e5]]), np.array([[35.0, 35.0, twist]])
        ),
        wrap=np.pi,
    )
    k, m = chain.augment(case.held, case.com, case.drives, case.carriage, [motor])
    motion = solved(k[6:, 6:], m[6:, 6:], omega)[..., 0]
    through = twist * motion[:, 5]  # the first motor's turn about its shaft
    held, resists = chain.turning(case.drives, case.carriage.masses, 0, 1.3e-4, omega)
    np.testing.assert_allclose(held * twist / (twist + resists), through, rtol=1e-9)  # rounding
    np.testing.assert_allclose(motion[:, [0, 1, 3, 4]], 0.0, atol=1e-12)  # twist stands alone


def test_what_a_bolted_motor_passes_is_the_limit_of_stiff_rubber() -> None:
    case, omega = two_motors(), TAU * FREQUENCIES
    held, resists = chain.turning(case.drives, case.carriage.masses, 1, 1.7e-4, omega)
    # its rotor's and its belt's torque on a frame that stands, of the bolted drive
    k, m = chain.augment(case.held, case.com, case.drives, case.carriage)
    inner = solved(k[6:, 6:], m[6:, 6:], omega)[..., 1]
    drive = case.drives[1]
    stretch = drive.pulley_radius * inner[:, 1] - inner[:, 2:] @ drive.pulls
    belt = drive.pulley_radius * drive.belt_stiffness * stretch
    expected = omega**2 * drive.rotor_inertia * inner[:, 1] - belt
    np.testing.assert_allclose(held, expected, rtol=1e-9)  # rounding
    off = [np.abs(spring / (spring + resists) - 1).max() for spring in (1e9, 1e10)]
    assert off[0] < 1e-6  # inertia and belt over the rubber: 1e3/1e9
    assert off[1] == pytest.approx(off[0] / 10, rel=0.01)


def test_a_slow_ripple_stays_in_the_motor_and_a_fast_one_turns_its_shell() -> None:
    # far below every resonance the field takes the ripple up and nothing turns in space; far above
    # them ripple and shell's inertia alone rule: θ = τ/(ω²·(I − J)), pushed against the rotor
    case = two_motors(belt=0.0)
    twist, inertia, slow, fast = 13.0, 1.7e-4, TAU * 0.1, TAU * 20e3
    rotor = case.drives[0].rotor_inertia
    held, resists = chain.turning(
        case.drives, case.carriage.masses, 0, inertia, np.array([slow, fast])
    )
    found = held * twist / (twist + resists)
    # turned slowly, the rotor's inertia on its field is all that is felt
    assert found[0] == pytest.approx(slow**2 * rotor / case.drives[0].magnetic_stiffness, rel=1e-4)
    # (rotor's resonance near 300 Hz over 20 kHz)² is left out
    assert found[1] == pytest.approx(twist / (fast**2 * (inertia - rotor)), rel=1e-3)
