"""One path for one set of feet and for many, and the limits that it has to fall back to."""

from __future__ import annotations

import math
from dataclasses import replace
from importlib import resources

import numpy as np
import pytest
from one_body import pushed, rigid_source

from isolator.brief import Brief, read_brief_text
from isolator.cards import load_cards
from isolator.feet.candidates import CandidateBatch, candidates
from isolator.feet.screen import feet_at, pads_of
from isolator.feet.sizing import foot_of
from isolator.feet.task import build_feet_task
from isolator.vibration.printer import MassCase, RigidPrinter, build_printer
from isolator.vibration.pushed import summed_force
from isolator.vibration.stand import feet_stand
from isolator.vibration.supports import FeetBatch
from isolator.vibration.system import System, build, exact_modes, quick_modes


def beside(force: list[float], point: list[float]) -> np.ndarray:
    """A force at a point, as force and moment about the centre of mass."""
    return np.concatenate([force, np.cross(point, force)])


def shipped() -> Brief:
    path = resources.files("isolator.examples") / "reading-room.toml"
    return read_brief_text(path.read_text(encoding="utf-8"), "reading-room.toml")


@pytest.fixture(scope="module")
def brief() -> Brief:
    return shipped()


@pytest.fixture(scope="module")
def printer(brief: Brief) -> RigidPrinter:
    return build_printer(brief)


@pytest.fixture(scope="module")
def offered(brief: Brief) -> list[CandidateBatch]:
    """Every eleventh candidate of one card of each family, every outline."""
    wanted = {"nr-40", "pu-visco-30", "sponge-1", "tpu-85-gyroid-15"}
    return [
        block.take(np.arange(0, len(block), 11))
        for block in candidates(build_feet_task(brief), load_cards())
        if block.material.id in wanted
    ]


def standing(brief: Brief, printer: RigidPrinter, block: CandidateBatch) -> System:
    """Return those of a block that stand upright, light on stiff pads."""
    feet = feet_at(
        build_feet_task(brief), brief.room, pads_of(block), block.positions, printer.light, "stiff"
    )
    system = build(feet, printer.light)
    upright = np.flatnonzero(quick_modes(system).frequency[:, 0] > 1.0)
    return build(feet.take(upright), printer.light)


# --- one candidate, many candidates -------------------------------------------------------------


