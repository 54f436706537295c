"""STEP of one named, coloured solid, in millimetres."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from OCP.IFSelect import IFSelect_RetDone
from OCP.Quantity import Quantity_Color, Quantity_TOC_sRGB
from OCP.STEPCAFControl import STEPCAFControl_Writer
from OCP.STEPControl import STEPControl_AsIs
from OCP.TCollection import TCollection_ExtendedString
from OCP.TDataStd import TDataStd_Name
from OCP.TDocStd import TDocStd_Document
from OCP.XCAFDoc import XCAFDoc_ColorSurf, XCAFDoc_DocumentTool


def write_part_step(solid: Any, name: str, colour: tuple[float, float, float], path: Path) -> None:
    """Write a solid as the only product of a STEP file, with its name (ASCII) and colour.

    Raises OSError where the kernel does not write it. The header carries a time stamp.
    """
    document = TDocStd_Document(TCollection_ExtendedString("XmlOcaf"))
    shapes = XCAFDoc_DocumentTool.ShapeTool_s(document.Main())
    colours = XCAFDoc_DocumentTool.ColorTool_s(document.Main())
    label = shapes.AddShape(solid.wrapped, False)
    TDataStd_Name.Set_s(label, TCollection_ExtendedString(name))
    colours.SetColor(label, Quantity_Color(*colour, Quantity_TOC_sRGB), XCAFDoc_ColorSurf)
    writer = STEPCAFControl_Writer()
    writer.SetColorMode(True)
    writer.SetNameMode(True)
    writer.Transfer(document, STEPControl_AsIs)
    if writer.Write(str(path)) != IFSelect_RetDone:
        raise OSError(f"{path.name}: the CAD kernel did not write it")


def write_assembly_step(whole: Any, path: Path) -> None:
    """Write a cadquery assembly as STEP; raises OSError where the kernel does not write it."""
    if not whole.export(str(path), exportType="STEP"):
        raise OSError(f"{path.name}: the CAD kernel did not write it")
