"""Shaded pictures of meshes with hidden surfaces removed, without a display: a depth buffer."""

from __future__ import annotations

import struct
import zlib
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from geometry.finish.digits import write_number
from geometry.finish.triangles import Floats, Ints, Mesh

Colour = tuple[float, float, float]

OVERSAMPLING = 2  # pixels drawn per pixel kept, each way
BORDER = 0.06  # of the picture's shorter side, left free all round
LIGHT = np.array([-0.35, 0.55, 0.76])  # towards the light: left, up and to the front of the eye
AMBIENT = 0.55
LINE = 0.18  # brightness of edges against their face
SHARP = np.cos(np.radians(25.0))  # facets that turn more than this share a drawn edge


@dataclass(frozen=True, slots=True, kw_only=True)
class View:
    """Where the eye stands [degrees]: azimuth from +x towards +y, elevation above the xy plane."""

    azimuth: float
    elevation: float

    def axes(self) -> Floats:
        """Return rows right, up, towards the eye, (3, 3)."""
        az, el = np.radians(self.azimuth), np.radians(self.elevation)
        eye = np.array([np.cos(el) * np.cos(az), np.cos(el) * np.sin(az), np.sin(el)])
        right = np.array([-np.sin(az), np.cos(az), 0.0])
        return np.stack([right, np.cross(eye, right), eye])


def render(
    items: Sequence[tuple[Mesh, Colour]],
    view: View,
    size: tuple[int, int] = (480, 360),
    numbers: Sequence[tuple[range, int]] = (),
) -> bytes:
    """Return a PNG of all meshes in one picture of `size` pixels, on white, seen without depth.

    Each item is a mesh and its colour (red, green, blue from 0 to 1). `numbers` are pairs of
    items, by index, and the number that is written under the lowest of them.
    """
    width, height = size[0] * OVERSAMPLING, size[1] * OVERSAMPLING
    axes = view.axes()
    projected = [mesh.vertices @ axes.T for mesh, _ in items]
    placed = _fit(projected, width, height)
    depth = np.full(width * height, -np.inf)
    owner = np.zeros(width * height, dtype=np.int32)  # row in the paints of what is seen there
    paints = [np.array([[1.0] * 3, [LINE] * 3])]  # nothing, an edge; then all facets
    edges, rows = [], 2
    for (mesh, colour), points in zip(items, placed, strict=True):
        normals = mesh.normals() @ axes.T
        front = normals[:, 2] > 1e-9
        light = AMBIENT + (1 - AMBIENT) * np.clip(normals[front] @ LIGHT, 0.0, None)
        paints.append(np.clip(light[:, None] * np.array(colour), 0.0, 1.0))
        _fill(points[mesh.triangles[front]], rows, depth, owner, width, height)
        rows += len(paints[-1])
        edges.append((points, _drawn_edges(mesh, normals)))
    for points, pairs in edges:
        owner[_seen(points[pairs], depth, width, height)] = 1
    image = _painted(owner.reshape(height, width), np.concatenate(paints))
    for which, number in numbers:
        points = np.concatenate([placed[item] for item in which])
        lowest = points[points[:, 1].argmax()] / OVERSAMPLING
        write_number(image, number, int(lowest[0]), int(lowest[1]))
    return png_bytes(image)


def _painted(owner: NDArray[np.int32], paints: Floats) -> NDArray[np.uint8]:
    """Return the picture (h, w, 3), every pixel the mean of the paints of those drawn for it."""
    steps = range(OVERSAMPLING)
    fine = [owner[i::OVERSAMPLING, j::OVERSAMPLING] for i in steps for j in steps]
    image = np.round(paints * 255).astype(np.uint8)[fine[0]]
    mixed = np.nonzero(np.any([each != fine[0] for each in fine[1:]], axis=0))
    mean = np.asarray(sum(paints[each[mixed]] for each in fine)) / len(fine)
    image[mixed] = np.round(mean * 255).astype(np.uint8)
    return image


def png_bytes(image: NDArray[np.uint8]) -> bytes:
    """Return an (h, w, 3) picture of bytes as a PNG."""
    height, width, _ = image.shape
    rows = np.zeros((height, 1 + 3 * width), dtype=np.uint8)
    rows[:, 1:] = image.reshape(height, 3 * width)
    header = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    body = (
        (b"IHDR", header),
        (b"IDAT", zlib.compress(rows.tobytes(), 6)),
        (b"IEND", b""),
    )
    return b"\x89PNG\r\n\x1a\n" + b"".join(
        struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))
        for kind, data in body
    )


def _fit(projected: list[Floats], width: int, height: int) -> list[Floats]:
    """Scale to pixels (y down), the same scale for depth so that bias means pixels."""
    every = np.concatenate(projected)
    low, high = every.min(axis=0), every.max(axis=0)
    free = 1 - 2 * BORDER * min(width, height) / np.array([width, height])
    span = np.maximum(high - low, 1e-9)
    scale = float(min(free[0] * width / span[0], free[1] * height / span[1]))
    middle, centre = (low + high) / 2, np.array([width / 2, height / 2, 0.0])
    return [(points - middle) * np.array([scale, -scale, scale]) + centre for points in projected]


