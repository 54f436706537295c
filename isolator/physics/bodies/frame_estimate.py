"""How stiffly a box of posts and beams, with or without panels, holds its top: an estimate.

Four posts, a ring of beams above and one below, joints that give way, panels that are sheared.
"""

from __future__ import annotations

from typing import NamedTuple

POSTS = 4
SIDES = 2  # panels that a sway shears
E_ALUMINIUM = 70e9
"""[Pa]; handbook value, from memory."""


class Profile(NamedTuple):
    """A slotted aluminium profile."""

    side: float  # [m]
    second_moment: float  # [m⁴]
    joint: float  # stiffness of a corner joint against turning [N·m/rad]


PROFILES = (
    (0.55, Profile(0.020, 0.7e-8, 3e3)),
    (float("inf"), Profile(0.030, 2.8e-8, 1e4)),
)
"""Profiles by the longest side of a printer that is made of them [m]. Second moments are usual
figures, from memory; joints (bracket and screw at the end of a profile) are estimated, the larger
by the cube of its side."""


def profile_of(longest: float) -> Profile:
    """Return the profile of which a printer of such a `longest` side [m] is usually made."""
    return next(profile for most, profile in PROFILES if longest < most)


def sway_stiffness(
    span: float, height: float, profile: Profile, shear: float, modulus: float = E_ALUMINIUM
) -> float:
    """Return the stiffness [N/m] of a box's top against its bottom along one of its sides.

    `span` of that side and `height` [m]; `shear` [N/m] is shear modulus times thickness of each of
    the two panels that stand along it, as they act through their fixings; 0 for none.
    Each post bends as an S, k = 12EI/h³, less what its ends turn: beam (6EI/L, bent as an S) and
    joint in series hold them. With ρ their stiffness over 6EI/h, what is left is ρ/(1 + ρ).
    Slope-deflection of a frame that sways, any book on structures (from memory); a panel in shear
    G·t·L/h.
    """
    bending = modulus * profile.second_moment
    held = 1.0 / (span / (6.0 * bending) + 1.0 / profile.joint)
    ratio = held / (6.0 * bending / height)
    posts = POSTS * 12.0 * bending / height**3 * ratio / (1.0 + ratio)
    return posts + SIDES * shear * span / height


def box_stiffness(size: tuple[float, float, float], shear: float) -> tuple[float, float, float]:
    """Return the stiffness of a box's top along x and y [N/m] and in twist [N·m/rad].

    `size` width, depth, height [m]; `shear` as `sway_stiffness`. Posts and panels stand at the
    outside, so twist is k_x·(D/2)² + k_y·(W/2)².
    """
    width, depth, height = size
    profile = profile_of(max(size))
    along_x = sway_stiffness(width, height, profile, shear)
    along_y = sway_stiffness(depth, height, profile, shear)
    return along_x, along_y, (along_x * depth**2 + along_y * width**2) / 4.0
