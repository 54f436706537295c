"""What hangs free while a part is printed: bridges and overhangs, measured on the mesh [mm]."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from geometry.finish.triangles import Floats, Ints, Mesh
from geometry.solids.mesh import leaning

LONGEST_BRIDGE = 10.0  # that a strand spans without support [mm]; common practice, no source
LEDGE = 0.8  # that stands out beside a wall, two strands of 0.4 mm; common practice, no source [mm]
TURNS = 12  # directions tried over half a turn, besides those of free edges
BESIDE = 1e-6  # lines run this far beside the corners of a region [mm]


@dataclass(frozen=True, slots=True, kw_only=True)
class Hanging:
    """What of a part has no layer below it [mm, mm²].

    `bridge` is the longest span between two supports, every region bridged the way that makes it
    shortest. `overhang` is the area of all regions that need support: those that would span more
    than `LONGEST_BRIDGE`, or cannot be bridged and stand out more than `LEDGE` from a wall.
    """

    bridge: float
    overhang: float


def hanging(mesh: Mesh, limit_degrees: float = 47.0) -> Hanging:
    """Return bridges and overhangs of a closed mesh that stands on the bed at z = 0.

    A region is all that joins and leans further than the limit from the vertical, off the bed. It
    is a bridge if lines in some direction end on a wall at both ends everywhere; an edge that
    borders on a face going down is such a wall. Regions are seen from below: one that lies over
    itself is not resolved.
    """
    chosen = np.flatnonzero(leaning(mesh, limit_degrees))
    if len(chosen) == 0:
        return Hanging(bridge=0.0, overhang=0.0)
    areas = mesh.areas()
    longest = overhang = 0.0
    neighbours = _neighbours(mesh)
    for region in _regions(chosen, neighbours):
        ends, held = _border(mesh, region, neighbours)
        span = _span(ends, held)
        if span <= LONGEST_BRIDGE:
            longest = max(longest, span)
        elif np.isfinite(span) or _farthest(ends, held) > LEDGE:
            overhang += float(areas[region].sum())
    return Hanging(bridge=longest, overhang=overhang)


def _neighbours(mesh: Mesh) -> Ints:
    """Return the facet across each facet's edges 0–1, 1–2 and 2–0, (m, 3); the mesh is closed."""
    count = len(mesh.triangles)
    edges = np.concatenate([mesh.triangles[:, [i, (i + 1) % 3]] for i in range(3)])
    there = edges[:, 0] * len(mesh.vertices) + edges[:, 1]
    back = edges[:, 1] * len(mesh.vertices) + edges[:, 0]
    order = np.argsort(there)
    across = order[np.searchsorted(there[order], back)] % count
    return np.asarray(across.reshape(3, count).T, dtype=np.int64)


def _regions(chosen: Ints, neighbours: Ints) -> list[Ints]:
    """Return the chosen facets in groups that hang together by edges."""
    left = set(chosen.tolist())
    groups = []
    while left:
        todo = [min(left)]
        left.discard(todo[0])
        group = []
        while todo:
            facet = todo.pop()
            group.append(facet)
            for other in neighbours[facet].tolist():
                if other in left:
                    left.discard(other)
                    todo.append(other)
        groups.append(np.array(sorted(group), dtype=np.int64))
    return groups


def _span(ends: Floats, held: NDArray[np.bool_]) -> float:
    """Return the longest span in the best direction, infinite where none is held at both ends."""
    along = ends[:, 1] - ends[:, 0]
    turns = np.arange(TURNS) * np.pi / TURNS
    free = np.arctan2(along[~held, 1], along[~held, 0]) % np.pi
    best = np.inf
    for turn in np.unique(np.round(np.concatenate([turns, free]), 9)):
        best = min(best, _longest(ends, held, float(turn)))
    return best


def _border(mesh: Mesh, region: Ints, neighbours: Ints) -> tuple[Floats, NDArray[np.bool_]]:
    """Return the region's border edges seen from below, (k, 2, 2), and which of them are held."""
    rows, sides = np.nonzero(~np.isin(neighbours[region], region))
    facets = region[rows]
    first = mesh.triangles[facets, sides]
    second = mesh.triangles[facets, (sides + 1) % 3]
    other = mesh.triangles[neighbours[facets, sides]]
    own = (other == first[:, None]) | (other == second[:, None])
    opposite = other[np.arange(len(other)), np.argmin(own, axis=1)]
    start = mesh.vertices[first]
    edge, way = mesh.vertices[second] - start, mesh.vertices[opposite] - start
    share = np.einsum("ij,ij->i", way, edge) / np.einsum("ij,ij->i", edge, edge)
    across = way - share[:, None] * edge
    held = across[:, 2] < -1e-6 * np.linalg.norm(across, axis=1)  # what borders goes down
    ends = np.stack([mesh.vertices[first, :2], mesh.vertices[second, :2]], axis=1)
    return ends, held


def _longest(ends: Floats, held: NDArray[np.bool_], turn: float) -> float:
    """Return the longest chord along `turn` [rad], infinite where one ends on a free edge."""
    cos, sin = np.cos(turn), np.sin(turn)
    x = ends[:, :, 0] * cos + ends[:, :, 1] * sin
    y = ends[:, :, 1] * cos - ends[:, :, 0] * sin
    crossed = np.abs(y[:, 1] - y[:, 0]) > 4 * BESIDE
    x, y, held = x[crossed], y[crossed], held[crossed]
    levels = np.unique(np.concatenate([y.ravel() - BESIDE, y.ravel() + BESIDE]))
    low, high = y.min(axis=1), y.max(axis=1)
    line, edge = np.nonzero((levels[:, None] > low) & (levels[:, None] < high))
    slope = (x[edge, 1] - x[edge, 0]) / (y[edge, 1] - y[edge, 0])
    at = x[edge, 0] + slope * (levels[line] - y[edge, 0])
    order = np.lexsort((at, line))
    starts, stops = order[0::2], order[1::2]
    chords = at[stops] - at[starts]
    # a chord shorter than this is a line that grazes a corner
    real = chords > 10 * BESIDE
    if not np.all(held[edge[starts[real]]] & held[edge[stops[real]]]):
        return np.inf
    return float(chords[real].max()) if np.any(real) else 0.0


def _farthest(ends: Floats, held: NDArray[np.bool_]) -> float:
    """Return how far any corner of a region's border lies from what is held."""
    if not np.any(held):
        return np.inf
    start, along = ends[held, 0], ends[held, 1] - ends[held, 0]
    way = ends[:, 0][:, None] - start
    share = np.einsum("pkj,kj->pk", way, along) / np.einsum("kj,kj->k", along, along)
    off = way - np.clip(share, 0.0, 1.0)[..., None] * along
    return float(np.linalg.norm(off, axis=2).min(axis=1).max())
