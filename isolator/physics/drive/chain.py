"""Belt drives on a frame, motors on dampers among them: rotors, belts and what they move.

Coordinates, in this order: the frame's six (with all that rides on it held), six for each motor on
a damper, the turn ψ of each rotor against its own motor about its shaft, and the travel of the
moving masses along x and y. All but the first six are motions against the frame. Everything is
symmetric: no force enters from outside. Time factor e^{+jωt}; stiffness may be complex.

A belt is two strands, alike, of half its stiffness k each: so far as the tool is as far along the
belt either way. One is stretched by e + δ, the other by δ − e. Here e = r·ψ − (cx·qx + cy·qy) of a
motor bolted on. On a damper, with φ its turn about its shaft and d the shift of the belt's middle
on it, e has r·φ − cos(w/2)·(a × p)·d besides, and δ = −sin(w/2)·p·d lengthens the whole loop: a the
shaft, p the way of the pull, w the wrap. So V = ½k·e² + ½k·δ². [derived] Elsewhere along its travel
the tool feels a motor's shift, which is not modelled; nor are the tension's own stiffness and
the motor's weight on its rubber. Shafts and brackets are rigid, so results above some 100 Hz are a
guide only.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from isolator.physics.arrays import Array, Complex, cross
from isolator.physics.bodies.rigid import carried

Numbers = NDArray[Any]


class Drive(NamedTuple):
    """One motor's drive."""

    axis: Array  # (3,) unit vector of the shaft
    rotor_inertia: float  # with pulley [kg·m²]
    magnetic_stiffness: complex  # rotor to its field, with its loss [N·m/rad]
    pulley_radius: float  # [m]
    belt_stiffness: complex  # [N/m]
    pulls: Array  # (2,) travel of the belt for travel of the masses along x, y [-]


class Carriage(NamedTuple):
    """The moving masses."""

    masses: Array  # (2,) along x, y [kg]
    points: Array  # (2, 3) where they push the frame [m]


class Mounted(NamedTuple):
    """A motor on a damper."""

    drive: int  # which of the drives is its
    com: Array  # (3,) of the whole motor [m]
    mass: Array  # (6, 6) about that centre, the rotor held
    stiffness: Numbers  # (..., 6, 6) of its rubber under motion of that centre
    belt: Array  # (3,) the belt's middle on the shaft, seen from that centre [m]
    pull: Array  # (3,) unit vector of the belts' pull, across the shaft
    wrap: float  # of the belt round its pulley [rad]


def augment(
    mass: ArrayLike,
    com: ArrayLike,
    drives: Sequence[Drive],
    carriage: Carriage,
    mounted: Sequence[Mounted] = (),
) -> tuple[Complex, Array]:
    """Return stiffness (..., N, N) and mass (N, N) of a frame with its drives, on nothing.

    `mass` (6, 6) about `com` (3,) [m] of the frame and all that rides on it, held: motors, rotors
    and moving masses too. N = 6 + 6b + n + 2 for b motors in `mounted` and n drives.
    """
    rotors = 6 + 6 * len(mounted)
    size = rotors + len(drives) + 2
    lead = np.broadcast_shapes(*(np.shape(each.stiffness)[:-2] for each in mounted))
    belts = np.zeros((size, size), dtype=complex)  # the same at every frequency
    inertia = np.zeros((size, size))
    inertia[:6, :6] = mass
    places = [slice(6 + 6 * number, 12 + 6 * number) for number in range(len(mounted))]
    for own, motor in zip(places, mounted, strict=True):
        _carry(inertia, own, motor.mass, carried(np.asarray(motor.com) - np.asarray(com)))
    for index, drive in enumerate(drives):
        rotor = rotors + index
        stretch, loop, turned = np.zeros((3, size))
        stretch[rotor], stretch[-2:] = drive.pulley_radius, -drive.pulls
        turned[3:6], turned[rotor] = drive.axis, 1.0
        for own, motor in zip(places, mounted, strict=True):
            if motor.drive == index:
                stretch[own], loop[own] = _stretched(drive, motor)
                turned[own.start + 3 : own.stop] = drive.axis
        belts[rotor, rotor] += drive.magnetic_stiffness
        belts += drive.belt_stiffness * (np.outer(stretch, stretch) + np.outer(loop, loop))
        inertia[rotor] = inertia[:, rotor] = drive.rotor_inertia * turned
    stiffness = np.empty((*lead, size, size), dtype=complex)
    stiffness[...] = belts
    for own, motor in zip(places, mounted, strict=True):
        stiffness[..., own, own] += motor.stiffness
    for along, (moved, point) in enumerate(zip(carriage.masses, carriage.points, strict=True)):
        travel = slice(size - 2 + along, size - 1 + along)
        _carry(
            inertia,
            travel,
            moved * np.eye(1),
            carried(np.asarray(point) - np.asarray(com))[along : along + 1],
        )
    return stiffness, inertia


