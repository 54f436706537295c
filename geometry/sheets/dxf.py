"""A DXF document as bytes that are the same for the same drawing."""

from __future__ import annotations

import io
from collections.abc import Callable
from typing import Any

import ezdxf


def dxf_bytes(drawn: Callable[[], Any]) -> bytes:
    """Return the file of the document that `drawn` makes, with neither date nor random identity."""
    before = ezdxf.options.write_fixed_meta_data_for_testing
    # a document takes its identity when it is made
    ezdxf.options.write_fixed_meta_data_for_testing = True
    try:
        document, out = drawn(), io.StringIO()
        # the writer adds these from a set, in an order that changes from process to process
        for kind in sorted(document.entitydb.dxf_types_in_use()):
            document.classes.add_class(kind)
        document.write(out)
    finally:
        ezdxf.options.write_fixed_meta_data_for_testing = before
    return out.getvalue().encode("utf-8")
