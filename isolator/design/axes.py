"""Places and directions in the printer's frame of reference."""

from __future__ import annotations

from typing import Literal

Pair = tuple[float, float]
Triple = tuple[float, float, float]
Tensor = tuple[Triple, Triple, Triple]
Axis = Literal["x", "y", "z"]
AXES: tuple[Axis, ...] = ("x", "y", "z")
