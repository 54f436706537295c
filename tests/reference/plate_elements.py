"""A thin plate by finite elements: Argyris triangles (quintic, smooth), finer under the feet.

In metres and newtons. Forces and moments press on discs, evenly and straight across, sampled on
rings of points; the answer is the deflection and the turns weighted alike. No modes: one
solve a frequency.
"""

from collections.abc import Mapping
from itertools import pairwise
from typing import NamedTuple

import numpy as np
from skfem import Basis, BilinearForm, ElementTriArgyris, MeshTri
from skfem.helpers import dd, ddot, eye, trace

RINGS = 12


class Matrices(NamedTuple):
    """Stiffness and mass on the free unknowns, and what the contacts feel of them."""

    stiffness: object  # sparse (N, N), no loss
    mass: object
    felt: np.ndarray  # (3s, N): w, ∂w/∂y, −∂w/∂x of each contact


def _mesh(size: tuple[float, float], places: np.ndarray, largest: float) -> MeshTri:
    """Triangles over the plate about its middle, its crosswise lines through all `places`."""
    lines = []
    for axis, side in enumerate(size):
        marks = np.unique(np.round([-side / 2, side / 2, *places[:, axis]], 9))
        parts = [
            np.linspace(a, b, max(2, int(np.ceil((b - a) / largest)) + 1))
            for a, b in pairwise(marks)
        ]
        lines.append(np.unique(np.round(np.concatenate(parts), 9)))
    return MeshTri.init_tensor(*lines)


def _near(mesh: MeshTri, contacts: np.ndarray, reach: float) -> np.ndarray:
    middles = mesh.p[:, mesh.t].mean(axis=1).T
    apart = np.linalg.norm(middles[:, None] - contacts[None], axis=-1)
    return np.flatnonzero(apart.min(axis=1) < reach)


def _disc(width: float) -> tuple[np.ndarray, np.ndarray]:
    """Points (q, 2) evenly over a disc, in rings, and weights (3, q) of w, θx, θy."""
    radius = width / 2 * np.sqrt((np.arange(RINGS) + 0.5) / RINGS)
    turn = 2 * np.pi * np.arange(16) / 16
    at = np.stack([np.outer(radius, np.cos(turn)), np.outer(radius, np.sin(turn))], axis=-1)
    at = at.reshape(-1, 2)
    lever = at / (at**2).sum(axis=0)
    return at, np.stack([np.full(len(at), 1 / len(at)), lever[:, 1], -lever[:, 0]])


def plate_matrices(
    size: tuple[float, float],
    board: Mapping[str, float],
    contacts: np.ndarray,
    widths: np.ndarray,
    legs: np.ndarray | None,
    largest: float = 0.1,
) -> Matrices:
    """Matrices of a plate held at `legs` (l, 2), upright alone, or on all its edges.

    `board` has its bending, mass_per_area and poisson.
    """
    mesh = _mesh(size, contacts if legs is None else np.concatenate([contacts, legs]), largest)
    for reach in (0.06, 0.03):
        mesh = mesh.refined(_near(mesh, contacts, reach))
    basis = Basis(mesh, ElementTriArgyris(), intorder=10)

    bending, poisson = board["bending"], board["poisson"]

    @BilinearForm
    def bent(u, v, _):
        strain, other = dd(u), dd(v)
        moment = (1 - poisson) * strain + poisson * eye(trace(strain), 2)
        return bending * ddot(moment, other)

    @BilinearForm
    def heavy(u, v, _):
        return board["mass_per_area"] * u * v

    rows = []
    for place, width in zip(contacts, widths, strict=True):
        at, weights = _disc(width)
        rows.append(weights @ basis.probes((place + at).T))
    if legs is None:
        held = _edges(basis, size)
    else:
        nodes = [int(np.argmin(np.linalg.norm(mesh.p.T - leg, axis=1))) for leg in legs]
        held = basis.nodal_dofs[0, nodes]
    free = np.setdiff1d(np.arange(basis.N), held)
    return Matrices(
        stiffness=bent.assemble(basis)[free][:, free],
        mass=heavy.assemble(basis)[free][:, free],
        felt=np.concatenate(rows)[:, free],
    )


def _edges(basis: Basis, size: tuple[float, float]) -> np.ndarray:
    """Unknowns that must vanish where w = 0 along an edge: w, its slope and curve along it."""
    x, y = basis.mesh.p
    nodal, held = basis.nodal_dofs, []
    names = ["u", "u_x", "u_y", "u_xx", "u_xy", "u_yy"]
    for at, side, along in ((x, size[0], "y"), (y, size[1], "x")):
        nodes = np.flatnonzero(np.abs(np.abs(at) - side / 2) < 1e-9)
        for name in ("u", f"u_{along}", f"u_{along}{along}"):
            held.append(nodal[names.index(name), nodes])
    return np.unique(np.concatenate(held))
