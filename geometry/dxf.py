"""A DXF document as bytes that are the same for the same drawing."""

from __future__ import annotations

import io
from typing import Any

import ezdxf


def dxf_bytes(document: Any) -> bytes:
    """Return the file of a document, with neither date nor random identity in it."""
    # the writer adds these from a set, in an order that changes from process to process
    for kind in sorted(document.entitydb.dxf_types_in_use()):
        document.classes.add_class(kind)
    before = ezdxf.options.write_fixed_meta_data_for_testing
    ezdxf.options.write_fixed_meta_data_for_testing = True
    try:
        out = io.StringIO()
        document.write(out)
    finally:
        ezdxf.options.write_fixed_meta_data_for_testing = before
    return out.getvalue().encode("utf-8")
