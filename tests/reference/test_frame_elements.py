"""The estimate of a frame's racking against a box of slotted profiles by beam finite elements."""

from __future__ import annotations

import numpy as np
import pytest
from frame_elements import NARROW, WIDE, Box, Section, box_mesh, box_modes, named

from isolator.brief.frame import KINDS
from isolator.physics.bodies.frame import Top, bend, held_stiffness, racking
from isolator.physics.bodies.frame_estimate import (
    Profile,
    box_stiffness,
    profile_of,
    sway_stiffness,
)
from isolator.physics.bodies.rigid import modes

SMALL, MIDDLE, LARGE = (0.35, 0.32, 0.38), (0.44, 0.40, 0.50), (0.62, 0.56, 0.66)
STIFF, SOFT = 1e6, 0.3  # [N·m/rad]; as a share of the usual joint's


def own_mass(size: tuple[float, float, float], section: Section) -> tuple[float, float]:
    """Mass [kg] of the upper ring and of the four posts."""
    line = section.area * section.density
    return line * 2 * (size[0] + size[1]), line * 4 * size[2]


@pytest.mark.parametrize("size", [SMALL, MIDDLE])
@pytest.mark.parametrize("joint", [STIFF, 5e3, 900.0])
def test_sway_of_a_box_follows_the_formula(size: tuple[float, float, float], joint: float) -> None:
    ring, posts = own_mass(size, NARROW)
    load = 4.0
    found = box_modes(size, NARROW, joint, load)
    # a post that bends as an S counts with 13/35 of its mass at its head
    mass = load + ring + 13 / 35 * posts
    profile = Profile(0.02, NARROW.second_moment, joint)
    for span, frequency in ((size[0], found.along_x), (size[1], found.along_y)):
        k = sway_stiffness(span, size[2], profile, 0.0)
        # posts' and beams' shapes and axial give are not in the formula
        assert np.sqrt(k / mass) / (2 * np.pi) == pytest.approx(frequency, rel=0.01)


def estimated(size: tuple[float, float, float], section: Section, load: float) -> Box:
    """What the estimate says of a top that holds its load, its ring and half of its posts."""
    ring, posts = own_mass(size, section)
    across = size[0] ** 2 + size[1] ** 2
    mass = load + ring + posts / 2
    spin = across * ((load + posts / 2) / 4 + ring / 6)
    stiff = box_stiffness(size, KINDS["open"].shear)
    held = [k / m for k, m in zip(stiff, (mass, mass, spin), strict=True)]
    return Box(*(np.sqrt(held) / (2 * np.pi)))


@pytest.mark.parametrize(
    ("size", "section", "load"), [(SMALL, NARROW, 2.5), (MIDDLE, NARROW, 5.0), (LARGE, WIDE, 9.0)]
)
def test_the_estimate_brackets_a_box_of_profiles(
    size: tuple[float, float, float], section: Section, load: float
) -> None:
    usual, spread = profile_of(max(size)), KINDS["open"].spread
    assert usual.second_moment == section.second_moment
    guess = estimated(size, section, load)
    found = [box_modes(size, section, joint, load) for joint in (STIFF, SOFT * usual.joint)]
    for stiff, soft, middle in zip(*found, guess, strict=True):
        assert middle / spread < soft < middle < stiff < spread * middle
        # the band is not so wide that it says nothing: joints alone use two fifths of it
        assert np.log(stiff / soft) > 0.4 * 2 * np.log(spread)


@pytest.mark.parametrize(
    ("size", "joint", "load", "base"),
    [(MIDDLE, 5e3, 4.5, 6.0), (MIDDLE, 900.0, 4.5, 6.0), (SMALL, STIFF, 2.5, 4.0)],
)
def test_two_bodies_float_as_the_box_does(
    size: tuple[float, float, float], joint: float, load: float, base: float
) -> None:
    """Tapped with its bottom held, let go: what was a racking at 18 Hz rings at 37 Hz."""
    mesh, bottom, top = box_mesh(size, NARROW, joint, load)
    plate = Section(100 * NARROW.modulus, *NARROW[1:4], 1.0)
    for first, last in ((0, 1), (1, 2), (2, 3), (3, 0), (0, 2), (1, 3)):
        mesh.member(plate, bottom[first], bottom[last], 1)
    for node in bottom:
        mesh.weight(node, base / 4)
    held, free = named(mesh, top, bottom), named(mesh, top, [], first=6)
    # the top: load and ring, and what a post that bends as an S counts for at its head
    width, depth, height = size
    ring, posts = own_mass(size, NARROW)
    corners = load + 13 / 35 * posts
    along = ring * width / (width + depth), ring * depth / (width + depth)
    about_x = (corners / 4 + along[0] / 4 + along[1] / 12) * depth**2
    about_y = (corners / 4 + along[1] / 4 + along[0] / 12) * width**2
    upper = Top(
        corners + ring,
        np.array([0.0, 0.0, height]),
        np.diag([about_x, about_y, about_x + about_y]),
    )
    frame = racking(upper, np.zeros(3), held_stiffness(upper, np.array(held)))
    found = modes(*bend(np.zeros((6, 6)), mesh.rigid(), frame, []))[0]
    assert found[5] < 0.1  # six motions of the whole
    np.testing.assert_allclose(found[6:], sorted(free), rtol=0.02)
    assert min(free) > 1.3 * max(held)