def test_a_row_of_a_batch_is_a_batch_of_one(
    brief: Brief, printer: RigidPrinter, offered: list[CandidateBatch]
) -> None:
    hertz, push = [17.0, 63.0], beside([0.7, -0.4, 0.2], [0.1, 0.05, 0.4])
    for block in offered:
        many = build(
            feet_at(
                build_feet_task(brief),
                brief.room,
                pads_of(block),
                block.positions,
                printer.heavy,
                "soft",
            ),
            printer.heavy,
        )
        modes, lost = quick_modes(many), pushed(many, hertz, push, 1e-3)
        for row in (0, len(block) // 2, len(block) - 1):
            alone = pads_of(block.take(np.array([row])))
            feet = feet_at(
                build_feet_task(brief), brief.room, alone, block.positions, printer.heavy, "soft"
            )
            one = build(feet, printer.heavy)
            # rounding: a square root near nought doubles the digits it loses
            np.testing.assert_allclose(
                quick_modes(one).frequency[0], modes.frequency[row], rtol=1e-7, atol=1e-7
            )
            found = pushed(one, hertz, push, 1e-3)
            np.testing.assert_allclose(found.force[0], lost.force[row], rtol=1e-9)  # rounding
            np.testing.assert_allclose(found.on_desk[0], lost.on_desk[row], atol=1e-6)  # [dB]


def test_quick_modes_are_close_to_exact_ones(
    brief: Brief, printer: RigidPrinter, offered: list[CandidateBatch]
) -> None:
    seen = 0
    for block in offered:
        system = standing(brief, printer, block)
        seen += len(system.static)
        quick, exact = quick_modes(system), exact_modes(system)
        # gravity alone turns the shapes with frequency; asked of the screen
        np.testing.assert_allclose(quick.frequency, exact.frequency, rtol=1e-4)
    assert seen > 500


def test_exact_modes_solve_their_own_equation(
    brief: Brief, printer: RigidPrinter, offered: list[CandidateBatch]
) -> None:
    for block in offered:
        system = standing(brief, printer, block)
        modes = exact_modes(system)
        for column in range(6):
            f, shape = modes.frequency[:, column], modes.shapes[:, :, column]
            # K(f) = ratio·(f/f_ref)^α·K_static + K_gravity, the feet's law written again
            feet = system.feet
            factor = feet.ratio * (f / feet.reference) ** feet.alpha
            stiffness = factor[:, None, None] * system.static + system.gravity
            left = np.einsum("nij,nj->ni", stiffness, shape)
            right = (math.tau * f)[:, None] ** 2 * shape @ system.mass
            size = np.linalg.norm(right, axis=1, keepdims=True)
            # the fixed point stops within 1e-9 of a frequency; its force is squared and cancels
            assert np.abs((left - right) / size).max() < 1e-6
            np.testing.assert_allclose(  # mass-normalised; rounding
                np.einsum("ni,ij,nj->n", shape, system.mass, shape), 1.0, rtol=1e-9
            )


def test_linear_shares_are_close_to_the_settled_ones_of_light_loads(
    brief: Brief, printer: RigidPrinter
) -> None:
    # strains of a per cent, where every curve is straight
    light = replace(printer.nominal, mass=1.3, com=np.array([0.04, -0.03, 0.2]))
    for ident, cut in (("nr-40", 0.02), ("pu-visco-50", 0.02)):
        card = load_cards()[ident]
        places = np.array([[-0.18, -0.17], [0.19, -0.16], [0.17, 0.18], [-0.16, 0.15]])
        block = CandidateBatch(
            material=card,
            shape="disc",
            positions=places,
            first=np.array([0.03]),
            second=np.array([0.0]),
            thickness=np.array([0.012]),
            layers=np.array([1]),
        )
        shared = feet_at(
            build_feet_task(brief), brief.room, pads_of(block), places, light, "nominal"
        )
        corners = tuple((float(x), float(y)) for x, y in places)
        foot = foot_of(build_feet_task(brief), card, "disc", 0.03, 0.0, 0.012, 1, corners, 0.0)
        stand = feet_stand(brief.room, (foot,), card)
        settled, _ = stand.settled(light, "nominal")
        assert settled.strain.max() < 0.03
        # stiffening at a strain ε is of the order of ε
        np.testing.assert_allclose(shared.load, settled.load, rtol=cut)
        np.testing.assert_allclose(shared.linear, settled.linear, rtol=cut)
        assert np.ptp(settled.load) > 0.1 * settled.load.mean()  # unequal loads, or nothing is seen


# --- limits and closed forms --------------------------------------------------------------------

MASS = 13.0
PLACES = np.array([[-0.17, -0.14], [0.17, -0.14], [0.17, 0.14], [-0.17, 0.14]])


def symmetric(
    *,
    scale: float = 1.0,
    mass: float = MASS,
    loss: float = 0.3,
    ratio: float = 1.4,
    alpha: float | None = None,
    height: float = 0.0,
    weight: float = 0.0,
) -> System:
    """Return one body on four equal feet, elastic centres `height` under its centre of mass."""
    case = MassCase(
        name="nominal",
        mass=mass,
        com=np.zeros(3),
        inertia=mass * np.diag([0.021, 0.024, 0.027]),
    )
    centres = np.concatenate([PLACES, np.full((4, 1), -height)], axis=1)[None]
    linear = scale * np.broadcast_to([2300.0, 2700.0, 6100.0], (1, 4, 3))
    exponent = 2.0 / math.pi * math.atan(loss) if alpha is None else alpha
    none = np.zeros((1, 4))
    feet = FeetBatch(
        centres=centres,
        linear=linear,
        angular=scale * np.full((1, 4, 3), 0.4),
        loss=np.full((1, 4), loss),
        ratio=np.array([ratio]),
        alpha=np.array([exponent]),
        reference=np.array([10.0]),
        load=np.full((1, 4), weight / 4),
        strain=none,
        sag=none,
        buckling=none,
        mass=none,
    )
    return build(feet, case)


@pytest.mark.parametrize(("axis", "spring"), [(0, 2300.0), (1, 2700.0), (2, 6100.0)])
@pytest.mark.parametrize("loss", [0.08, 0.3, 0.7])
def test_a_decoupled_body_is_the_hysteretic_curve(axis: int, spring: float, loss: float) -> None:
    # √((1 + η²)/((1 − r²)² + η²)), J. C. Snowdon, NBS Handbook 128 (1979), from memory, r² =
    # ω²m/k(f) with the springpot's k(f) = k·1.4·(f/10 Hz)^α, α = (2/π)·atan η, Gaul 1991
    frequency = np.array([2.0, 6.1, 8.7, 13.0, 29.0, 110.0])
    found = pushed(symmetric(loss=loss), frequency, np.eye(6)[axis])
    alpha = 2.0 / math.pi * math.atan(loss)
    square = (math.tau * frequency) ** 2 * MASS / (4 * spring * 1.4 * (frequency / 10.0) ** alpha)
    expected = np.sqrt((1 + loss**2) / ((1 - square) ** 2 + loss**2))
    np.testing.assert_allclose(found.transmissibility[0], expected, rtol=1e-9)  # rounding
    # rigid feet pass the force as it is, half to each of four: the loss is the curve in decibel
    np.testing.assert_allclose(found.insertion_loss[0], -20 * np.log10(expected), atol=1e-8)


def test_rigid_feet_lose_nothing() -> None:
    hertz, push = [12.0, 75.0, 240.0], beside([0.7, -0.4, 0.2], [0.1, 0.05, 0.4])
    worst = []
    for scale in (1.0, 1e4, 1e6, 1e8):
        stiff = symmetric(scale=scale, height=0.21, weight=MASS * 9.8)
        worst.append(np.abs(pushed(stiff, hertz, push).insertion_loss).max())
    assert worst[0] > 20.0
    assert worst[1] > worst[2] > worst[3]
    assert worst[3] < 1e-3  # [dB], (f/f_n)² of a body 1e4 times higher tuned


def test_on_a_desk_the_loss_is_that_of_three_mobilities() -> None:
    # |(Y_s + Y_f + Y_d)/(Y_s + Y_d)|; T. E. Vigran, Building Acoustics (2008) eq. 2.43. Four equal
    # feet on four equal places of the desk stand side by side: a quarter of the mobility each
    loss, mobility = 0.3, 1.7e-3
    frequency = np.array([21.0, 38.0, 90.0, 210.0])
    found = pushed(symmetric(loss=loss), frequency, [0.0, 0.0, 1.3, 0.0, 0.0, 0.0], mobility)
    omega = math.tau * frequency
    spring = 4 * 6100.0 * 1.4 * (frequency / 10.0) ** (2 / math.pi * math.atan(loss))
    source, desk = 1 / (1j * omega * MASS), mobility / 4
    foot = 1j * omega / (spring * (1 + 1j * loss))
    expected = 20 * np.log10(np.abs((source + foot + desk) / (source + desk)))
    # rigid feet are the same 1e8 times stiffer
    np.testing.assert_allclose(found.on_desk[0], expected, atol=1e-4)


def test_slow_pushes_come_through_whole() -> None:
    force = np.array([0.7, -0.4, 0.9])
    system = symmetric(height=0.21)
    for frequency, off in ((0.3, 2e-2), (0.03, 4e-4), (0.003, 8e-6)):
        source = rigid_source(system, frequency, beside(list(force), [0.1, 0.05, 0.3]))
        # inertia goes with the square of frequency, the feet soften with its power 0.19
        np.testing.assert_allclose(summed_force(system, source)[0], force, atol=off)


@pytest.mark.parametrize("factor", [2.0, 5.3])
def test_heavier_on_stiffer_feet_swings_alike(factor: float) -> None:
    one = symmetric(height=0.21, weight=MASS * 9.8)
    more = symmetric(scale=factor, mass=factor * MASS, height=0.21, weight=factor * MASS * 9.8)
    for modes in (quick_modes, exact_modes):
        first, second = modes(one), modes(more)
        np.testing.assert_allclose(second.frequency, first.frequency, rtol=1e-9)  # rounding
        np.testing.assert_allclose(second.damping, first.damping, rtol=1e-8)  # rounding
    # and stiffer feet under the same mass swing faster by the root, where the law is flat
    flat = symmetric(loss=0.0, alpha=0.0)
    stiff = symmetric(loss=0.0, alpha=0.0, scale=factor)
    np.testing.assert_allclose(
        exact_modes(stiff).frequency, math.sqrt(factor) * exact_modes(flat).frequency, rtol=1e-9
    )  # rounding
