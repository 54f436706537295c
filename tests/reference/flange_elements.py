"""Finite elements of a foot's flange under its frame: quadratic bricks, contact by penalty.

Half of a foot with two ears in line along x, in millimetres and newtons. The frame above and the
screw heads below are stiff and only press; the body is `body` times as stiff as the flange. The
foot is loaded on its lower face by a press `load`, a `pull` and a tipping `moment` about y.
"""

from __future__ import annotations

from itertools import pairwise
from typing import NamedTuple

import numpy as np
from skfem import (
    Basis,
    BilinearForm,
    ElementHexS2,
    ElementVector,
    FacetBasis,
    LinearForm,
    MeshHex,
    condense,
    solve,
)
from skfem.helpers import ddot, div, sym_grad


class Flange(NamedTuple):
    """Sizes of the foot [mm]: body, cap, head, distance of the head from the body, solid round."""

    wide: float
    deep: float
    cap: float
    head: float
    gap: float
    margin: float

    @property
    def reach(self) -> float:
        return self.wide / 2 + self.gap + self.head / 2


class Found(NamedTuple):
    """Tension of the left and right screw [N], the ears' moments at the body [N·mm], what the left
    ear's root leaves the frame by [mm], all that the frame presses [N]."""

    tension: tuple[float, float]
    root: tuple[float, float]
    opened: float
    pressed: float


def _lines(points: list[float], largest: float) -> np.ndarray:
    parts = [
        np.linspace(a, b, max(2, int(np.ceil((b - a) / largest)) + 1)) for a, b in pairwise(points)
    ]
    return np.unique(np.round(np.concatenate(parts), 9))


def _mesh(own: Flange, under: float, largest: float) -> MeshHex:
    end, strip = own.reach + own.head / 2 + own.margin, own.head / 2 + own.margin
    right = [own.wide / 2, own.reach - own.head / 2, own.reach + own.head / 2, end]
    xs = _lines([-x for x in reversed(right)] + right, largest)
    ys = _lines([0.0, own.head / 2, strip, own.deep / 2], largest)
    zs = np.array([-under, -own.cap, -own.cap / 2, 0.0])
    mesh = MeshHex.init_tensor(xs, ys, zs)
    x, y, z = mesh.p[:, mesh.t].mean(axis=1)
    body = np.abs(x) < own.wide / 2
    return mesh.remove_elements(np.flatnonzero(~(body | (y < strip) & (z > -own.cap))))


def _stiffness(basis: Basis, own: Flange, youngs: float, body: float):
    x = basis.mesh.p[0, basis.mesh.t].mean(axis=0)
    nu = 0.38
    each = np.where(np.abs(x) < own.wide / 2, body * youngs, youngs)
    wide = each[:, None] * np.ones((1, basis.X.shape[1]))
    lame, shear = wide * nu / (1 + nu) / (1 - 2 * nu), wide / (2 * (1 + nu))
    form = BilinearForm(
        lambda u, v, p: p.lame * div(u) * div(v) + 2 * p.shear * ddot(sym_grad(u), sym_grad(v))
    )
    return form.assemble(basis, lame=lame, shear=shear)


def _settled(stiff, push, middle, touch, hard: float):
    """Return displacements, depths in contact and forces [N] of both halves, by trial."""
    held = BilinearForm(lambda u, v, p: hard * p.on * u[2] * v[2])
    on = [np.ones_like(each.dx) for each, _ in touch]
    last = np.zeros(3)
    for _ in range(40):
        pressed = sum(
            held.assemble(each, on=where) for (each, _), where in zip(touch, on, strict=True)
        )
        u = solve(*condense(stiff + pressed, push, D=middle))
        depth = [np.maximum(sign * each.interpolate(u)[2], 0.0) for each, sign in touch]
        on = [(each > 0).astype(float) for each in depth]
        now = np.array(
            [
                2 * hard * float((d * each.dx).sum())
                for d, (each, _) in zip(depth, touch, strict=True)
            ]
        )
        if np.abs(now - last).max() < 2e-3 * now.max():
            return u, depth, now
        last = now
    raise RuntimeError("contact does not settle")


def flange(
    own: Flange,
    load: float,
    pull: float,
    moment: float,
    *,
    youngs: float,
    body: float,
    largest: float = 4.0,
) -> Found:
    """Return what screws and ears feel; Young's moduli [MPa]."""
    under = own.cap + 6.0
    mesh = _mesh(own, under, largest)
    basis = Basis(mesh, ElementVector(ElementHexS2()), intorder=4)
    facets = mesh.boundary_facets()
    x, y, z = mesh.p[:, mesh.facets[:, facets]].mean(axis=1)
    low = np.abs(z + own.cap) < 1e-9
    near = [low & (np.hypot(x - side * own.reach, y) < own.head / 2) for side in (-1, 1)]
    frame, left, right, below = (
        FacetBasis(mesh, basis.elem, facets=facets[which], intorder=4)
        for which in (np.abs(z) < 1e-9, *near, np.abs(z + under) < 1e-9)
    )
    area, second = own.wide * own.deep, own.wide**3 * own.deep / 12
    push = LinearForm(
        lambda v, p: v[2] * ((load - pull) / area + moment * p.x[0] / second)
    ).assemble(below)
    stiff = _stiffness(basis, own, youngs, body) + BilinearForm(
        lambda u, v, p: 1e-3 * youngs * (u[0] * v[0] + u[1] * v[1])
    ).assemble(frame)  # keeps it in place sideways
    hard = 200 * youngs
    middle = basis.get_dofs(lambda x: np.abs(x[1]) < 1e-9).all(["u^2"])
    touch = [(frame, 1.0), (left, -1.0), (right, -1.0)]
    u, depth, now = _settled(stiff, push, middle, touch, hard)
    root = []
    at_frame = frame.global_coordinates()[0]
    for side, head, given in ((-1, left, depth[1]), (1, right, depth[2])):
        up = given * (side * head.global_coordinates()[0] - own.wide / 2) * head.dx
        arm = np.maximum(side * at_frame - own.wide / 2, 0.0)
        root.append(2 * hard * float(up.sum() - (depth[0] * arm * frame.dx).sum()))
    corner = np.argmin(np.abs(mesh.p - [[-own.wide / 2], [0.0], [0.0]]).sum(axis=0))
    opened = -float(u[basis.nodal_dofs[2, corner]])
    return Found((float(now[1]), float(now[2])), (root[0], root[1]), opened, float(now[0]))
