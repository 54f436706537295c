"""STL and 3MF of a mesh, byte for byte the same for the same mesh (no time stamps)."""

from __future__ import annotations

import io
import struct
import zipfile
from collections.abc import Sequence
from typing import NamedTuple
from xml.sax.saxutils import escape, quoteattr

import numpy as np

from geometry.finish.triangles import Mesh
from isolator.design.fill import SOLID, Fill

_CORE = "http://schemas.microsoft.com/3dmanufacturing/core/2015/02"
_PACKAGE = "http://schemas.openxmlformats.org/package/2006"
_TYPES = (
    '<?xml version="1.0" encoding="UTF-8"?>\n'
    f'<Types xmlns="{_PACKAGE}/content-types">'
    '<Default Extension="rels" '
    'ContentType="application/vnd.openxmlformats-package.relationships+xml"/>'
    '<Default Extension="model" '
    'ContentType="application/vnd.ms-package.3dmanufacturing-3dmodel+xml"/></Types>\n'
)
_RELATIONS = (
    '<?xml version="1.0" encoding="UTF-8"?>\n'
    f'<Relationships xmlns="{_PACKAGE}/relationships"><Relationship Id="rel0" '
    'Target="/3D/3dmodel.model" '
    'Type="http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"/></Relationships>\n'
)
_PRINT = "urn:isolator:print"
"""Names of metadata that are no other's: the standard asks for a name space of one's own."""
_EPOCH = (1980, 1, 1, 0, 0, 0)  # the earliest date that a zip archive can hold


def stl_bytes(mesh: Mesh, name: str) -> bytes:
    """Return the binary STL [mm]; `name` goes into the header and must be ASCII."""
    record = np.zeros(
        len(mesh.triangles),
        dtype=[("normal", "<f4", 3), ("corners", "<f4", (3, 3)), ("attribute", "<u2")],
    )
    record["normal"] = mesh.normals()
    record["corners"] = mesh.corners()
    header = f"{name}, mm".encode("ascii")[:80].ljust(80)
    return header + struct.pack("<I", len(record)) + bytes(record.tobytes())


class BuildItem(NamedTuple):
    """One copy in the build of a 3MF: the object's index, moved by x and y [mm].

    `turned` means a quarter turn anticlockwise about z before it is moved.
    """

    object: int
    x: float
    y: float
    turned: bool


class MeshObject(NamedTuple):
    """One object of a 3MF: its name, its mesh, and how it is printed."""

    name: str
    mesh: Mesh
    fill: Fill = SOLID


def three_mf_bytes(objects: Sequence[MeshObject], items: Sequence[BuildItem], title: str) -> bytes:
    """Return a 3MF package, unit millimetre: named meshes, and where copies of them stand.

    The standard leaves settings of a print open: how each object is filled stands in the file's
    description, in words, and as metadata of the object under a name of this program's own.
    """
    resources = "".join(_object(number, each) for number, each in enumerate(objects, 1))
    build = "".join(
        f'<item objectid="{item.object + 1}" transform="'
        f"{'0 1 0 -1 0 0 0 0 1' if item.turned else '1 0 0 0 1 0 0 0 1'} "
        f'{item.x:.6f} {item.y:.6f} 0"/>'
        for item in items
    )
    model = (
        '<?xml version="1.0" encoding="UTF-8"?>\n'
        f'<model unit="millimeter" xml:lang="en" xmlns="{_CORE}" xmlns:print="{_PRINT}">'
        f'<metadata name="Title">{escape(title)}</metadata>'
        f'<metadata name="Description">{escape(_description(objects))}</metadata>'
        f"<resources>{resources}</resources><build>{build}</build></model>\n"
    )
    return _packed(model)


def _description(objects: Sequence[MeshObject]) -> str:
    """Return how to print, alike ones together."""
    alike: dict[str, list[str]] = {}
    for each in objects:
        alike.setdefault(each.fill.words, []).append(each.name)
    return "; ".join(f"print {', '.join(names)}: {words}" for words, names in alike.items())


def _object(number: int, each: MeshObject) -> str:
    mesh = each.mesh
    told = "".join(
        f'<metadata name="print:{key}">{escape(value)}</metadata>'
        for key, value in each.fill.settings()
    )
    points = "".join(
        f'<vertex x="{x:.6f}" y="{y:.6f}" z="{z:.6f}"/>' for x, y, z in mesh.vertices.tolist()
    )
    facets = "".join(
        f'<triangle v1="{a}" v2="{b}" v3="{c}"/>' for a, b, c in mesh.triangles.tolist()
    )
    return (
        f'<object id="{number}" type="model" name={quoteattr(each.name)}>'
        f"<metadatagroup>{told}</metadatagroup><mesh>"
        f"<vertices>{points}</vertices><triangles>{facets}</triangles></mesh></object>"
    )


def _packed(model: str) -> bytes:
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as archive:
        for path, text in (
            ("[Content_Types].xml", _TYPES),
            ("_rels/.rels", _RELATIONS),
            ("3D/3dmodel.model", model),
        ):
            entry = zipfile.ZipInfo(path, _EPOCH)
            entry.compress_type = zipfile.ZIP_DEFLATED
            archive.writestr(entry, text)
    return packed.getvalue()