def _carry(inertia: Array, own: slice, mass: Array, motion: Array) -> None:
    """Put in a mass that moves by its `own` coordinates against the frame, and by its `motion`."""
    inertia[own, own] = mass
    inertia[own, :6] = mass @ motion
    inertia[:6, own] = inertia[own, :6].T


def _stretched(drive: Drive, motor: Mounted) -> tuple[Array, Array]:
    """Return what a motor's six do to its belt: rows (6,) of e and of δ."""
    side, half = cross(drive.axis, motor.pull), motor.wrap / 2.0

    def shift(along: Array) -> Array:
        return np.concatenate([along, cross(motor.belt, along)])

    turned = np.concatenate([np.zeros(3), drive.pulley_radius * drive.axis])
    return turned - np.cos(half) * shift(side), -np.sin(half) * shift(motor.pull)


class Turning(NamedTuple):
    """What a motor that is free to turn about its shaft does to a twist spring under it."""

    held: Complex  # (..., f) torque that it passes into a frame when it is bolted on [N·m]
    resists: Complex  # (..., f) its dynamic stiffness about the shaft, on nothing [N·m/rad]


def turning(
    drives: Sequence[Drive], masses: ArrayLike, index: int, inertia: float, omega: ArrayLike
) -> Turning:
    """Return how motor `index` turns on a frame that stands still, under 1 N·m at its rotor.

    On a twist stiffness K it passes held·K/(K + resists) into the frame. Its body is free to turn
    about its shaft alone, the other motors are bolted. `inertia` [kg·m²] is the body's about the
    shaft, rotor locked; `masses` (2,) [kg] move along x, y; `omega` (f,). On a damper of which the
    shaft is an axis of symmetry, under a belt that wraps half a turn, the twist is a motion of its
    own, so within these bounds this is exact.
    """
    found = turnings([drives], masses, index, inertia, omega)
    return Turning(found.held[0], found.resists[0])


def turnings(
    samples: Sequence[Sequence[Drive]],
    masses: ArrayLike,
    index: int,
    inertia: float,
    omega: ArrayLike,
) -> Turning:
    """Return the same (n, f) for n samples of the drives, which differ in their stiffness alone."""
    w2 = np.square(np.asarray(omega, dtype=float))
    drives = samples[0]
    count, free = len(drives), len(drives) + 2
    held = np.zeros((len(samples), free, free), dtype=complex)
    inert = np.zeros((free, free))
    belts = np.array([[each.belt_stiffness for each in sample] for sample in samples])
    fields = np.array([[each.magnetic_stiffness for each in sample] for sample in samples])
    stretches = np.zeros((count, free))
    for row, drive in enumerate(drives):
        stretches[row, row], stretches[row, count:] = drive.pulley_radius, -drive.pulls
        held += belts[:, row, None, None] * np.outer(stretches[row], stretches[row])
        held[:, row, row] += fields[:, row]
        inert[row, row] = drive.rotor_inertia
    inert[range(count, free), range(count, free)] = np.asarray(masses)
    own, stiff = drives[index], belts[:, index, None]
    belt = stiff * own.pulley_radius * stretches[index]
    # body's row against the rest: the belt's torque and the rotor's inertia
    coupling = belt[:, None] - w2[:, None] * (own.rotor_inertia * np.eye(free)[index])
    rest = held[:, None] - w2[:, None, None] * inert
    push = np.eye(free)[index]
    both = np.stack(np.broadcast_arrays(push, coupling), axis=-1)
    solved = np.linalg.solve(rest, both)  # (n, f, free, 2): under the ripple, under the coupling
    by_ripple, by_coupling = (
        np.einsum("nfi,nfi->nf", coupling, solved[..., column]) for column in (0, 1)
    )
    body = stiff * own.pulley_radius**2 - w2 * inertia
    return Turning(np.asarray(-by_ripple), np.asarray(body - by_coupling))
