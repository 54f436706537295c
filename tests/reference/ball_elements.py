"""Finite elements of half a rubber ball pressed on a rigid desk: large strain, real contact.

Outer radius 1, axis z, the flat face at z = 0 bonded to what is fixed, the dome's lowest point at
z = −1; the desk rises. Incompressible neo-Hookean rubber of Young's modulus 1 (G = 1/3), mixed
Q2/Q1 in (r, z). The dome sticks where it touches: every quadrature point of the outside keeps the
radius at which it was touched first. About each loaded state small motions of the desk, one wave
round the axis (shift and tilt) and none (twist), give the tangent stiffnesses. The cavity of a
hollow ball is open to the air; its inside may not touch anything.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from pad_finite_elements import graded
from scipy.sparse import bmat, coo_matrix
from scipy.sparse.linalg import splu
from skfem import Basis, ElementQuad1, ElementQuad2, ElementVector, FacetBasis, MeshQuad, MeshQuad2

G = 1.0 / 3.0
PENALTY = 1e4  # contact pressure over penetration; a pressure of 0.5 presses 5e-5 of the radius in
CORE = 0.03  # radius about the middle of a solid ball's glued face, held like that face


class State(NamedTuple):
    """Stiffnesses of a half-ball of radius 1, E = 1, at a sag; see `HalfBall.motions`."""

    sag: float
    force: float
    contact: float  # outer radius of what touches
    open: float  # inner radius of what touches, 0 where the middle does
    shear: float
    lateral_tilt: float
    tilt: float
    twist: float
    swell: float  # by how much the largest radius has grown


class HalfBall:
    """One half-ball of wall thickness `wall` (1: solid), its unknowns and what touches."""

    def __init__(self, wall: float, *, fineness: float = 1.0, sticks: bool = True) -> None:
        self.wall, self.sticks = wall, sticks
        plain, mesh = _mesh(wall, fineness)
        self.basis = Basis(mesh, ElementVector(ElementQuad2(), 3), intorder=5)
        self.pressures = self.basis.with_element(ElementQuad1())
        element = ElementVector(ElementQuad2(), 3)
        at = plain.facets_satisfying
        outer = at(lambda x: np.isclose(x[0], 1.0))
        self.outside = FacetBasis(mesh, element, facets=outer, intorder=9)
        bonded = [self.basis.get_dofs(at(lambda x: np.isclose(x[1], np.pi / 2.0))).all()]
        if wall >= 1.0:
            bonded.append(self.basis.get_dofs(at(lambda x: np.isclose(x[0], CORE))).all())
        self.bonded = np.concatenate(bonded)
        self.axis = self.basis.get_dofs(at(lambda x: np.isclose(x[1], 0.0)))
        r = self.basis.global_coordinates()[0]
        self.volume = r * self.basis.dx
        self.operators = [_gradients(self.basis, r, m) for m in (0, 1)]
        self.shapes = np.array([b[0].value for b in self.pressures.basis])
        where = self.outside.global_coordinates()
        self.ring, self.depth = where[0], where[1]
        self.patch = self.ring * self.outside.dx
        self.facet = np.array([b[0].value for b in self.outside.basis])  # dof, 3, facet, point
        self.u, self.p = np.zeros(self.basis.N), np.zeros(self.pressures.N)
        self.anchor = np.full(self.ring.shape, np.nan)

    def _at_points(self) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
        """Return displacement (3, …) at the outside's points, and r, z there."""
        u = np.einsum("dcfq,df->cfq", self.facet, self.u[self.outside.element_dofs])
        return u, self.ring + u[0], self.depth + u[2]

    def _body(self, wave: int, residual: bool):
        """Return the tangent's blocks about the present state, and the residual at wave 0."""
        base, op = self.operators[0], self.operators[wave]
        dofs, p_dofs = self.basis.element_dofs, self.pressures.element_dofs
        f = np.einsum("deqiI,de->eqiI", base, self.u[dofs]) + np.eye(3)
        p = np.einsum("deq,de->eq", self.shapes, self.p[p_dofs])
        inverse, j = np.linalg.inv(f), np.linalg.det(f)
        weight = self.volume
        slope = np.einsum("eqJi,eqIj->eqiIjJ", inverse, inverse)
        slope *= ((G - p * j) * weight)[..., None, None, None, None]
        cofactor = j[..., None, None] * np.swapaxes(inverse, -1, -2)
        slope += np.einsum("eqiI,eqjJ,eq->eqiIjJ", cofactor, cofactor, p / j * weight)
        for i in range(3):
            for k in range(3):
                slope[..., i, k, i, k] += G * weight
        count = len(op)
        flat = op.reshape(count, *weight.shape, 9)
        part = np.einsum("eqab,deqb->deqa", slope.reshape(*weight.shape, 9, 9), flat)
        stiff = np.einsum("ceqa,deqa->ecd", flat, part, optimize=True)
        swell = np.einsum("eqiI,deqiI->deq", cofactor, op)
        couple = np.einsum("ceq,deq,eq->ecd", self.shapes, swell, weight, optimize=True)
        k = _sparse(stiff, dofs, dofs, self.basis.N, self.basis.N)
        b = _sparse(couple, p_dofs, dofs, self.pressures.N, self.basis.N)
        if not residual:
            return k, b, None, None
        stress = G * (f - np.swapaxes(inverse, -1, -2)) + p[..., None, None] * cofactor
        inner = np.einsum("eqiI,deqiI,eq->de", stress, base, weight, optimize=True)
        excess = np.einsum("ceq,eq->ce", self.shapes, (j - 1.0) * weight)
        return k, b, _vector(inner, dofs, self.basis.N), _vector(excess, p_dofs, self.pressures.N)

    def _springs(self, stiffness: np.ndarray):
        """Return the matrix of springs (3, facet, point) at the outside's points."""
        local = np.einsum(
            "acfq,bcfq,cfq,fq->fab", self.facet, self.facet, stiffness, self.patch, optimize=True
        )
        dofs, n = self.outside.element_dofs, self.basis.N
        return _sparse(local, dofs, dofs, n, n)

    def _pull(self, traction: np.ndarray) -> np.ndarray:
        """Return nodal forces of a traction (3, facet, point) at the outside's points."""
        local = np.einsum("acfq,cfq,fq->af", self.facet, traction, self.patch)
        return _vector(local, self.outside.element_dofs, self.basis.N)

    def _contact(self, desk: float) -> tuple[np.ndarray, np.ndarray]:
        """Return traction and spring stiffness (3, facet, point) of the desk at height `desk`."""
        u, r, z = self._at_points()
        touch = z < desk
        stuck = touch & np.isfinite(self.anchor)
        hold = np.zeros_like(u)
        hold[0], hold[2] = PENALTY * stuck, PENALTY * touch
        traction = np.zeros_like(u)
        traction[0] = hold[0] * np.where(stuck, self.anchor - r, 0.0)
        traction[2] = hold[2] * (desk - z)
        return traction, hold

    def press(self, sag: float) -> bool:
        """Bring the desk to `sag`; return whether it converged (the state is put back if not)."""
        kept = self.u.copy(), self.p.copy()
        free = self._free(0, twist=False)
        n = self.basis.N
        for _ in range(25):
            k, b, inner, excess = self._body(0, residual=True)
            traction, hold = self._contact(sag - 1.0)
            off = np.concatenate([inner - self._pull(traction), excess])[free]
            whole = bmat([[k + self._springs(hold), b.T], [b, None]], format="csc")
            step = np.zeros(n + self.pressures.N)
            step[free] = splu(whole[free][:, free].tocsc()).solve(-off)
            longest = np.abs(step[:n]).max()
            if not np.isfinite(longest) or longest > 2.0:
                break
            self.u += step[:n]
            self.p += step[n:]
            if longest < 1e-8:
                self._remember(sag - 1.0)
                return True
        self.u, self.p = kept
        return False

    def _remember(self, desk: float) -> None:
        if self.sticks:
            _, r, z = self._at_points()
            fresh = np.where(np.isnan(self.anchor), r, self.anchor)
            self.anchor = np.where(z < desk, fresh, np.nan)

    def _free(self, wave: int, *, twist: bool) -> np.ndarray:
        """Return the unknowns that are not held, displacements and then pressures."""
        every = self.basis.get_dofs(elements=True)
        off = [self.bonded]
        if twist:
            off += [every.all(["u^1", "u^3"]), self.axis.all(["u^2"])]
        elif wave == 0:
            off += [every.all(["u^2"]), self.axis.all(["u^1"])]
        else:
            off += [self.axis.all(["u^3"])]
        held = np.unique(np.concatenate(off))
        count = self.basis.N + (0 if twist else self.pressures.N)
        return np.setdiff1d(np.arange(count), held)

    def motions(self, sag: float) -> State:
        """Return force and tangent stiffnesses at the state that `press` reached.

        Of the flat face against the desk, motions told at the contact's middle, a point of the
        ball's body: `shear`, `lateral_tilt` and `tilt` are K_xx, K_xθ, K_θθ of −(force, moment)
        on the ball when it shifts by x and rolls by θ, the load staying upright.
        """
        traction, hold = self._contact(sag - 1.0)
        _, r, _ = self._at_points()
        touch = hold[2] > 0
        force = 2.0 * np.pi * float((traction[2] * self.patch).sum())
        friction = np.pi * float((r * traction[0] * self.patch).sum())
        zero, one = 0.0 * r, 1.0 + 0.0 * r
        hold = PENALTY * np.broadcast_to(touch, (3, *touch.shape)).astype(float)
        desk = self._reaction(1, hold, (np.array([one, -one, zero]), np.array([zero, zero, -r])))
        twist = self._reaction(0, hold, (np.array([zero, r, zero]),), twist=True)
        return State(
            sag,
            force,
            float(r[touch].max()),
            float(r[touch].min()),
            np.pi * desk[0, 0],
            np.pi * desk[0, 1] - force,
            np.pi * desk[1, 1] - friction,
            2.0 * np.pi * twist[0, 0],
            float(r.max()) - 1.0,
        )

    def _reaction(self, wave, hold, moves, *, twist=False) -> np.ndarray:
        """Return what rigid motions of the desk `moves` ask of it, per wave's square round."""
        k, b, _, _ = self._body(wave, residual=False)
        free = self._free(wave, twist=twist)
        stiff = k + self._springs(hold)
        whole = stiff if twist else bmat([[stiff, b.T], [b, None]])
        inner = splu(whole.tocsr()[free][:, free].tocsc())
        pulls = np.zeros((whole.shape[0], len(moves)))
        for i, move in enumerate(moves):
            pulls[: self.basis.N, i] = self._pull(hold * move)
        own = [[float((hold * m * v * self.patch).sum()) for v in moves] for m in moves]
        return np.array(own) - pulls[free].T @ inner.solve(pulls[free])


