"""A table top under its feet: closed series, published modes, limits, reciprocity, power."""

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import integrate, special

from isolator.physics.bodies import endless_plate, footprint, plate_modes
from isolator.physics.bodies.plate import Plate, fades_from, receptance
from isolator.physics.bodies.receiver import bending_stiffness, mass_per_area, point_mobility

BENDING, MASS = 1814.4, 13.14  # fibreboard of 18 mm
SIZE = (1.4, 0.7)
LEGS = tuple((x, y) for x in (-0.64, 0.64) for y in (-0.29, 0.29))
FEET = np.array([[-0.11, -0.18], [0.25, -0.17], [0.24, 0.2], [-0.1, 0.19]])
WIDTH = np.array([0.025, 0.03, 0.025, 0.04])


BOARD = Plate(bending=BENDING, mass_per_area=MASS, poisson=0.25, loss=0.05)
ON_EDGES, ON_LEGS = replace(BOARD, size=SIZE), replace(BOARD, size=SIZE, legs=LEGS)


def single_series(hertz: float, to: np.ndarray, at: np.ndarray) -> complex:
    """Deflection [m/N] at `to` under a point force at `at`, from a corner of a supported plate.

    Sines along x; along y each strip solves B(d²/dy² − α²)²Y − m″ω²Y = δ(y − y₀), whose roots
    ±√(α² ± k²) give differences of two strings held at both ends, sinh·sinh/(μ·sinh).
    """
    stiff = BENDING * (1 + 0.05j)
    square = np.sqrt(MASS * (2 * np.pi * hertz) ** 2 / stiff)  # k²
    total = 0.0 + 0.0j
    low, high = sorted((to[1], at[1]))

    def string(mu: complex) -> complex:
        # sinh(μ·low)·sinh(μ(b − high))/(μ·sinh(μb)), in exponentials that do not overflow
        rest = np.exp(-mu * (high - low)) * (1 - np.exp(-2 * mu * low))
        return (
            rest
            * (1 - np.exp(-2 * mu * (SIZE[1] - high)))
            / (2 * mu * (1 - np.exp(-2 * mu * SIZE[1])))
        )

    for p in range(1, 400):
        alpha = p * np.pi / SIZE[0]
        below, above = np.sqrt(alpha**2 - square), np.sqrt(alpha**2 + square)
        strip = (string(below) - string(above)) / (2 * square * stiff)
        total += 2 / SIZE[0] * np.sin(alpha * to[0]) * np.sin(alpha * at[0]) * strip
    return total


@pytest.mark.parametrize("hertz", [3.0, 47.1, 90.0, 230.0])
@pytest.mark.parametrize("place", [(0.0, 0.0), (0.31, -0.12)], ids=["middle", "off it"])
def test_a_supported_plate_follows_its_closed_series(hertz: float, place: tuple) -> None:
    corner = np.array(SIZE) / 2
    at = np.array([place, (-0.2, 0.15)])
    found = receptance(ON_EDGES, at, [0.006, 0.006], [hertz])[0]
    for row, column in ((0, 0), (0, 1), (1, 1)):
        expected = single_series(hertz, at[row] + corner, at[column] + corner)
        # what a point gives more than a disc of 6 mm is a²/B, some 2e-9 m/N
        assert found[3 * row, 3 * column] == pytest.approx(expected, rel=2e-3, abs=2e-9)
    # a moment on the other contact, by differences of point forces on the series
    step = 2e-3
    for turn, along in ((1, np.array([0.0, 1.0])), (2, np.array([-1.0, 0.0]))):
        ahead, back = (
            single_series(hertz, at[0] + corner, at[1] + corner + sign * step * along)
            for sign in (1.0, -1.0)
        )
        assert found[0, 3 + turn] == pytest.approx((ahead - back) / (2 * step), rel=2e-3)


