"""STEP with product names, colours and millimetres, without a date."""

from __future__ import annotations

import itertools
import re
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from OCP.APIHeaderSection import APIHeaderSection_MakeHeader
from OCP.IFSelect import IFSelect_RetDone
from OCP.Interface import Interface_Static
from OCP.Quantity import Quantity_Color, Quantity_TOC_sRGB
from OCP.STEPCAFControl import STEPCAFControl_Writer
from OCP.STEPControl import STEPControl_AsIs
from OCP.TCollection import TCollection_ExtendedString, TCollection_HAsciiString
from OCP.TDataStd import TDataStd_Name
from OCP.TDocStd import TDocStd_Document
from OCP.XCAFDoc import XCAFDoc_ColorSurf, XCAFDoc_DocumentTool

from geometry.assembly import Placed
from geometry.formats.step_order import in_order
from geometry.solids import features

Colour = tuple[float, float, float]

_COMPONENT = re.compile(r"(NEXT_ASSEMBLY_USAGE_OCCURRENCE\()'\d+'([^;]*;)")
NO_DATE = "1970-01-01T00:00:00"  # in the header, so that the same solids give the same file


def write_part_step(solid: Any, name: str, colour: Colour, path: Path) -> None:
    """Write a solid as the only product of a STEP file, with its name (ASCII) and colour.

    Raises OSError where the kernel does not write it.
    """
    document = TDocStd_Document(TCollection_ExtendedString("XmlOcaf"))
    _product(document, solid.wrapped, name, colour)
    _write(document, path)


def write_assembly_step(name: str, bodies: Sequence[Placed], path: Path) -> None:
    """Write placed bodies as one assembly: every solid once as a product, every copy a component.

    A product is named for the first of its copies, without its number unless another solid has
    that name. Raises OSError where the kernel does not write it.
    """
    document = TDocStd_Document(TCollection_ExtendedString("XmlOcaf"))
    shapes = XCAFDoc_DocumentTool.ShapeTool_s(document.Main())
    whole = shapes.NewShape()
    _name(whole, name)
    products: dict[Any, Any] = {}
    taken: set[str] = set()
    for body in bodies:
        bare, there = features.unplaced(body.solid), body.solid.wrapped.Location()
        key = (bare, body.colour)
        if key not in products:
            called = body.name if body.product in taken else body.product
            taken.add(called)
            products[key] = _product(document, bare.wrapped, called, body.colour)
        component = shapes.AddComponent(whole, products[key], there)
        _name(component, body.name)
    shapes.UpdateAssemblies()
    _write(document, path)


def _product(document: Any, shape: Any, name: str, colour: Colour) -> Any:
    label = XCAFDoc_DocumentTool.ShapeTool_s(document.Main()).AddShape(shape, False)
    _name(label, name)
    XCAFDoc_DocumentTool.ColorTool_s(document.Main()).SetColor(
        label, Quantity_Color(*colour, Quantity_TOC_sRGB), XCAFDoc_ColorSurf
    )
    return label


def _name(label: Any, name: str) -> None:
    TDataStd_Name.Set_s(label, TCollection_ExtendedString(name))


def _write(document: Any, path: Path) -> None:
    writer = STEPCAFControl_Writer()
    writer.SetColorMode(True)
    writer.SetNameMode(True)
    Interface_Static.SetCVal_s("write.step.unit", "MM")
    writer.Transfer(document, STEPControl_AsIs)
    header = APIHeaderSection_MakeHeader(writer.ChangeWriter().Model())
    header.SetName(TCollection_HAsciiString(path.stem))
    header.SetTimeStamp(TCollection_HAsciiString(NO_DATE))
    if writer.Write(str(path)) != IFSelect_RetDone:
        raise OSError(f"{path.name}: the CAD kernel did not write it")
    text, count = path.read_text(encoding="ascii"), itertools.count(1)
    again = _COMPONENT.sub(lambda found: _renumbered(found, next(count)), text)
    path.write_text(in_order(again), encoding="ascii")


def _renumbered(found: re.Match[str], number: int) -> str:
    """Return a component under a number of this file, on one line.

    The kernel numbers components on from whatever it has written before, and breaks lines by the
    number's length.
    """
    return f"{found[1]}'{number}'" + re.sub(r"\n *", "", found[2])
