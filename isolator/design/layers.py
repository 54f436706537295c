"""Heights as whole numbers of layers."""

from __future__ import annotations

import math


def quantise(value: float, layer: float) -> float:
    """Return the height nearest to `value` [m] that is a whole number of layers, at least one.

    `layer` is the layer height [m]. A tie goes to the larger height; nothing below a nanometre is
    kept, so that a height reads like one.

    >>> quantise(0.00449, 0.0002)
    0.0044
    """
    return round(max(1, math.floor(value / layer + 0.5 + 1e-9)) * layer, 9)


def quantise_up(value: float, layer: float) -> float:
    """Return the least whole number of layers [m] that is not less than `value` [m].

    >>> quantise_up(0.00401, 0.0002)
    0.0042
    """
    return round(max(1, math.ceil(value / layer - 1e-9)) * layer, 9)
