"""Edges of a solid as seen from one side, hidden ones told apart, as polylines in a plane [mm]."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

import cadquery as cq
from OCP.BRepAdaptor import BRepAdaptor_Curve
from OCP.BRepLib import BRepLib
from OCP.GCPnts import GCPnts_QuasiUniformDeflection
from OCP.GeomAbs import GeomAbs_Line
from OCP.gp import gp_Ax2, gp_Dir, gp_Pnt
from OCP.HLRAlgo import HLRAlgo_Projector
from OCP.HLRBRep import HLRBRep_Algo, HLRBRep_HLRToShape

from geometry.finish.page import Polyline

CHORD = 0.02  # greatest distance of a polyline from its curve [mm]
FRONT, TOP = (0.0, -1.0, 0.0), (0.0, 0.0, 1.0)  # towards the eye; x goes to the right in both


@dataclass(frozen=True, slots=True, kw_only=True)
class Projection:
    """What is seen of a solid along one axis: x to the right, z (front) or y (top) upwards [mm]."""

    visible: tuple[Polyline, ...]
    hidden: tuple[Polyline, ...]


def projected(solid: Any, eye: tuple[float, float, float]) -> Projection:
    """Return sharp edges and outlines of a solid; edges where faces join smoothly are left out.

    A hidden edge right behind a visible one is left out too.
    """
    algorithm = HLRBRep_Algo()
    algorithm.Add(solid.wrapped)
    plane = gp_Ax2(gp_Pnt(0, 0, 0), gp_Dir(*eye), gp_Dir(1, 0, 0))
    algorithm.Projector(HLRAlgo_Projector(plane))
    algorithm.Update()
    algorithm.Hide()
    shapes = HLRBRep_HLRToShape(algorithm)
    visible = dict.fromkeys(_polylines(shapes.VCompound(), shapes.OutLineVCompound()))
    hidden = _polylines(shapes.HCompound(), shapes.OutLineHCompound())
    return Projection(
        visible=tuple(visible), hidden=tuple(line for line in hidden if line not in visible)
    )


def _polylines(*compounds: Any) -> tuple[Polyline, ...]:
    """Return every edge once: faces that end on one line each bring it."""
    found: dict[Polyline, None] = {}
    for compound in compounds:
        if compound is not None and not compound.IsNull():
            BRepLib.BuildCurves3d_s(compound)
            for line in _edges(compound):
                found.setdefault(min(line, line[::-1]))
    return tuple(found)


def _edges(compound: Any) -> Iterator[Polyline]:
    for edge in cq.Shape.cast(compound).Edges():
        curve = BRepAdaptor_Curve(edge.wrapped)
        first, last = curve.FirstParameter(), curve.LastParameter()
        if curve.GetType() == GeomAbs_Line:
            points = [curve.Value(first), curve.Value(last)]
        else:
            even = GCPnts_QuasiUniformDeflection(curve, CHORD)
            points = [even.Value(number) for number in range(1, even.NbPoints() + 1)]
        line = tuple((round(p.X(), 4) + 0.0, round(p.Y(), 4) + 0.0) for p in points)
        if len(set(line)) > 1:
            yield line
