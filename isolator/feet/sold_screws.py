"""Whether shops keep a screw that fits a foot; told where none does, with the ear that mends it."""

from __future__ import annotations

from collections.abc import Sequence

from isolator.design import Foot
from isolator.design.screw_lengths import ear_that_fits, missing
from isolator.vibration.band import Check

NAME = "screws that are sold"
NEVER = "no sold screw at all"
"""The remedy where no ear would help."""


def sold_screw_check(feet: Sequence[Foot], layer: float) -> tuple[Check, ...]:
    """Return the check of the foot that sold screws miss by most; none where all find one.

    The value is by how much the nearest sold length is too long or too short [mm]; `layer` is the
    layer height [m], of which the ear that is named is a whole number.
    """
    worst = max(feet, key=missing, default=None)
    if worst is None or missing(worst) == 0.0:
        return ()
    found = ear_that_fits(worst, layer)
    figures = () if found is None else (("ear_mm", found[0] * 1e3), ("screw_mm", found[1] * 1e3))
    return (
        Check(
            name=NAME,
            value=missing(worst) * 1e3,
            limit=0.0,
            unit="mm",
            passed=False,
            remedy=NEVER if found is None else "",
            figures=figures,
        ),
    )