def test_a_supported_plate_has_the_textbook_modes() -> None:
    # (π/2)√(B/m″)·(p²/a² + q²/b²), fed by a force in the middle of a quarter, loss next to none
    plate, place = replace(ON_EDGES, loss=1e-5), [[-0.35, -0.175]]
    orders = np.array([[1, 1], [2, 1], [3, 1], [2, 2]])
    waves = ((orders / np.array(SIZE)) ** 2).sum(axis=1)
    expected = np.pi / 2 * np.sqrt(BENDING / MASS) * waves
    for hertz in expected:
        near = hertz * (1 + np.linspace(-2e-4, 2e-4, 401))
        give = np.abs(receptance(plate, place, [0.02], near)[:, 0, 0])
        assert near[np.argmax(give)] == pytest.approx(hertz, rel=5e-6)


def roots(legs: tuple, count: int, poisson: float = 0.3) -> np.ndarray:
    """Lowest λ² = ωa²√(m″/B) of a square plate on `legs`."""
    square, _ = plate_modes.legged_modes(plate_modes.Rectangle(1, 1, 1, 1, poisson, legs))
    return np.sqrt(np.abs(square[:count]))


def test_a_free_square_plate() -> None:
    # Leissa, Vibration of Plates: 13.49, 19.79, 24.43, upper bounds, ν 0.3 (from memory);
    # three motions of a rigid body before them
    found = roots((), 6)
    assert np.all(found[:3] < 1e-2)
    np.testing.assert_allclose(found[3:], [13.49, 19.79, 24.43], rtol=0.012)
    assert np.all(found[3:] < [13.49, 19.79, 24.43])


def test_a_square_plate_on_four_corners() -> None:
    # 7.12 for ν 0.3 (from memory); twisted out of its plane 19.60, as free: its corners rest
    corners = tuple((x, y) for x in (-0.5, 0.5) for y in (-0.5, 0.5))
    found = roots(corners, 4)
    assert found[0] == pytest.approx(7.12, rel=3e-3)
    assert found[3] == pytest.approx(roots((), 5)[4], rel=1e-6)


@pytest.mark.parametrize("hertz", [2.0, 47.0, 310.0, 2000.0])
def test_an_endless_plate_under_its_own_footprint(hertz: float) -> None:
    stiff, half = BENDING * (1 + 0.05j), 0.0125
    wave = (MASS * (2 * np.pi * hertz) ** 2 / stiff) ** 0.25
    found = endless_plate.driving_point(stiff, np.array([wave]), 2 * half)

    def felt(k: np.ndarray, power: int) -> np.ndarray:
        order = power // 2 + 1
        disc = (
            special.factorial(order) * 2**order * special.jv(order, k * half) / (k * half) ** order
        )
        return disc**2 * k ** (power + 1) / (k**4 - wave**4) / stiff

    for own, power, share in ((found[0], 0, 2), (found[1], 2, 4)):
        grid = np.linspace(np.log(1e-4), np.log(60 / half), 200_001)
        whole = integrate.simpson(felt(np.exp(grid), power) * np.exp(grid), x=grid)
        assert own[0] == pytest.approx(whole / (share * np.pi), rel=2e-5)


def test_an_endless_plate_has_the_published_mobilities() -> None:
    # 1/(8√(Bm″)); a moment's real part ω/(16B): Cremer, Heckl & Petersson, ch. 5
    hertz = np.array([4.0, 31.0, 120.0])
    plate = replace(BOARD, loss=0.0)
    mobility = 2j * np.pi * hertz[:, None, None] * receptance(plate, [[0, 0]], [0.012], hertz)
    force, moment = mobility[:, 0, 0].real, mobility[:, 1, 1].real
    np.testing.assert_allclose(force, point_mobility(BENDING, MASS), rtol=2e-3)
    np.testing.assert_allclose(moment, 2 * np.pi * hertz / (16 * BENDING), rtol=2e-3)
    # local give: j(ω/4πB)·ln(1.776/ka), by even steps of force and moment over the disc
    wave = (MASS * (2 * np.pi * hertz) ** 2 / BENDING) ** 0.25
    local = 2 * np.pi * hertz / (4 * np.pi * BENDING) * np.log(1.7759 / (wave * 0.006))
    np.testing.assert_allclose(mobility[:, 1, 1].imag, local, rtol=2e-3)


