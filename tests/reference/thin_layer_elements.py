"""Plane finite elements of a square with a round hole: thin-layer and torsion constants.

`python tests/reference/thin_layer_elements.py` writes thin_layer_points.csv again. Side 1.
"""

from __future__ import annotations

import csv
from dataclasses import replace
from pathlib import Path

import numpy as np
from skfem import Basis, BilinearForm, ElementQuad2, LinearForm, MeshQuad, MeshQuad2, condense
from skfem import solve as solve_linear
from skfem.helpers import dot, grad

FILE = Path(__file__).with_name("thin_layer_points.csv")
HOLES = (
    0.02,
    0.035,
    0.05,
    0.075,
    0.1,
    0.15,
    0.2,
    0.25,
    0.3,
    0.35,
    0.4,
    0.45,
    0.5,
    0.55,
    0.6,
    0.65,
    0.7,
    0.75,
    0.8,
    0.85,
    0.9,
    0.95,
)


def square_with_hole(hole: float, elements: int = 24) -> tuple[float, float, float]:
    """Return C, C_t and the Saint-Venant constant over the polar moment; a quarter is meshed."""
    outward = 0.5 - 0.5 * np.cos(np.pi * np.linspace(0.0, 1.0, elements + 1))
    turn = np.linspace(0.0, np.pi / 4, elements + 1)
    plain = MeshQuad.init_tensor(outward, np.concatenate([turn, np.pi / 4 + turn[1:]]))
    on = {
        name: plain.facets_satisfying(lambda x, i=i, at=at: np.isclose(x[i], at))
        for name, i, at in (("hole", 0, 0), ("side", 0, 1), ("y=0", 1, 0), ("x=0", 1, np.pi / 2))
    }
    mesh = MeshQuad2.from_mesh(plain)
    s, turn = mesh.doflocs
    ray = np.array([np.cos(turn), np.sin(turn)])
    square = 0.5 * ray / np.max(np.abs(ray), axis=0)
    basis = Basis(
        replace(mesh, doflocs=(1 - s) * hole / 2 * ray + s * square), ElementQuad2(), intorder=6
    )
    laplace = BilinearForm(lambda u, v, w: dot(grad(u), grad(v))).assemble(basis)

    def energy(load, fixed):
        dofs = np.unique(np.concatenate([basis.get_dofs(on[name]).all() for name in fixed]))
        return load @ solve_linear(*condense(laplace, load, D=dofs))

    one = LinearForm(lambda v, w: v).assemble(basis)
    along = LinearForm(lambda v, w: w.x[0] * v).assemble(basis)
    warp = LinearForm(lambda v, w: w.x[1] * grad(v)[0] - w.x[0] * grad(v)[1]).assemble(basis)
    area, edge = 1 - np.pi * hole**2 / 4, 4 + np.pi * hole
    moment = 1 / 12 - np.pi * hole**4 / 64
    c = 4 * (4 * energy(one, ("hole", "side"))) / area * (edge / area) ** 2
    c_t = 4 * (4 * energy(along, ("hole", "side", "x=0"))) / moment * (edge / area) ** 2
    return c, c_t, 1 - 4 * energy(warp, ("x=0", "y=0")) / (2 * moment)


def main() -> None:
    """Write the points."""
    with FILE.open("w", newline="") as file:
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow(("hole", "compression", "tilt", "torsion"))
        writer.writerows((hole, *(f"{v:.6g}" for v in square_with_hole(hole))) for hole in HOLES)


if __name__ == "__main__":
    main()
