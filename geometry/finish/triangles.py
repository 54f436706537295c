"""A closed mesh of triangles, and what can be told of it [mm]."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

HASH_STEP = 1e-3  # vertices are hashed to this step [mm]

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Mesh:
    """A closed triangle mesh: `vertices` (n, 3) [mm], `triangles` (m, 3) indices, outward.

    Meshes are told apart as objects, so that what was worked out of one can be kept.
    """

    vertices: Floats
    triangles: Ints

    def corners(self) -> Floats:
        """Return the corner points of every triangle, (m, 3, 3) [mm]."""
        return self.vertices[self.triangles]

    def normals(self) -> Floats:
        """Return the unit normals, (m, 3)."""
        corners = self.corners()
        raw = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
        return np.asarray(raw / np.linalg.norm(raw, axis=1)[:, None], dtype=np.float64)

    def areas(self) -> Floats:
        """Return the area of every triangle, (m,) [mm²]."""
        corners = self.corners()
        raw = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
        return np.asarray(np.linalg.norm(raw, axis=1) / 2, dtype=np.float64)

    def volume(self) -> float:
        """Return the enclosed volume [mm³]."""
        a, b, c = np.moveaxis(self.corners(), 1, 0)
        return float(np.einsum("ij,ij->", a, np.cross(b, c)) / 6)

    def is_closed(self) -> bool:
        """Return whether every edge is shared by exactly two triangles, once each way."""
        edges = np.concatenate([self.triangles[:, [i, (i + 1) % 3]] for i in range(3)])
        count = len(self.vertices)
        there = np.sort(edges[:, 0] * count + edges[:, 1])
        back = np.sort(edges[:, 1] * count + edges[:, 0])
        return bool(np.array_equal(there, back) and np.all(np.diff(there) > 0))

    def sha256(self) -> str:
        """Return a hash of the shape alone: the vertices to a micrometre, in sorted order."""
        grid = np.round(self.vertices / HASH_STEP).astype(np.int64)
        ordered = grid[np.lexsort(grid.T)]
        return hashlib.sha256(ordered.astype("<i8").tobytes()).hexdigest()
