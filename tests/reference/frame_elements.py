"""A box of slotted profiles by beam finite elements: Euler–Bernoulli, three-dimensional."""

from __future__ import annotations

from itertools import pairwise
from typing import NamedTuple

import numpy as np
from scipy.linalg import eigh
from scipy.spatial.transform import Rotation

Array = np.ndarray


class Section(NamedTuple):
    """Of a profile, the same both ways."""

    modulus: float  # [Pa]
    area: float  # [m²]
    second_moment: float  # [m⁴]
    torsion: float  # [m⁴]
    density: float  # [kg/m³]


# a slotted profile of 20 mm and one of 30 mm: usual figures, from memory
NARROW = Section(70e9, 1.6e-4, 0.7e-8, 0.12e-8, 2700.0)
WIDE = Section(70e9, 3.2e-4, 2.8e-8, 0.4e-8, 2700.0)


def beam(section: Section, length: float) -> tuple[Array, Array]:
    """Stiffness and consistent mass (12, 12) of a beam along its own x, by the book."""
    e, a, i, j, rho = section
    g, n = e / 2.66, length
    k, m = np.zeros((12, 12)), np.zeros((12, 12))
    for at, stiff, inert in ((0, e * a / n, rho * a * n), (3, g * j / n, rho * 2 * i * n)):
        pair = np.ix_([at, at + 6], [at, at + 6])
        k[pair] += stiff * np.array([[1, -1], [-1, 1]])
        m[pair] += inert / 6 * np.array([[2, 1], [1, 2]])
    bend = np.array(
        [
            [12, 6 * n, -12, 6 * n],
            [6 * n, 4 * n**2, -6 * n, 2 * n**2],
            [-12, -6 * n, 12, -6 * n],
            [6 * n, 2 * n**2, -6 * n, 4 * n**2],
        ]
    )
    moved = np.array(
        [
            [156, 22 * n, 54, -13 * n],
            [22 * n, 4 * n**2, 13 * n, -3 * n**2],
            [54, 13 * n, 156, -22 * n],
            [-13 * n, -3 * n**2, -22 * n, 4 * n**2],
        ]
    )
    for rows, sign in (((1, 5, 7, 11), 1.0), ((2, 4, 8, 10), -1.0)):
        flip = np.diag([1.0, sign, 1.0, sign])
        k[np.ix_(rows, rows)] += e * i / n**3 * flip @ bend @ flip
        m[np.ix_(rows, rows)] += rho * a * n / 420 * flip @ moved @ flip
    return k, m