def test_forces_reach_afar_as_the_published_field() -> None:
    # Y(r) = 1/(8√(Bm″))·[H0(kr) − j(2/π)K0(kr)], turns by its differences
    hertz, step = np.array([25.0, 180.0]), 1e-4
    wave = (MASS * (2 * np.pi * hertz) ** 2 / BENDING) ** 0.25

    def field(place: np.ndarray) -> np.ndarray:
        z = wave * np.hypot(*place)
        shape = special.hankel2(0, z) - 2j / np.pi * special.kv(0, z)
        return point_mobility(BENDING, MASS) * shape / (2j * np.pi * hertz)

    apart, thin = np.array([0.21, -0.13]), 1e-3
    found = receptance(replace(BOARD, loss=0.0), [apart, np.zeros(2)], [thin, thin], hertz)
    x, y = step * np.eye(2)
    turned = [field(apart + y) - field(apart - y), field(apart - x) - field(apart + x)]
    np.testing.assert_allclose(found[:, 0, 3], field(apart), rtol=1e-4)
    for row in (1, 2):
        np.testing.assert_allclose(found[:, row, 3], turned[row - 1] / (2 * step), rtol=1e-4)
        np.testing.assert_allclose(found[:, 0, 3 + row], -found[:, row, 3], rtol=1e-9)
    # moments on the other: second differences, M_x = −∂/∂y₀ of the source
    curved = (field(apart + y) - 2 * field(apart) + field(apart - y)) / step**2
    np.testing.assert_allclose(found[:, 1, 4], -curved, rtol=1e-3)
    mixed = (
        field(apart + x + y) - field(apart + x - y) - field(apart - x + y) + field(apart - x - y)
    )
    np.testing.assert_allclose(found[:, 1, 5], mixed / (4 * step**2), rtol=1e-3)


places = st.lists(
    st.tuples(st.floats(-0.6, 0.6), st.floats(-0.3, 0.3)), min_size=1, max_size=4
).filter(lambda spots: all(math.dist(a, b) > 0.05 for i, a in enumerate(spots) for b in spots[:i]))


@settings(max_examples=40, deadline=None)
@given(places, st.sampled_from([ON_EDGES, ON_LEGS, BOARD]), st.floats(2.0, 1500.0))
def test_reciprocal_and_never_a_source_of_power(spots: list, plate: Plate, hertz: float) -> None:
    found = receptance(plate, spots, np.full(len(spots), 0.03), [hertz])[0]
    np.testing.assert_allclose(found, found.T, rtol=1e-9, atol=1e-12 * np.abs(found).max())
    # turns scaled to deflections, so that one bound holds for both
    scale = np.tile([1.0, 0.01, 0.01], len(spots))
    power = -(found * scale * scale[:, None]).imag  # ½Re(FᴴYF) = ½ω·Fᴴ(−Im R)F
    least = np.linalg.eigvalsh(power)
    assert least[0] > -1e-9 * least[-1]


@pytest.mark.parametrize("plate", [ON_EDGES, ON_LEGS], ids=["edges", "legs"])
def test_nothing_steps_over_frequency(plate: Plate) -> None:
    # resonances are ηf wide: over a hundredth of that nothing moves by more than some percent
    start = fades_from(plate)
    grid = np.geomspace(3.0, 3.0 * start, int(np.log(start) / (0.01 * plate.loss)))
    found = receptance(plate, FEET, WIDTH, grid)
    scale = np.abs(found[:, range(12), range(12)])
    weight = np.sqrt(scale[:, :, None] * scale[:, None, :])
    step = np.abs(np.diff(found, axis=0)) / weight[1:]
    assert step.max() < 0.06


