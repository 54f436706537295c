"""The drawing sheet written as TOML with comments."""

from __future__ import annotations

from typing import Any

import tomlkit

from isolator.design import Design
from isolator.design.sheet import DesignTable
from isolator.reading.keys import Key
from isolator.reading.table import Table
from isolator.reading.units import format_quantity

DIGITS = 9
_DUST = 1e-12  # [m, rad]; what is left of a difference of equal numbers
_FIELDS = {
    "fit": "fits",
    "foot": "feet",
    "motor_spacer": "motor_spacers",
    "motor_damper": "motor_dampers",
}
"""Where a design keeps what the file has table by table."""

_ALWAYS = ("flexible",)  # written, though older files lack it
_DIRECTIONS = ("pull",)  # kept to the last digit


def write_design(design: Design) -> str:
    """Return the design as TOML with comments; `read_design` gives the same design back."""
    file = tomlkit.document()
    file.add(tomlkit.comment("Drawing sheet. Edit it and draw again: isolator draw design.toml"))
    file.add(tomlkit.comment("x to the right, y to the back; origin in the middle of the feet"))
    _fill(file, DesignTable, design)
    return tomlkit.dumps(file)


def length(value: float) -> str:
    """Return a length [m] as it stands in the file, to a billionth part; none below a picometre."""
    return format_quantity(_clean(value), "mm", DIGITS)


def angle(value: float) -> str:
    """Return an angle [rad] as it stands in the file, to a billionth part."""
    return format_quantity(_clean(value), "deg", DIGITS)


def _fill(into: Any, table: type[Table], source: Any) -> Any:
    """Return a table of the file with all that is declared for it, read from a record."""
    for name, it in table.declared().items():
        value = getattr(source, _FIELDS.get(name, name))
        if isinstance(it, Key):
            # what a foot has not is left out, so that the sheet stays short
            if name in _ALWAYS or (value,) != it.default:
                into.add(name, _item(it, name, value))
        elif it.many and value:
            tables = tomlkit.aot()
            for each in value:
                tables.append(_fill(tomlkit.table(), it.kind, each))
            into.add(name, tables)
        elif not it.many and value is not None:
            into.add(name, _fill(tomlkit.table(), it.kind, value))
    return into


def _item(key: Key[Any], name: str, value: Any) -> Any:
    written = key.write(value if name in _DIRECTIONS else _clean(value), DIGITS)
    item = tomlkit.item(written)
    if name == "positions":
        item = tomlkit.array().multiline(True)
        item.extend(written)
    if key.comment:
        item.comment(key.comment)
    return item


def _clean(value: Any) -> Any:
    """Return a value without the dust of its numbers."""
    if isinstance(value, tuple):
        return tuple(_clean(each) for each in value)
    return 0.0 if isinstance(value, float) and abs(value) <= _DUST else value
