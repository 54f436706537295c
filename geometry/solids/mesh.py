"""Triangles of a solid: for files, hashes, pictures and the checks that need a mesh [mm]."""

from __future__ import annotations

from functools import lru_cache
from typing import Any

import numpy as np
from numpy.typing import NDArray
from OCP.BRep import BRep_Tool
from OCP.BRepMesh import BRepMesh_IncrementalMesh
from OCP.BRepTools import BRepTools
from OCP.TopAbs import TopAbs_REVERSED
from OCP.TopLoc import TopLoc_Location

from geometry.finish.triangles import Floats, Ints, Mesh
from geometry.solids import features

TOLERANCE = 0.02  # greatest distance of a chord from the true surface [mm]
ANGLE = 0.25  # greatest turn between neighbouring facets [rad]


@lru_cache(maxsize=256)
def tessellate(solid: Any, tolerance: float = TOLERANCE, angle: float = ANGLE) -> Mesh:
    """Return the mesh of a cadquery solid, vertices of neighbouring faces joined.

    `tolerance` [mm] is absolute, where cadquery's own call takes it relative to the size of each
    edge. Triangles that the solid carries from before are dropped, so that the mesh depends on the
    solid alone. The same solid is meshed once, wherever it has been moved to; its mesh cannot be
    written to.
    """
    place = solid.wrapped.Location()
    if place.IsIdentity():
        return _meshed(solid, tolerance, angle)
    there = tessellate(features.unplaced(solid), tolerance, angle)
    vertices = _moved(there.vertices, place.Transformation())
    vertices.flags.writeable = False
    return Mesh(vertices=vertices, triangles=there.triangles)


def _moved(points: Floats, way: Any) -> Floats:
    turn = np.array([[way.Value(row, column) for column in (1, 2, 3)] for row in (1, 2, 3)])
    x, y, z = points.T
    turned = turn[:, :1] * x + turn[:, 1:2] * y + turn[:, 2:] * z
    return np.ascontiguousarray(turned.T + [way.Value(row, 4) for row in (1, 2, 3)])


def _meshed(solid: Any, tolerance: float, angle: float) -> Mesh:
    BRepTools.Clean_s(solid.wrapped)
    BRepMesh_IncrementalMesh(solid.wrapped, tolerance, False, angle)
    raw, triangles = _triangles(solid)
    _, first, inverse = np.unique(np.round(raw, 6), axis=0, return_index=True, return_inverse=True)
    joined = inverse.reshape(-1)[triangles]
    a, b, c = joined.T
    proper = joined[(a != b) & (b != c) & (c != a)]
    vertices = raw[first]
    vertices.flags.writeable = proper.flags.writeable = False
    return Mesh(vertices=vertices, triangles=proper)


def _triangles(solid: Any) -> tuple[Floats, Ints]:
    """Return the points (n, 3) and outward triangles (m, 3) that the mesher left on the faces."""
    points: list[tuple[float, float, float]] = []
    triangles: list[tuple[int, int, int]] = []
    for face in solid.Faces():
        place = TopLoc_Location()
        mesh = BRep_Tool.Triangulation_s(face.wrapped, place)
        start = len(points) - 1  # the kernel counts from 1
        nodes = [mesh.Node(n) for n in range(1, mesh.NbNodes() + 1)]
        if not place.IsIdentity():
            way = place.Transformation()
            nodes = [node.Transformed(way) for node in nodes]
        points += [(node.X(), node.Y(), node.Z()) for node in nodes]
        facets = [mesh.Triangle(n).Get() for n in range(1, mesh.NbTriangles() + 1)]
        if face.wrapped.Orientation() == TopAbs_REVERSED:
            facets = [(a, c, b) for a, b, c in facets]
        triangles += [(start + a, start + b, start + c) for a, b, c in facets]
    return np.array(points, dtype=np.float64), np.array(triangles, dtype=np.int64)


def thinnest_wall(mesh: Mesh) -> float:
    """Return the least thickness [mm] found by rays from every facet's middle, straight inwards.

    Facets below 1e-4 mm² are left out.
    """
    return float(depths(mesh)[mesh.areas() > 1e-4].min(initial=np.inf))


@lru_cache(maxsize=256)
def depths(mesh: Mesh, chunk: int = 64) -> Floats:
    """Return how deep the solid is behind the middle of each of a mesh's facets [mm], (m,).

    Rays that leave through a facet seen at less than about 60 degrees from square are left out:
    they run past an edge, not through a wall. Where a ray finds nothing that it leaves through,
    the depth is endless. `chunk` rays go at a time, few enough for what they need to stay in the
    processor's cache. The same mesh is looked at once.
    """
    corners, normals = mesh.corners(), mesh.normals()
    middles = corners.mean(axis=1)
    radii = np.linalg.norm(corners - middles[:, None], axis=2).max(axis=1)
    found = np.full(len(corners), np.inf)
    for start in range(0, len(corners), chunk):
        origins, rays = middles[start : start + chunk], -normals[start : start + chunk]
        near = (rays @ normals.T > 0.5) & _passes(origins, rays, middles, radii)
        ray, facet = np.nonzero(near)
        through = _distances(origins[ray], rays[ray], corners[facet])
        np.minimum.at(found, start + ray, through)
    found.flags.writeable = False
    return found


def _passes(origins: Floats, rays: Floats, middles: Floats, radii: Floats) -> NDArray[np.bool_]:
    """Return which rays (n) pass within the radius of which facets (m), as (n, m)."""
    along = rays @ middles.T - np.einsum("ij,ij->i", rays, origins)[:, None]
    square = (
        np.einsum("ij,ij->i", middles, middles)[None]
        + np.einsum("ij,ij->i", origins, origins)[:, None]
        - 2 * origins @ middles.T
    )
    return np.asarray((square - along**2 <= radii**2 * (1 + 1e-9) + 1e-6) & (along > -radii))


def _distances(origins: Floats, rays: Floats, corners: Floats) -> Floats:
    """Return how far each ray (n) goes to its facet (Möller and Trumbore's test), inf past it."""
    base, e1, e2 = corners[:, 0], corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]
    h = np.cross(rays, e2)
    det = np.einsum("ij,ij->i", e1, h)
    s = origins - base
    q = np.cross(s, e1)
    with np.errstate(divide="ignore", invalid="ignore"):
        u = np.einsum("ij,ij->i", s, h) / det
        v = np.einsum("ij,ij->i", rays, q) / det
        t = np.einsum("ij,ij->i", e2, q) / det
    # a hair of slack, so that no ray slips between two facets
    inside = (u >= -1e-9) & (v >= -1e-9) & (u + v <= 1 + 1e-9) & (t > 1e-4)
    return np.where(inside, t, np.inf)


def leaning(mesh: Mesh, limit_degrees: float) -> NDArray[np.bool_]:
    """Return which facets, off the bed, lean further than the limit from the vertical, (m,)."""
    steep = mesh.normals()[:, 2] < -np.sin(np.radians(limit_degrees))
    return np.asarray(steep & (mesh.corners()[:, :, 2].max(axis=1) > 1e-6))