def _fill(
    corners: Floats, rows: int, depth: Floats, owner: NDArray[np.int32], width: int, height: int
) -> None:
    """Note triangles (m, 3, 3) as owners of the pixels where they are nearest, all at once.

    `rows` is what the first of them is noted as.
    """
    first = np.clip(np.ceil(corners[:, :, 1].min(axis=1) - 0.5), 0, height).astype(np.int64)
    last = np.clip(np.floor(corners[:, :, 1].max(axis=1) - 0.5), -1, height - 1).astype(np.int64)
    which, step = _spread(np.maximum(last - first + 1, 0))
    y = first[which] + step
    slope, rise, base = _barycentric(corners).take(which, axis=2)
    level = np.ascontiguousarray(corners[:, :, 2].T).take(which, axis=1)
    # on one row each barycentric coordinate is a line in x: together they bound a span
    value = rise * (y + 0.5) + base
    with np.errstate(divide="ignore", invalid="ignore"):
        crossing = -value / slope
    left = np.where(slope > 0, crossing, -np.inf).max(axis=0)
    right = np.where(slope < 0, crossing, np.inf).min(axis=0)
    outside = np.any((slope == 0) & (value < 0), axis=0)
    start = np.clip(np.ceil(left - 0.5 - 1e-6), 0, width).astype(np.int64)
    stop = np.clip(np.floor(right - 0.5 + 1e-6), -1, width - 1).astype(np.int64)
    row, along = _spread(np.where(outside, 0, np.maximum(stop - start + 1, 0)))
    x = start[row] + along
    across = x + 0.5
    z = np.zeros(len(x))
    for k in (0, 2, 1):  # the order decides the last bit, and so which of two facets is seen
        z += (value[k][row] + slope[k][row] * across) * level[k][row]
    _keep_nearest((y * width)[row] + x, z, (which + rows)[row], depth, owner)


def _spread(counts: Ints) -> tuple[Ints, Ints]:
    """Return, for counts 2, 0, 3: owners 0 0 2 2 2 and running numbers 0 1 0 1 2."""
    owner = np.repeat(np.arange(len(counts)), counts)
    return owner, np.arange(len(owner)) - np.repeat(np.cumsum(counts) - counts, counts)


def _barycentric(corners: Floats) -> Floats:
    """Return the coefficients of x, y and 1 in the barycentric coordinates, (3, 3, m).

    Coefficients and coordinates come first: the array library is slow along axes of three.
    """
    x, y = np.ascontiguousarray(corners[:, :, :2].transpose(2, 1, 0))
    (x1, y1), (x2, y2) = ((np.roll(x, -by, axis=0), np.roll(y, -by, axis=0)) for by in (1, 2))
    lines = np.stack([y1 - y2, x2 - x1, x1 * y2 - y1 * x2])
    doubled = x[0] * lines[0, 0] + lines[2, 0] + y[0] * lines[1, 0]
    doubled = np.where(np.abs(doubled) < 1e-9, np.copysign(1e-9, doubled), doubled)
    return np.asarray(lines / doubled, dtype=np.float64)


def _keep_nearest(
    index: Ints, z: Floats, facet: Ints, depth: Floats, owner: NDArray[np.int32]
) -> None:
    before = depth[index]
    np.maximum.at(depth, index, z)
    # of what falls on one pixel equally near the last written stays
    nearest = np.flatnonzero((z > before) & (z == depth[index]))
    owner[index[nearest]] = facet[nearest]


def _drawn_edges(mesh: Mesh, normals: Floats) -> Ints:
    """Return the edges (k, 2) that are sharp or stand on the outline seen from the eye."""
    facets = np.arange(len(mesh.triangles))
    edges = np.concatenate([mesh.triangles[:, [i, (i + 1) % 3]] for i in range(3)])
    owner = np.tile(facets, 3)
    key = np.sort(edges, axis=1)
    order = np.lexsort((key[:, 1], key[:, 0]))
    first, second = owner[order[0::2]], owner[order[1::2]]
    n1, n2 = normals[first], normals[second]
    sharp = np.einsum("ij,ij->i", n1, n2) < SHARP
    seen = (n1[:, 2] > 1e-9) | (n2[:, 2] > 1e-9)
    outline = (n1[:, 2] > 1e-9) != (n2[:, 2] > 1e-9)
    return np.asarray(key[order[0::2]][(sharp & seen) | outline], dtype=np.int64)


def _seen(ends: Floats, depth: Floats, width: int, height: int) -> Ints:
    """Return the pixels of edges (k, 2, 3) that no surface hides."""
    if len(ends) == 0:
        return np.zeros(0, dtype=np.int64)
    reach = np.abs(ends[:, 1, :2] - ends[:, 0, :2]).max(axis=1)
    steps = np.ceil(reach * 1.2).astype(np.int64) + 2
    which, along = _spread(steps)
    t = (along / (steps[which] - 1))[:, None]
    points = ends[which, 0] * (1 - t) + ends[which, 1] * t
    found = []
    for dx, dy in ((0, 0), (1, 0), (0, 1), (1, 1)):
        x = np.floor(points[:, 0] - 0.5).astype(np.int64) + dx
        y = np.floor(points[:, 1] - 0.5).astype(np.int64) + dy
        index = np.clip(y, 0, height - 1) * width + np.clip(x, 0, width - 1)
        bias = 4.0  # pixels of depth that a steep face may gain within one pixel
        found.append(index[points[:, 2] + bias > depth[index]])
    return np.concatenate(found)