def _mesh(wall: float, fineness: float) -> tuple[MeshQuad, MeshQuad2]:
    """Return the mesh in (radius, angle from the dome's lowest point), and the same bent round."""
    inner = max(1.0 - wall, CORE)
    smallest = min(0.02, wall / 4.0) / fineness
    through = graded(1.0 - inner, ">", smallest, 1.3, min(0.12, wall / 3.0) / fineness)
    turn = graded(np.pi / 2.0, "<", 0.014 / fineness, 1.04, 0.04 / fineness)
    plain = MeshQuad.init_tensor(inner + through, turn)
    bent = MeshQuad2.from_mesh(plain)
    s, t = bent.doflocs
    return plain, MeshQuad2(np.array([s * np.sin(t), -s * np.cos(t)]), bent.t)


def _gradients(basis: Basis, r: np.ndarray, m: int) -> np.ndarray:
    """Return the displacement gradient (dof, element, point, 3, 3) in (r, θ, z) of every shape."""
    out = np.zeros((len(basis.basis), *r.shape, 3, 3))
    for row, (shape, *_) in zip(out, basis.basis, strict=True):
        u, grad = shape.value, shape.grad
        for i in range(3):
            row[..., i, 0], row[..., i, 2] = grad[i, 0], grad[i, 1]
        row[..., 0, 1] = -(m * u[0] + u[1]) / r
        row[..., 1, 1] = (u[0] + m * u[1]) / r
        row[..., 2, 1] = -m * u[2] / r
    return out


def _sparse(local, rows, columns, n_rows, n_columns):
    """Return the sum of element matrices (element, row, column)."""
    at = (
        np.broadcast_to(rows.T[:, :, None], local.shape),
        np.broadcast_to(columns.T[:, None, :], local.shape),
    )
    pairs = (local.ravel(), (at[0].ravel(), at[1].ravel()))
    return coo_matrix(pairs, shape=(n_rows, n_columns)).tocsr()


def _vector(local, dofs, n):
    return np.bincount(dofs.ravel(), local.ravel(), minlength=n)


def pressed(wall: float, sags, *, fineness: float = 1.0, step: float = 0.02, sticks: bool = True):
    """Yield the states at rising `sags`, as far as the desk can be brought up steadily."""
    ball, at = HalfBall(wall, fineness=fineness, sticks=sticks), 0.0
    for sag in sags:
        go = step
        while at < sag - 1e-12:
            aim = min(sag, at + min(go, 0.3 * at + 1e-3))
            if ball.press(aim):
                at, go = aim, min(step, 1.5 * go)
            else:
                go = 0.5 * (aim - at)
                if go < 1e-4:
                    return
        yield ball.motions(sag)