@pytest.mark.parametrize("plate", [ON_EDGES, ON_LEGS], ids=["edges", "legs"])
def test_an_octave_above_the_modes_it_is_endless(plate: Plate) -> None:
    hertz = 2.0 * fades_from(plate) * np.array([1.0, 1.7])
    far = receptance(BOARD, FEET, WIDTH, hertz)
    np.testing.assert_array_equal(receptance(plate, FEET, WIDTH, hertz), far)
    # where modes overlap they already swing about it
    low = receptance(plate, FEET, WIDTH, np.linspace(0.5, 0.99, 400) * hertz[0] / 2)
    mean = np.mean(-low[:, range(12), range(12)].imag, axis=0)
    about = np.mean(
        -receptance(BOARD, FEET, WIDTH, np.linspace(0.5, 0.99, 400) * hertz[0] / 2)[
            :, range(12), range(12)
        ].imag,
        axis=0,
    )
    assert 0.6 < np.exp(np.log(mean / about).mean()) < 1.6


def test_finer_polynomials_change_little(monkeypatch: pytest.MonkeyPatch) -> None:
    # what the polynomials leave out of a moment's local give is added: `rest`
    hertz = [5.0, 60.0, 150.0, 300.0]
    plain = receptance(ON_LEGS, FEET, WIDTH, hertz)
    monkeypatch.setattr(plate_modes, "DEGREES", 32)
    plate_modes.legged_modes.cache_clear()
    finer = receptance(ON_LEGS, FEET, WIDTH, hertz)
    plate_modes.legged_modes.cache_clear()
    scale = np.sqrt(np.abs(finer[:, range(12), range(12)]))
    off = np.abs(finer - plain) / (scale[:, :, None] * scale[:, None, :])
    assert off.max() < 0.1  # of moments from foot to foot; on the foot itself:
    assert off[:, range(12), range(12)].max() < 0.04


def test_a_large_plate_is_worked_out_by_fewer_modes(monkeypatch: pytest.MonkeyPatch) -> None:
    hertz = [5.0, 60.0, 150.0]
    plain = receptance(ON_EDGES, FEET, WIDTH, hertz)
    monkeypatch.setattr(plate_modes, "MOST", 800)
    fewer = receptance(ON_EDGES, FEET, WIDTH, hertz)
    scale = np.sqrt(np.abs(plain[:, range(12), range(12)]))
    off = np.abs(fewer - plain) / (scale[:, :, None] * scale[:, None, :])
    assert 1e-6 < off.max() < 0.06


def test_a_footprint_feels_a_wave_by_its_mean() -> None:
    width, wave = 0.04, np.array([31.0, -17.0])
    at, weights = footprint.points(width)
    force, moment = footprint.of_wave(np.hypot(*wave) * width / 2)
    found = weights @ np.exp(1j * at @ wave)
    expected = [force, 1j * wave[1] * moment, -1j * wave[0] * moment]
    np.testing.assert_allclose(found, expected, rtol=1e-4)


def test_a_hollow_board_is_its_skins() -> None:
    # two skins of 3 mm at 47 mm between their middles: E·2t·(d/2)² and their own t³
    skin = 3.8e9 * 2 * 0.003 * 0.0235**2 / (1 - 0.09) + 2 * bending_stiffness(3.8e9, 0.003, 0.3)
    assert bending_stiffness(3.8e9, 0.05, 0.3, 0.003) == pytest.approx(skin, rel=1e-12)
    assert mass_per_area(850.0, 0.05, 0.003, 30.0) == pytest.approx(6e-3 * 850 + 44e-3 * 30)
    assert mass_per_area(850.0, 0.05) == pytest.approx(42.5)