class Mesh:
    """Nodes of six, beams and joints between them."""

    def __init__(self) -> None:
        self.places: list[Array] = []
        self.parts: list[tuple[list[int], Array, Array]] = []

    def node(self, place: Array) -> int:
        self.places.append(np.asarray(place, dtype=float))
        return len(self.places) - 1

    def member(self, section: Section, first: int, last: int, pieces: int) -> list[int]:
        """Put a row of beams between two nodes; return all its nodes."""
        start, stop = self.places[first], self.places[last]
        along = (stop - start) / np.linalg.norm(stop - start)
        turn = Rotation.align_vectors([along], [[1.0, 0.0, 0.0]])[0].as_matrix().T
        big = np.kron(np.eye(4), turn)
        nodes = [first]
        nodes += [self.node(start + (stop - start) * n / pieces) for n in range(1, pieces)]
        nodes.append(last)
        k, m = beam(section, float(np.linalg.norm(stop - start)) / pieces)
        for a, b in pairwise(nodes):
            self.parts.append(([a, b], big.T @ k @ big, big.T @ m @ big))
        return nodes

    def joint(self, first: int, second: int, stiffness: float) -> None:
        """Hold two nodes at one place together, stiff but for what turns about x and y."""
        each = np.diag([1e9, 1e9, 1e9, stiffness, stiffness, 1e7])
        k = np.block([[each, -each], [-each, each]])
        self.parts.append(([first, second], k, np.zeros((12, 12))))

    def weight(self, node: int, mass: float) -> None:
        own = np.zeros((6, 6))
        own[:3, :3] = mass * np.eye(3)
        self.parts.append(([node], np.zeros((6, 6)), own))

    def matrices(self) -> tuple[Array, Array]:
        """Stiffness and mass of all nodes."""
        size = 6 * len(self.places)
        k, m = np.zeros((size, size)), np.zeros((size, size))
        for nodes, stiff, inert in self.parts:
            rows = np.concatenate([np.arange(6 * n, 6 * n + 6) for n in nodes])
            k[np.ix_(rows, rows)] += stiff
            m[np.ix_(rows, rows)] += inert
        return k, m

    def rigid(self) -> Array:
        """Mass matrix (6, 6) of the whole as a rigid body about the origin."""
        _, m = self.matrices()
        carried = np.zeros((len(self.places), 6, 6))
        for row, (x, y, z) in enumerate(self.places):
            carried[row] = np.eye(6)
            carried[row, :3, 3:] = -np.array([[0, -z, y], [z, 0, -x], [-y, x, 0]])
        motion = carried.reshape(-1, 6)
        return motion.T @ m @ motion

    def modes(self, held: list[int], count: int) -> tuple[Array, Array]:
        """Frequencies [Hz] and shapes (nodes, 6, count); `held` nodes do not shift."""
        k, m = self.matrices()
        size = len(k)
        m += 1e-9 * np.eye(size)  # the second node of a joint has no turning mass of its own
        fixed = {6 * node + axis for node in held for axis in range(3)}
        free = [row for row in range(size) if row not in fixed]
        values, vectors = eigh(
            k[np.ix_(free, free)], m[np.ix_(free, free)], subset_by_index=[0, count - 1]
        )
        shapes = np.zeros((size, count))
        shapes[free] = vectors
        return np.sqrt(np.maximum(values, 0.0)) / (2 * np.pi), shapes.reshape(-1, 6, count)


class Box(NamedTuple):
    """First modes of a box with its bottom corners held."""

    along_x: float  # [Hz]
    along_y: float
    twist: float


CORNERS = ((-1, -1), (1, -1), (1, 1), (-1, 1))


def box_mesh(
    size: tuple[float, float, float], section: Section, joint: float, load: float
) -> tuple[Mesh, list[int], list[int]]:
    """A box of 12 profiles on `joint` [N·m/rad], `load` [kg] shared by its top corners.

    Posts stand on joints at both ends; beams meet stiffly in the corners. 8 elements a member.
    Returns the mesh with its bottom and top corners.
    """
    width, depth, height = size
    mesh = Mesh()
    rings = []
    for z in (0.0, height):
        ring = [mesh.node(np.array([x * width / 2, y * depth / 2, z])) for x, y in CORNERS]
        for a, b in zip(ring, ring[1:] + ring[:1], strict=True):
            mesh.member(section, a, b, 8)
        rings.append(ring)
    bottom, top = rings
    for low, high in zip(bottom, top, strict=True):
        foot, head = mesh.node(mesh.places[low]), mesh.node(mesh.places[high])
        mesh.member(section, foot, head, 8)
        mesh.joint(low, foot, joint)
        mesh.joint(high, head, joint)
        mesh.weight(high, load / 4)
    return mesh, bottom, top


def named(mesh: Mesh, top: list[int], held: list[int], first: int = 0) -> Box:
    """The modes, from number `first` on, in which the top moves most along x, y and about z."""
    frequencies, shapes = mesh.modes(held, first + 6)
    moved = np.abs(shapes[top].sum(axis=0)[:2])  # along x, y
    spun = np.abs(
        sum(x * shapes[n, 1] - y * shapes[n, 0] for n, (x, y) in zip(top, CORNERS, strict=True))
    )
    share = np.vstack([moved, spun])[:, first:]
    return Box(*(float(frequencies[first + int(np.argmax(row))]) for row in share))


def box_modes(size: tuple[float, float, float], section: Section, joint: float, load: float) -> Box:
    """Modes of such a box with its bottom corners held."""
    mesh, bottom, top = box_mesh(size, section, joint, load)
    return named(mesh, top, bottom)
