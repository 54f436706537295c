"""Readers of drawn files that the drawing code does not use."""

from __future__ import annotations

import cadquery as cq
from OCP.STEPCAFControl import STEPCAFControl_Reader
from OCP.TCollection import TCollection_ExtendedString
from OCP.TDataStd import TDataStd_Name
from OCP.TDF import TDF_LabelSequence
from OCP.TDocStd import TDocStd_Document
from OCP.XCAFDoc import XCAFDoc_DocumentTool


def shoelace(points):
    """Return the area of a polygon from its corners."""
    pairs = zip(points, points[1:] + points[:1], strict=True)
    return abs(sum(ax * by - bx * ay for (ax, ay), (bx, by) in pairs)) / 2


def step_products(path):
    """Return the name and shape of every product of a STEP file, the whole first."""
    document = TDocStd_Document(TCollection_ExtendedString("XmlOcaf"))
    reader = STEPCAFControl_Reader()
    reader.SetNameMode(True)
    reader.ReadFile(str(path))
    reader.Transfer(document)
    tool = XCAFDoc_DocumentTool.ShapeTool_s(document.Main())
    labels, products = TDF_LabelSequence(), []
    tool.GetShapes(labels)
    components = TDF_LabelSequence()
    free = TDF_LabelSequence()
    tool.GetFreeShapes(free)
    for i in range(1, free.Length() + 1):
        products.append((_name(free.Value(i)), cq.Shape.cast(tool.GetShape_s(free.Value(i)))))
        tool.GetComponents_s(free.Value(i), components)
        for k in range(1, components.Length() + 1):
            label = components.Value(k)
            products.append((_name(label), cq.Shape.cast(tool.GetShape_s(label))))
    return products


def _name(label):
    name = TDataStd_Name()
    label.FindAttribute(TDataStd_Name.GetID_s(), name)
    return name.Get().ToExtString()
