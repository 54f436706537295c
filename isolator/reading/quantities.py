"""Quantities as they must be: read, or refused with a way to write them."""

from __future__ import annotations

from collections.abc import Callable

from isolator.reading.suggest import anything, how_to_write
from isolator.reading.units import NotReadError, amount


class QuantityError(ValueError):
    """A text is not the quantity that is wanted; says what is and how to write it."""

    def __init__(self, wanted: str, suggestion: str) -> None:
        self.wanted = wanted
        self.suggestion = suggestion
        super().__init__(f"wanted {wanted}; {suggestion}")


def parse_quantity(
    text: str, unit: str, show: str = "", fits: Callable[[float], bool] = anything
) -> float:
    """Return what `text` ("18 mm") says, in `unit`, a key of `KINDS` [unit].

    Raises QuantityError for what `isolator.reading.units.amount` does not read; it suggests a
    value that `fits`, with the unit `show`.

    >>> parse_quantity("0.5 in", "m")
    0.0127
    """
    try:
        return amount(text, unit)
    except NotReadError as error:
        raise QuantityError(str(error), how_to_write(text, unit, show, fits)) from None
