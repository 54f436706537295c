"""A source on feet on a desk: the whole system written out, shares by statics, textbook limits."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from isolator.physics.bodies.coupled import RIGID, Contact, contact
from isolator.physics.bodies.plate import Plate, receptance
from isolator.physics.bodies.receiver import bending_stiffness
from isolator.physics.bodies.rigid import cross_matrix, mass_matrix

KILOGRAMS = 11.3
INERTIA = np.array([[0.41, 0.013, -0.022], [0.013, 0.37, 0.017], [-0.022, 0.017, 0.29]])
ARMS = np.array([[0.17, 0.19, -0.21], [-0.16, 0.14, -0.2], [0.15, -0.13, -0.22]])
STIFF = np.array(
    [
        [2100.0, 1700, 5200, 1.1, 2.3, 0.7],
        [1900, 2300, 4100, 3.1, 1.9, 0.9],
        [2500, 1500, 6100, 0.4, 2.2, 1.7],
    ]
)
HEIGHT = np.array([0.021, 0.024, 0.019])
LEGS = tuple((x, y) for x in (-0.64, 0.64) for y in (-0.29, 0.29))
TABLE = Plate(
    bending=1814.4, mass_per_area=13.14, poisson=0.25, loss=0.05, size=(1.4, 0.7), legs=LEGS
)
ENDLESS = replace(TABLE, size=None)
HERTZ = np.array([6.0, 23.0, 64.0, 140.0])
PUSHES = np.array([[1.0, -0.4, 0.3, 0.05, -0.1, 0.2], [0.0, 0, 1, 0, 0, 0]]).T


def free(hertz: np.ndarray) -> np.ndarray:
    """Dynamic stiffness (1, f, 6, 6) of the body in the air."""
    square = (2 * np.pi * hertz)[:, None, None] ** 2
    return -square[None] * mass_matrix(KILOGRAMS, INERTIA) + 0j


def everything(stiffness: np.ndarray, desk: np.ndarray, hertz: float) -> np.ndarray:
    """Contact forces (3s, p), from all motions and all forces of the feet as unknowns."""
    feet = len(ARMS)
    body = np.concatenate(
        [np.block([[np.eye(3), -cross_matrix(r)], [np.zeros((3, 3)), np.eye(3)]]) for r in ARMS]
    )
    rides = np.zeros((6 * feet, 3 * feet))
    for i, h in enumerate(HEIGHT):
        # deflection lifts; a turn about x carries what stands h above it to −y, about y to +x
        rides[6 * i + 2, 3 * i] = rides[6 * i + 3, 3 * i + 1] = rides[6 * i + 4, 3 * i + 2] = 1.0
        rides[6 * i, 3 * i + 2], rides[6 * i + 1, 3 * i + 1] = h, -h
    whole = np.block(
        [
            [free(np.array([hertz]))[0, 0], body.T, np.zeros((6, 3 * feet))],
            [body, -np.diag(1 / stiffness.ravel()), -rides],
            [np.zeros((3 * feet, 6)), desk @ rides.T, -np.eye(3 * feet)],
        ]
    )
    right = np.zeros((len(whole), PUSHES.shape[1]), dtype=complex)
    right[:6] = PUSHES
    found: np.ndarray = rides.T @ np.linalg.solve(whole, right)[6 : 6 + 6 * feet]
    return found


def solved(
    stiffness: np.ndarray,
    desk: np.ndarray,
    hertz: np.ndarray,
    push: np.ndarray = PUSHES,
    height: np.ndarray = HEIGHT,
) -> Contact:
    """What one set of feet (s, 6) passes on of the body."""
    return contact(
        free(hertz),
        np.asarray(push, dtype=complex)[None, None],
        ARMS[None],
        np.broadcast_to(stiffness, (1, len(hertz), *stiffness.shape)),
        height[None],
        desk,
        hertz,
    )


@pytest.mark.parametrize(("scale", "off"), [(1.0, 1e-12), (1e4, 1e-11), (RIGID, 1e-9)])
def test_all_unknowns_written_out_give_the_same(scale: float, off: float) -> None:
    feet, desk = scale * STIFF * (1 + 0.2j), receptance(TABLE, ARMS[:, :2], [0.025] * 3, HERTZ)
    found = solved(feet, desk, HERTZ)
    for row, hertz in enumerate(HERTZ):
        force = everything(feet, desk[row], hertz)
        np.testing.assert_allclose(found.force[0, row], force, atol=off * np.abs(force).max())
        mobility = 2j * np.pi * hertz * desk[row]
        power = 0.5 * np.einsum("ip,ij,jp->p", force.conj(), mobility, force).real
        np.testing.assert_allclose(found.power[0, row], power, rtol=10 * off)


@pytest.mark.parametrize("scale", [1.0, RIGID], ids=["feet", "rigid"])
def test_an_off_centre_push_keeps_its_vertical_share(scale: float) -> None:
    # slowly pushed, three upright springs share by statics: forces and both moments balance
    arm, feet = np.array([0.08, -0.05]), STIFF * [1e-10, 1e-10, 1, 0, 0, 0]
    push = np.array([[0, 0, 1.0, arm[1], -arm[0], 0]]).T
    hertz = np.array([0.02])
    desk = receptance(TABLE, ARMS[:, :2], [0.025] * 3, hertz)
    found = solved(scale * feet * (1 + 0.05j), desk, hertz, push).force[0, 0, ::3, 0]
    share = np.linalg.solve(np.vstack([np.ones(3), ARMS[:, :2].T]), [1.0, *arm])
    np.testing.assert_allclose(found, share, atol=2e-3)
    assert share.max() > 10 * share.min()  # far from equal


def test_a_sideways_force_tips_the_desk_by_the_foots_height() -> None:
    # sideways springs alone on a desk that does not give way: M = h × F
    feet = STIFF * [1, 1, 1, 0, 0, 0] * (1 + 0.1j)
    found = solved(feet, np.zeros((4, 9, 9)), HERTZ).force[0]
    square = (2 * np.pi * HERTZ)[:, None, None] ** 2
    body = np.concatenate([np.block([np.eye(3), -cross_matrix(r)]) for r in ARMS])
    held = body.T @ (feet[:, :3].reshape(9, 1) * body)
    moved = np.linalg.solve(held - square * mass_matrix(KILOGRAMS, INERTIA), PUSHES[None])
    force = feet[:, :3].reshape(9, 1) * (body @ moved)
    np.testing.assert_allclose(found[:, ::3], force[:, 2::3], rtol=1e-9)
    np.testing.assert_allclose(found[:, 1::3], -HEIGHT[:, None] * force[:, 1::3], rtol=1e-9)
    np.testing.assert_allclose(found[:, 2::3], HEIGHT[:, None] * force[:, ::3], rtol=1e-9)


@pytest.mark.parametrize("height", [HEIGHT, 0.0 * HEIGHT], ids=["high", "flat"])
@pytest.mark.parametrize("lacking", range(6))
def test_a_spring_of_no_stiffness_is_as_good_as_the_softest(
    lacking: int, height: np.ndarray
) -> None:
    desk = receptance(TABLE, ARMS[:, :2], [0.025] * 3, HERTZ)
    feet = STIFF * (np.arange(6) != lacking) * (1 + 0.2j)
    feet[1] = STIFF[1] * (1 + 0.2j)  # of three feet one lacks none
    soft = np.where(feet == 0.0, 1e-9 * STIFF, feet)
    for under in (desk, 0.0 * desk):
        none, least = (solved(each, under, HERTZ, height=height).force for each in (feet, soft))
        np.testing.assert_allclose(none, least, atol=1e-6 * np.abs(least).max())


@settings(max_examples=40, deadline=None)
@given(
    st.floats(1.0, 900.0), st.floats(0.0, 9.0), st.sampled_from([TABLE, replace(TABLE, size=None)])
)
def test_power_flows_into_the_desk(hertz: float, octaves: float, plate: Plate) -> None:
    at = np.array([hertz])
    desk = receptance(plate, ARMS[:, :2], [0.025] * 3, at)
    assert solved(10.0**octaves * STIFF * (1 + 0.2j), desk, at).power.min() > 0.0


def test_a_heavier_desk_takes_less() -> None:
    # of soft feet and endless boards of more and more thickness, at every frequency
    hertz, taken = np.array([30.0, 64.0, 140.0, 300.0]), []
    for thickness in (0.012, 0.018, 0.03, 0.06):
        bending = float(bending_stiffness(3.5e9, thickness, 0.25))
        plate = replace(TABLE, bending=bending, mass_per_area=730 * thickness, size=None)
        desk = receptance(plate, ARMS[:, :2], [0.025] * 3, hertz)
        taken.append(solved(STIFF * (1 + 0.2j), desk, hertz).power[0])
    assert np.all(np.diff(taken, axis=0) < 0.0)


def test_a_batch_is_its_members() -> None:
    desk = receptance(TABLE, ARMS[:, :2], [0.025] * 3, HERTZ)
    factor = np.array([1.0, 3.0])[:, None, None, None]
    stiffness = factor * STIFF * np.linspace(1.0, 1.3, 4)[:, None, None] * (1 + 0.2j)
    height = np.stack([HEIGHT, 2 * HEIGHT])
    arms = np.stack([ARMS, ARMS + 0.01])
    push = PUSHES[None, None] + 0j
    whole = contact(free(HERTZ), push, arms, stiffness, height, desk, HERTZ)
    for i in range(2):
        one = slice(i, i + 1)
        alone = contact(free(HERTZ), push, arms[one], stiffness[one], height[one], desk, HERTZ)
        np.testing.assert_allclose(whole.force[one], alone.force, rtol=1e-12)
        np.testing.assert_allclose(whole.power[one], alone.power, rtol=1e-12)
