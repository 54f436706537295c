"""The assembly as binary glTF 2.0 for viewing: metres, y up, named and coloured."""

from __future__ import annotations

import json
import struct
from collections.abc import Sequence
from typing import Any

import numpy as np

from geometry.assembly import Placed
from geometry.finish.triangles import Floats, Mesh
from geometry.solids import features
from geometry.solids.mesh import tessellate

CHORD = 0.1  # greatest distance from the true surface, enough for the eye [mm]
TURN = 0.4  # greatest turn between neighbouring facets [rad]
_Y_UP = np.array([[1.0, 0.0, 0.0], [0.0, 0.0, 1.0], [0.0, -1.0, 0.0]])
"""From x right, y back, z up to x right, y up, z towards the viewer: the front is in front."""

_FLOAT, _UNSIGNED, _POINTS, _INDICES = 5126, 5125, 34962, 34963  # as glTF numbers them


def glb_bytes(bodies: Sequence[Placed]) -> bytes:
    """Return the GLB: every solid once as a mesh, every copy as a node under its own name.

    No normals are stored: a viewer then shades facets flat, as glTF 2.0 asks of it.
    """
    glb = _Glb()
    for body in bodies:
        glb.add(body)
    return glb.packed()


class _Glb:
    """What is gathered of meshes, materials and nodes, in the order in which they come."""

    def __init__(self) -> None:
        self.binary = bytearray()
        self.views: list[dict[str, Any]] = []
        self.accessors: list[dict[str, Any]] = []
        self.meshes: list[dict[str, Any]] = []
        self.materials: dict[tuple[float, float, float], int] = {}
        self.nodes: list[dict[str, Any]] = []
        self.known: dict[Any, int] = {}

    def add(self, body: Placed) -> None:
        place = body.solid.wrapped.Location()
        bare = features.unplaced(body.solid)
        key = (bare, body.colour)
        if key not in self.known:
            self.known[key] = len(self.meshes)
            self._mesh(tessellate(bare, CHORD, TURN), body)
        node: dict[str, Any] = {"name": body.name, "mesh": self.known[key]}
        if not place.IsIdentity():
            node["matrix"] = _columns(place.Transformation())
        self.nodes.append(node)

    def _mesh(self, mesh: Mesh, body: Placed) -> None:
        points = (mesh.vertices @ _Y_UP.T * 1e-3).astype("<f4")
        corners = mesh.triangles.astype("<u4").ravel()
        at = self._accessor(points.tobytes(), _POINTS, len(points), _FLOAT, "VEC3")
        self.accessors[at] |= {
            "min": points.min(axis=0).tolist(),
            "max": points.max(axis=0).tolist(),
        }
        primitive = {
            "attributes": {"POSITION": at},
            "indices": self._accessor(
                corners.tobytes(), _INDICES, len(corners), _UNSIGNED, "SCALAR"
            ),
            "material": self.materials.setdefault(body.colour, len(self.materials)),
        }
        self.meshes.append({"name": body.product, "primitives": [primitive]})

    def _accessor(self, data: bytes, target: int, count: int, kind: int, shape: str) -> int:
        view = {
            "buffer": 0,
            "byteOffset": len(self.binary),
            "byteLength": len(data),
            "target": target,
        }
        self.views.append(view)
        self.accessors.append(
            {
                "bufferView": len(self.views) - 1,
                "componentType": kind,
                "count": count,
                "type": shape,
            }
        )
        self.binary += data
        return len(self.accessors) - 1

    def packed(self) -> bytes:
        tree = {
            "asset": {"version": "2.0", "generator": "isolator"},
            "scene": 0,
            "scenes": [{"nodes": list(range(len(self.nodes)))}],
            "nodes": self.nodes,
            "meshes": self.meshes,
            "materials": [_material(colour) for colour in self.materials],
            "accessors": self.accessors,
            "bufferViews": self.views,
            "buffers": [{"byteLength": len(self.binary)}],
        }
        text = json.dumps(tree, separators=(",", ":")).encode("ascii")
        text += b" " * (-len(text) % 4)
        body = bytes(self.binary)  # points and indices take four bytes each: already even
        chunks = b"".join(
            struct.pack("<I4s", len(data), kind) + data
            for kind, data in ((b"JSON", text), (b"BIN\0", body))
        )
        return struct.pack("<4sII", b"glTF", 2, 12 + len(chunks)) + chunks


def _material(colour: tuple[float, float, float]) -> dict[str, Any]:
    name = "#" + "".join(f"{round(255 * part):02x}" for part in colour)
    factor = [round(_linear(part), 6) for part in colour]
    return {
        "name": name,
        "pbrMetallicRoughness": {
            "baseColorFactor": [*factor, 1.0],
            "metallicFactor": 0.0,
            "roughnessFactor": 0.7,
        },
    }


def _linear(part: float) -> float:
    """Return a part of an sRGB colour as linear light, which glTF asks for (IEC 61966-2-1)."""
    return part / 12.92 if part <= 0.04045 else float(((part + 0.055) / 1.055) ** 2.4)


def _columns(transform: Any) -> list[float]:
    """Return a kernel's transformation [mm] as glTF's matrix, column by column [m, y up]."""
    rows = range(1, 4)
    turn: Floats = np.array([[transform.Value(r, c) for c in rows] for r in rows])
    way = np.array([transform.Value(r, 4) for r in rows]) * 1e-3
    matrix = np.eye(4)
    matrix[:3, :3] = _Y_UP @ turn @ _Y_UP.T
    matrix[:3, 3] = _Y_UP @ way
    return [round(float(value), 12) + 0.0 for value in matrix.T.ravel()]
