"""Finite elements of a pad bonded between two rigid plates: small strain, mixed Q2/Q1.

The plates stay parallel to each other but for the motion asked for, so half the height and, for
outlines that are not round, a quarter of the plan is enough. Round pads are solved in (r, z) with
one Fourier term round the axis. Elements narrow towards free edges, where the bond has its
singular corner. Units are free; E is Young's modulus.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from scipy.sparse import bmat
from scipy.sparse.linalg import splu
from skfem import (
    Basis,
    BilinearForm,
    ElementHex1,
    ElementHex2,
    ElementQuad1,
    ElementQuad2,
    ElementVector,
    MeshHex,
    MeshHex2,
    MeshQuad,
)
from skfem.helpers import ddot, div, sym_grad

MOTIONS = ("compression", "shear-x", "shear-y", "tilt-x", "tilt-y", "twist")


def graded(length: float, ends: str, smallest: float, growth: float, largest: float) -> np.ndarray:
    """Return nodes from 0 to `length`, elements growing away from the `ends` named: "<", ">"."""
    if ends == "<>":
        half = graded(length / 2.0, "<", smallest, growth, largest)
        return np.concatenate([half, length - half[-2::-1]])
    sizes = [smallest]
    while sum(sizes) < length:
        sizes.append(min(sizes[-1] * growth, largest))
    nodes = np.concatenate([[0.0], np.cumsum(sizes)])
    nodes *= length / nodes[-1]
    return nodes if ends == "<" else length - nodes[::-1]


def solve(basis_u, basis_p, stiff, coupling, volume, fixed, values):
    """Return twice the energy of the mixed problem with displacements given at dofs `fixed`."""
    n_u = basis_u.N
    whole = bmat([[stiff, coupling.T], [coupling, -volume]], format="csc")
    x = np.zeros(whole.shape[0])
    x[fixed] = values
    free = np.setdiff1d(np.arange(whole.shape[0]), fixed)
    load = -(whole @ x)[free]
    inner = whole[free][:, free].tocsc()
    pivoting = {"SymmetricMode": True, "DiagPivotThresh": 0.001}
    x[free] = splu(inner, permc_spec="MMD_AT_PLUS_A", options=pivoting).solve(load)
    return float(x[:n_u] @ (whole @ x)[:n_u])


def lame(youngs: float, poisson: float) -> tuple[float, float]:
    """Return G and 1/λ."""
    return youngs / (2 * (1 + poisson)), (1 + poisson) * (1 - 2 * poisson) / (
        youngs * max(poisson, 1e-9)
    )


def round_pad(
    outer: float,
    inner: float,
    thickness: float,
    motion: str,
    *,
    youngs: float = 1.0,
    poisson: float = 0.5,
    fineness: float = 1.0,
) -> float:
    """Return the stiffness of a disc or ring of the diameters `outer`, `inner`."""
    r_i, r_o, h = inner / 2.0, outer / 2.0, thickness / 2.0
    smallest = 0.04 * min(h, r_o - r_i) / fineness
    largest = min(h, (r_o - r_i) / 6.0) / fineness
    along = r_i + graded(r_o - r_i, "<>" if inner else ">", smallest, 1.6, largest)
    up = graded(h, ">", smallest, 1.6, min(h / 3.0, r_o - r_i) / fineness)
    mesh = MeshQuad.init_tensor(along, up)
    basis_u = Basis(mesh, ElementVector(ElementQuad2(), 3), intorder=5)
    basis_p = basis_u.with_element(ElementQuad1())
    g, compliance = lame(youngs, poisson)
    m = 0 if motion in ("compression", "twist") else 1

    def strains(u, w):
        r = w.x[0]
        return (
            u.grad[0, 0],
            (u[0] + m * u[1]) / r,
            u.grad[2, 1],
            -m * u[0] / r + u.grad[1, 0] - u[1] / r,
            u.grad[1, 1] - m * u[2] / r,
            u.grad[0, 1] + u.grad[2, 0],
        )

    @BilinearForm
    def shear(u, v, w):
        a, b = strains(u, w), strains(v, w)
        direct = 2.0 * (a[0] * b[0] + a[1] * b[1] + a[2] * b[2])
        return g * w.x[0] * (direct + a[3] * b[3] + a[4] * b[4] + a[5] * b[5])

    @BilinearForm
    def dilation(u, q, w):
        return w.x[0] * q * sum(strains(u, w)[:3])

    @BilinearForm
    def pressure(p, q, w):
        return compliance * w.x[0] * p * q

    base = mesh.facets_satisfying(lambda x: np.isclose(x[1], 0.0))
    top = mesh.facets_satisfying(lambda x: np.isclose(x[1], h))
    axis = mesh.facets_satisfying(lambda x: np.isclose(x[0], 0.0))
    plate = basis_u.get_dofs(top)
    given = np.zeros(basis_u.N)
    part = {i: plate.all([f"u^{i}"]) for i in (1, 2, 3)}
    radius = basis_u.doflocs[0]
    if motion == "compression":
        given[part[3]] = -0.5
        off = [basis_u.get_dofs(base).all(["u^3"]), np.arange(1, basis_u.N, 3)[:0]]
        off += [basis_u.get_dofs(elements=True).all(["u^2"]), _axis(basis_u, axis, ["u^1"])]
    elif motion == "twist":
        given[part[2]] = 0.5 * radius[part[2]]
        off = [basis_u.get_dofs(elements=True).all(["u^1", "u^3"])]
        off += [basis_u.get_dofs(base).all(["u^2"]), _axis(basis_u, axis, ["u^2"])]
    elif motion.startswith("shear"):
        given[part[1]], given[part[2]] = 0.5, -0.5
        off = [basis_u.get_dofs(base).all(["u^1", "u^2"]), _axis(basis_u, axis, ["u^3"])]
    else:
        given[part[3]] = 0.5 * radius[part[3]]
        off = [basis_u.get_dofs(base).all(["u^3"]), _axis(basis_u, axis, ["u^3"])]
    fixed = np.unique(np.concatenate([plate.all(), *off]))
    if motion == "twist":  # no volume change: the pressure plays no part
        fixed = np.union1d(fixed, basis_u.N + np.arange(basis_p.N))
        given = np.concatenate([given, np.zeros(basis_p.N)])
    energy = solve(
        basis_u,
        basis_p,
        shear.assemble(basis_u),
        dilation.assemble(basis_u, basis_p),
        pressure.assemble(basis_p),
        fixed,
        given[fixed],
    )
    # half the height holds half the energy; cos² or sin² round the axis integrates to π
    return 2.0 * energy * (2.0 * np.pi if m == 0 else np.pi)


def _axis(basis, facets, names):
    return basis.get_dofs(facets).all(names) if len(facets) else np.array([], dtype=int)


_OFF = {  # displacement components that vanish on the planes x = 0, y = 0 and mid-height
    "compression": ("u^1", "u^2", "u^3"),
    "shear-x": ("u^2 u^3", "u^2", "u^1 u^2"),
    "shear-y": ("u^1", "u^1 u^3", "u^1 u^2"),
    "tilt-y": ("u^2 u^3", "u^2", "u^3"),
    "tilt-x": ("u^1", "u^1 u^3", "u^3"),
    "twist": ("u^2 u^3", "u^1 u^3", "u^1 u^2"),
}


def _given(motion: str, x: np.ndarray) -> tuple[float | np.ndarray, ...]:
    zero = 0.0 * x[0]
    return {
        "compression": (zero, zero, zero - 0.5),
        "shear-x": (zero + 0.5, zero, zero),
        "shear-y": (zero, zero + 0.5, zero),
        "tilt-y": (zero, zero, -0.5 * x[0]),
        "tilt-x": (zero, zero, 0.5 * x[1]),
        "twist": (-0.5 * x[1], 0.5 * x[0], zero),
    }[motion]


def block_pad(
    shape: str,
    first: float,
    second: float,
    thickness: float,
    motions: tuple[str, ...],
    *,
    youngs: float = 1.0,
    poisson: float = 0.5,
    fineness: float = 1.0,
) -> dict[str, float]:
    """Return stiffnesses of a rectangle (x side, y side) or square with hole (side, hole)."""
    mesh, planes = _block_mesh(shape, first, second, thickness, fineness)
    basis_u = Basis(mesh, ElementVector(ElementHex2()), intorder=4)
    basis_p = basis_u.with_element(ElementHex1())
    g, compliance = lame(youngs, poisson)
    stiff = BilinearForm(lambda u, v, w: 2.0 * g * ddot(sym_grad(u), sym_grad(v))).assemble(basis_u)
    coupling = BilinearForm(lambda u, q, w: q * div(u)).assemble(basis_u, basis_p)
    volume = BilinearForm(lambda p, q, w: compliance * p * q).assemble(basis_p)
    plate = basis_u.get_dofs(planes["top"])
    results = {}
    for motion in motions:
        given = np.zeros(basis_u.N)
        for i, value in enumerate(_given(motion, basis_u.doflocs)):
            dofs = plate.all([f"u^{i + 1}"])
            given[dofs] = value[dofs]
        off = [
            basis_u.get_dofs(planes[name]).all(names.split())
            for name, names in zip(("x", "y", "z"), _OFF[motion], strict=True)
        ]
        fixed = np.unique(np.concatenate([plate.all(), *off]))
        energy = solve(basis_u, basis_p, stiff, coupling, volume, fixed, given[fixed])
        results[motion] = 8.0 * energy
    return results


def _block_mesh(shape, first, second, thickness, fineness):
    h = thickness / 2.0
    if shape == "rectangle":
        half = (first / 2.0, second / 2.0)
        least = min(*half, h)
        axes = [
            graded(s, ">", 0.15 * least / fineness, 2.0, max(s / 5.0, h * 0.0) / fineness)
            for s in half
        ]
        up = graded(h, ">", 0.15 * least / fineness, 2.0, h / 2.0 / fineness)
        mesh = MeshHex.init_tensor(*axes, up)
        return mesh, {
            "x": mesh.facets_satisfying(lambda x: np.isclose(x[0], 0.0)),
            "y": mesh.facets_satisfying(lambda x: np.isclose(x[1], 0.0)),
            "z": mesh.facets_satisfying(lambda x: np.isclose(x[2], 0.0)),
            "top": mesh.facets_satisfying(lambda x: np.isclose(x[2], h)),
        }
    wall = (first - second) / 2.0
    least = min(wall, h)
    outward = graded(1.0, "<>", 0.15 * least / wall / fineness, 2.0, 0.25 / fineness)
    quarter = np.pi / 4.0
    turn = np.linspace(0.0, quarter, 1 + round(3 * fineness))
    turn = np.concatenate([turn, quarter + turn[1:]])
    up = graded(h, ">", 0.15 * least / fineness, 2.0, h / 2.0 / fineness)
    plain = MeshHex.init_tensor(outward, turn, up)
    planes = {
        "y": plain.facets_satisfying(lambda x: np.isclose(x[1], 0.0)),
        "x": plain.facets_satisfying(lambda x: np.isclose(x[1], 2.0 * quarter)),
        "z": plain.facets_satisfying(lambda x: np.isclose(x[2], 0.0)),
        "top": plain.facets_satisfying(lambda x: np.isclose(x[2], h)),
    }
    curved = MeshHex2.from_mesh(plain)
    s, turn, z = curved.doflocs
    direction = np.array([np.cos(turn), np.sin(turn)])
    edge = first / 2.0 * direction / np.max(np.abs(direction), axis=0)
    x, y = (1.0 - s) * second / 2.0 * direction + s * edge
    return replace(curved, doflocs=np.array([x, y, z])), planes
