"""Reads single entries of a card strictly, gathering every fault on the way."""

from __future__ import annotations

import difflib
import math
import re
from collections.abc import Collection, Mapping

from isolator.reading.notes import LONGEST_SHOWN, Notes
from isolator.reading.printable import printable
from isolator.reading.quantities import QuantityError, parse_quantity

Table = Mapping[str, object]
AS_WRITTEN = {"1/K": "a change per kelvin", "W/(m*K)": "a thermal conductivity"}
"""Units taken only in this spelling, so that nothing is converted."""

_AS_WRITTEN = re.compile(r"([+-]?[0-9]{1,12}(?:\.[0-9]{1,12})?) +(\S+)")


def shown(value: object) -> str:
    """Return what was found in a file, short enough for one line."""
    if value is None:
        return "nothing"
    if isinstance(value, Mapping):
        return "a table"
    if isinstance(value, list):
        return f"a list of {len(value)}"
    text = f'"{value}"' if isinstance(value, str) else str(value)
    text = printable(" ".join(text.split()))
    return text if len(text) <= LONGEST_SHOWN else text[: LONGEST_SHOWN - 1] + "…"


class Entries(Notes):
    """The entries of one card file, with the faults found so far."""

    def known(self, table: Table, keys: Collection[str], path: str) -> None:
        """Note every key of `table` that is not among `keys`."""
        for key in table:
            if key not in keys:
                close = difflib.get_close_matches(key, keys, n=1, cutoff=0.5)
                hint = f'did you mean "{close[0]}"?' if close else "leave it out"
                dotted = f"{path}.{key}" if path else key
                self.fault(dotted, "an unknown key", f"one of {', '.join(sorted(keys))}", hint)

    def table(self, value: object, key: str) -> Table | None:
        """Return `value` as a table."""
        if isinstance(value, Mapping):
            return value
        self.fault(key, shown(value), "a table", f'write it under a line "[{key}]"')
        return None

    def text(self, table: Table, key: str, example: str, default: str = "") -> str:
        """Return a text, by its dotted key; one without a default is needed."""
        name = key.rpartition(".")[2]
        value = table.get(name)
        if value is None and default:
            return default
        if isinstance(value, str) and value.strip():
            found = " ".join(value.split())
            if found.isprintable():
                return found
            self.fault(key, shown(value), "a text without control characters", "type it anew")
            return ""
        self.fault(key, shown(value), "a text", f'such as {name} = "{example}"')
        return ""

    def choice(self, table: Table, key: str, choices: Collection[str]) -> str:
        """Return one of a few words, by its dotted key; "" with a fault where it is none."""
        name = key.rpartition(".")[2]
        value = table.get(name)
        if isinstance(value, str) and value in choices:
            return value
        close = difflib.get_close_matches(str(value), choices, n=1)
        hint = (
            f'did you mean "{close[0]}"?' if close else f'such as {name} = "{next(iter(choices))}"'
        )
        self.fault(key, shown(value), f"one of {', '.join(choices)}", hint)
        return ""

    def number(
        self, value: object, key: str, unit: str, low: float, high: float, example: str
    ) -> float:
        """Return a number in `unit` ("" for a plain one) within `low`..`high`; NaN with a fault."""
        number = (
            self._plain(value, key, example)
            if not unit
            else self._quantity(value, key, unit, example)
        )
        if not math.isnan(number) and not low <= number <= high:
            bounds = f"from {low:g} to {high:g}" + (f" {unit}" if unit else "")
            self.fault(key, shown(value), bounds, f"such as {example}")
            return math.nan
        return number

    def _plain(self, value: object, key: str, example: str) -> float:
        if isinstance(value, (int, float)) and not isinstance(value, bool):
            # a whole number of hundreds of digits is no float either
            number = float(value) if abs(value) < 1e300 else math.inf
            if math.isfinite(number):
                return number
        self.fault(key, shown(value), "a plain number", f"such as {example}")
        return math.nan

    def _quantity(self, value: object, key: str, unit: str, example: str) -> float:
        if not isinstance(value, str):
            self.fault(key, shown(value), "a number with its unit", f"write it like {example}")
            return math.nan
        if unit in AS_WRITTEN:
            match = _AS_WRITTEN.fullmatch(value.strip())
            if match and match.group(2) == unit:
                return float(match.group(1))
            self.fault(
                key, shown(value), f"{AS_WRITTEN[unit]} in {unit}", f"write it like {example}"
            )
            return math.nan
        try:
            return parse_quantity(value, unit)
        except QuantityError as error:
            self.fault(key, shown(value), error.wanted, error.suggestion)
            return math.nan
